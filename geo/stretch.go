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

// turnedBack is the cosine of 120 degrees: shore of the same line that has turned by
// more runs back across the water; about square to it runs the side of a corner.
const turnedBack = -0.5

// besideCos is the cosine of 60 degrees: what of a bank runs at more to a direction does
// not run along it.
const besideCos = 0.5

// headCos is the cosine of about 101 degrees: shore of the same line that has turned by
// more is another bank, by less the head of a canal or the side of a slip.
const headCos = -0.2

// WidthAcross returns how wide the water is across the site: the least distance
// from the stretches to another shore, square to the trend of the bank or to that of
// a stretch (see trendsOf), of what of them runs along that. +Inf if no other shore is
// near. Shore of the bank itself counts if it runs the other way and lies beyond
// reach, how far the structure reaches.
func (b *Bank) WidthAcross(occupied []Stretch, reach float64) Reach {
	best := Reach{Distance: math.Inf(1)}
	for _, along := range b.trendsOf(occupied) {
		if r := b.widthSquareTo(along, occupied, reach); r.Distance < best.Distance {
			best = r
		}
	}
	return best
}

// trendsOf returns the trend of the bank at the foot and before most of the structure,
// as the foot may lie on a groin or on the head of a canal, and the direction of each
// stretch: its chord or, where it turns a corner, which a chord cuts, that of both ends.
func (b *Bank) trendsOf(occupied []Stretch) []orb.Point {
	out := []orb.Point{b.trend, b.along}
	for _, s := range occupied {
		last := len(s.Points) - 1
		p, q := s.Points[0], s.Points[last]
		d := distance(p, q)
		if d == 0 {
			continue
		}
		first, end := b.trendBy(middle(p, s.Points[1])), b.trendBy(middle(s.Points[last-1], q))
		if first[0]*end[0]+first[1]*end[1] < besideCos {
			out = append(out, first, end)
		} else {
			out = append(out, orb.Point{(q[0] - p[0]) / d, (q[1] - p[1]) / d})
		}
	}
	return out
}

// trendBy is the trend of the bank where it is nearest to a point.
func (b *Bank) trendBy(p orb.Point) orb.Point { return b.trends[b.Lines.Nearest(p).seg] }

func (b *Bank) widthSquareTo(along orb.Point, occupied []Stretch, reach float64) Reach {
	best := Reach{Distance: math.Inf(1)}
	out := orb.Point{-along[1], along[0]} // waterward
	// turned gives a point's place along the bank and how far out it lies.
	turned := func(p orb.Point) (float64, float64) {
		return p[0]*along[0] + p[1]*along[1], p[0]*out[0] + p[1]*out[1]
	}
	towards := func(k int32) float64 { return b.trends[k][0]*along[0] + b.trends[k][1]*along[1] }
	own := map[int32]bool{}
	for _, k := range b.Lines.use {
		own[b.all.segs[k].strand] = true
	}
	for _, s := range occupied {
		for i := 1; i < len(s.Points); i++ {
			p, q := s.Points[i-1], s.Points[i]
			if long := distance(p, q); long > touching && (q[0]-p[0])*along[0]+(q[1]-p[1])*along[1] < besideCos*long &&
				towards(b.Lines.Nearest(middle(p, q)).seg) < besideCos {
				continue // it runs across, by itself and by the trend: the head of a canal, seen along its wall
			}
			p0, _ := turned(p)
			q0, _ := turned(q)
			for _, k := range b.all.use {
				g := &b.all.segs[k]
				if t := towards(k); b.in[k] && t > turnedBack || own[g.strand] && t > headCos {
					continue
				}
				a0, _ := turned(g.a)
				b0, _ := turned(g.b)
				// Both edges are straight, so the width between them is least
				// at an end of the place they share along the bank.
				from := math.Max(math.Min(p0, q0), math.Min(a0, b0))
				to := math.Min(math.Max(p0, q0), math.Max(a0, b0))
				if from > to {
					continue
				}
				for _, place := range [2]float64{from, to} {
					near, far := atPlace(p, q, p0, q0, place), atPlace(g.a, g.b, a0, b0, place)
					_, near0 := turned(near)
					_, far0 := turned(far)
					if width := far0 - near0; width > touching && width < best.Distance && (!b.in[k] || width >= reach) {
						best = Reach{width, near, Foot{Distance: width, At: far, seg: k}}
					}
				}
			}
		}
	}
	return best
}

// atPlace returns the point of an edge whose ends have the places given.
func atPlace(a, b orb.Point, placeA, placeB, place float64) orb.Point {
	if placeA == placeB {
		return a
	}
	t := (place - placeA) / (placeB - placeA)
	return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}

// TrendAt returns the general direction of the bank at a point of it, the water on
// its left: that of the chord between the places so far, in metres along the
// bank, to either side, or where it ends.
func (b *Bank) TrendAt(at orb.Point, span float64) orb.Point {
	s := b.stations()
	f := b.Lines.Nearest(at)
	place := s.place[f.seg]
	base := s.bases[place[0]]
	station := base.Station(place[1], f.t)
	from, to := base.At(math.Max(0, station-span)), base.At(math.Min(base.Length(), station+span))
	d := distance(from, to)
	if d == 0 { // a ring shorter than the span
		return b.trend
	}
	return orb.Point{(to[0] - from[0]) / d, (to[1] - from[1]) / d}
}
