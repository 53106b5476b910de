package geo

import (
	"iter"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/flat"
)

const (
	// boxLength is how many segments in a row share a box: about as many as it pays
	// to look at one by one.
	boxLength = 8
)

// boxed returns a box for each boxLength segments in use, in order.
func (l *Lines) boxed() []flat.Box {
	if n := len(l.use); n > 0 && n <= boxLength {
		return everywhere
	}
	l.once.Do(func() {
		l.boxes = make([]flat.Box, 0, (len(l.use)+boxLength-1)/boxLength)
		for i := 0; i < len(l.use); i += boxLength {
			b := flat.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
			for _, k := range l.inBox(i / boxLength) {
				s := &l.segs[k]
				b.MinX, b.MaxX = min(b.MinX, s.a[0], s.b[0]), max(b.MaxX, s.a[0], s.b[0])
				b.MinY, b.MaxY = min(b.MinY, s.a[1], s.b[1]), max(b.MaxY, s.a[1], s.b[1])
			}
			l.boxes = append(l.boxes, b)
		}
	})
	return l.boxes
}

// inBox is the segments of a box.
func (l *Lines) inBox(i int) []int32 {
	return l.use[i*boxLength : min((i+1)*boxLength, len(l.use))]
}

// meets reports whether the bound of the segment meets another.
func (s *segment) meets(b *flat.Box) bool {
	return min(s.a[0], s.b[0]) <= b.MaxX && max(s.a[0], s.b[0]) >= b.MinX && min(s.a[1], s.b[1]) <= b.MaxY && max(s.a[1], s.b[1]) >= b.MinY
}

// Nearest returns the foot of p on the lines, the first in order of those that are
// equally near.
func (l *Lines) Nearest(p orb.Point) Foot {
	if n := len(l.use); n <= boxLength {
		if n == 0 {
			return Foot{Distance: math.Inf(1), seg: -1}
		}
		best, f := l.scan(l.use, p)
		f.Distance = math.Sqrt(best)
		return f
	}
	// What the nearest box holds bounds what is worth a look in the others.
	boxes := l.boxed()
	box, least := 0, math.Inf(1)
	for i := range boxes {
		if d := boxes[i].Squared(p); d < least {
			box, least = i, d
		}
	}
	nearest := box
	best, f := l.scan(l.inBox(box), p)
	limit := flat.Beyond(best)
	for i := range boxes {
		if i == nearest || boxes[i].Squared(p) > limit {
			continue
		}
		if d, g := l.scan(l.inBox(i), p); d < best || d == best && i < box {
			best, f, box, limit = d, g, i, flat.Beyond(d)
		}
	}
	f.Distance = math.Sqrt(best)
	return f
}

// scan finds the foot of p on some segments, the first of those that are equally near,
// and the square of its distance, which is not yet in the foot. It is where most of the
// time of a run goes, so that project is written out in it.
func (l *Lines) scan(some []int32, p orb.Point) (squared float64, f Foot) {
	squared, f.seg = math.Inf(1), some[0]
	for _, k := range some {
		s := &l.segs[k]
		dx, dy := s.b[0]-s.a[0], s.b[1]-s.a[1]
		at, t := s.a, (p[0]-s.a[0])*dx+(p[1]-s.a[1])*dy
		if length2 := dx*dx + dy*dy; t <= 0 {
			t = 0
		} else if t >= length2 {
			at, t = s.b, 1
		} else {
			t /= length2
			at[0], at[1] = at[0]+t*dx, at[1]+t*dy
		}
		x, y := p[0]-at[0], p[1]-at[1]
		if d := x*x + y*y; d < squared {
			squared, f.At, f.seg, f.t = d, at, k, t
		}
	}
	return squared, f
}

// Within keeps the segments that come within so many metres of a point.
func (l *Lines) Within(centre orb.Point, metres float64) *Lines {
	return l.withinSquared(centre, metres*metres)
}

func (l *Lines) withinSquared(centre orb.Point, squared float64) *Lines {
	out := &Lines{layer: l.layer, segs: l.segs}
	boxes, limit := l.boxed(), flat.Beyond(squared)
	for i := range boxes {
		if boxes[i].Squared(centre) > limit {
			continue
		}
		for _, k := range l.inBox(i) {
			if s := &l.segs[k]; planar.DistanceFromSegmentSquared(s.a, s.b, centre) <= squared {
				out.use = append(out.use, k)
			}
		}
	}
	return out
}

// around keeps the segments that can be nearest to a point of the circle given.
func (l *Lines) around(centre orb.Point, radius float64) *Lines {
	limit := l.Nearest(centre).Distance + 2*radius
	return l.withinSquared(centre, limit*limit*(1+1e-12)+1e-12)
}

// over yields the segments in the boxes that may touch another; most of them do.
func (l *Lines) over(b *flat.Box) iter.Seq2[int32, *segment] {
	return func(yield func(int32, *segment) bool) {
		boxes := l.boxed()
		for i := range boxes {
			if boxes[i].Apart(b) {
				continue
			}
			for _, k := range l.inBox(i) {
				if !yield(k, &l.segs[k]) {
					return
				}
			}
		}
	}
}

// meeting keeps the segments that may meet a bound.
func (l *Lines) meeting(b orb.Bound) *Lines {
	out := &Lines{layer: l.layer, segs: l.segs}
	wanted := flat.BoxOf(b)
	for k, s := range l.over(&wanted) {
		if s.meets(&wanted) {
			out.use = append(out.use, k)
		}
	}
	return out
}

// everywhere stands for the boxes of lines that are too few for one.
var everywhere = []flat.Box{{MinX: math.Inf(-1), MinY: math.Inf(-1), MaxX: math.Inf(1), MaxY: math.Inf(1)}}
