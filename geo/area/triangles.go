package area

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// triangle is a piece of a footprint, counter-clockwise.
type triangle [3]orb.Point

// dent is how far, in metres, a corner of a ring may lie inside the line through its
// neighbours and the ring still be convex: what rounding leaves.
const dent = 1e-9

// ConvexParts cuts a valid polygon into convex parts: itself, if it is one, or
// triangles. Each is given by its corners, counter-clockwise.
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
	var out [][]orb.Point
	for _, t := range triangulate(polygon) {
		out = append(out, t[:])
	}
	return out
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

// triangulate cuts a valid polygon, holes and all, into triangles: vertical
// slabs between neighbouring vertices hold only whole edges, which pair off by
// the even-odd rule into trapezoids.
func triangulate(polygon orb.Polygon) []triangle {
	type edge struct{ a, b orb.Point } // a left of b
	var edges []edge
	var xs []float64
	for _, ring := range polygon {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			xs = append(xs, a[0])
			if a[0] > b[0] {
				a, b = b, a
			}
			if a[0] < b[0] {
				edges = append(edges, edge{a, b})
			}
		}
	}
	sort.Float64s(xs)
	sort.Slice(edges, func(i, j int) bool { return edges[i].a[0] < edges[j].a[0] })
	at := func(e edge, x float64) orb.Point {
		switch x {
		case e.a[0]:
			return e.a
		case e.b[0]:
			return e.b
		}
		t := (x - e.a[0]) / (e.b[0] - e.a[0])
		return orb.Point{x, e.a[1] + t*(e.b[1]-e.a[1])}
	}
	var out []triangle
	var active []edge
	next := 0
	for i := 1; i < len(xs); i++ {
		left, right := xs[i-1], xs[i]
		if left == right {
			continue
		}
		kept := active[:0]
		for _, e := range active {
			if e.b[0] > left {
				kept = append(kept, e)
			}
		}
		active = kept
		for next < len(edges) && edges[next].a[0] <= left {
			active = append(active, edges[next])
			next++
		}
		mid := (left + right) / 2
		sort.Slice(active, func(i, j int) bool { return at(active[i], mid)[1] < at(active[j], mid)[1] })
		for k := 0; k+1 < len(active); k += 2 {
			low, high := active[k], active[k+1]
			a, b, c, d := at(low, left), at(low, right), at(high, right), at(high, left)
			out = append(out, triangle{a, b, c})
			if a != d {
				out = append(out, triangle{a, c, d})
			}
		}
	}
	return out
}
