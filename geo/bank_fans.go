package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// fan keeps the place if its foot is a corner of the lines.
func (f *feet) fan(p pace) {
	if p.foot.t > 0 && p.foot.t < 1 || p.foot.Distance <= onLine {
		return
	}
	f.fans[p.foot.At] = append(f.fans[p.foot.At], p)
}

// corners keeps, of a step between two feet that are so far apart along the line, where it
// comes before a corner of the lines and where it leaves it.
func (f *feet) corners(w *pacing, p, q pace, first, last Foot, long float64) {
	segs := f.lines.segs
	k := first.seg
	if first.t == 0 {
		f.before(w, p, q, segs[k].prev, k)
	}
	for run := -first.t * flat.Distance(segs[k].a, segs[k].b); k != last.seg && run <= long; k = segs[k].next {
		run += flat.Distance(segs[k].a, segs[k].b)
		f.before(w, p, q, k, segs[k].next)
		if segs[k].next < 0 {
			return
		}
	}
	if last.t == 1 {
		f.before(w, p, q, k, segs[k].next)
	}
}

// before keeps the ends of the part of a step whose foot is the corner between two segments:
// it lies past the end of the one and short of the beginning of the other. Where the shore
// does not turn, nothing lies between the ways square to either.
func (f *feet) before(w *pacing, p, q pace, k, next int32) {
	if k < 0 || next < 0 {
		return // the end of a line looks half way round, and its own steps tell how far
	}
	corner := f.lines.segs[next].a
	low, high := 0.0, 1.0
	for _, half := range [2]struct {
		seg  int32
		sign float64
	}{{k, 1}, {next, -1}} {
		g := &f.lines.segs[half.seg]
		along := orb.Point{half.sign * (g.b[0] - g.a[0]), half.sign * (g.b[1] - g.a[1])}
		a, b := flat.Dot(along, p.at)-flat.Dot(along, corner), flat.Dot(along, q.at)-flat.Dot(along, corner)
		switch t := a / (a - b); {
		case a < 0 && b < 0:
			return
		case a < 0:
			low = max(low, t)
		case b < 0:
			high = min(high, t)
		}
	}
	if (high-low)*flat.Distance(p.at, q.at) <= onLine {
		return
	}
	for _, share := range [2]float64{low, high} {
		at := w.at(flat.At(p.at, q.at, 0, 1, share))
		if away := flat.Distance(at.at, corner); away <= at.foot.Distance+onLine { // no other shore is nearer there; where the foot leaps to one, the step is cut there first
			f.fan(pace{at.at, Foot{away, corner, next, 0}})
		}
	}
}
