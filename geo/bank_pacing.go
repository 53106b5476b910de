package geo

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// pace is a place of an outline with its foot.
type pace struct {
	at   orb.Point
	foot Foot
}

// way is the unit vector from the place to its foot; false on the shore itself.
func (p *pace) way() (orb.Point, bool) {
	if p.foot.Distance <= onLine {
		return orb.Point{}, false
	}
	return flat.Direction(p.at, p.foot.At), true
}

// pacing finds feet along a way.
type pacing struct {
	trail *Trail
	last  pace
	done  bool // nothing more is looked for
}

func newPacing(lines *Lines) *pacing {
	return &pacing{trail: NewTrail(lines), last: pace{at: orb.Point{math.Inf(1), 0}}}
}

func (w *pacing) to(at orb.Point) pace {
	if w.last.at != at {
		w.last = pace{at, w.trail.Nearest(at)}
	}
	return w.last
}

// at is a place beside the way, with its foot.
func (w *pacing) at(p orb.Point) pace { return pace{p, w.trail.Nearest(p)} }

// along visits the steps of an edge.
func (w *pacing) along(a, b orb.Point, visit func(p, q pace)) {
	p := w.to(a)
	for !w.done {
		left := flat.Distance(p.at, b)
		step := min(walkMost, max(walkLeast, walkShare*p.foot.Distance))
		if left <= step {
			q := w.to(b)
			visit(p, q)
			return
		}
		q := w.to(flat.At(p.at, b, 0, left, step))
		visit(p, q)
		p = q
	}
}
