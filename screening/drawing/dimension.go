package drawing

import (
	"math"

	"github.com/paulmach/orb"
)

// Dimension is a length between two places, with arrows at its ends.
type Dimension struct {
	From, To orb.Point
	Others   [][2]orb.Point // where the same length is had as well; the least crowded is drawn
	Text     string
	Name     string // what is said if it cannot be placed
	// Away is the direction, of length 1 and square to the length, to which it is drawn out,
	// and Far how far; at 0 it stands between the two places themselves.
	Away orb.Point
	Far  float64
}

// The arrow of a dimension: three times as long as wide (ASME Y14.2), and what its lines
// leave free.
const (
	arrowLong   = 9.0
	arrowWide   = 1.5 // half
	extendGap   = 3.0 // between what is measured and its extension line
	extendOver  = 4.0 // past the dimension line
	outsideLong = 14.0
)

// crowdReach is how far to either side of a dimension that can slide other lines crowd it:
// somewhat less than half the length of its words.
const crowdReach = 30.0

// crowd is what lines near a segment would cost words on it.
func (c *Canvas) crowd(p, q orb.Point) float64 {
	long := distance(p, q)
	if long == 0 || !c.Bounds.Contains(p) || !c.Bounds.Contains(q) {
		return math.Inf(1)
	}
	b := box{at: orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}, along: orb.Point{(q[0] - p[0]) / long, (q[1] - p[1]) / long}, w: long/2 + crowdReach, h: crowdReach}
	sum := 0.0
	for i := range c.strokes {
		s := &c.strokes[i]
		sum += s.price * b.length(s.a, s.b, 0)
	}
	return sum
}

// slide moves a dimension to where lines crowd it least.
func (c *Canvas) slide(d *Dimension) {
	if len(d.Others) == 0 {
		return
	}
	least := c.crowd(d.From, d.To)
	for _, o := range d.Others {
		if crowd := c.crowd(o[0], o[1]); crowd < least*0.99 { // none but for a reason
			least, d.From, d.To = crowd, o[0], o[1]
		}
	}
}

// asideFar is how far beside a dimension that runs along its own line another is drawn, and
// farther if that is crowded.
var asideFar = [...]float64{22, 40}

// stepAside draws a dimension out to a side if what it measures lies along another's line, so
// that each has its own.
func (c *Canvas) stepAside(d *Dimension) {
	long := distance(d.From, d.To)
	if d.Far > 0 || long == 0 {
		return
	}
	on := orb.Point{(d.To[0] - d.From[0]) / long, (d.To[1] - d.From[1]) / long}
	b := box{at: orb.Point{(d.From[0] + d.To[0]) / 2, (d.From[1] + d.To[1]) / 2}, along: on, w: long / 2, h: 2}
	shared := 0.0
	for _, s := range c.strokes {
		if s.price == Measure.Price {
			if l := b.length(s.a, s.b, 0); l > 2*b.h+2 { // it does not just cross
				shared += l
			}
		}
	}
	if shared < long/2 {
		return
	}
	least := math.Inf(1)
	for _, far := range asideFar {
		for _, away := range [2]orb.Point{{-on[1], on[0]}, {on[1], -on[0]}} {
			if crowd := c.crowd(shifted(d.From, away, far), shifted(d.To, away, far)) + far/10; crowd < least {
				least, d.Away, d.Far = crowd, away, far
			}
		}
	}
}

