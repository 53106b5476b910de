package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/crs"
)

// spotSide is the side, in metres, of the square that stands for a spot: far less
// than what distances must be right within, and far more than their rounding.
const spotSide = 0.0005

// NewSpot returns the smallest of footprints, round a point of the plane, whose
// measures are those of the point itself.
func NewSpot(plane *crs.Plane, at orb.Point) *Footprint {
	const half = spotSide / 2
	ring := orb.Ring{
		{at[0] - half, at[1] - half}, {at[0] + half, at[1] - half}, {at[0] + half, at[1] + half},
		{at[0] - half, at[1] + half}, {at[0] - half, at[1] - half},
	}
	e := Element{Areas: []orb.Polygon{{ring}}, Length: spotSide}
	e.settle()
	return &Footprint{Plane: plane, Elements: []Element{e}, Area: spotSide * spotSide, Bound: ring.Bound()}
}
