package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// Stretch is a piece of a bank between two stations.
type Stretch struct {
	Points []orb.Point
	Length float64 // metres along the bank
}

// pieceReach is how near to one another, in metres, the ends of two lines lie
// that map one shore in pieces, and how much of them the samples of an outline,
// a metre apart, can leave out.
const pieceReach = 1.5

// Occupied returns the stretches of the bank between the extreme feet of the
// footprint's vertices, one for each separately mapped line of the bank.
func (b *Bank) Occupied(fp *Footprint) []Stretch {
	s := b.stations()
	extents := s.extents(fp.Elements)
	var out []Stretch
	for i, base := range s.bases {
		if e, ok := extents[i]; ok {
			out = append(out, Stretch{base.Between(e.from, e.to), e.to - e.from})
		}
	}
	return out
}

// stations is a bank with stations along each of its separately mapped lines.
type stations struct {
	lines *Lines
	bases []Baseline
	place map[int32][2]int    // segment -> line and edge
	taken map[*Element]extent // of elements asked for by themselves, on the one line there is
}

// extent is a piece of a line between two stations.
type extent struct{ from, to float64 }

func (b *Bank) stations() *stations {
	if b.stationed != nil {
		return b.stationed
	}
	s := &stations{lines: b.Lines, place: make(map[int32][2]int, len(b.Lines.use)), taken: map[*Element]extent{}}
	b.stationed = s
	chains := b.Lines.chains()
	for i, c := range chains {
		if c.loop {
			c.segs = openOpposite(c.segs, b.Lines.Nearest(b.foot).seg)
		}
		s.bases = append(s.bases, NewBaseline(b.Lines.points(c)))
		for edge, k := range c.segs {
			s.place[k] = [2]int{i, edge}
		}
	}
	return s
}

// extents returns, for each line that any vertex of the elements has its foot
// on, the piece between the extreme feet.
func (s *stations) extents(elements []Element) map[int]extent {
	if len(s.bases) == 1 {
		whole := extent{math.Inf(1), math.Inf(-1)}
		for i := range elements {
			e := s.extent(&elements[i])
			whole = extent{math.Min(whole.from, e.from), math.Max(whole.to, e.to)}
		}
		return map[int]extent{0: whole}
	}
	extents := map[int]extent{}
	for i := range elements {
		near := s.lines.around(elements[i].centre, elements[i].radius)
		visit := func(p orb.Point) {
			f := near.Nearest(p)
			at := s.place[f.seg]
			station := s.bases[at[0]].Station(at[1], f.t)
			e, ok := extents[at[0]]
			if !ok {
				e = extent{station, station}
			}
			extents[at[0]] = extent{math.Min(e.from, station), math.Max(e.to, station)}
		}
		elements[i].eachVertex(visit)
		// An edge can run from one line past the end of another.
		elements[i].outline(func(p, q orb.Point) {
			n := math.Ceil(distance(p, q))
			for k := 1.0; k < n; k++ {
				visit(orb.Point{p[0] + k/n*(q[0]-p[0]), p[1] + k/n*(q[1]-p[1])})
			}
		})
	}
	for i, e := range extents {
		length := s.bases[i].Length()
		for j := range extents {
			if i == j {
				continue
			}
			// The structure runs on from one line to the next: between samples
			// nothing of either is left out.
			if e.from < pieceReach && s.bases[j].endsNear(s.bases[i].At(0)) {
				e.from = 0
			}
			if length-e.to < pieceReach && s.bases[j].endsNear(s.bases[i].At(length)) {
				e.to = length
			}
		}
		extents[i] = e
	}
	return extents
}

// extent returns the piece of the one line between the extreme feet of an element's
// vertices.
func (s *stations) extent(e *Element) extent {
	if known, ok := s.taken[e]; ok {
		return known
	}
	out := extent{math.Inf(1), math.Inf(-1)}
	near := s.lines.around(e.centre, e.radius)
	e.eachVertex(func(p orb.Point) {
		f := near.Nearest(p)
		station := s.bases[0].Station(s.place[f.seg][1], f.t)
		out = extent{math.Min(out.from, station), math.Max(out.to, station)}
	})
	s.taken[e] = out
	return out
}

// openOpposite starts a loop at the place opposite to a segment, so that
// stations near it do not wrap.
func openOpposite(segs []int32, home int32) []int32 {
	for i, k := range segs {
		if k == home {
			start := (i + len(segs)/2) % len(segs)
			return append(append([]int32{}, segs[start:]...), segs[:start]...)
		}
	}
	return segs
}

// atPlace returns the point of an edge whose ends have the places given.
func atPlace(a, b orb.Point, placeA, placeB, place float64) orb.Point {
	if placeA == placeB {
		return a
	}
	t := (place - placeA) / (placeB - placeA)
	return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}

// generalSpan is how far along a bank to either side, in metres (150 ft), its general
// direction is taken; common practice, no source.
const generalSpan = 150 * metresPerFoot

// TrendAt returns the general direction of the bank at a point of it, the water on
// its left: that of the chord between the places 150 ft along the bank to either side,
// or where it ends.
func (b *Bank) TrendAt(at orb.Point) orb.Point {
	s := b.stations()
	f := b.Lines.Nearest(at)
	place := s.place[f.seg]
	base := s.bases[place[0]]
	station := base.Station(place[1], f.t)
	from, to := base.At(math.Max(0, station-generalSpan)), base.At(math.Min(base.Length(), station+generalSpan))
	d := distance(from, to)
	if d == 0 { // a ring shorter than the span
		return b.trend
	}
	return orb.Point{(to[0] - from[0]) / d, (to[1] - from[1]) / d}
}
