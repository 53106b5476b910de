package geo

import (
	"bytes"
	"encoding/json"

	"github.com/paulmach/orb"
)

// Whereabouts returns the extent of what positions of the feature can be read,
// whole or broken; false if none can. It tells who may depend on a feature that
// cannot be used.
func (f *Feature) Whereabouts() (orb.Bound, bool) {
	if f.Geometry != nil {
		return f.Geometry.Bound(), true
	}
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
		return orb.Bound{}, false
	}
	var found orb.MultiPoint
	gather(feature.Geometry.Coordinates, &found)
	for _, g := range feature.Geometry.Geometries {
		gather(g.Coordinates, &found)
	}
	return found.Bound(), len(found) > 0
}

// gather collects the positions of a coordinates member of any depth.
func gather(v any, into *orb.MultiPoint) {
	all, ok := v.([]any)
	if !ok {
		return
	}
	if len(all) >= 2 {
		lon, isLon := all[0].(float64)
		lat, isLat := all[1].(float64)
		if isLon && isLat && lon >= -180 && lon <= 180 && lat >= -90 && lat <= 90 {
			*into = append(*into, orb.Point{lon, lat})
			return
		}
	}
	for _, inner := range all {
		gather(inner, into)
	}
}
