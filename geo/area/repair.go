package area

import (
	"errors"
	"fmt"

	"github.com/paulmach/orb"
)

// Repair rebuilds an area by the even-odd rule: inside is what a line from
// outside reaches across an odd number of its rings' edges. A ring that crosses
// itself falls into the pieces it encloses; a spike encloses nothing and goes; a
// hole outside its shell is filled. Each part is rebuilt by itself and the
// parts are then joined (see coveredBy), so that what two parts share stays.
//
// The result is valid (see [Check]); that is checked before it is
// returned. Positions keep their place, but of those that all but coincide (see
// snapOf) one stands for all; new ones are where edges cross, rounded to the last
// bit. It fails for an area that encloses nothing.
func Repair(area orb.MultiPolygon) (orb.MultiPolygon, error) {
	var parts []orb.Polygon
	for _, polygon := range area {
		rebuilt, err := rebuild(polygon)
		if err != nil {
			return nil, err
		}
		parts = append(parts, rebuilt...)
	}
	if len(parts) == 0 {
		return nil, errors.New("it encloses nothing")
	}
	if len(area) > 1 {
		var err error
		if parts, err = Union(parts); err != nil {
			return nil, err
		}
	}
	if err := Check(parts); err != nil {
		return nil, fmt.Errorf("it cannot be repaired: %w", err)
	}
	return parts, nil
}

// rebuild returns what rings enclose by the even-odd rule.
func rebuild(rings []orb.Ring) ([]orb.Polygon, error) {
	var drawn drawing
	for _, ring := range rings {
		drawn.add(ring, flanks{turn: 1})
	}
	left := mostEdges
	edges, err := drawn.set(true).noded(&left)
	if err != nil {
		return nil, err
	}
	return newFaces(edges).inside(), nil
}
