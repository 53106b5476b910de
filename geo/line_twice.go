package geo

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// alongside is the cosine of about 25 degrees: two lines that run at less to each other,
// the water on the same side of both, map one shore.
const alongside = 0.9

// Twice reports whether a second line, faced to the water as the first, runs along the
// shore behind the feet of a footprint, no more than within metres landward of them, and
// no water between: two surveys of one shore. It returns the items of both. A closed line
// is an islet or a basin and no second survey of the shore beside it.
func (l *Lines) Twice(fp *Footprint, within float64) (first, second int, twice bool) {
	l = l.Within(fp.Bound.Center(), fp.farOff(l)+flat.Distance(fp.Bound.Min, fp.Bound.Max)+within)
	if !slices.ContainsFunc(l.use, func(k int32) bool { return l.segs[k].strand != l.segs[l.use[0]].strand }) {
		return 0, 0, false
	}
	for i := range fp.Elements {
		fp.Elements[i].eachVertex(func(p orb.Point) {
			f := l.Nearest(p)
			if twice || f.seg < 0 {
				return
			}
			own := &l.segs[f.seg]
			if own.ring {
				return
			}
			way := flat.Direction(own.a, own.b)
			beside := flat.BoxOf(f.At.Bound().Pad(within))
			for k, s := range l.over(&beside) {
				if s.strand == own.strand || s.ring {
					continue
				}
				at, t := flat.Project(s.a, s.b, f.At)
				d := flat.Distance(at, f.At)
				if d > within || d <= touching || t <= 0 || t >= 1 {
					continue
				}
				other := flat.Direction(s.a, s.b)
				if flat.Dot(way, other) > alongside && flat.Cross(own.a, own.b, at) < 0 && !l.backBetween(flat.Edge{A: f.At, B: at}, way) {
					first, second, twice = l.itemOf(f.seg), l.itemOf(k), true
					return
				}
			}
		})
	}
	return first, second, twice
}

// backBetween reports whether a line that runs against a direction is crossed on a way: the
// far side of a spit, behind which there is water again.
func (l *Lines) backBetween(across flat.Edge, way orb.Point) bool {
	over := across.Box(0)
	for _, s := range l.over(&over) {
		other := flat.Direction(s.a, s.b)
		if s.meets(&over) && flat.Dot(way, other) < 0 && across.Crosses(flat.Edge{A: s.a, B: s.b}) {
			return true
		}
	}
	return false
}
