package screening

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// Feet in a degree at the demo's origin, 30 N (from a geodesic engine).
const (
	feetPerDegreeLat = 363689.1
	feetPerDegreeLon = 316556.0
)

// redrawn opens the demo with other proposals.
type redrawn struct {
	sketchtest.Folder
	proposals []byte
}

func (r redrawn) Open(name string) (io.ReadCloser, error) {
	if name == "proposals.geojson" {
		return io.NopCloser(bytes.NewReader(r.proposals)), nil
	}
	return r.Folder.Open(name)
}

func (redrawn) List(name string) (found, others []string, err error) {
	return []string{name}, nil, nil
}

// TestChangesCure does to the demo's proposals what their changes say and screens
// them again: each must come out on the easier path.
func TestChangesCure(t *testing.T) {
	// Positions come in local feet: x east of the origin, y north.
	cases := map[string]struct {
		move       func(x, y float64) (float64, float64)
		column     string
		path       string
		waiverGone string
	}{
		"P-02": {func(x, y float64) (float64, float64) { return x, y - 0.8 }, "state_path", "exemption", ""},
		"P-05": {func(x, y float64) (float64, float64) {
			if x > 1662 {
				x += 0.2
			}
			return x, y
		}, "county_path", "general", ""},
		"P-06": {func(x, y float64) (float64, float64) { return min(x, 3653-3), y }, "county_path", "general", "county_waiver"},
		"P-07": {func(x, y float64) (float64, float64) { return x, y - 12 }, "county_path", "general", ""},
		"P-09": {func(x, y float64) (float64, float64) { return x, y - 2.5 }, "county_path", "general", ""},
		"P-10": {func(x, y float64) (float64, float64) { return min(x, 2184-1.1), y }, "county_path", "general", "county_waiver"},
		"P-11": {func(x, y float64) (float64, float64) {
			if y > 5 { // the waterward edge; the near one lies at 2
				y--
			}
			return x, y
		}, "county_path", "small", ""},
	}
	text, err := os.ReadFile(filepath.Join(sketchtest.DemoDir, "proposals.geojson"))
	require.NoError(t, err)
	var file struct {
		Type     string           `json:"type"`
		Features []map[string]any `json:"features"`
	}
	require.NoError(t, json.Unmarshal(text, &file))
	for _, f := range file.Features {
		id := f["properties"].(map[string]any)["id"].(string)
		if c, ok := cases[id]; ok {
			redraw(f["geometry"].(map[string]any)["coordinates"], c.move)
		}
	}
	text, err = json.Marshal(file)
	require.NoError(t, err)
	before := sketchtest.Rows(t, runDemo(t, 1))
	out := sketchtest.Memory{}
	_, err = Run(context.Background(), sketchtest.DemoJob(t), redrawn{sketchtest.Folder(sketchtest.DemoDir), text}, out, Options{})
	require.NoError(t, err)
	after := sketchtest.Rows(t, out)
	for id, c := range cases {
		require.Equal(t, c.path, after[id][c.column], id)
		if c.waiverGone != "" {
			require.NotEmpty(t, before[id][c.waiverGone], id)
			require.Empty(t, after[id][c.waiverGone], id)
			continue
		}
		require.NotEqual(t, c.path, before[id][c.column], id)
	}
}

// redraw moves every position of a coordinates member.
func redraw(coordinates any, move func(x, y float64) (float64, float64)) {
	all := coordinates.([]any)
	lon, ok := all[0].(float64)
	if !ok {
		for _, inner := range all {
			redraw(inner, move)
		}
		return
	}
	lat := all[1].(float64)
	x, y := (lon+74.6)*feetPerDegreeLon, (lat-30)*feetPerDegreeLat
	nx, ny := move(x, y)
	// Only the move is added, so that what stays keeps its place.
	all[0], all[1] = lon+(nx-x)/feetPerDegreeLon, lat+(ny-y)/feetPerDegreeLat
}
