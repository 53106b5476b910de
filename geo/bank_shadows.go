package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

const (
	// shadowStep is how often along the bank, in metres, it is asked what lies on the
	// way there: as often as along the outline of a structure.
	shadowStep = facingStep
	// shadowTurn is the greatest angle between neighbouring ways out of one corner of
	// the bank: about a degree, 0.5 m across at 30 m.
	shadowTurn = 0.0175
	// shadowJump is how much farther out, in metres (1 ft), the first area on one way
	// lies than that on the next for the way between the two to part places. What
	// changes by less [Bank.BeforeAll] finds out.
	shadowJump = crs.MetresPerFoot
)

// Before reports whether a place lies before areas: whether the straight way to the
// bank, continued landward by behind metres, meets one of them or starts in one. areas
// are their outlines, the inside on the right.
func (b *Bank) Before(at orb.Point, areas *Lines, behind float64) bool {
	if areas.Empty() {
		return false
	}
	f := b.Lines.Nearest(at)
	reach := behind
	if b.Lines.side(at, f) > 0 {
		reach += f.Distance
	}
	land := b.Lines.landwardAt(at, f)
	return areas.meets(at, orb.Point{at[0] + reach*land[0], at[1] + reach*land[1]})
}

// BeforeAll reports whether all places of a polygon lie before areas, or none does:
// places a metre apart along its outlines, a little inside them, are asked.
func (b *Bank) BeforeAll(polygon orb.Polygon, inside orb.Point, areas *Lines, behind float64) (before, all bool) {
	before = b.Before(inside, areas, behind)
	var outlines [][]orb.Point
	for _, ring := range polygon {
		outlines = append(outlines, ring)
	}
	edges := NewLines(outlines...)
	for _, ring := range polygon {
		side := 1.0 // the inside of a counter-clockwise ring, and what a hole lies in
		if ring.Orientation() == orb.CW {
			side = -1
		}
		if &ring[0] != &polygon[0][0] {
			side = -side
		}
		for i := 1; i < len(ring); i++ {
			p, q := ring[i-1], ring[i]
			in := flat.LeftNormal(p, q, side*besideEdge)
			n := math.Ceil(flat.Distance(p, q))
			for k := range int(n) {
				at := flat.At(p, q, 0, n, float64(k)+0.5)
				at = orb.Point{at[0] + in[0], at[1] + in[1]}
				// A place no farther inside lies in a sliver that rounding has left.
				if edges.Nearest(at).Distance > 0.9*besideEdge && planar.PolygonContains(polygon, at) && b.Before(at, areas, behind) != before {
					return before, false
				}
			}
		}
	}
	return before, true
}

// besideEdge is how far inside its outline, in metres, a place of a polygon is asked:
// more than what a way out of the bank may be drawn off.
const besideEdge = 0.02

// Shadows draws the ways straight out from the bank, reach metres long, on whose two
// sides it differs whether, or from which distance on, places lie before areas: they run
// along the sides of the shadows that areas at and behind the shore throw on the water.
// Where the bank turns towards the water it is the line that halves the corner: there the
// feet of places jump. Where they jump farther out nothing is drawn.
func (b *Bank) Shadows(areas *Lines, behind, reach float64) [][]orb.Point {
	if areas.Empty() {
		return nil
	}
	var out [][]orb.Point
	ask := func(w way) float64 { return b.firstOn(w, areas, behind, reach) }
	draw := func(w way) {
		back := touching // so that the bank is surely met
		out = append(out, []orb.Point{
			{w.foot[0] - back*w.out[0], w.foot[1] - back*w.out[1]},
			{w.foot[0] + reach*w.out[0], w.foot[1] + reach*w.out[1]},
		})
	}
	for _, c := range b.Lines.chains() {
		var last way
		before := math.NaN()
		next := func(w way) {
			if at := ask(w); math.IsNaN(before) {
				before = at
			} else {
				switch {
				case !unlike(before, at):
				case w.foot == last.foot && flat.Cross(orb.Point{}, last.out, w.out) > 0:
					draw(last.between(w))
				default:
					draw(partingWay(last, w, before, ask))
				}
				before = at
			}
			last = w
		}
		for _, k := range c.segs {
			s := &b.Lines.segs[k]
			n := flat.LeftNormal(s.a, s.b, 1)
			if !math.IsNaN(before) { // round the corner
				turn := flat.Turn(last.out, n)
				from := last.out
				for i, steps := 1.0, math.Ceil(math.Abs(turn)/shadowTurn); turn < 0 && i < steps; i++ {
					next(way{s.a, flat.Turned(from, turn*i/steps)})
				}
			}
			steps := math.Ceil(flat.Distance(s.a, s.b) / shadowStep)
			for i := 0.0; i <= steps; i++ {
				next(way{flat.At(s.a, s.b, 0, steps, i), n})
			}
		}
	}
	return out
}

// way leads straight out from a foot on the bank.
type way struct{ foot, out orb.Point }

// between is the way halfway from one to another.
func (w way) between(o way) way {
	m := orb.Point{w.out[0] + o.out[0], w.out[1] + o.out[1]}
	d := math.Hypot(m[0], m[1])
	if d == 0 {
		return o
	}
	return way{flat.Middle(w.foot, o.foot), orb.Point{m[0] / d, m[1] / d}}
}

// partingWay is the way between two at which what they meet first changes.
func partingWay(a, b way, before float64, ask func(way) float64) way {
	for flat.Distance(a.foot, b.foot) > facingWithin || flat.Distance(a.out, b.out) > facingWithin {
		m := a.between(b)
		if at := ask(m); unlike(before, at) {
			b = m
		} else {
			a, before = m, at
		}
		if m == a && m == b {
			break
		}
	}
	return a.between(b)
}

// unlike reports whether what two ways meet first lies at other distances; one that meets
// nothing does so at +Inf.
func unlike(a, b float64) bool { return a != b && !(math.Abs(a-b) <= shadowJump) }

// firstOn is how far out on a way places begin to lie before areas: 0 if all do, +Inf if
// none does within reach.
func (b *Bank) firstOn(w way, areas *Lines, behind, reach float64) float64 {
	if areas.meets(w.foot, orb.Point{w.foot[0] - behind*w.out[0], w.foot[1] - behind*w.out[1]}) {
		return 0
	}
	tip := orb.Point{w.foot[0] + reach*w.out[0], w.foot[1] + reach*w.out[1]}
	over := flat.Edge{A: w.foot, B: tip}.Box(0)
	first := math.Inf(1)
	for _, s := range areas.over(&over) {
		if width, at, _ := betweenSegments(w.foot, tip, s.a, s.b); width == 0 {
			first = math.Min(first, flat.Distance(w.foot, at))
		}
	}
	return first
}
