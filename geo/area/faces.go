package area

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// faces are the pieces into which edges that meet only at ends cut the plane. Each
// edge is there as two halves, 2k from a to b and 2k+1 back; each half has a
// face on its left.
type faces struct {
	*edgeSet
	next   []int32 // the half that follows round the face on the left
	cycles []cycle
	of     []int32 // the cycle of each half
}

// cycle is one closed walk round a face: along its outer outline, or round a
// group of joined edges that lies in it.
type cycle struct {
	first int32      // half
	loops []orb.Ring // without repeated positions, the largest first
	area  float64    // twice, positive if the face lies within
	group int        // of joined edges
}

func newFaces(s *edgeSet) *faces {
	f := &faces{edgeSet: s, next: make([]int32, 2*len(s.edges)), of: make([]int32, 2*len(s.edges))}
	f.link()
	for h := range f.of {
		f.of[h] = -1
	}
	w := &walker{faces: f, place: make([]int32, len(s.at))}
	for h := range f.next {
		if f.of[h] < 0 {
			w.walk(int32(h))
		}
	}
	f.join()
	return f
}

// from is the number of the position where a half starts.
func (f *faces) from(half int32) int32 {
	if half%2 == 0 {
		return f.edges[half/2].a
	}
	return f.edges[half/2].b
}

func (f *faces) to(half int32) int32 { return f.from(half ^ 1) }

// link finds which half follows which, by the order of those that leave a position.
func (f *faces) link() {
	end := make([]int32, len(f.at)+1) // of the halves that leave a position, in leaving
	for h := range f.next {
		end[f.from(int32(h))+1]++
	}
	for i := 1; i < len(end); i++ {
		end[i] += end[i-1]
	}
	leaving := make([]int32, len(f.next))
	for h := range int32(len(f.next)) {
		leaving[end[f.from(h)]] = h
		end[f.from(h)]++
	}
	start := int32(0)
	for at, end := range end[:len(f.at)] {
		halves := leaving[start:end]
		start = end
		if len(halves) > 2 { // else there is only one order
			slices.SortFunc(halves, func(g, h int32) int { return byDirection(f.at[at], f.at[f.to(g)], f.at[f.to(h)]) })
		}
		for i, h := range halves {
			f.next[h^1] = halves[(i+len(halves)-1)%len(halves)]
		}
	}
}

// byDirection orders p and q as seen from at, counterclockwise from the east.
func byDirection(at, p, q orb.Point) int {
	lower := func(p orb.Point) int {
		if p[1] > at[1] || p[1] == at[1] && p[0] > at[0] {
			return 0
		}
		return 1
	}
	return cmp.Or(cmp.Compare(lower(p), lower(q)), -flat.Orientation(at, p, q))
}

// walker follows cycles.
type walker struct {
	*faces
	path  []int32 // positions since the start that no loop has taken
	place []int32 // by position: one more than its place in the path; 0: not in it
}

// walk follows the cycle of a half.
func (w *walker) walk(start int32) {
	c := cycle{first: start, group: -1}
	w.path = w.path[:0]
	for h := start; ; h = w.next[h] {
		w.of[h] = int32(len(w.cycles))
		c.loops = w.step(w.from(h), c.loops)
		if w.next[h] == start {
			break
		}
	}
	c.loops = w.step(w.path[0], c.loops)
	w.place[w.path[0]] = 0
	if len(c.loops) > 1 {
		slices.SortStableFunc(c.loops, func(a, b orb.Ring) int {
			return cmp.Compare(math.Abs(twiceArea(b)), math.Abs(twiceArea(a)))
		})
	}
	for _, ring := range c.loops {
		c.area += twiceArea(ring)
	}
	w.cycles = append(w.cycles, c)
}

// step goes on to a position, which may close a loop.
func (w *walker) step(to int32, loops []orb.Ring) []orb.Ring {
	if i := w.place[to] - 1; i >= 0 {
		ring := make(orb.Ring, 0, len(w.path)-int(i)+1)
		for _, n := range w.path[i:] {
			ring = append(ring, w.at[n])
			w.place[n] = 0
		}
		loops = append(loops, append(ring, w.at[to]))
		w.path = w.path[:i]
	}
	w.path = append(w.path, to)
	w.place[to] = int32(len(w.path))
	return loops
}

// twiceArea is measured from the first position, to lose no digits far from 0.
func twiceArea(ring orb.Ring) float64 {
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		sum += flat.Cross(ring[0], ring[i-1], ring[i])
	}
	return sum
}

// join numbers the groups of joined edges: the cycles on the two sides of an edge are
// of one.
func (f *faces) join() {
	groups := 0
	var waiting []int32
	for start := range f.cycles {
		if f.cycles[start].group >= 0 {
			continue
		}
		f.cycles[start].group = groups
		for waiting = append(waiting, int32(start)); len(waiting) > 0; {
			c := waiting[len(waiting)-1]
			waiting = waiting[:len(waiting)-1]
			for h := range f.halves(c) {
				if other := f.of[h^1]; f.cycles[other].group < 0 {
					f.cycles[other].group = groups
					waiting = append(waiting, other)
				}
			}
		}
		groups++
	}
}

// halves are those of a cycle in order.
func (f *faces) halves(c int32) func(yield func(half int32) bool) {
	first := f.cycles[c].first
	return func(yield func(int32) bool) {
		for h := first; yield(h); {
			if h = f.next[h]; h == first {
				return
			}
		}
	}
}

// polygons returns the shell and holes of every face that has an outline, by its cycle,
// nil for one that has none, and of each cycle that of the face it bounds: its own, or, of
// one round a group, that of the face in which the group lies; -1 outside all.
func (f *faces) polygons() (of []orb.Polygon, face []int) {
	of, face = make([]orb.Polygon, len(f.cycles)), make([]int, len(f.cycles))
	bounds, sizes := make([]orb.Bound, len(f.cycles)), make([]float64, len(f.cycles))
	var shells []int // the smallest outline first
	for i, c := range f.cycles {
		if face[i] = -1; c.area > 0 {
			of[i], bounds[i], face[i] = orb.Polygon(c.loops), c.loops[0].Bound(), i
			sizes[i] = twiceArea(c.loops[0])
			shells = append(shells, i)
		}
	}
	// By the outline alone: less a hole that touches it a face can be smaller than what
	// lies in that hole.
	slices.SortStableFunc(shells, func(a, b int) int { return cmp.Compare(sizes[a], sizes[b]) })
	places := flat.NewIndex(len(shells), func(i int) flat.Box { return flat.BoxOf(bounds[shells[i]]) })
	var over []int
	for i, c := range f.cycles {
		if c.area > 0 {
			continue
		}
		at := c.loops[0][0]
		over = over[:0]
		places.Search(flat.Edge{A: at, B: at}.Box(0), func(i int) bool {
			over = append(over, i)
			return true
		})
		slices.Sort(over)
		for _, s := range over { // the smallest that holds it
			if k := shells[s]; f.cycles[k].group != c.group && placeIn(of[k][0], at) > 0 {
				of[k], face[i] = append(of[k], c.loops...), k
				break
			}
		}
	}
	return of, face
}
