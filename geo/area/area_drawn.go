package area

import (
	"github.com/paulmach/orb"

	"waterward/geo/crs"
)

// Drawn is the area of shells less that of holes, square metres, of positions in
// degrees: what an area that may not be valid claims to be.
func Drawn(area orb.MultiPolygon) float64 {
	return Of(crs.NewPlane(area.Bound().Center()).ForwardArea(area))
}
