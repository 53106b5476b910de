package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// trailReach is how far, in metres, the next places of a trail may lie from where the
// segments round it were last gathered: some samples of a foot, before the segments
// that can be nearest become many.
const trailReach = 5.0

// Trail finds the feet of places on lines as [Lines.Nearest] does, places of which each
// lies close to the one before.
type Trail struct {
	lines, near *Lines // near: those that can be nearest within reach of the centre
	centre      orb.Point
	reach       float64
}

// NewTrail starts a trail along lines.
func NewTrail(lines *Lines) *Trail { return &Trail{lines: lines, reach: trailReach} }

// Nearest is that of the lines.
func (t *Trail) Nearest(p orb.Point) Foot { return t.beside(p, p).Nearest(p) }

// beside is the lines that can be nearest to an edge no longer than twice the reach, the
// very same for edges close to one another.
func (t *Trail) beside(p, q orb.Point) *Lines {
	if t.near == nil || max(flat.Squared(p, t.centre), flat.Squared(q, t.centre)) > t.reach*t.reach {
		t.centre = flat.Middle(p, q)
		t.near = t.lines.around(t.centre, t.reach)
	}
	return t.near
}
