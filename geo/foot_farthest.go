package geo

import (
	"container/heap"
	"math"
	"sync"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// tolerance is how close branch and bound comes to the greatest distance, in metres:
// 0.00001 ft, a thousandth of what every measure must be right within, so that no
// rounded figure hangs on the way of the search.
const tolerance = 0.00001 * crs.MetresPerFoot

// Reach is an extreme distance of a footprint from some lines, with the two
// witness points between which it is measured.
type Reach struct {
	Distance float64   // metres, signed
	At       orb.Point // on the footprint
	Foot     Foot      // on the lines
}

// sense says which side of the lines counts as positive.
type sense float64

const (
	eitherSide sense = 0
	leftSide   sense = 1
	rightSide  sense = -1
)

// Farthest returns the greatest signed distance of any part of the footprint,
// its inside included, from the lines (positive on their left): a directed
// Hausdorff distance, found within 0.00001 ft below the true value. It is
// negative if all of the footprint lies on their right. The sign is sure where
// the side changes only across the lines: not past their free ends.
func (fp *Footprint) Farthest(lines *Lines) Reach {
	if r := fp.greatest(lines, leftSide); r.Distance > 0 {
		return r
	}
	r := fp.Nearest(lines)
	r.Distance = -r.Distance
	return r
}

// Least returns the least signed distance of any part of the footprint from
// the lines: negative, and as far as it reaches, if some of it lies on their
// right.
func (fp *Footprint) Least(lines *Lines) Reach {
	if r := fp.greatest(lines, rightSide); r.Distance > 0 {
		r.Distance = -r.Distance
		return r
	}
	return fp.Nearest(lines)
}

// FarthestUnsigned is Farthest without regard to sides.
func (fp *Footprint) FarthestUnsigned(lines *Lines) Reach { return fp.greatest(lines, eitherSide) }

// farthestOff is Farthest where other lines tell which side is which.
func (fp *Footprint) farthestOff(lines, sides *Lines) Reach {
	if lines == sides {
		return fp.Farthest(lines)
	}
	if r := fp.greatestOff(lines, sides, leftSide); r.Distance > 0 {
		return r
	}
	r := fp.Nearest(lines)
	r.Distance = -r.Distance
	return r
}

// greatest returns the greatest distance on the side that counts, 0 if nothing
// of the footprint lies there.
func (fp *Footprint) greatest(lines *Lines, side sense) Reach {
	return fp.greatestOff(lines, lines, side)
}

func (fp *Footprint) greatestOff(lines, sides *Lines, side sense) Reach {
	if lines.Empty() {
		return Reach{}
	}
	s := searches.Get().(*search)
	defer searches.Put(s)
	s.side, s.best = side, Reach{}
	for i := range fp.Elements {
		s.over(&fp.Elements[i], lines, sides)
	}
	s.lines, s.sides = nil, nil
	return s.best
}

// search is branch and bound over convex parts. Distance to a segment is convex, so
// over a convex part it is greatest at a corner: any one segment gives a bound, and so
// does the mean of two, which alone settles the ridge midway between two parallel
// shores. The bound by the size of the part alone (distance is 1-Lipschitz) would never
// settle an edge parallel to the shore.
type search struct {
	lines *Lines
	sides *Lines // that tell which side is which; mostly the same
	side  sense
	best  Reach
	queue patches
	away  []float64 // see boundBySegments
	pool  []corner  // see corners
}

// searches are kept for the room that they have made.
var searches = sync.Pool{New: func() any { return &search{} }}

// corner is a point of the footprint; its distance is taken when it is looked at.
type corner struct {
	at     orb.Point
	foot   Foot
	signed float64
	off    float64 // its distance from where sides change
	seen   bool
}

// patch is a convex part still to be searched and a bound on the signed distance of
// all its points.
type patch struct {
	ring  []corner
	bound float64
}

type patches []*patch

func (q patches) Len() int           { return len(q) }
func (q patches) Less(i, j int) bool { return q[i].bound > q[j].bound }
func (q patches) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *patches) Push(x any)        { *q = append(*q, x.(*patch)) }
func (q *patches) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}

// over searches an element for more than what is best so far.
func (s *search) over(e *Element, lines, sides *Lines) {
	if centre, radius, is := e.disc(); is {
		f := lines.Nearest(centre)
		on := f
		if sides != lines {
			on = sides.Nearest(centre)
		}
		// Past the end of a line sides change without a line between.
		wrong := s.side != eitherSide && on.Distance > radius && !sides.ends(on) && sides.side(centre, on)*float64(s.side) < 0
		if wrong || f.Distance+radius <= s.best.Distance+tolerance {
			return
		}
	}
	s.lines, s.queue = lines.around(e.centre, e.radius), s.queue[:0]
	if s.sides = s.lines; sides != lines {
		s.sides = sides.around(e.centre, e.radius)
	}
	if s.lines.Empty() {
		return
	}
	s.pool = s.pool[:0]
	for _, part := range e.parts {
		ring := s.corners(len(part))
		for _, p := range part {
			ring = append(ring, corner{at: p})
		}
		s.push(ring)
	}
	for s.queue.Len() > 0 {
		top := heap.Pop(&s.queue).(*patch)
		if top.bound <= s.best.Distance+tolerance {
			return
		}
		one, other := s.halved(top.ring)
		s.push(one)
		s.push(other)
	}
}

