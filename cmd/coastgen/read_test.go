package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening"
	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// feature is a feature as read back; its shape is in degrees.
type feature struct {
	properties map[string]any
	shape      shape
}

func featuresOf(t testing.TB, dir, name string) (all []feature) {
	text, err := os.ReadFile(filepath.Join(dir, name+".geojson"))
	require.NoError(t, err)
	var file struct {
		Features []struct {
			Properties map[string]any
			Geometry   *struct {
				Type        string
				Coordinates json.RawMessage
			}
		}
	}
	require.NoError(t, json.Unmarshal(text, &file))
	for _, f := range file.Features {
		out := feature{properties: f.Properties}
		if f.Geometry != nil {
			form := strings.TrimPrefix(f.Geometry.Type, "Multi")
			nested := string(f.Geometry.Coordinates)
			for range 4 - strings.Index(nested, strings.TrimLeft(nested, "[")) {
				nested = "[" + nested + "]"
			}
			var parts [][][][2]float64
			require.NoError(t, json.Unmarshal([]byte(nested), &parts))
			out.shape = shape{form: form}
			for _, part := range parts {
				var rings [][]point
				for _, ring := range part {
					var places []point
					for _, at := range ring {
						places = append(places, point{at[0], at[1]})
					}
					rings = append(rings, places)
				}
				out.shape.parts = append(out.shape.parts, apart(form, rings)...)
			}
		}
		all = append(all, out)
	}
	return all
}

// apart makes each line, and each point, a part of its own.
func apart(form string, rings [][]point) (parts [][][]point) {
	switch form {
	case "Polygon":
		return [][][]point{rings}
	case "LineString":
		for _, line := range rings {
			parts = append(parts, [][]point{line})
		}
	default:
		for _, at := range rings[0] {
			parts = append(parts, [][]point{{at}})
		}
	}
	return parts
}

// screened are the rows of a coast by proposal.
func screened(t testing.TB, dir string) map[string]map[string]string {
	loaded, err := job.Load("job.yaml", strings.NewReader(jobText))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	_, err = screening.Run(context.Background(), loaded, sketchtest.Folder(dir), out, screening.Options{})
	require.NoError(t, err)
	return sketchtest.Rows(t, out)
}
