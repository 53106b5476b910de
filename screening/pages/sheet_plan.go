package pages

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"waterward/screening/drawing"
)

// draw draws the plan into a view, of its lengths those chosen, and returns which of them,
// and which names, found no place.
func (p *Plan) draw(v *view, chosen func(Length) bool) (unplaced, unnamed []string) {
	p.grounds(v)
	p.courses(v)
	p.structure(v)
	p.cut(v)
	unplaced = p.lengths(v, chosen)
	p.names(v)
	return unplaced, v.Place()
}

// How areas are filled, in degrees and hundredths of an inch apart.
const (
	structureHatch, structureApart = -45, 5.5
	grassHatch, grassApart         = 45, 14
)

func (p *Plan) grounds(v *view) {
	for _, g := range p.Grounds {
		for _, area := range g.Areas {
			on := v.area(area)
			switch g.Kind {
			case Grass:
				v.Hatch(on, grassHatch, grassApart, drawing.Thin)
				v.Area(on, drawing.Edge)
			case Marsh:
				v.Hatch(on, 0, grassApart, drawing.Thin)
				v.Area(on, drawing.Edge)
			case ChannelArea:
				v.Area(on, drawing.Dotted)
			case OtherArea:
				v.Area(on, drawing.Thin)
			}
		}
	}
}

// pens are how lines are drawn.
var pens = map[CourseKind]drawing.Pen{
	HighWater: drawing.Shore, HighWaterUnfaced: drawing.Shore, LowWater: drawing.LowShore, Riparian: drawing.Chain,
	ParcelEdge: drawing.Parcel, Channel: drawing.Dotted, Limit: drawing.Thin,
}

func (p *Plan) courses(v *view) {
	for _, c := range p.Lines {
		if c.Kind == HighWater {
			v.Dots(drawing.Ashore(v.Bounds, v.lines(c.Lines)))
		}
	}
	for _, kind := range []CourseKind{ParcelEdge, Limit, Channel, Riparian, LowWater, HighWaterUnfaced, HighWater} {
		for i := range p.Lines {
			c := &p.Lines[i]
			if c.Kind != kind {
				continue
			}
			c.owner = 0
			for _, line := range c.Lines {
				c.owner = v.LineOf(c.owner, v.line(line), pens[kind])
			}
		}
	}
}

func (p *Plan) structure(v *view) {
	for _, e := range p.Elements {
		owner := -e.Number // of the inside: its number may stand there, off the outline
		for _, area := range e.Areas {
			on := v.area(area)
			v.Hatch(on, structureHatch, structureApart, drawing.Hair)
			v.Area(on, drawing.Structure)
			v.Keep(on, owner)
		}
		for _, line := range e.Lines {
			if len(e.Areas) == 0 {
				v.Line(v.line(line), drawing.Structure)
			}
		}
		if len(p.Elements) > 1 && len(p.Elements) <= mostLengths {
			if at := e.middle(); v.shown(at) {
				v.PointName("", []string{fmt.Sprint(e.Number)}, true, owner, v.at(at), true)
			}
		}
	}
	if p.Cut[0] != p.Cut[1] && v.shown(p.Cut[1]) {
		v.Circle(v.at(p.Cut[1]), 3, drawing.Edge)
	}
}

// middle is a place in the element for its number.
func (e *Element) middle() orb.Point {
	if len(e.Areas) > 0 {
		return drawing.Middle(e.Areas[0])
	}
	for _, line := range e.Lines {
		if len(line) > 0 {
			return line[len(line)/2]
		}
	}
	return orb.Point{}
}

// How the ends of the section are marked: beyond the dimensions on the side of the water, and
// beyond the shore.
const (
	cutOver   = 24.0
	cutBeyond = firstTier + nextTier + 6
	cutLong   = 14.0
	cutLetter = 22.0 // from the mark to its letter
)

