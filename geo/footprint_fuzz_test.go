package geo

import (
	"strings"
	"testing"

	"waterward/geo/geojson"
)

// FuzzFootprint: whatever geometry a file holds, a footprint is made of it or refused.
func FuzzFootprint(f *testing.F) {
	for _, seed := range []string{
		`{"type":"Point","coordinates":[-82,27]}`,
		`{"type":"LineString","coordinates":[[-82,27],[-82,27],[-82.00001,27],[-82,27]]}`,
		`{"type":"MultiLineString","coordinates":[[[-82,27],[-82.0001,27]],[[-82,89.9],[82,-27]]]}`,
		`{"type":"Polygon","coordinates":[[[-82,27],[-82.001,27],[-82,27.001],[-82.001,27.001],[-82,27]]]}`,
		`{"type":"MultiPolygon","coordinates":[[[[0,0],[1e-9,0],[1e-9,1e-9],[0,0]]]]}`,
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, geometry string) {
		r, err := geojson.NewReader("in.geojson", strings.NewReader(`{"type":"Feature","properties":{},"geometry":`+geometry+`}`))
		if err != nil {
			return
		}
		got, err := r.Next()
		if err != nil || got.Err != nil {
			return
		}
		if fp, err := NewFootprint(got.Geometry, 1, 1); err == nil && fp == nil {
			t.Error("neither a footprint nor why not")
		}
	})
}
