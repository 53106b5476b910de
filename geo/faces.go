package geo

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// faces are the pieces into which edges that meet only at ends cut the plane. Each
// edge is there as two halves, 2k from a to b and 2k+1 back; each half has a
// face on its left. Across an edge, inside changes to outside.
type faces struct {
	edges  []ringEdge
	index  *packed
	next   []int // the half that follows round the face on the left
	cycles []cycle
	of     []int // the cycle of each half
}

// cycle is one closed walk round a face: along its outer outline, or round a
// group of joined edges that lies in it.
type cycle struct {
	loops []orb.Ring // without repeated positions, the largest first
	area  float64    // twice, positive if the face lies within
	group int        // of joined edges
	odd   bool       // the face is inside: a line out of it crosses an odd number of edges
}

func newFaces(edges []ringEdge) *faces {
	f := &faces{edges: edges, index: edgeIndex(edges), next: make([]int, 2*len(edges)), of: make([]int, 2*len(edges))}
	around := map[orb.Point][]int{}
	for h := range f.next {
		around[f.from(h)] = append(around[f.from(h)], h)
	}
	for at, halves := range around {
		slices.SortFunc(halves, func(g, h int) int { return byDirection(at, f.from(g^1), f.from(h^1)) })
		for i, h := range halves {
			f.next[h^1] = halves[(i+len(halves)-1)%len(halves)]
		}
	}
	for h := range f.of {
		f.of[h] = -1
	}
	for h := range f.next {
		if f.of[h] < 0 {
			f.walk(h)
		}
	}
	f.settle()
	return f
}

// from is where a half starts.
func (f *faces) from(half int) orb.Point {
	if half%2 == 0 {
		return f.edges[half/2].a
	}
	return f.edges[half/2].b
}

// byDirection orders p and q as seen from at, counterclockwise from the east.
func byDirection(at, p, q orb.Point) int {
	lower := func(p orb.Point) int {
		if p[1] > at[1] || p[1] == at[1] && p[0] > at[0] {
			return 0
		}
		return 1
	}
	return cmp.Or(cmp.Compare(lower(p), lower(q)), -orientation(at, p, q))
}

// walk follows the cycle of a half.
func (f *faces) walk(start int) {
	c := cycle{group: -1}
	var path []orb.Point
	place := map[orb.Point]int{}
	add := func(p orb.Point) {
		if i, again := place[p]; again { // a loop is closed
			ring := append(append(orb.Ring{}, path[i:]...), p)
			for _, q := range path[i:] {
				delete(place, q)
			}
			path = path[:i]
			c.loops = append(c.loops, ring)
		}
		place[p] = len(path)
		path = append(path, p)
	}
	for h := start; ; h = f.next[h] {
		f.of[h] = len(f.cycles)
		add(f.from(h))
		if f.next[h] == start {
			break
		}
	}
	add(path[0])
	for _, ring := range c.loops {
		c.area += twiceArea(ring)
	}
	slices.SortStableFunc(c.loops, func(a, b orb.Ring) int {
		return cmp.Compare(math.Abs(twiceArea(b)), math.Abs(twiceArea(a)))
	})
	f.cycles = append(f.cycles, c)
}

// twiceArea is measured from the first position, to lose no digits far from 0.
func twiceArea(ring orb.Ring) float64 {
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		sum += cross(ring[0], ring[i-1], ring[i])
	}
	return sum
}

// settle finds which faces are inside: those of a group of joined edges take
// turns, beginning with the one in which the group lies.
func (f *faces) settle() {
	halves := make([][]int, len(f.cycles))
	for h, c := range f.of {
		halves[c] = append(halves[c], h)
	}
	groups := 0
	for start := range f.cycles {
		if f.cycles[start].group >= 0 {
			continue
		}
		f.cycles[start].group = groups
		group := []int{start}
		for i := 0; i < len(group); i++ {
			for _, h := range halves[group[i]] {
				if other := &f.cycles[f.of[h^1]]; other.group < 0 {
					other.group, other.odd = groups, !f.cycles[group[i]].odd
					group = append(group, f.of[h^1])
				}
			}
		}
		outer := slices.MinFunc(group, func(a, b int) int { return cmp.Compare(f.cycles[a].area, f.cycles[b].area) })
		if f.cycles[outer].odd != f.within(f.cycles[outer].loops[0][0], groups) {
			for _, c := range group {
				f.cycles[c].odd = !f.cycles[c].odd
			}
		}
		groups++
	}
}

// within reports whether a line eastward from a position of a group crosses an odd
// number of edges of other groups. Those of later groups are not yet known by
// number, but none of them is of this one.
func (f *faces) within(p orb.Point, group int) bool {
	odd := false
	f.index.search(rect{p[0], p[1], math.Inf(1), p[1]}, func(k int) bool {
		low, high := f.edges[k].a, f.edges[k].b
		if low[1] > high[1] {
			low, high = high, low
		}
		apart := f.cycles[f.of[2*k]].group != group
		if apart && low[1] <= p[1] && p[1] < high[1] && orientation(low, high, p) > 0 {
			odd = !odd
		}
		return true
	})
	return odd
}

// polygons returns the shell and holes of every face that has an outline, by its
// cycle.
func (f *faces) polygons() map[int]orb.Polygon {
	out := map[int]orb.Polygon{}
	bounds := make([]orb.Bound, len(f.cycles))
	var shells []int // the smallest first
	for i, c := range f.cycles {
		if c.area > 0 {
			out[i], bounds[i] = orb.Polygon(c.loops), c.loops[0].Bound()
			shells = append(shells, i)
		}
	}
	slices.SortStableFunc(shells, func(a, b int) int { return cmp.Compare(f.cycles[a].area, f.cycles[b].area) })
	for _, c := range f.cycles {
		if c.area > 0 {
			continue
		}
		at := c.loops[0][0]
		for _, i := range shells { // the smallest that holds it
			if f.cycles[i].group != c.group && bounds[i].Contains(at) && planar.RingContains(out[i][0], at) {
				out[i] = append(out[i], c.loops...)
				break
			}
		}
	}
	return out
}

// inside returns the faces that are inside, in order of position.
func (f *faces) inside() []orb.Polygon {
	var out []orb.Polygon
	polygons := f.polygons()
	for i, c := range f.cycles {
		if c.odd && c.area > 0 {
			out = append(out, polygons[i])
		}
	}
	slices.SortStableFunc(out, func(a, b orb.Polygon) int { return byPosition(a[0][0], b[0][0]) })
	return out
}
