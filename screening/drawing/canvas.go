package drawing

import (
	"fmt"
	"html"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
	"github.com/paulmach/orb/simplify"
)

// Inch is one of the sheet's, and MM a millimetre, in the unit of the drawing.
const (
	Inch = 100.0
	MM   = Inch / 25.4
)

// Pen is how a line is drawn.
type Pen struct {
	Width float64 // two widths are told apart at 0.6 and 0.3 mm (ASME Y14.2)
	Dash  string  // lengths of strokes and gaps; empty: solid
	// Price is what words lose that stand across a hundredth of an inch of it.
	Price float64
}

// The pens, by what they draw. Their prices say what words may cross sooner.
var (
	Structure = Pen{Width: 0.7 * MM, Price: 2}
	Shore     = Pen{Width: 0.5 * MM, Price: 1}
	LowShore  = Pen{Width: 0.35 * MM, Dash: "15 5", Price: 0.3}
	Border    = Pen{Width: 0.35 * MM, Price: 1}
	Chain     = Pen{Width: 0.25 * MM, Dash: "16 3 2 3 2 3", Price: 0.4}
	Parcel    = Pen{Width: 0.18 * MM, Dash: "14 3 3 3", Price: 0.2}
	Edge      = Pen{Width: 0.25 * MM, Price: 0.4}
	Dotted    = Pen{Width: 0.3 * MM, Dash: "1 3", Price: 0.2}
	Thin      = Pen{Width: 0.18 * MM, Dash: "4 3", Price: 0.04}
	Measure   = Pen{Width: 0.18 * MM, Price: 0.7}
	Hair      = Pen{Width: 0.13 * MM, Price: 0}
)

// Canvas is a rectangle of a sheet that is drawn on. What reaches beyond it is cut off; words
// stand in it whole or not at all.
type Canvas struct {
	Bounds orb.Bound

	marks   strings.Builder // fills and lines
	words   strings.Builder
	strokes []stroke
	solids  []solid
	placed  []box
	pending []*pending
	owners  int
}

// NewCanvas starts a rectangle of the sheet.
func NewCanvas(left, top, right, bottom float64) *Canvas {
	return &Canvas{Bounds: orb.Bound{Min: orb.Point{left, top}, Max: orb.Point{right, bottom}}}
}

// stroke is a drawn segment that words had better not cross.
type stroke struct {
	a, b  orb.Point
	price float64
	owner int
}

// solid is an area in which no word may stand but its own.
type solid struct {
	ring  orb.Ring
	bound orb.Bound
	owner int
}

