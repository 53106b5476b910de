package pages

import (
	"cmp"
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
