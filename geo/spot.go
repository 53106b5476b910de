package geo

import "github.com/paulmach/orb"

// spotSide is the side, in metres, of the square that stands for a spot: far less
// than what distances must be right within, and far more than their rounding.
const spotSide = 0.0005

// NewSpot returns the smallest of footprints, round a point of the plane, whose
// measures are those of the point itself.
func NewSpot(plane *Plane, at orb.Point) *Footprint {
	const half = spotSide / 2
	ring := orb.Ring{
		{at[0] - half, at[1] - half}, {at[0] + half, at[1] - half}, {at[0] + half, at[1] + half},
		{at[0] - half, at[1] + half}, {at[0] - half, at[1] - half},
	}
	e := Element{Areas: []orb.Polygon{{ring}}, Length: spotSide}
	e.settle()
	return &Footprint{Plane: plane, Elements: []Element{e}, Area: spotSide * spotSide, Bound: ring.Bound()}
}

// NewFeature returns a feature made here, whose positions are longitude and latitude in
// a system.
func NewFeature(id string, g orb.Geometry, crs *CRS) *Feature {
	return &Feature{ID: id, Geometry: g, crs: crs, decimals: mostTold}
}
