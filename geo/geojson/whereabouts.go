package geojson

import (
	"bytes"
	"encoding/json"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
)

// Whereabouts returns the extent of what positions of the feature can be read,
// whole or broken; false if none can. It tells who may depend on a feature that
// cannot be used.
func (f *Feature) Whereabouts() (orb.Bound, bool) {
	if f.Geometry != nil {
		return f.Bound(), true
	}
	var found orb.MultiPoint
	for _, p := range f.rawPositions() {
		if at, err := f.CRS().Degrees(p); err == nil {
			found = append(found, at)
		}
	}
	return found.Bound(), len(found) > 0
}

// stray returns the bound of the positions that are no longitude and latitude,
// nor would be in the other order.
func (f *Feature) stray() orb.Bound {
	var found orb.MultiPoint
	for _, p := range f.rawPositions() {
		_, wrong := crs.Geographic.Degrees(p)
		_, turned := crs.Geographic.Degrees(orb.Point{p[1], p[0]})
		if wrong != nil && turned != nil {
			found = append(found, p)
		}
	}
	return found.Bound()
}

// rawPositions returns what positions can be read, as they are written.
func (f *Feature) rawPositions() orb.MultiPoint {
	var feature struct {
		Geometry struct {
			Coordinates any `json:"coordinates"`
			Geometries  []struct {
				Coordinates any `json:"coordinates"`
			} `json:"geometries"`
		} `json:"geometry"`
	}
	text := f.raw
	for _, word := range []string{"-Infinity", "Infinity", "NaN"} {
		text = bytes.ReplaceAll(text, []byte(word), []byte("null"))
	}
	if json.Unmarshal(text, &feature) != nil {
		return nil
	}
	var found orb.MultiPoint
	gather(feature.Geometry.Coordinates, &found)
	for _, g := range feature.Geometry.Geometries {
		gather(g.Coordinates, &found)
	}
	return found
}

// gather collects the positions of a coordinates member of any depth.
func gather(v any, into *orb.MultiPoint) {
	all, ok := v.([]any)
	if !ok {
		return
	}
	if len(all) >= 2 {
		x, isX := all[0].(float64)
		y, isY := all[1].(float64)
		if isX && isY {
			*into = append(*into, orb.Point{x, y})
			return
		}
	}
	for _, inner := range all {
		gather(inner, into)
	}
}
