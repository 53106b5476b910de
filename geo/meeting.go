package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// ringEdge is a straight piece of a ring or line.
type ringEdge struct{ a, b orb.Point }

// along orders points of an edge from its first end.
func (e ringEdge) along(p orb.Point) float64 {
	return (p[0]-e.a[0])*(e.b[0]-e.a[0]) + (p[1]-e.a[1])*(e.b[1]-e.a[1])
}

// rect is the bound of the edge and so much more.
func (e ringEdge) rect(more float64) rect {
	return rect{min(e.a[0], e.b[0]) - more, min(e.a[1], e.b[1]) - more, max(e.a[0], e.b[0]) + more, max(e.a[1], e.b[1]) + more}
}

// meet returns the points at which two edges must be cut: where an end of one lies
// on the other, or where they cross.
func meet(e, f ringEdge, snap float64) (onE, onF []orb.Point) {
	onE = append(e.within(f.a, snap), e.within(f.b, snap)...)
	onF = append(f.within(e.a, snap), f.within(e.b, snap)...)
	if len(onE)+len(onF) == 0 && e.crosses(f) {
		p := crossing(e, f)
		return []orb.Point{p}, []orb.Point{p}
	}
	return onE, onF
}

// crosses reports whether each of two edges has the ends of the other on its two
// sides.
func (e ringEdge) crosses(f ringEdge) bool {
	return orientation(e.a, e.b, f.a)*orientation(e.a, e.b, f.b) < 0 &&
		orientation(f.a, f.b, e.a)*orientation(f.a, f.b, e.b) < 0
}

// within returns a point if it lies on the edge short of its ends.
func (e ringEdge) within(p orb.Point, snap float64) []orb.Point {
	if p == e.a || p == e.b || planar.DistanceFromSegment(e.a, e.b, p) > snap {
		return nil
	}
	return []orb.Point{p}
}

// crossing is where two edges cross, rounded, and no farther out than their ends.
func crossing(e, f ringEdge) orb.Point {
	dx, dy := e.b[0]-e.a[0], e.b[1]-e.a[1]
	gx, gy := f.b[0]-f.a[0], f.b[1]-f.a[1]
	t := ((f.a[0]-e.a[0])*gy - (f.a[1]-e.a[1])*gx) / (dx*gy - dy*gx)
	p := orb.Point{e.a[0] + t*dx, e.a[1] + t*dy}
	for k := range p {
		low := math.Max(math.Min(e.a[k], e.b[k]), math.Min(f.a[k], f.b[k]))
		high := math.Min(math.Max(e.a[k], e.b[k]), math.Max(f.a[k], f.b[k]))
		if math.IsNaN(p[k]) { // all but parallel
			p[k] = low
		}
		p[k] = math.Min(math.Max(p[k], low), high)
	}
	return p
}