func (p *Plan) cut(v *view) {
	if p.Cut[0] == p.Cut[1] {
		return
	}
	a, b := v.at(p.Cut[0]), v.at(p.Cut[1])
	long := apart(a, b)
	if long == 0 {
		return
	}
	on := orb.Point{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
	across := orb.Point{-on[1], on[0]} // the way it is looked, to the right of who comes from the shore
	for _, end := range [2]struct {
		at       orb.Point
		by, over float64
	}{{a, -1, cutOver}, {b, 1, cutBeyond}} {
		from := orb.Point{end.at[0] + end.by*end.over*on[0], end.at[1] + end.by*end.over*on[1]}
		to := orb.Point{from[0] + end.by*cutLong*on[0], from[1] + end.by*cutLong*on[1]}
		if !v.Bounds.Contains(from) || !v.Bounds.Contains(to) {
			continue
		}
		v.Line([]orb.Point{from, to}, drawing.Structure)
		v.Arrow(to, across, 14)
		letter := orb.Point{to[0] + cutLetter*across[0], to[1] + cutLetter*across[1] + 5}
		if v.Bounds.Pad(-8).Contains(letter) {
			v.Text(letter, "middle", "A", drawing.NameSize, true)
		}
		corner := func(by, off float64) orb.Point {
			return orb.Point{from[0] + end.by*by*on[0] + off*across[0], from[1] + end.by*by*on[1] + off*across[1]}
		}
		const around = 4
		v.Keep(orb.Polygon{{corner(-around, -around), corner(cutLong+around, -around), corner(cutLong+around, cutLetter), corner(-around, cutLetter), corner(-around, -around)}}, 0)
	}
}

// lengths draws the chosen lengths, the longest of each kind first; distances last.
func (p *Plan) lengths(v *view, chosen func(Length) bool) (unplaced []string) {
	var all []Length
	for _, l := range p.Dimensions {
		if chosen(l) {
			all = append(all, l)
		}
	}
	rank := [...]int{Overall: 0, Along: 1, Opening: 2, Across: 3, Distance: 4} // the last can slide
	slices.SortStableFunc(all, func(a, b Length) int {
		return cmp.Or(cmp.Compare(rank[a.Kind], rank[b.Kind]), cmp.Compare(apart(b.From, b.To), apart(a.From, a.To)))
	})
	for _, l := range all {
		if l.From == l.To { // of what is bent
			v.PointName(l.Name, []string{l.Text}, false, 0, v.at(l.From), false)
			continue
		}
		d := drawing.Dimension{From: v.at(l.From), To: v.at(l.To), Text: l.Text, Name: l.Name, Away: orb.Point{l.Away[0], -l.Away[1]}}
		for _, o := range l.Others {
			d.Others = append(d.Others, [2]orb.Point{v.at(o[0]), v.at(o[1])})
		}
		if l.Away != (orb.Point{}) {
			for _, q := range l.Shape {
				q = v.at(q)
				d.Far = max(d.Far, (q[0]-d.From[0])*d.Away[0]+(q[1]-d.From[1])*d.Away[1])
			}
			switch d.Far += firstTier; l.Kind {
			case Overall:
				d.Far += nextTier
			case Across:
				d.Far -= firstTier / 2
			}
		}
		v.Dimension(d)
	}
	// Numbers of elements and letters of the section have no name: they are no lengths.
	return slices.DeleteFunc(v.Place(), func(name string) bool { return name == "" })
}

// names names what is drawn, the farthest toe and the shores first.
func (p *Plan) names(v *view) {
	if p.Cut[0] != p.Cut[1] && v.shown(p.Cut[1]) {
		v.PointName("", []string{"T"}, true, 0, v.at(p.Cut[1]), false)
	}
	for _, kind := range []CourseKind{HighWater, HighWaterUnfaced, LowWater, Riparian, Channel} {
		p.nameCourses(v, kind)
	}
	for _, g := range p.Grounds {
		var on []orb.Polygon
		for _, area := range g.Areas {
			if area = v.area(area); v.Shows(area) {
				on = append(on, area)
			}
		}
		if on == nil {
			continue
		}
		v.AreaName(g.Names[0], g.Names, false, 0, on...)
	}
	p.nameCourses(v, Limit)
}

func (p *Plan) nameCourses(v *view, kind CourseKind) {
	for _, c := range p.Lines {
		lines := v.lines(c.Lines)
		if c.Kind == kind && len(c.Names) > 0 && slices.ContainsFunc(lines, v.ShowsLine) {
			v.LineName(c.Names[0], c.Names, kind == HighWater || kind == HighWaterUnfaced, c.owner, lines...)
		}
	}
}