// Dimension draws a length; its words find their place with the others. Lines and words that
// find none are left out together, as are all of a length that does not lie on the canvas.
func (c *Canvas) Dimension(d Dimension) {
	c.slide(&d)
	c.stepAside(&d)
	p := orb.Point{d.From[0] + d.Far*d.Away[0], d.From[1] + d.Far*d.Away[1]}
	q := orb.Point{d.To[0] + d.Far*d.Away[0], d.To[1] + d.Far*d.Away[1]}
	long := distance(p, q)
	if long == 0 || !c.holds(0, d.From, d.To, p, q) {
		c.wait(&pending{name: d.Name})
		return
	}
	on := orb.Point{(q[0] - p[0]) / long, (q[1] - p[1]) / long}
	c.owners++
	owner := c.owners
	marks := ""
	draw := func(a, b orb.Point) {
		marks += pathText(straight([]orb.Point{a, b}), Measure)
		c.strokes = append(c.strokes, stroke{a, b, Measure.Price, owner})
	}
	if d.Far > 0 {
		for _, end := range [2]orb.Point{d.From, d.To} {
			from, to := min(extendGap, d.Far/2), d.Far+extendOver
			draw(orb.Point{end[0] + from*d.Away[0], end[1] + from*d.Away[1]}, orb.Point{end[0] + to*d.Away[0], end[1] + to*d.Away[1]})
		}
	}
	if long >= 2*arrowLong+2 {
		draw(p, q)
		marks += arrow(p, on, 1) + arrow(q, on, -1)
	} else { // from outside
		draw(shifted(p, on, -outsideLong), p)
		draw(q, shifted(q, on, outsideLong))
		if d.Far == 0 {
			draw(p, q)
		}
		marks += arrow(p, on, -1) + arrow(q, on, 1)
	}
	c.wait(&pending{name: d.Name, lines: []string{d.Text}, sizes: []float64{DimensionSize, NameSize}, owner: owner, marks: marks, breaks: LowShore.Price, choose: func(w, h float64) []candidate {
		return wordsOf(p, q, on, long, w, h)
	}})
}

// wordsOf are places for the words of a dimension line.
func wordsOf(p, q, on orb.Point, long, w, h float64) []candidate {
	var made []candidate
	direction := upright(on)
	normal := orb.Point{-direction[1], direction[0]}
	middle := orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}
	if long >= w+2*arrowLong+6 {
		for _, t := range [7]float64{0.5, 0.42, 0.58, 0.35, 0.65, 0.28, 0.72} {
			made = append(made, candidate{at: shifted(p, on, t*long), along: direction, price: math.Abs(t - 0.5)})
		}
	}
	// Level words across a line that is not.
	if math.Abs(direction[1]) > 0.3 && long >= h+2*arrowLong+6 {
		for _, t := range [5]float64{0.5, 0.4, 0.6, 0.3, 0.7} {
			made = append(made, candidate{at: shifted(p, on, t*long), price: 0.6 + math.Abs(t-0.5)})
		}
	}
	// Beyond an end, in line with it.
	out := outsideLong + w/2 + 4
	if long >= 2*arrowLong+2 {
		out = w/2 + 6
	}
	made = append(made,
		candidate{at: shifted(q, on, out), along: direction, price: 1.5},
		candidate{at: shifted(p, on, -out), along: direction, price: 1.6})
	// Above or below it.
	for _, off := range [6]float64{h/2 + 5, -h/2 - 5, h/2 + 16, -h/2 - 16, h/2 + 30, -h/2 - 30} {
		for _, slide := range [3]float64{0, -w / 2, w / 2} {
			at := shifted(shifted(middle, normal, off), direction, slide)
			k := candidate{at: at, along: direction, price: 1.2 + math.Abs(off)/15 + math.Abs(slide)/40}
			if math.Abs(off) > h/2+6 {
				k.lead = []orb.Point{shifted(at, normal, -sign(off)*(h/2+2)), middle}
			}
			made = append(made, k)
		}
	}
	return append(made, beside(middle, w, h, 2.5)...)
}

func shifted(p, direction orb.Point, by float64) orb.Point {
	return orb.Point{p[0] + by*direction[0], p[1] + by*direction[1]}
}

// arrow is a head at a place; inward 1 if the line goes on in the direction, -1 if it comes
// from there.
func arrow(at, direction orb.Point, inward float64) string {
	back := shifted(at, direction, inward*arrowLong)
	normal := orb.Point{-direction[1], direction[0]}
	return fillText(at, shifted(back, normal, arrowWide), shifted(back, normal, -arrowWide))
}
