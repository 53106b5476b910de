package geo

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// ft is a length in feet, in metres.
const ft = metresPerFoot

// site is where shapes drawn in feet are placed on the earth.
var site = NewPlane(orb.Point{-82.63, 27.76})

// onSite turns positions in feet east and north of the site into degrees.
func onSite(line []orb.Point) []orb.Point {
	out := make([]orb.Point, len(line))
	for i, p := range line {
		out[i] = site.Inverse(orb.Point{p[0] * ft, p[1] * ft})
	}
	return out
}

func siteArea(polygons ...orb.Polygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, polygon := range polygons {
		var rings orb.Polygon
		for _, ring := range polygon {
			rings = append(rings, onSite(ring))
		}
		out = append(out, rings)
	}
	return out
}

// inFeet scales a line drawn in feet to the metres of the plane.
func inFeet(line ...orb.Point) []orb.Point {
	out := make([]orb.Point, len(line))
	for i, p := range line {
		out[i] = orb.Point{p[0] * ft, p[1] * ft}
	}
	return out
}

// box is a rectangle, counter-clockwise.
func box(x0, y0, x1, y1 float64) orb.Polygon { return orb.Polygon{ringOf(x0, y0, x1, y1)} }

func ringOf(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

// boxFeet is a footprint that is one rectangle drawn in feet.
func boxFeet(x0, y0, x1, y1 float64) *Footprint {
	return drawn([]orb.Polygon{box(x0*ft, y0*ft, x1*ft, y1*ft)})
}

// table reads a file of check values: its rows by column name.
func table(t *testing.T, name string) []map[string]string {
	text, err := os.ReadFile(filepath.Join("..", "testdata", "published", name))
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1, name)
	var out []map[string]string
	for _, row := range rows[1:] {
		named := map[string]string{}
		for i, column := range rows[0] {
			named[column] = row[i]
		}
		out = append(out, named)
	}
	return out
}

func number(t *testing.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func requireFeet(t *testing.T, want, metres float64, why string) {
	t.Helper()
	require.InDelta(t, want, metres/ft, 0.001001, why)
}
