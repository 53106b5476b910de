package area

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// dent is how far, in metres, a corner of a ring may lie inside the line through its
// neighbours and the ring still be convex: what rounding leaves.
const dent = 1e-9

// ConvexParts cuts a valid polygon into convex parts: itself, if it is one, or
// trapezoids. Each is given by its corners, counter-clockwise.
func ConvexParts(polygon orb.Polygon) [][]orb.Point {
	if len(polygon) == 0 {
		return nil
	}
	ring := polygon[0]
	if len(polygon) == 1 && isConvex(ring) {
		if ring.Orientation() == orb.CW {
			ring = ring.Clone()
			ring.Reverse()
		}
		return [][]orb.Point{ring[:len(ring)-1]}
	}
	return trapezoids(polygon)
}

// isConvex reports whether a closed ring that does not cross itself is convex.
func isConvex(ring orb.Ring) bool {
	n, turned := len(ring)-1, 0.0
	for i := range n {
		a, b, c := ring[i], ring[i+1], ring[(i+2)%n]
		turn := flat.Cross(a, b, c)
		if long := flat.Distance(a, c); math.Abs(turn) <= dent*long {
			continue
		}
		if turned*turn < 0 {
			return false
		}
		turned = turn
	}
	return true
}

// trapezoids cuts a valid polygon, holes and all, into trapezoids with upright sides, of
// which one may be a point: a line swept east over it crosses whole edges, which pair off
// by the even-odd rule, and a pair is one trapezoid for as long as it lasts.
func trapezoids(polygon orb.Polygon) [][]orb.Point {
	w := &sweep{}
	var edges []*sweptPair
	var xs []float64
	for _, ring := range polygon {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			xs = append(xs, a[0])
			if a[0] > b[0] {
				a, b = b, a
			}
			if a[0] < b[0] {
				edges = append(edges, &sweptPair{a: a, b: b})
			}
		}
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	slices.SortStableFunc(edges, func(e, f *sweptPair) int { return cmp.Compare(e.a[0], f.a[0]) })
	for i, x := range xs {
		w.active = slices.DeleteFunc(w.active, func(e *sweptPair) bool {
			if e.b[0] > x {
				return false
			}
			if e.over != nil {
				w.end(e, x)
			}
			return true
		})
		if i+1 == len(xs) {
			break
		}
		mid := (x + xs[i+1]) / 2
		for ; len(edges) > 0 && edges[0].a[0] <= x; edges = edges[1:] {
			at := edges[0].at(mid)[1]
			place := sort.Search(len(w.active), func(k int) bool { return w.active[k].at(mid)[1] >= at })
			w.active = slices.Insert(w.active, place, edges[0])
		}
		w.pair(x)
	}
	return w.out
}

// sweptPair is an edge under a sweep and, of the lower of a pair, the other.
type sweptPair struct {
	a, b orb.Point // a west of b
	over *sweptPair
	from float64 // since when they are a pair
}

// at is the place of the edge at x.
func (e *sweptPair) at(x float64) orb.Point {
	switch x {
	case e.a[0]:
		return e.a
	case e.b[0]:
		return e.b
	}
	t := (x - e.a[0]) / (e.b[0] - e.a[0])
	return orb.Point{x, e.a[1] + t*(e.b[1]-e.a[1])}
}

// sweep holds the edges that cross an upright line, the lowest first.
type sweep struct {
	active []*sweptPair
	out    [][]orb.Point
}

// pair pairs the edges off from x on, and ends the pairs that are none any more.
func (w *sweep) pair(x float64) {
	for k, e := range w.active {
		var over *sweptPair
		if k%2 == 0 && k+1 < len(w.active) {
			over = w.active[k+1]
		}
		if e.over == over {
			continue
		}
		if e.over != nil {
			w.end(e, x)
		}
		e.over, e.from = over, x
	}
}

// end hands on the trapezoid of a pair, which ends at x.
func (w *sweep) end(e *sweptPair, x float64) {
	var part []orb.Point
	for _, p := range [4]orb.Point{e.at(e.from), e.at(x), e.over.at(x), e.over.at(e.from)} {
		if len(part) == 0 || p != part[len(part)-1] && p != part[0] {
			part = append(part, p)
		}
	}
	if e.over = nil; len(part) > 2 {
		w.out = append(w.out, part)
	}
}
