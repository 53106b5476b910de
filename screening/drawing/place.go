package drawing

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// box is words on the paper: a rectangle, perhaps turned.
type box struct {
	at    orb.Point // its middle
	along orb.Point // the direction of its lines, of length 1
	w, h  float64   // half its width and height
}

// local is a place as the box sees it.
func (b *box) local(p orb.Point) orb.Point {
	dx, dy := p[0]-b.at[0], p[1]-b.at[1]
	return orb.Point{dx*b.along[0] + dy*b.along[1], -dx*b.along[1] + dy*b.along[0]}
}

func (b *box) corners() (made [4]orb.Point) {
	for i, s := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		x, y := s[0]*b.w, s[1]*b.h
		made[i] = orb.Point{b.at[0] + x*b.along[0] - y*b.along[1], b.at[1] + x*b.along[1] + y*b.along[0]}
	}
	return made
}

// clear reports whether two boxes are so far apart along a side of either (separating axes).
func (b *box) clear(o *box, gap float64) bool {
	apart := func(b, o *box) bool {
		low, high := orb.Point{math.Inf(1), math.Inf(1)}, orb.Point{math.Inf(-1), math.Inf(-1)}
		for _, p := range o.corners() {
			q := b.local(p)
			for k := range 2 {
				low[k], high[k] = min(low[k], q[k]), max(high[k], q[k])
			}
		}
		return low[0] > b.w+gap || high[0] < -b.w-gap || low[1] > b.h+gap || high[1] < -b.h-gap
	}
	return apart(b, o) || apart(o, b)
}

// length is how much of a segment lies in the box, made larger by a gap.
func (b *box) length(p, q orb.Point, gap float64) float64 {
	u, v := b.local(p), b.local(q)
	from, to := 0.0, 1.0
	for k, half := range [2]float64{b.w + gap, b.h + gap} {
		d := v[k] - u[k]
		if d == 0 {
			if math.Abs(u[k]) > half {
				return 0
			}
			continue
		}
		s, t := (-half-u[k])/d, (half-u[k])/d
		from, to = max(from, min(s, t)), min(to, max(s, t))
	}
	return max(0, to-from) * math.Hypot(v[0]-u[0], v[1]-u[1])
}

// meets reports whether the box and an area share anything.
func (b *box) meets(ring orb.Ring) bool {
	for i := 1; i < len(ring); i++ {
		if b.length(ring[i-1], ring[i], 0) > 0 {
			return true
		}
	}
	return inside(ring, b.at)
}

// inside reports whether a place lies within a ring.
func inside(ring orb.Ring, p orb.Point) bool {
	in := false
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			in = !in
		}
	}
	return in
}

// pending is words that have yet to find their place.
type pending struct {
	name   string // what is said if they find none
	lines  []string
	sizes  []float64 // tried one after the other
	heavy  bool
	owner  int
	marks  string  // drawn with them
	breaks float64 // lines of no higher price may stand behind them
	choose func(w, h float64) []candidate
}

// candidate is a place for words.
type candidate struct {
	at    orb.Point
	along orb.Point // zero: level
	price float64
	lead  []orb.Point // from the words to what they name; its end has a dot
}

// Gaps between words and between the lines of one.
const (
	wordGap   = 3.5
	lineApart = 1.25 // in sizes
)

// costTooHigh is what no place for words may cost.
const costTooHigh = 60

// Place finds places for all words in the order they were given, and returns which of those
// with a name found none.
func (c *Canvas) Place() (unplaced []string) {
	for _, p := range c.pending {
		if !c.place(p) && p.name != "" {
			unplaced = append(unplaced, p.name)
			if p.marks != "" { // the lines of a dimension go with its words
				c.strokes = slices.DeleteFunc(c.strokes, func(s stroke) bool { return s.owner == p.owner })
			}
		}
	}
	c.pending = nil
	return unplaced
}

func (c *Canvas) place(p *pending) bool {
	for _, size := range p.sizes {
		w := 0.0
		for _, line := range p.lines {
			w = max(w, Width(line, size, p.heavy))
		}
		h := size * (capital + lineApart*float64(len(p.lines)-1))
		all := p.choose(w, h)
		slices.SortStableFunc(all, func(a, b candidate) int {
			switch {
			case a.price < b.price:
				return -1
			case a.price > b.price:
				return 1
			}
			return 0
		})
		best, least := -1, float64(costTooHigh)
		for i := range all {
			if all[i].price >= least {
				break
			}
			if cost := all[i].price + c.cost(&all[i], w, h, p, least); cost < least {
				best, least = i, cost
			}
		}
		if best >= 0 {
			c.put(p, &all[best], w, h, size)
			return true
		}
	}
	return false
}

