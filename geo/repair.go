package geo

import (
	"fmt"

	"github.com/paulmach/orb"
)

// RepairArea rebuilds an area by the even-odd rule: inside is what a line from
// outside reaches across an odd number of its rings' edges. A ring that crosses
// itself falls into the pieces it encloses; a spike encloses nothing and goes; a
// hole outside its shell is filled. Each part is rebuilt by itself and the
// parts are then joined, so that what two parts share stays.
//
// The result is valid (see [CheckArea]); that is checked before it is
// returned. Positions keep their place; new ones are where edges cross, rounded
// to the last bit. It fails for an area that encloses nothing.
func RepairArea(area orb.MultiPolygon) (orb.MultiPolygon, error) {
	var parts []orb.Polygon
	for _, polygon := range area {
		rings := newEdgeSet(true)
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				rings.add(ring[i-1], ring[i], plainMark)
			}
		}
		rings, err := rings.noded()
		if err != nil {
			return nil, err
		}
		parts = append(parts, newFaces(rings.edges()).inside()...)
	}
	if len(parts) == 0 {
		return nil, fmt.Errorf("it encloses nothing")
	}
	whole, err := union(parts)
	if err != nil {
		return nil, err
	}
	if err := CheckArea(whole); err != nil {
		return nil, fmt.Errorf("it cannot be repaired: %w", err)
	}
	return whole, nil
}

// DrawnArea is the area of shells less that of holes, square metres, of positions in
// degrees: what an area that may not be valid claims to be.
func DrawnArea(area orb.MultiPolygon) float64 {
	return areaOf(NewPlane(area.Bound().Center()).forwardArea(area))
}
