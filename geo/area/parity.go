package area

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// joined returns the faces chosen, by their cycles, as valid polygons in order of position.
func (f *faces) joined(chosen func(cycle int32) bool) []orb.Polygon {
	outline := &edgeSet{at: f.at}
	for k, e := range f.edges {
		switch left, right := chosen(f.of[2*k]), chosen(f.of[2*k+1]); {
		case left && !right:
			e.turn = 1
		case right && !left:
			e.turn = -1
		default:
			continue
		}
		outline.edges = append(outline.edges, e)
	}
	if len(outline.edges) == 0 {
		return nil
	}
	return newFaces(outline).inside()
}

// inside returns the faces that are inside, in order of position: those that an odd
// number of areas cover.
func (f *faces) inside() []orb.Polygon {
	var out []orb.Polygon
	polygons, _ := f.polygons()
	for i, covers := range f.covers() {
		if covers%2 != 0 && f.cycles[i].area > 0 {
			out = append(out, polygons[i])
		}
	}
	slices.SortStableFunc(out, func(a, b orb.Polygon) int { return flat.ByPosition(a[0][0], b[0][0]) })
	return out
}

// covers tells of each cycle how many areas cover its face, which changes across an edge
// by its turn: of each group of joined edges first of the one in which the group lies.
func (f *faces) covers() []int32 {
	covers := make([]int32, len(f.cycles))
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
		known[c] = true
		if index != nil {
			covers[c] = f.coversGroup(c, index)
		}
		for waiting := []int32{c}; len(waiting) > 0; {
			c := waiting[len(waiting)-1]
			waiting = waiting[:len(waiting)-1]
			for h := range f.halves(c) {
				if other := f.of[h^1]; !known[other] {
					known[other], covers[other] = true, covers[c]-f.turn(h)
					waiting = append(waiting, other)
				}
			}
		}
	}
	return covers
}

// turn is that of the edge of a half, seen along the half.
func (f *faces) turn(half int32) int32 {
	if half%2 == 0 {
		return f.edges[half/2].turn
	}
	return -f.edges[half/2].turn
}

// coversGroup is how many areas cover the face in which the group of a cycle lies, by the
// edges of other groups that a line eastward from one of its positions crosses.
func (f *faces) coversGroup(c int32, index *flat.Index) int32 {
	covers := int32(0)
	p, group := f.cycles[c].loops[0][0], f.cycles[c].group
	index.Search(flat.Box{MinX: p[0], MinY: p[1], MaxX: math.Inf(1), MaxY: p[1]}, func(k int) bool {
		up := int32(2 * k)
		if f.at[f.from(up)][1] > f.at[f.to(up)][1] {
			up ^= 1
		}
		low, high := f.at[f.from(up)], f.at[f.to(up)]
		apart := f.cycles[f.of[up]].group != group
		if apart && low[1] <= p[1] && p[1] < high[1] && flat.Orientation(low, high, p) > 0 {
			covers += f.turn(up)
		}
		return true
	})
	return covers
}
