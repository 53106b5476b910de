package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Fronting returns what of the footprint's outline, and of its landward edge, lies
// before areas of this shore: where the straight way to the bank, continued
// landward by behind metres, meets one of them. areas are their outlines, the
// inside on the right. nil where nothing of it does: what lies beside an area is
// not before it, however near.
//
// As with [Footprint.landwardEdge] each place of an edge is asked, a third of a
// foot apart, and the ends of what counts are found to a tenth of the tolerance.
func (b *Bank) Fronting(fp *Footprint, areas *Lines, behind float64) (outline, landward *Footprint) {
	var last *Lines
	local, within := areas, false
	before := func(near *Lines, at orb.Point) bool {
		if near == last && local.Empty() {
			return within
		}
		f := near.Nearest(at)
		reach := behind
		if near.side(at, f) > 0 {
			reach += f.Distance
		}
		if near != last { // a few metres further along the outline
			last = near
			local = areas.Within(at, reach+2*facingSpan)
			signed, _ := areas.Signed(at)
			within = signed <= 0
		}
		if local.Empty() {
			return within
		}
		land := near.landwardAt(at, f)
		return local.meets(at, orb.Point{at[0] + reach*land[0], at[1] + reach*land[1]})
	}
	var around, edge [][]orb.Point
	for i := range fp.Elements {
		e := &fp.Elements[i]
		// Most elements lie before no area, nor in one.
		reach := b.Lines.Nearest(e.centre).Distance + 2*e.radius + behind
		if signed, _ := areas.Signed(e.centre); signed > reach {
			continue
		}
		lines := b.Lines.around(e.centre, e.radius)
		for _, polygon := range e.Areas {
			around = append(around, ringStretches(polygon[0], lines, anyPlace, func(near *Lines, at, _ orb.Point) bool {
				return before(near, at)
			})...)
		}
		edge = append(edge, e.landwardEdge(lines, before)...)
	}
	if len(around) > 0 {
		outline = alone(Element{Lines: around})
	}
	if len(edge) > 0 {
		landward = alone(Element{Lines: edge})
	}
	return outline, landward
}

// meets reports whether the way from p to q crosses the lines, or starts on
// their right, which is inside if they are outlines.
func (l *Lines) meets(p, q orb.Point) bool {
	if signed, _ := l.Signed(p); signed <= 0 {
		return true
	}
	way := flat.Box{MinX: min(p[0], q[0]), MinY: min(p[1], q[1]), MaxX: max(p[0], q[0]), MaxY: max(p[1], q[1])}
	for _, s := range l.over(&way) {
		if !s.meets(&way) {
			continue
		}
		if width, _, _ := betweenSegments(p, q, s.a, s.b); width == 0 {
			return true
		}
	}
	return false
}
