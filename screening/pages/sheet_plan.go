package pages

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/screening/drawing"
)

// planScales are the scales of plans in feet an inch: those of an engineer's scale, and what
// only an overview can have.
var planScales = []float64{10, 20, 30, 40, 50, 60, 100, 200, 300, 400, 500, 600, 1000, 2000, 5000}

// smallestPlan is the smallest scale that every office takes for the proposed work: 1 in = 50
// ft (Maryland's guideline for tidal wetlands; North Carolina takes 200, 15A NCAC 07J .0203).
// What is drawn smaller is drawn again, in parts, at this one.
const smallestPlan = 50

// What the dimensions of a plan take of the paper around the structure, left and right of it,
// and above and below; where the shore runs up the paper, it is the sides that words take.
const (
	planMarginX    = 70.0
	planMarginY    = 80.0
	planMarginUp   = 160.0
	planMarginSide = 45.0
	firstTier      = 24.0
	nextTier       = 26.0
)

// mostLengths is how many lengths of elements and openings a plan can show and be read.
const mostLengths = 40

// view is a map on paper.
type view struct {
	*drawing.Canvas
	scale  float64   // feet an inch
	middle orb.Point // of what is shown, feet
}

func newView(left, top, right, bottom, scale float64, middle orb.Point) *view {
	return &view{drawing.NewCanvas(left, top, right, bottom), scale, middle}
}

// at is where a place stands on paper.
func (v *view) at(p orb.Point) orb.Point {
	c := v.Bounds.Center()
	return orb.Point{c[0] + (p[0]-v.middle[0])*drawing.Inch/v.scale, c[1] - (p[1]-v.middle[1])*drawing.Inch/v.scale}
}

// feet is the place shown at one of the paper.
func (v *view) feet(at orb.Point) orb.Point {
	c := v.Bounds.Center()
	return orb.Point{v.middle[0] + (at[0]-c[0])*v.scale/drawing.Inch, v.middle[1] - (at[1]-c[1])*v.scale/drawing.Inch}
}

func (v *view) line(points []orb.Point) []orb.Point {
	made := make([]orb.Point, len(points))
	for i, p := range points {
		made[i] = v.at(p)
	}
	return made
}

func (v *view) lines(all [][]orb.Point) [][]orb.Point {
	made := make([][]orb.Point, len(all))
	for i, l := range all {
		made[i] = v.line(l)
	}
	return made
}

func (v *view) area(of orb.Polygon) orb.Polygon {
	made := make(orb.Polygon, len(of))
	for i, ring := range of {
		made[i] = v.line(ring)
	}
	return made
}

// shown is whether all of some places lie well within the view.
func (v *view) shown(points ...orb.Point) bool {
	within := v.Bounds.Pad(-4)
	return !slices.ContainsFunc(points, func(p orb.Point) bool { return !within.Contains(v.at(p)) })
}

// bound is the box of the structure and of the distances that are shown with it.
func (p *Plan) bound(with func(Length) bool) orb.Bound {
	var all orb.MultiPoint
	for _, e := range p.Elements {
		for _, polygon := range e.Areas {
			for _, ring := range polygon {
				all = append(all, ring...)
			}
		}
		for _, line := range e.Lines {
			all = append(all, line...)
		}
	}
	for _, l := range p.Dimensions {
		if with(l) {
			all = append(all, l.From, l.To)
		}
	}
	return all.Bound()
}

// fits is the largest scale at which a box fits into so much paper.
func (p *Plan) fits(b orb.Bound, wide, high float64) float64 {
	x, y := planMarginX, planMarginY
	if math.Abs(p.Cut[1][0]-p.Cut[0][0]) > math.Abs(p.Cut[1][1]-p.Cut[0][1]) { // the shore runs up the paper
		x, y = planMarginUp, planMarginSide
	}
	for _, s := range planScales {
		if (b.Max[0]-b.Min[0])*drawing.Inch/s <= wide-2*x && (b.Max[1]-b.Min[1])*drawing.Inch/s <= high-2*y {
			return s
		}
	}
	return planScales[len(planScales)-1]
}

