package geojson

import (
	"github.com/paulmach/orb"

	"waterward/geo/crs"
)

// NewFeature returns a feature made here, whose positions are longitude and latitude in
// a system.
func NewFeature(id string, g orb.Geometry, system *crs.System) *Feature {
	return &Feature{ID: id, Geometry: g, crs: system, decimals: mostTold}
}