// num writes a number of the drawing, to a ten thousandth of an inch.
func num(v float64) string {
	text := strconv.FormatFloat(v, 'f', 2, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

// fine is what a drawn line may be simplified by: a third of the thinnest.
const fine = 0.15

// Line draws a line.
func (c *Canvas) Line(points []orb.Point, pen Pen) { c.LineOf(0, points, pen) }

// LineOf draws a line of an owner, whose words may stand on it, and returns the owner: a new
// one if it is 0.
func (c *Canvas) LineOf(owner int, points []orb.Point, pen Pen) int {
	return c.draw(owner, pen, points)
}

// AreaOf draws the outline of an area of an owner, as LineOf.
func (c *Canvas) AreaOf(owner int, area orb.Polygon, pen Pen) int {
	rings := make([][]orb.Point, len(area))
	for i := range area {
		rings[i] = area[i]
	}
	return c.draw(owner, pen, rings...)
}

func (c *Canvas) draw(owner int, pen Pen, lines ...[]orb.Point) int {
	if owner == 0 {
		c.owners++
		owner = c.owners
	}
	var path strings.Builder
	for _, line := range lines {
		for _, piece := range c.clipped(line) {
			path.WriteString(straight(piece))
			c.trace(piece, pen.Price, owner)
		}
	}
	c.mark(path.String(), pen)
	return owner
}

// Shows reports whether any of an area lies on the canvas.
func (c *Canvas) Shows(area orb.Polygon) bool {
	for _, ring := range area {
		if len(clip.LineString(c.Bounds, drawable(ring))) > 0 {
			return true
		}
	}
	return within([]orb.Polygon{area}, c.Bounds.Center())
}

// ShowsLine reports whether any of a line lies on the canvas.
func (c *Canvas) ShowsLine(points []orb.Point) bool { return len(c.clipped(points)) > 0 }

// clipped is what of a line lies on the canvas, simplified.
func (c *Canvas) clipped(points []orb.Point) []orb.LineString {
	var pieces []orb.LineString
	for _, piece := range clip.LineString(c.Bounds, drawable(points)) {
		if piece = simplify.DouglasPeucker(fine).LineString(piece); len(piece) > 1 {
			pieces = append(pieces, piece)
		}
	}
	return pieces
}

// farthest is how far off a place may lie and still be reckoned with: miles of paper.
const farthest = 1e7

// drawable is a copy of a line without the places that are no numbers or beyond all paper.
func drawable(points []orb.Point) orb.LineString {
	return slices.DeleteFunc(slices.Clone(points), func(p orb.Point) bool {
		return !(math.Abs(p[0]) <= farthest && math.Abs(p[1]) <= farthest)
	})
}

// trace takes note of the strokes of a line.
func (c *Canvas) trace(piece []orb.Point, price float64, owner int) {
	for i := 1; i < len(piece) && price > 0; i++ {
		c.strokes = append(c.strokes, stroke{piece[i-1], piece[i], price, owner})
	}
}

// mark puts a path on the canvas.
func (c *Canvas) mark(path string, pen Pen) {
	if path == "" {
		return
	}
	c.marks.WriteString(pathText(path, pen))
}

func pathText(path string, pen Pen) string {
	dash := ""
	if pen.Dash != "" {
		dash = ` stroke-dasharray="` + pen.Dash + `"`
	}
	return `<path d="` + path + `" fill="none" stroke="#000" stroke-width="` + num(pen.Width) + `" stroke-linejoin="round" stroke-linecap="butt"` + dash + "/>"
}

// straight is a line as a path has it.
func straight(points []orb.Point) string {
	var path strings.Builder
	letter := "M"
	for _, p := range points {
		path.WriteString(letter + num(p[0]) + " " + num(p[1]))
		letter = "L"
	}
	return path.String()
}

// Area draws the outline of an area, what of it lies on the canvas. The border of the canvas
// is none of it.
func (c *Canvas) Area(area orb.Polygon, pen Pen) { c.AreaOf(0, area, pen) }

// Keep leaves an area free of all words but those of its owner.
func (c *Canvas) Keep(area orb.Polygon, owner int) {
	if len(area) > 0 {
		c.solids = append(c.solids, solid{area[0], area[0].Bound(), owner})
	}
}

// Circle draws one, open.
func (c *Canvas) Circle(at orb.Point, radius float64, pen Pen) {
	fmt.Fprintf(&c.marks, `<circle cx="%s" cy="%s" r="%s" fill="#fff" stroke="#000" stroke-width="%s"/>`, num(at[0]), num(at[1]), num(radius), num(pen.Width))
}

// Text writes words where they are told to stand: anchor is start, middle or end, at the
// base line.
func (c *Canvas) Text(at orb.Point, anchor, text string, size float64, heavy bool) {
	if text == "" {
		return
	}
	c.words.WriteString(textText(at, anchor, text, size, heavy, 0))
	w := Width(text, size, heavy)
	middle := orb.Point{at[0], at[1] - capital*size/2}
	switch anchor {
	case "start":
		middle[0] += w / 2
	case "end":
		middle[0] -= w / 2
	}
	c.placed = append(c.placed, box{at: middle, along: orb.Point{1, 0}, w: w / 2, h: size * capital / 2})
}

// Turned writes words as [Canvas.Text], the middle of their base line at a place, turned by
// so many degrees.
func (c *Canvas) Turned(at orb.Point, text string, size, degrees float64) {
	c.words.WriteString(textText(at, "middle", text, size, false, degrees))
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	h := size * capital / 2
	c.placed = append(c.placed, box{at: orb.Point{at[0] + h*sin, at[1] - h*cos}, along: orb.Point{cos, sin}, w: Width(text, size, false) / 2, h: h})
}

// capital is how high a capital is, in sizes.
const capital = 0.716

func textText(at orb.Point, anchor, text string, size float64, heavy bool, degrees float64) string {
	turn, weight := "", ""
	if math.Abs(degrees) > 0.05 {
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, num(degrees), num(at[0]), num(at[1]))
	}
	if heavy {
		weight = ` font-weight="700"`
	}
	return fmt.Sprintf(`<text x="%s" y="%s" text-anchor="%s" font-size="%s"%s%s>%s</text>`, num(at[0]), num(at[1]), anchor, num(size), weight, turn, html.EscapeString(text))
}

// SVG is all that was drawn, what was placed by [Canvas.Place] included.
func (c *Canvas) SVG() string { return c.marks.String() + c.words.String() }

// Add puts what was drawn on others on this one.
func (c *Canvas) Add(others ...*Canvas) {
	for _, o := range others {
		c.marks.WriteString(o.marks.String())
		c.marks.WriteString(o.words.String())
	}
}