// holds reports whether places lie on the canvas, so far from its border.
func (c *Canvas) holds(margin float64, places ...orb.Point) bool {
	b := c.Bounds.Pad(-margin)
	for _, p := range places {
		if !(p[0] >= b.Min[0] && p[0] <= b.Max[0] && p[1] >= b.Min[1] && p[1] <= b.Max[1]) { // what is no number does not
			return false
		}
	}
	return true
}

func (k *candidate) box(w, h float64) box {
	b := box{at: k.at, along: k.along, w: w / 2, h: h / 2}
	if b.along == (orb.Point{}) {
		b.along = orb.Point{1, 0}
	}
	return b
}

// What it costs to stand in an area kept free, and how much more a leader pays for what it
// runs along or crosses than words do, as wide as it is with what it needs beside it.
const (
	costSolid = 100
	leadCost  = 2
	leadGap   = 1
)

// cost is what a place costs by what else stands there.
func (c *Canvas) cost(k *candidate, w, h float64, p *pending, most float64) float64 {
	owner := p.owner
	b := k.box(w, h)
	corners := b.corners()
	if !c.holds(2, corners[:]...) || !c.holds(0, k.lead...) {
		return costTooHigh
	}
	for i := range c.placed {
		if !b.clear(&c.placed[i], wordGap) {
			return costTooHigh
		}
		for j := 1; j < len(k.lead); j++ {
			if c.placed[i].length(k.lead[j-1], k.lead[j], 1) > 0 {
				return costTooHigh
			}
		}
	}
	led := len(k.lead) > 1
	var lead box
	if led {
		lead = strip(k.lead[0], k.lead[1])
	}
	sum := 0.0
	around := b.at.Bound().Pad(math.Hypot(b.w, b.h))
	for i := range c.solids {
		if s := &c.solids[i]; s.owner != owner && around.Intersects(s.bound) && b.meets(s.ring) {
			sum += costSolid
		}
	}
	for i := range c.strokes {
		s := &c.strokes[i]
		if s.owner != owner && s.price > p.breaks {
			sum += s.price * b.length(s.a, s.b, 1.5)
		}
		if led && s.owner != owner && s.price >= Edge.Price {
			sum += leadCost * s.price * lead.length(s.a, s.b, leadGap)
		}
		if sum >= most {
			return sum
		}
	}
	return sum
}

// strip is a segment as a box of no height.
func strip(p, q orb.Point) box {
	b := box{at: orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}, along: orb.Point{1, 0}}
	if long := distance(p, q); long > 0 {
		b.along, b.w = orb.Point{(q[0] - p[0]) / long, (q[1] - p[1]) / long}, long/2
	}
	return b
}

// put writes words at the place found.
func (c *Canvas) put(p *pending, k *candidate, w, h, size float64) {
	b := k.box(w, h)
	c.placed = append(c.placed, b)
	degrees := math.Atan2(b.along[1], b.along[0]) * 180 / math.Pi
	c.marks.WriteString(p.marks)
	if n := len(k.lead); n > 1 {
		c.marks.WriteString(pathText(straight(k.lead), Measure))
		c.owners++
		for i := 1; i < n; i++ { // words that come later would cover it
			c.strokes = append(c.strokes, stroke{k.lead[i-1], k.lead[i], costTooHigh, c.owners})
		}
		end := k.lead[n-1]
		c.marks.WriteString(`<circle cx="` + num(end[0]) + `" cy="` + num(end[1]) + `" r="1.3" fill="#000"/>`)
	}
	grown := box{b.at, b.along, b.w + 1.5, b.h + 1.5}
	corners := grown.corners()
	c.words.WriteString(`<path d="` + straight(corners[:]) + `z" fill="#fff"/>`)
	for i, line := range p.lines {
		down := -h/2 + capital*size + float64(i)*lineApart*size
		at := orb.Point{b.at[0] - down*b.along[1], b.at[1] + down*b.along[0]}
		c.words.WriteString(textText(at, "middle", line, size, p.heavy, degrees))
	}
}
