package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/flat"
)

// appendFacing appends the stretches of an edge that face the lines: asked only where
// that is not clear of a piece as a whole.
func (l *Lines) appendFacing(out [][]orb.Point, p, q, outward orb.Point, of which, ask func(orb.Point) bool) [][]orb.Point {
	all, none := l.facing(p, q, outward)
	switch {
	case none:
		return out
	case all && of == facingAll:
		return joinStretch(out, p, q)
	case flat.Distance(p, q) <= facingBit:
		return appendStretches(out, p, q, ask)
	}
	mid := flat.Middle(p, q)
	out = l.appendFacing(out, p, mid, outward, of, ask)
	return l.appendFacing(out, mid, q, outward, of, ask)
}

// joinStretch appends a stretch, or lengthens the last by it where it goes on.
func joinStretch(out [][]orb.Point, p, q orb.Point) [][]orb.Point {
	if last := len(out) - 1; last >= 0 && flat.Distance(out[last][1], p) < facingWithin {
		out[last][1] = q
		return out
	}
	return append(out, []orb.Point{p, q})
}

// facing reports whether all of an edge from p to q surely faces the lines, or surely
// none of it: whether the way out lies within 45 degrees of the way to land at every
// foot that a place of the edge can have, or at none. What can be a foot lies no farther
// from the edge than its farthest place from the lines. To a corner of the lines the
// cosine is its height over the edge by its distance, which lies between two.
func (l *Lines) facing(p, q, outward orb.Point) (all, none bool) {
	const rounding = 1e-9
	mid, half := flat.Middle(p, q), flat.Distance(p, q)/2
	f := l.Nearest(mid)
	reach := f.Distance + half + flat.BoxSlack
	water := l.side(mid, f)
	// Whether all of it lies on that side: sides change across the lines, and past their
	// ends and where they have been cut off.
	oneSide := f.Distance > half && water != 0 && !l.endsWithin(p, q, reach)
	all, none = oneSide, true
	saw := func(low, high float64) {
		all, none = all && low >= facingCos+rounding, none && high < facingCos-rounding
	}
	for _, k := range l.use {
		s := &l.segs[k]
		if planar.DistanceFromSegment(s.a, s.b, mid) > reach+half {
			continue
		}
		n := flat.LeftNormal(s.a, s.b, -1)
		face := flat.Dot(outward, n)
		saw(face, face)
		for _, v := range [2]orb.Point{s.a, s.b} {
			nearest := planar.DistanceFromSegment(p, q, v)
			if nearest > reach || nearest == 0 {
				all = all && nearest > 0
				none = none && nearest > 0
				continue
			}
			height := flat.Dot(flat.Way(p, v), outward)
			if !oneSide {
				height = math.Abs(height)
			} else {
				height *= water
			}
			one, other := height/nearest, height/math.Max(flat.Distance(p, v), flat.Distance(q, v))
			saw(math.Min(one, other), math.Max(one, other))
		}
		if !all && !none {
			break
		}
	}
	return all, none
}

// endsWithin reports whether the lines end, as they were mapped or as they were chosen,
// at a place so near to the edge from p to q.
func (l *Lines) endsWithin(p, q orb.Point, reach float64) bool {
	for _, k := range l.use {
		s := &l.segs[k]
		for _, end := range [2]struct {
			at   orb.Point
			next int32
		}{{s.a, s.prev}, {s.b, s.next}} {
			if (end.next < 0 || !slices.Contains(l.use, end.next)) && planar.DistanceFromSegment(p, q, end.at) <= reach {
				return true
			}
		}
	}
	return false
}

// appendStretches appends the stretches of an edge that face the line.
func appendStretches(out [][]orb.Point, a, b orb.Point, faces func(orb.Point) bool) [][]orb.Point {
	var cut func(p, q orb.Point, facesP, facesQ bool)
	cut = func(p, q orb.Point, facesP, facesQ bool) {
		switch {
		case facesP && facesQ:
			out = joinStretch(out, p, q)
		case facesP != facesQ && flat.Distance(p, q) > facingWithin:
			m := flat.Middle(p, q)
			facesM := faces(m)
			cut(p, m, facesP, facesM)
			cut(m, q, facesM, facesQ)
		}
	}
	p, facesP := a, faces(a)
	n := math.Ceil(flat.Distance(a, b) / facingStep)
	for k := 1.0; k <= n; k++ {
		q := flat.At(a, b, 0, n, k)
		facesQ := faces(q)
		cut(p, q, facesP, facesQ)
		p, facesP = q, facesQ
	}
	return out
}
