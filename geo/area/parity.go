package area

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// inside returns the faces that are inside, in order of position: across an edge,
// inside changes to outside.
func (f *faces) inside() []orb.Polygon {
	var out []orb.Polygon
	polygons, _ := f.polygons()
	for i, odd := range f.odd() {
		if odd && f.cycles[i].area > 0 {
			out = append(out, polygons[i])
		}
	}
	slices.SortStableFunc(out, func(a, b orb.Polygon) int { return flat.ByPosition(a[0][0], b[0][0]) })
	return out
}

// odd tells of each cycle whether a line out of its face crosses an odd number of edges:
// those of a group take turns, beginning with the one in which the group lies.
func (f *faces) odd() []bool {
	odd := make([]bool, len(f.cycles))
	// Of each group the cycle round it, which has the least area.
	var outer []int32
	for c := range int32(len(f.cycles)) {
		switch g := f.cycles[c].group; {
		case g == len(outer):
			outer = append(outer, c)
		case f.cycles[c].area < f.cycles[outer[g]].area:
			outer[g] = c
		}
	}
	var index *flat.Index
	if len(outer) > 1 {
		index = f.index()
	}
	known := make([]bool, len(f.cycles))
	for _, c := range outer {
		known[c], odd[c] = true, index != nil && f.within(c, index)
		for waiting := []int32{c}; len(waiting) > 0; {
			c := waiting[len(waiting)-1]
			waiting = waiting[:len(waiting)-1]
			for h := range f.halves(c) {
				if other := f.of[h^1]; !known[other] {
					known[other], odd[other] = true, !odd[c]
					waiting = append(waiting, other)
				}
			}
		}
	}
	return odd
}

// within reports whether a line eastward from a position of a cycle crosses an odd
// number of edges of other groups than its own.
func (f *faces) within(c int32, index *flat.Index) bool {
	odd := false
	p, group := f.cycles[c].loops[0][0], f.cycles[c].group
	index.Search(flat.Box{MinX: p[0], MinY: p[1], MaxX: math.Inf(1), MaxY: p[1]}, func(k int) bool {
		e := f.line(k)
		low, high := e.A, e.B
		if low[1] > high[1] {
			low, high = high, low
		}
		apart := f.cycles[f.of[2*k]].group != group
		if apart && low[1] <= p[1] && p[1] < high[1] && flat.Orientation(low, high, p) > 0 {
			odd = !odd
		}
		return true
	})
	return odd
}
