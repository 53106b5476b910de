package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/flat"
)

const (
	// limitSagitta is how far inside the true arc, in metres, the chords round a
	// corner of a limit line may lie: half of what the line may be off.
	limitSagitta = limitTolerance / 2
	// ringSagitta is the same for rings that part the plane, where areas are taken of
	// what they bound.
	ringSagitta = limitTolerance / 16
	// limitSlack is how much nearer than the distance, in metres, a place of a limit
	// line may lie to another segment: its own neighbours touch it, give or take
	// rounding.
	limitSlack = 1e-6
	// limitJoin is how far apart, in metres, the ends of two pieces of a limit line
	// may lie and be one place. They end where they cross, give or take the sagitta,
	// which at a crossing of a few degrees is so far.
	limitJoin = 0.1
)

// LimitSide says which side of the lines a limit line is drawn on.
type LimitSide int

const (
	WaterSide LimitSide = iota // the left of lines faced to the water
	BothSides
)

// LimitLines draws where the points at a distance (metres) from the lines lie,
// within a window of the plane: beside each segment and round each corner, less what
// is nearer to another segment. It shows where to look, within 0.05 ft: whether a
// place meets a limit is measured there. Past the free end of a line it draws nothing.
func LimitLines(lines *Lines, d float64, side LimitSide, window orb.Bound) [][]orb.Point {
	if lines.Empty() || d <= 0 {
		return nil
	}
	// All that can bear on the window.
	o := &offset{lines: lines.meeting(window.Pad(d + limitTolerance)), d: d, bulge: limitSagitta, window: &window, both: side == BothSides, hides: -1}
	for _, c := range o.lines.chains() {
		o.along(c, true)
		if side == BothSides {
			o.along(c, false)
		}
	}
	return stitched(o.out)
}

// closedLimit draws the same on both sides and round the ends of all lines, as closed
// rings; false if a piece of them is left open, as where three lines all but meet.
func closedLimit(lines *Lines, d float64) ([][]orb.Point, bool) {
	o := &offset{lines: lines, d: d, bulge: ringSagitta, both: true, caps: true, hides: -1}
	for _, c := range lines.chains() {
		o.along(c, true)
		o.along(c, false)
	}
	rings := stitched(o.out)
	for _, ring := range rings {
		if len(ring) < 4 || !goesOn(ring, ring[0]) {
			return nil, false
		}
		ring[len(ring)-1] = ring[0]
	}
	return rings, true
}

// offset is a limit line being drawn.
type offset struct {
	lines  *Lines
	d      float64
	bulge  float64    // the sagitta of its arcs
	window *orb.Bound // nil: everywhere
	both   bool       // on both sides
	caps   bool       // round the ends of lines too
	out    [][]orb.Point
	free   []flat.Interval // of the chord being drawn
	hides  int32           // the segment that hid all of the last chord that was hidden; mostly it hides the next too
}

// along draws on the left of a chain, followed forward or back.
func (o *offset) along(c chain, forward bool) {
	n := len(c.segs)
	at := func(i int) (k int32, a, b orb.Point) {
		if !forward {
			i = n - 1 - i
		}
		s := &o.lines.segs[c.segs[i]]
		if forward {
			return c.segs[i], s.a, s.b
		}
		return c.segs[i], s.b, s.a
	}
	for i := range n {
		k, a, b := at(i)
		spoke := flat.LeftNormal(a, b, o.d)
		o.chord(o.lines, k, k, orb.Point{a[0] + spoke[0], a[1] + spoke[1]}, orb.Point{b[0] + spoke[0], b[1] + spoke[1]}, limitSlack)
		if i+1 == n && !c.loop {
			if o.caps {
				o.round(k, k, b, spoke, orb.Point{-spoke[0], -spoke[1]}, -math.Pi)
			}
			break
		}
		next, p, q := at((i + 1) % n)
		to := flat.LeftNormal(p, q, o.d)
		if turn := flat.Turn(spoke, to); turn < 0 { // the outside of the corner
			o.round(k, next, b, spoke, to, turn)
		}
	}
}

// goesOn reports whether a line goes on from where another ends.
func goesOn(line []orb.Point, from orb.Point) bool {
	return flat.Distance(line[len(line)-1], from) <= limitJoin
}

// stitched joins lines of which one goes on where another ends.
func stitched(lines [][]orb.Point) [][]orb.Point {
	for i := 0; i < len(lines); i++ {
		for j := 0; j < len(lines); j++ {
			if j == i || !goesOn(lines[i], lines[j][0]) {
				continue
			}
			lines[i] = append(lines[i], lines[j][1:]...)
			lines = slices.Delete(lines, j, j+1)
			if j < i {
				i--
			}
			j = -1 // its new end may go on anywhere
		}
	}
	return lines
}

