package geo

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// abutting is how near, in metres (a foot), the edges of two areas lie that are
// drawn as one and the same: surveys of neighbouring sheets seldom meet exactly.
const abutting = 0.3

// Outermost keeps of the outlines of areas, faced outward to their left, what has
// nothing of the areas beside it: where areas abut or overlap, their edges within
// are no edge of the whole. An edge shared in part is cut where the other ends.
func (l *Lines) Outermost(plane *crs.Plane, inArea func(degrees orb.Point) bool) *Lines {
	out := &Lines{layer: l.layer, segs: slices.Clone(l.segs)}
	for _, k := range l.use {
		s := &l.segs[k]
		ends := l.endsBeside(k)
		var kept [][2]float64
		for i := 1; i < len(ends); i++ {
			mid, side := flat.At(s.a, s.b, 0, 1, (ends[i-1]+ends[i])/2), flat.LeftNormal(s.a, s.b, abutting)
			if !inArea(plane.Inverse(orb.Point{mid[0] + side[0], mid[1] + side[1]})) {
				kept = append(kept, [2]float64{ends[i-1], ends[i]})
			}
		}
		if len(kept) == len(ends)-1 {
			out.use = append(out.use, k)
			continue
		}
		for _, piece := range kept {
			cut := *s
			cut.a, cut.b = flat.At(s.a, s.b, 0, 1, piece[0]), flat.At(s.a, s.b, 0, 1, piece[1])
			cut.prev, cut.next = cutEnd, cutEnd
			out.use = append(out.use, int32(len(out.segs)))
			out.segs = append(out.segs, cut)
		}
	}
	return out
}

// endsBeside returns the places, 0 and 1 among them, at which edges of other
// outlines begin, end or cross along a segment.
func (l *Lines) endsBeside(k int32) []float64 {
	s := &l.segs[k]
	beside := flat.BoxOf(orb.MultiPoint{s.a, s.b}.Bound().Pad(abutting))
	ends := []float64{0, 1}
	for _, other := range l.over(&beside) {
		if other.strand == s.strand || !other.meets(&beside) {
			continue
		}
		for _, p := range []orb.Point{other.a, other.b} {
			if on, t := flat.Project(s.a, s.b, p); flat.Distance(on, p) <= abutting {
				ends = append(ends, t)
			}
		}
		if width, at, _ := betweenSegments(s.a, s.b, other.a, other.b); width == 0 {
			_, t := flat.Project(s.a, s.b, at)
			ends = append(ends, t)
		}
	}
	slices.Sort(ends)
	return slices.Compact(ends)
}
