package area

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// nestedHoles returns a vertex of one hole that lies inside another, of holes that do not
// cross. The library asks that of one vertex of each, which may be where the two touch.
func nestedHoles(holes []orb.Ring) (orb.Point, bool) {
	if len(holes) < 2 {
		return orb.Point{}, false
	}
	bounds := make([]flat.Box, len(holes))
	for i := range holes {
		bounds[i] = flat.BoxOf(flat.BoundOf(orb.Polygon{holes[i]}))
	}
	index := flat.NewIndex(len(holes), func(i int) flat.Box { return bounds[i] })
	var at orb.Point
	for i, inner := range holes {
		apart := index.Search(bounds[i], func(outer int) bool {
			if outer == i {
				return true
			}
			for _, at = range inner {
				if where := placeIn(holes[outer], at); where != 0 { // which holds for all of it
					return where < 0
				}
			}
			return true
		})
		if !apart {
			return at, true
		}
	}
	return orb.Point{}, false
}

// placeIn is +1 if a position lies inside a closed ring, -1 outside, 0 on it, exactly.
func placeIn(ring orb.Ring, p orb.Point) int {
	place := -1
	for i := 1; i < len(ring); i++ {
		low, high := ring[i-1], ring[i]
		if low[1] > high[1] {
			low, high = high, low
		}
		if p[1] < low[1] || p[1] > high[1] || p[0] > max(low[0], high[0]) {
			continue
		}
		side := flat.Orientation(low, high, p)
		if side == 0 && p[0] >= min(low[0], high[0]) {
			return 0
		}
		if side > 0 && p[1] < high[1] { // it lies west of the edge
			place = -place
		}
	}
	return place
}
