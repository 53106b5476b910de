package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/flat"
)

// fewCorners is how many corners of a part are all looked at; of one with more, such
// as a disc, only those that may be the farthest.
const fewCorners = 4

// boundOver returns an upper bound of the signed distance over a convex part, 0 if
// none of it can be positive.
func (s *search) boundOver(ring []corner) float64 {
	centre := corner{}
	for i := range ring {
		centre.at[0] += ring[i].at[0] / float64(len(ring))
		centre.at[1] += ring[i].at[1] / float64(len(ring))
	}
	s.look(&centre)
	radius := 0.0
	for i := range ring {
		radius = math.Max(radius, flat.Distance(centre.at, ring[i].at))
	}
	apart := s.side != eitherSide && centre.off > radius // from where sides change
	if apart && centre.signed < 0 {
		for i := range min(len(ring), fewCorners) {
			s.look(&ring[i*len(ring)/min(len(ring), fewCorners)])
		}
		if !counts(ring) {
			return 0
		}
	}
	bound := math.Min(centre.foot.Distance+radius, s.boundBySegments(ring, &centre))
	if s.side != eitherSide && !apart {
		bound = math.Min(bound, s.boundByCrossing(ring, &centre))
	}
	return bound
}

// boundBySegments bounds a part by the nearest segments of its middle and of some of
// its corners: by the greatest distance of any corner from one of them, or from two of
// them in the mean.
func (s *search) boundBySegments(ring []corner, centre *corner) float64 {
	n := len(ring)
	if cap(s.away) < (fewCorners+1)*n {
		s.away = make([]float64, (fewCorners+1)*n)
	}
	var near [fewCorners + 1]int32
	found, bound, most := 0, math.Inf(1), 0
	take := func(k int32) {
		for _, other := range near[:found] {
			if other == k {
				return
			}
		}
		near[found] = k
		g, away := &s.lines.segs[k], s.away[found*n:(found+1)*n]
		for i := range ring {
			away[i] = planar.DistanceFromSegment(g.a, g.b, ring[i].at)
		}
		found++
		for other := range found {
			greatest, at, beside := 0.0, 0, s.away[other*n:(other+1)*n]
			for i := range away {
				if mean := (away[i] + beside[i]) / 2; mean >= greatest {
					greatest, at = mean, i
				}
			}
			if greatest < bound {
				bound, most = greatest, at
			}
		}
	}
	take(centre.foot.seg)
	if n <= fewCorners {
		for i := range ring {
			s.look(&ring[i])
			take(ring[i].foot.seg)
		}
		return bound
	}
	for range fewCorners {
		c := &ring[most]
		if c.seen {
			break
		}
		s.look(c)
		take(c.foot.seg)
	}
	return bound
}

// boundByCrossing bounds a part that the lines may pass through. If none does, it lies
// on one side. If a single segment cuts it in two, what counts is cornered by the
// part's corners on that side and by points of the segment itself, and distance to the
// segment is convex. Without this, an edge drawn along the line would be halved down
// to the tolerance.
func (s *search) boundByCrossing(ring []corner, centre *corner) float64 {
	var only *segment
	over := flat.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for i := range ring {
		p := ring[i].at
		over.MinX, over.MaxX = min(over.MinX, p[0]), max(over.MaxX, p[0])
		over.MinY, over.MaxY = min(over.MinY, p[1]), max(over.MaxY, p[1])
	}
	for _, g := range s.sides.over(&over) {
		if !cuts(g, ring) {
			continue
		}
		if only != nil {
			return math.Inf(1)
		}
		only = g
	}
	if only == nil {
		if centre.signed <= 0 && !counts(ring) {
			return 0
		}
		return math.Inf(1)
	}
	if inside(only.a, ring) || inside(only.b, ring) {
		return math.Inf(1)
	}
	from := only
	if s.sides != s.lines {
		from = &s.lines.segs[centre.foot.seg]
	}
	greatest := 0.0
	for i := range ring {
		c, next := &ring[i], &ring[(i+1)%len(ring)]
		s.look(c)
		here, there := flat.Cross(only.a, only.b, c.at)*float64(s.side), flat.Cross(only.a, only.b, next.at)*float64(s.side)
		if here <= 0 && c.signed > 0 {
			return math.Inf(1) // sides change elsewhere too
		}
		if here > 0 {
			greatest = math.Max(greatest, planar.DistanceFromSegment(from.a, from.b, c.at))
		}
		if from != only && (here > 0) != (there > 0) { // what counts ends here
			greatest = math.Max(greatest, planar.DistanceFromSegment(from.a, from.b, flat.At(c.at, next.at, here, there, 0)))
		}
	}
	return greatest
}

// counts reports whether any corner looked at lies on the side that counts. Past the
// free end of a line, or midway between lines that do not face one another, sides
// change without a line between.
func counts(ring []corner) bool {
	for i := range ring {
		if ring[i].seen && ring[i].signed > 0 {
			return true
		}
	}
	return false
}

// cuts reports whether a segment enters the inside of a convex part: no line through
// one of its edges or through the segment parts them.
func cuts(s *segment, ring []corner) bool {
	left, right := false, false
	for i := range ring {
		side := flat.Cross(s.a, s.b, ring[i].at)
		left, right = left || side > 0, right || side < 0
	}
	if !left || !right {
		return false
	}
	if len(ring) == 2 { // an edge has no inside; the segment ends on either side of it
		p, q := ring[0].at, ring[1].at
		e1, e2 := flat.Cross(p, q, s.a), flat.Cross(p, q, s.b)
		return e1 > 0 && e2 < 0 || e1 < 0 && e2 > 0
	}
	for i := range ring {
		p, q := ring[i].at, ring[(i+1)%len(ring)].at
		if flat.Cross(p, q, s.a) <= 0 && flat.Cross(p, q, s.b) <= 0 && p != q {
			return false
		}
	}
	return true
}

// inside reports whether p lies strictly inside a convex part.
func inside(p orb.Point, ring []corner) bool {
	for i := range ring {
		if flat.Cross(ring[i].at, ring[(i+1)%len(ring)].at, p) <= 0 {
			return false
		}
	}
	return true
}
