package geo

import (
	"sync"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Neighbours of a segment that has none.
const (
	freeEnd int32 = -1 // the mapped line ends here
	cutEnd  int32 = -2 // the line goes on outside the window
)

// Lines is what of a layer lies near one site, in the plane: segments that know
// their neighbours. A subset shares its segments with the whole.
type Lines struct {
	layer *Layer // nil for lines made in the plane
	segs  []segment
	use   []int32
	once  sync.Once
	boxes []flat.Box // see boxed; made once, when first asked

	parting sync.Once
	byItem  []ItemLines // see ByItem; made once, when first asked
}

type segment struct {
	a, b           orb.Point
	prev, next     int32
	strand, vertex int32 // edge number vertex of the strand
	ring           bool  // the strand is closed
}

// NewLines returns lines drawn in the plane.
func NewLines(lines ...[]orb.Point) *Lines {
	out := &Lines{}
	for i, line := range lines {
		out.add(line, int32(i), 0, len(line) > 3 && line[0] == line[len(line)-1], len(line)-1)
	}
	return out
}

// add appends the piece of a strand that starts at vertex from. edges is how
// many edges the whole strand has.
func (l *Lines) add(piece []orb.Point, strand, from int32, closed bool, edges int) {
	first := int32(len(l.segs))
	for i := 1; i < len(piece); i++ {
		k := int32(len(l.segs))
		l.segs = append(l.segs, segment{
			a: piece[i-1], b: piece[i], prev: k - 1, next: k + 1,
			strand: strand, vertex: from + int32(i-1), ring: closed,
		})
		l.use = append(l.use, k)
	}
	last := int32(len(l.segs)) - 1
	if last < first {
		return
	}
	starts, ends := from == 0, int(from)+len(piece)-1 == edges
	l.segs[first].prev, l.segs[last].next = cutEnd, cutEnd
	switch {
	case closed && starts && ends:
		l.segs[first].prev, l.segs[last].next = last, first
	case closed && ends: // link the two pieces that meet at the seam
		for k := range l.segs[:first] {
			if s := &l.segs[k]; s.strand == strand && s.vertex == 0 {
				s.prev, l.segs[last].next = last, int32(k)
			}
		}
	case !closed:
		if starts {
			l.segs[first].prev = freeEnd
		}
		if ends {
			l.segs[last].next = freeEnd
		}
	}
}

// Empty reports whether there is nothing to measure to.
func (l *Lines) Empty() bool { return l == nil || len(l.use) == 0 }

// where keeps the segments for which keep is true.
func (l *Lines) where(keep func(int32, *segment) bool) *Lines {
	out := &Lines{layer: l.layer, segs: l.segs}
	for _, k := range l.use {
		if keep(k, &l.segs[k]) {
			out.use = append(out.use, k)
		}
	}
	return out
}

// OnlyItems keeps the segments of the items for which keep is true.
func (l *Lines) OnlyItems(keep func(item int) bool) *Lines {
	return l.where(func(k int32, _ *segment) bool { return keep(l.itemOf(k)) })
}

// ItemLines are the lines of one item.
type ItemLines struct {
	Item int
	*Lines
}

// ByItem parts the lines by the items they belong to, in the order in which those
// come. It is not to be changed.
func (l *Lines) ByItem() []ItemLines {
	l.parting.Do(func() {
		place := map[int]int{}
		for _, k := range l.use {
			item := l.itemOf(k)
			at, seen := place[item]
			if !seen {
				at = len(l.byItem)
				place[item] = at
				l.byItem = append(l.byItem, ItemLines{item, &Lines{layer: l.layer, segs: l.segs}})
			}
			l.byItem[at].use = append(l.byItem[at].use, k)
		}
	})
	return l.byItem
}

func (l *Lines) itemOf(k int32) int {
	if l.layer == nil {
		return int(l.segs[k].strand)
	}
	item, _ := l.layer.itemAt(l.segs[k].strand, l.segs[k].vertex)
	return item
}

// Foot is the nearest point of some lines to a point.
type Foot struct {
	Distance float64 // metres, never negative; +Inf if there are no lines
	At       orb.Point
	seg      int32
	t        float64 // place on the segment, 0..1
}

// Item returns which item of the layer the foot lies on.
func (l *Lines) Item(f Foot) int { return l.itemOf(f.seg) }

func (l *Lines) footOn(seg int32, p orb.Point) Foot {
	s := &l.segs[seg]
	at, t := flat.Project(s.a, s.b, p)
	return Foot{Distance: flat.Distance(p, at), At: at, seg: seg, t: t}
}

// side returns +1 if p lies left of the lines at its foot f, -1 right, 0 on
// them. Where the foot is a vertex the turn decides: at a left turn p is left
// only if it is left of both segments, at a right turn if it is left of either
// (the two-dimensional form of the pseudo-normal of Baerentzen & Aanaes 2005).
func (l *Lines) side(p orb.Point, f Foot) float64 {
	s := &l.segs[f.seg]
	in, out := s, s
	if f.t == 0 && s.prev >= 0 {
		in = &l.segs[s.prev]
	} else if f.t == 1 && s.next >= 0 {
		out = &l.segs[s.next]
	}
	first, second := flat.Cross(in.a, in.b, p), flat.Cross(out.a, out.b, p)
	turn := flat.Cross(in.a, in.b, out.b)
	left := first > 0 || second > 0
	if turn > 0 {
		left = first > 0 && second > 0
	}
	switch {
	case f.Distance == 0 || (first == 0 && second == 0):
		return 0
	case left:
		return 1
	}
	return -1
}

// Signed returns the distance of p from the lines, positive on their left,
// with its foot. Lines faced to the water (see [Lines.FaceWater]) have the
// water on their left.
func (l *Lines) Signed(p orb.Point) (float64, Foot) {
	f := l.Nearest(p)
	if f.seg < 0 {
		return f.Distance, f
	}
	return f.Distance * l.side(p, f), f
}

// pastEnd reports whether p lies beyond the end of a mapped line at its foot,
// where nothing is known of how the line goes on.
func (l *Lines) pastEnd(p orb.Point, f Foot) bool {
	s := &l.segs[f.seg]
	beyond := func(end, before orb.Point) bool {
		return flat.Dot(flat.Way(end, p), flat.Way(before, end)) > 0
	}
	return f.t == 0 && s.prev == freeEnd && beyond(s.a, s.b) || f.t == 1 && s.next == freeEnd && beyond(s.b, s.a)
}

// ends reports whether the foot is the end of a line, mapped or cut.
func (l *Lines) ends(f Foot) bool {
	s := &l.segs[f.seg]
	return f.t == 0 && s.prev < 0 || f.t == 1 && s.next < 0
}

// EndsAt reports whether the foot is the end of a line, beyond which nothing is mapped,
// and which way the line would go on there, as a unit vector.
func (l *Lines) EndsAt(f Foot) (on orb.Point, ends bool) {
	s := &l.segs[f.seg]
	switch {
	case f.t == 0 && s.prev == freeEnd:
		return flat.Direction(s.b, s.a), true
	case f.t == 1 && s.next == freeEnd:
		return flat.Direction(s.a, s.b), true
	}
	return on, false
}

// haveEnd reports whether a mapped line ends among the segments.
func (l *Lines) haveEnd() bool {
	for _, k := range l.use {
		if s := &l.segs[k]; s.prev == freeEnd || s.next == freeEnd {
			return true
		}
	}
	return false
}

// OnRing reports whether the foot lies on a closed line.
func (l *Lines) OnRing(f Foot) bool { return l.segs[f.seg].ring }

// OnEdge reports whether the foot lies between the ends of an edge, so that the way to
// it is square to the line.
func (f Foot) OnEdge() bool { return f.t > 0 && f.t < 1 }

// Chains returns the lines as strings of positions.
func (l *Lines) Chains() [][]orb.Point {
	chains := l.chains()
	var out [][]orb.Point
	for _, c := range chains {
		out = append(out, l.points(c))
	}
	return out
}
