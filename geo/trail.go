package geo

import "github.com/paulmach/orb"

// trailReach is how far, in metres, the next places of a trail may lie from where the
// segments round it were last gathered: some samples of a foot, before the segments
// that can be nearest become many.
const trailReach = 5.0

// Trail finds the feet of places on lines as [Lines.Nearest] does, places of which each
// lies close to the one before.
type Trail struct {
	lines, near *Lines // near: those that can be nearest round the centre
	centre      orb.Point
}

// NewTrail starts a trail along lines.
func NewTrail(lines *Lines) *Trail { return &Trail{lines: lines} }

// Nearest is that of the lines.
func (t *Trail) Nearest(p orb.Point) Foot {
	if t.near == nil || squared(p, t.centre) > trailReach*trailReach {
		t.near, t.centre = t.lines.around(p, trailReach), p
	}
	return t.near.Nearest(p)
}