// overview chooses the scale and the middle of the plan: the structure with its distances
// from the tidal lines, and whatever else of its distances fits at that scale or at one that
// all offices take.
func (p *Plan) overview(wide, high float64) (scale float64, middle orb.Point) {
	kept := map[int]bool{}
	boundOf := func() orb.Bound {
		i := -1
		return p.bound(func(l Length) bool { i++; return l.Kind != Distance || kept[i] })
	}
	for i, l := range p.Dimensions {
		kept[i] = l.Kind == Distance && l.Tidal
	}
	b := boundOf()
	scale = p.fits(b, wide, high)
	least := 2 * scale // the structure itself must stay to be seen
	order := make([]int, len(p.Dimensions))
	for i := range order {
		order[i] = i
	}
	long := func(i int) float64 { return apart(p.Dimensions[i].From, p.Dimensions[i].To) }
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(long(i), long(j)) })
	for _, i := range order {
		if kept[i] || p.Dimensions[i].Kind != Distance {
			continue
		}
		kept[i] = true
		if wider := p.fits(boundOf(), wide, high); wider > max(scale, min(least, smallestPlan)) {
			kept[i] = false
		} else {
			scale = max(scale, wider)
		}
	}
	return scale, boundOf().Center()
}

func apart(a, b orb.Point) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }

// parts are the middles of the views that together show the structure at a scale, from left
// to right and downwards.
func (p *Plan) parts(scale, wide, high float64) []orb.Point {
	b := p.bound(func(Length) bool { return false })
	x, y := wide*scale/drawing.Inch, high*scale/drawing.Inch
	count := func(b orb.Bound) (columns, rows float64) {
		return math.Ceil((b.Max[0]-b.Min[0])/x + 0.2), math.Ceil((b.Max[1]-b.Min[1])/y + 0.2)
	}
	columns, rows := count(b)
	// With the shores, if that takes no more sheets.
	shores := p.bound(func(l Length) bool { return l.Tidal })
	if c, r := count(shores); c <= columns && r <= rows {
		b = shores
	}
	var made []orb.Point
	for j := rows - 1; j >= 0; j-- {
		for i := 0.0; i < columns; i++ {
			middle := orb.Point{b.Center()[0] + (i-(columns-1)/2)*x, b.Center()[1] + (j-(rows-1)/2)*y}
			if p.within(orb.Bound{Min: orb.Point{middle[0] - x/2, middle[1] - y/2}, Max: orb.Point{middle[0] + x/2, middle[1] + y/2}}) {
				made = append(made, middle)
			}
		}
	}
	return made
}

// within reports whether any of the structure lies in a box.
func (p *Plan) within(b orb.Bound) bool {
	c := drawing.NewCanvas(b.Min[0], b.Min[1], b.Max[0], b.Max[1])
	for _, e := range p.Elements {
		for _, polygon := range e.Areas {
			if c.Shows(polygon) {
				return true
			}
		}
		for _, line := range e.Lines {
			if c.Shows(orb.Polygon{line}) {
				return true
			}
		}
	}
	return false
}

// draw draws the plan into a view, of its lengths those chosen, and returns which of them
// found no place.
func (p *Plan) draw(v *view, chosen func(Length) bool) (unplaced []string) {
	p.grounds(v)
	p.courses(v)
	p.structure(v)
	p.cut(v)
	unplaced = p.lengths(v, chosen)
	p.names(v)
	v.Place() // names that find no place are told in the notes and tables
	return unplaced
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
			on = append(on, v.area(area))
		}
		v.AreaName(g.Names[0], g.Names, false, 0, on...)
	}
	p.nameCourses(v, Limit)
}

func (p *Plan) nameCourses(v *view, kind CourseKind) {
	for _, c := range p.Lines {
		if c.Kind == kind && len(c.Names) > 0 {
			v.LineName(c.Names[0], c.Names, kind == HighWater || kind == HighWaterUnfaced, c.owner, v.lines(c.Lines)...)
		}
	}
}
