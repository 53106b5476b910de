package flat

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Edge is a straight piece of a ring or line.
type Edge struct{ A, B orb.Point }

// Along orders points of an edge from its first end.
func (e Edge) Along(p orb.Point) float64 {
	return Dot(Way(e.A, p), Way(e.A, e.B))
}

// Box is the bound of the edge and so much more.
func (e Edge) Box(more float64) Box {
	return Box{min(e.A[0], e.B[0]) - more, min(e.A[1], e.B[1]) - more, max(e.A[0], e.B[0]) + more, max(e.A[1], e.B[1]) + more}
}

// Meet returns the points at which two edges must be cut: where an end of one lies
// on the other, or where they cross.
func Meet(e, f Edge, snap float64) (onE, onF []orb.Point) {
	onE = append(e.within(f.A, snap), e.within(f.B, snap)...)
	onF = append(f.within(e.A, snap), f.within(e.B, snap)...)
	if len(onE)+len(onF) == 0 && e.Crosses(f) {
		p := Crossing(e, f)
		return []orb.Point{p}, []orb.Point{p}
	}
	return onE, onF
}

// Crosses reports whether each of two edges has the ends of the other on its two
// sides.
func (e Edge) Crosses(f Edge) bool {
	return Orientation(e.A, e.B, f.A)*Orientation(e.A, e.B, f.B) < 0 &&
		Orientation(f.A, f.B, e.A)*Orientation(f.A, f.B, e.B) < 0
}

// within returns a point if it lies on the edge short of its ends.
func (e Edge) within(p orb.Point, snap float64) []orb.Point {
	if p == e.A || p == e.B || planar.DistanceFromSegment(e.A, e.B, p) > snap {
		return nil
	}
	return []orb.Point{p}
}

// Crossing is where two edges cross, rounded, and no farther out than their ends.
func Crossing(e, f Edge) orb.Point {
	dx, dy := e.B[0]-e.A[0], e.B[1]-e.A[1]
	gx, gy := f.B[0]-f.A[0], f.B[1]-f.A[1]
	t := ((f.A[0]-e.A[0])*gy - (f.A[1]-e.A[1])*gx) / (dx*gy - dy*gx)
	p := orb.Point{e.A[0] + t*dx, e.A[1] + t*dy}
	for k := range p {
		low := math.Max(math.Min(e.A[k], e.B[k]), math.Min(f.A[k], f.B[k]))
		high := math.Min(math.Max(e.A[k], e.B[k]), math.Max(f.A[k], f.B[k]))
		if math.IsNaN(p[k]) { // all but parallel
			p[k] = low
		}
		p[k] = math.Min(math.Max(p[k], low), high)
	}
	return p
}