// corners is room for so many, of which many are needed and none for long.
func (s *search) corners(n int) []corner {
	if len(s.pool)+n > cap(s.pool) {
		s.pool = make([]corner, 0, max(n, 2*cap(s.pool), 64))
	}
	from := len(s.pool)
	s.pool = s.pool[:from+n]
	return s.pool[from : from : from+n]
}

func (s *search) push(ring []corner) {
	if bound := s.boundOver(ring); bound > s.best.Distance+tolerance {
		heap.Push(&s.queue, &patch{ring, bound})
	}
}

// look takes the distance of a corner.
func (s *search) look(c *corner) {
	if c.seen {
		return
	}
	c.seen, c.foot = true, s.lines.Nearest(c.at)
	on := c.foot
	if s.sides != s.lines {
		on = s.sides.Nearest(c.at)
	}
	c.signed, c.off = c.foot.Distance, on.Distance
	if s.side != eitherSide {
		c.signed *= float64(s.side) * s.sides.side(c.at, on)
	}
	if c.signed > s.best.Distance {
		s.best = Reach{c.signed, c.at, c.foot}
	}
}

// halved cuts a convex part in two through its middle, square to its longest edge.
func (s *search) halved(ring []corner) (one, other []corner) {
	if len(ring) == 2 { // an edge
		mid := corner{at: flat.Middle(ring[0].at, ring[1].at)}
		return append(s.corners(2), ring[0], mid), append(s.corners(2), mid, ring[1])
	}
	long, along := 0.0, orb.Point{}
	for i := range ring {
		a, b := ring[i].at, ring[(i+1)%len(ring)].at
		if d := flat.Distance(a, b); d > long {
			long, along = d, flat.Way(a, b)
		}
	}
	place := func(c *corner) float64 { return flat.Dot(c.at, along) }
	low, high := math.Inf(1), math.Inf(-1)
	for i := range ring {
		low, high = math.Min(low, place(&ring[i])), math.Max(high, place(&ring[i]))
	}
	cut := (low + high) / 2
	one, other = s.corners(len(ring)+1), s.corners(len(ring)+1)
	for i := range ring {
		a, b := &ring[i], &ring[(i+1)%len(ring)]
		pa, pb := place(a), place(b)
		if pa <= cut {
			one = append(one, *a)
		}
		if pa >= cut {
			other = append(other, *a)
		}
		if pa < cut && pb > cut || pa > cut && pb < cut {
			mid := corner{at: flat.At(a.at, b.at, pa, pb, cut)}
			one, other = append(one, mid), append(other, mid)
		}
	}
	return one, other
}

// Beyond returns how far the footprint reaches across a line that it crosses,
// from the side on which it reaches farther: the lesser of its two reaches. It is 0
// for a line that it does not touch and that does not run between its elements.
func (fp *Footprint) Beyond(line *Lines) Reach {
	if !fp.touches(line) && !fp.PartedBy(line) {
		return Reach{}
	}
	left, right := fp.greatest(line, leftSide), fp.greatest(line, rightSide)
	if left.Distance < right.Distance {
		return left
	}
	return right
}

// PartedBy reports whether any of the lines runs through one of the footprint's openings,
// so that elements stand on either side.
func (fp *Footprint) PartedBy(lines *Lines) bool {
	for _, l := range fp.Links {
		if _, parted := lines.Across(l.From, l.To); parted {
			return true
		}
	}
	return false
}

// Across returns the item of a line that crosses or touches the straight way between two
// places; false if none does.
func (l *Lines) Across(from, to orb.Point) (item int, ok bool) {
	way := flat.Edge{A: from, B: to}
	over := way.Box(0)
	for k, s := range l.over(&over) {
		if s.meets(&over) && flat.Orientation(from, to, s.a)*flat.Orientation(from, to, s.b) <= 0 &&
			flat.Orientation(s.a, s.b, from)*flat.Orientation(s.a, s.b, to) <= 0 {
			return l.itemOf(k), true
		}
	}
	return 0, false
}

// Span returns the least and the greatest signed distance of an area of the plane from
// lines faced to the water, its inside included, as [Footprint.Nearest] and
// [Footprint.Farthest] take them.
func Span(area orb.MultiPolygon, lines *Lines) (least, greatest float64) {
	fp := alone(Element{Areas: area})
	return fp.Nearest(lines).Distance, fp.Farthest(lines).Distance
}
