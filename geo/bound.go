package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// boundOver returns an upper bound of the signed distance over a triangle, 0 if
// none of it can be positive.
func (l *Lines) boundOver(c [3]corner, side sense, visit func(orb.Point) corner) float64 {
	centre := visit(orb.Point{
		(c[0].at[0] + c[1].at[0] + c[2].at[0]) / 3,
		(c[0].at[1] + c[1].at[1] + c[2].at[1]) / 3,
	})
	radius := 0.0
	for i := range 3 {
		radius = math.Max(radius, distance(centre.at, c[i].at))
	}
	bound := centre.foot.Distance + radius
	if side != eitherSide {
		if centre.foot.Distance > radius {
			if centre.signed < 0 && !counts(c) {
				return 0
			}
		} else {
			bound = math.Min(bound, l.boundByCrossing(c, centre, side))
		}
	}
	near := [4]int32{centre.foot.seg, c[0].foot.seg, c[1].foot.seg, c[2].foot.seg}
	var d [4][3]float64
	for i, k := range near {
		s := &l.segs[k]
		for j := range 3 {
			d[i][j] = planar.DistanceFromSegment(s.a, s.b, c[j].at)
		}
	}
	for i := range near {
		for j := i; j < len(near); j++ {
			greatest := 0.0
			for v := range 3 {
				greatest = math.Max(greatest, (d[i][v]+d[j][v])/2)
			}
			bound = math.Min(bound, greatest)
		}
	}
	return bound
}

// boundByCrossing bounds a triangle that the lines may pass through. If none
// does, it lies on one side. If a single segment cuts it in two, the part that
// counts is cornered by the triangle's corners on that side and by points of
// the segment itself, and distance to the segment is convex. Without this, an
// edge drawn along the line would be halved down to the tolerance.
func (l *Lines) boundByCrossing(c [3]corner, centre corner, side sense) float64 {
	a, b, o := c[0].at, c[1].at, c[2].at
	var only *segment
	boxes := l.boxed()
	over := rect{min(a[0], b[0], o[0]), min(a[1], b[1], o[1]), max(a[0], b[0], o[0]), max(a[1], b[1], o[1])}
	for i := range boxes {
		if boxes[i].apart(&over) {
			continue
		}
		for _, k := range l.inBox(i) {
			s := &l.segs[k]
			if !cuts(s, a, b, o) {
				continue
			}
			if only != nil {
				return math.Inf(1)
			}
			only = s
		}
	}
	if only == nil {
		if centre.signed <= 0 && !counts(c) {
			return 0
		}
		return math.Inf(1)
	}
	if inside(only.a, a, b, o) || inside(only.b, a, b, o) {
		return math.Inf(1)
	}
	greatest := 0.0
	for i := range c {
		beside := cross(only.a, only.b, c[i].at)*float64(side) > 0
		if !beside && c[i].signed > 0 {
			return math.Inf(1) // sides change elsewhere too
		}
		if beside {
			greatest = math.Max(greatest, planar.DistanceFromSegment(only.a, only.b, c[i].at))
		}
	}
	return greatest
}

// counts reports whether any corner lies on the side that counts. Past the free
// end of a line, or midway between lines that do not face one another, sides
// change without a line between.
func counts(c [3]corner) bool { return c[0].signed > 0 || c[1].signed > 0 || c[2].signed > 0 }

// cuts reports whether a segment enters the inside of a triangle: no line
// through one of the four edges parts them.
func cuts(s *segment, a, b, o orb.Point) bool {
	c1, c2, c3 := cross(s.a, s.b, a), cross(s.a, s.b, b), cross(s.a, s.b, o)
	if c1 >= 0 && c2 >= 0 && c3 >= 0 || c1 <= 0 && c2 <= 0 && c3 <= 0 {
		return false
	}
	parts := func(p, q, third orb.Point) bool {
		if p == q { // an edge of a line's triangle that is no edge
			return false
		}
		inner := cross(p, q, third)
		e1, e2 := cross(p, q, s.a), cross(p, q, s.b)
		return inner >= 0 && e1 <= 0 && e2 <= 0 || inner <= 0 && e1 >= 0 && e2 >= 0
	}
	return !parts(a, b, o) && !parts(b, o, a) && !parts(o, a, b)
}

// inside reports whether p lies strictly inside a triangle.
func inside(p, a, b, o orb.Point) bool {
	c1, c2, c3 := cross(a, b, p), cross(b, o, p), cross(o, a, p)
	return c1 > 0 && c2 > 0 && c3 > 0 || c1 < 0 && c2 < 0 && c3 < 0
}