// round draws the arc round the corner between two segments, from one spoke to another.
func (o *offset) round(k, next int32, corner, from, to orb.Point, turn float64) {
	n := math.Ceil(math.Abs(turn) / (2 * math.Acos(1-math.Min(1, o.bulge/o.d))))
	if n > 2 && turn > -math.Pi/2 && o.covered(k, next, corner, from, to) {
		return
	}
	near := o.lines
	if n > 4 { // what bears on any of it is gathered once, where that costs less
		near = near.meeting(orb.Bound{Min: corner, Max: corner}.Pad(2 * o.d))
	}
	p := orb.Point{corner[0] + from[0], corner[1] + from[1]}
	for i := 1.0; i <= n; i++ {
		q := orb.Point{corner[0] + to[0], corner[1] + to[1]}
		if i < n {
			s, c := math.Sincos(turn * i / n)
			q = orb.Point{corner[0] + c*from[0] - s*from[1], corner[1] + s*from[0] + c*from[1]}
		}
		o.chord(near, k, next, p, q, o.bulge+limitSlack)
		p = q
	}
}

// covered reports whether all of the arc between two spokes of a corner is nearer to
// another segment: what lies within reach of a segment is convex, so that it holds the
// arc if it holds its ends and where the tangents there meet.
func (o *offset) covered(k, next int32, corner, from, to orb.Point) bool {
	spread := 1 + flat.Dot(from, to)/(o.d*o.d)
	var ends [3]orb.Point
	over := flat.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for i, spoke := range [3]orb.Point{from, to, {(from[0] + to[0]) / spread, (from[1] + to[1]) / spread}} {
		p := orb.Point{corner[0] + spoke[0], corner[1] + spoke[1]}
		ends[i] = p
		over = flat.Box{MinX: min(over.MinX, p[0]), MinY: min(over.MinY, p[1]), MaxX: max(over.MaxX, p[0]), MaxY: max(over.MaxY, p[1])}
	}
	reach := o.d - o.bulge - limitSlack
	over = flat.Box{MinX: over.MinX - reach, MinY: over.MinY - reach, MaxX: over.MaxX + reach, MaxY: over.MaxY + reach}
	for other, s := range o.lines.over(&over) {
		if other == k || other == next || !s.meets(&over) {
			continue
		}
		holds := true
		for _, p := range ends {
			holds = holds && planar.DistanceFromSegmentSquared(s.a, s.b, p) < reach*reach
		}
		if holds {
			return true
		}
	}
	return false
}

// chord draws what of a chord beside segments k and next lies in the window and no
// nearer to another segment than the distance less slack. near has all that can be.
func (o *offset) chord(near *Lines, k, next int32, p, q orb.Point, slack float64) {
	in := flat.Interval{From: 0, To: 1}
	if o.window != nil {
		var ok bool
		if in, ok = flat.Clipped(p, q, o.window); !ok {
			return
		}
	}
	reach := o.d - slack
	if h := o.hides; h >= 0 && h != k && h != next {
		s := &o.lines.segs[h]
		if taken, ok := flat.Nearer(p, q, s.a, s.b, reach); ok && taken.From <= in.From && taken.To >= in.To {
			return
		}
	}
	o.free = append(o.free[:0], in)
	again, alsoNext := false, next == k
	over := flat.Box{MinX: min(p[0], q[0]) - reach, MinY: min(p[1], q[1]) - reach, MaxX: max(p[0], q[0]) + reach, MaxY: max(p[1], q[1]) + reach}
	for other, s := range near.over(&over) {
		if other == k || other == next || !s.meets(&over) {
			continue
		}
		again, alsoNext = again || other < k && o.same(other, k), alsoNext || other < next && o.same(other, next)
		if again && alsoNext {
			return // drawn before, as areas that abut are drawn twice
		}
		if taken, ok := flat.Nearer(p, q, s.a, s.b, reach); ok {
			if o.free = flat.Without(o.free, taken); len(o.free) == 0 {
				o.hides = other
				return
			}
		}
	}
	for _, f := range o.free {
		o.add(flat.At(p, q, 0, 1, f.From), flat.At(p, q, 0, 1, f.To))
	}
}

// same reports whether two segments draw the same: on one side only if they run the
// same way.
func (o *offset) same(k, other int32) bool {
	s, g := &o.lines.segs[k], &o.lines.segs[other]
	return s.a == g.a && s.b == g.b || o.both && s.a == g.b && s.b == g.a
}

// add appends an edge to the line drawn last, if it goes on there.
func (o *offset) add(p, q orb.Point) {
	if last := len(o.out) - 1; last >= 0 && goesOn(o.out[last], p) {
		o.out[last] = append(o.out[last], q)
		return
	}
	o.out = append(o.out, []orb.Point{p, q})
}
