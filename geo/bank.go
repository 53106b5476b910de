package geo

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"
)

const (
	// trendDetail is the size, in metres, below which a wiggle of the shore
	// does not change its trend: about 10 ft, less than the narrowest canal
	// and more than the roughness of a mapped line.
	trendDetail = 3.0
	// sameBankCos is the cosine of the greatest turn, 120 degrees, between the
	// trend of the shore at the proposal and of shore that still counts as the
	// same bank. The far bank of a canal is turned by 180, a square corner of
	// the shore by 90.
	sameBankCos = -0.5
)

// Bank is the stretch of a tidal line that a proposal faces: its home bank.
type Bank struct {
	Lines  *Lines // the bank
	Others *Lines // other shores near the site
	Island bool   // the bank is that of a closed line

	foot  orb.Point // where the bank is nearest to the proposal
	trend orb.Point // unit vector along the bank there, water on the left
	chain chain
}

// chain is a string of neighbouring segments.
type chain struct {
	segs []int32
	loop bool
}

// HomeBank returns the bank of lines, faced to the water, that the footprint
// faces, or nil if there are no lines. Of several shores near it, the home bank
// is the one within whose reach all of the footprint lies soonest: the far bank
// of a canal, or an islet off the structure, may be nearer to its toe and is
// still not the shore it belongs to.
func HomeBank(fp *Footprint, lines *Lines) *Bank {
	type candidate struct {
		chain chain
		near  Reach
	}
	chains, trends := lines.chains()
	var all []candidate
	for _, c := range chains {
		all = append(all, candidate{c, fp.Nearest(&Lines{layer: lines.layer, segs: lines.segs, use: c.segs})})
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].near.Distance < all[j].near.Distance })
	var home *Bank
	least := math.Inf(1)
	for _, c := range all {
		if c.near.Distance >= least {
			break
		}
		b := newBank(fp, lines, c.chain, c.near.Foot.At, trends[c.near.Foot.seg], trends)
		if reach := fp.FarthestUnsigned(b.Lines).Distance; reach < least {
			home, least = b, reach
		}
	}
	return home
}

// Along returns the bank's own stretch of another tidal line, or nil if none is
// mapped along it. The other line is the strand nearest to the bank; what of it
// runs along another shore does not count.
func (b *Bank) Along(fp *Footprint, lines *Lines) *Bank {
	chains, trends := lines.chains()
	var best *Bank
	least := math.Inf(1)
	for _, c := range chains {
		own := &Lines{layer: lines.layer, segs: lines.segs, use: c.segs}
		if lines.segs[c.segs[0]].ring && !b.Island {
			continue
		}
		f := own.Nearest(b.foot)
		if own.pastEnd(b.foot, f) {
			continue // mapped elsewhere, and not along this bank
		}
		if f.Distance < least {
			least = f.Distance
			best = newBank(fp, lines, c, f.At, b.trend, trends)
		}
	}
	if best == nil || best.Lines.Empty() {
		return nil
	}
	return best
}

// newBank parts the lines into the bank at foot and other shores. Shore that
// runs the other way, and islands, are other shores; so is what lies hidden
// behind them, such as the outer shore of a spit across the water.
func newBank(fp *Footprint, lines *Lines, home chain, foot, trend orb.Point, trends map[int32]orb.Point) *Bank {
	first := &lines.segs[home.segs[0]]
	facing := func(k int32, s *segment) bool {
		if (s.ring || first.ring) && s.strand != first.strand {
			return false
		}
		t := trends[k]
		return t[0]*trend[0]+t[1]*trend[1] >= sameBankCos
	}
	others := lines.where(func(k int32, s *segment) bool { return !facing(k, s) })
	// An islet stands before the bank without taking it away.
	open := others.where(func(_ int32, s *segment) bool { return !s.ring })
	bank := lines.where(func(k int32, s *segment) bool {
		return facing(k, s) && (open.Empty() || !open.crossed(fp.nearestPair(s)))
	})
	if len(bank.use)+len(others.use) < len(lines.use) {
		in := make(map[int32]bool, len(bank.use))
		for _, k := range bank.use {
			in[k] = true
		}
		others = lines.where(func(k int32, _ *segment) bool { return !in[k] })
	}
	return &Bank{Lines: bank, Others: others, Island: first.ring, foot: foot, trend: trend, chain: home}
}

// nearestPair returns the points at which a footprint and a segment are nearest
// to each other.
func (fp *Footprint) nearestPair(s *segment) (orb.Point, orb.Point) {
	best := math.Inf(1)
	var from, to orb.Point
	for i := range fp.Elements {
		fp.Elements[i].outline(func(a, b orb.Point) {
			if w, p, q := betweenSegments(a, b, s.a, s.b); w < best {
				best, from, to = w, p, q
			}
		})
	}
	return from, to
}

// crossed reports whether the way between two points crosses the lines.
func (l *Lines) crossed(from, to orb.Point) bool {
	for _, k := range l.use {
		s := &l.segs[k]
		if (cross(from, to, s.a) > 0) != (cross(from, to, s.b) > 0) &&
			(cross(s.a, s.b, from) > 0) != (cross(s.a, s.b, to) > 0) {
			return true
		}
	}
	return false
}

// chains returns the strings of neighbouring segments in use and the trend of
// the shore at each segment: the direction of the simplified line there.
func (l *Lines) chains() ([]chain, map[int32]orb.Point) {
	in := make(map[int32]bool, len(l.use))
	for _, k := range l.use {
		in[k] = true
	}
	seen := make(map[int32]bool, len(l.use))
	trends := make(map[int32]orb.Point, len(l.use))
	var out []chain
	follow := func(start int32) {
		c := chain{}
		k := start
		for k >= 0 && in[k] && !seen[k] {
			seen[k] = true
			c.segs = append(c.segs, k)
			k = l.segs[k].next
		}
		c.loop = k == start
		out = append(out, c)
		l.trends(c, trends)
	}
	for _, k := range l.use {
		if p := l.segs[k].prev; p < 0 || !in[p] {
			follow(k)
		}
	}
	for _, k := range l.use {
		if !seen[k] {
			follow(k)
		}
	}
	return out, trends
}

func (l *Lines) points(c chain) []orb.Point {
	out := make([]orb.Point, 0, len(c.segs)+1)
	for _, k := range c.segs {
		out = append(out, l.segs[k].a)
	}
	return append(out, l.segs[c.segs[len(c.segs)-1]].b)
}

func (l *Lines) trends(c chain, into map[int32]orb.Point) {
	points := l.points(c)
	// Simplifying works in place, so it is given a copy.
	kept := simplify.DouglasPeucker(trendDetail).LineString(append(orb.LineString{}, points...))
	i := 0
	for j := 1; j < len(kept); j++ {
		from, to := kept[j-1], kept[j]
		length := distance(from, to)
		for i < len(c.segs) {
			s := &l.segs[c.segs[i]]
			if length > 0 {
				into[c.segs[i]] = orb.Point{(to[0] - from[0]) / length, (to[1] - from[1]) / length}
			} else { // a ring smaller than the detail: each segment for itself
				d := distance(s.a, s.b)
				into[c.segs[i]] = orb.Point{(s.b[0] - s.a[0]) / d, (s.b[1] - s.a[1]) / d}
			}
			i++
			if points[i] == to && (j+1 < len(kept) || i == len(c.segs)) {
				break
			}
		}
	}
}

// EndsShort reports whether part of the footprint lies past the end of the
// mapped bank: how far it is from the shore there, and on which side, nobody
// can say.
func (b *Bank) EndsShort(fp *Footprint) bool {
	short := false
	for i := range fp.Elements {
		fp.Elements[i].eachVertex(func(p orb.Point) {
			short = short || b.Lines.pastEnd(p, b.Lines.Nearest(p))
		})
	}
	return short
}

// OtherShoreNearer returns the other shore's reach if it is nearer than the
// home bank to some part of the footprint.
func (b *Bank) OtherShoreNearer(fp *Footprint) (Reach, bool) {
	if b.Others.Empty() {
		return Reach{}, false
	}
	other := fp.Nearest(b.Others)
	if b.Lines.Nearest(other.At).Distance > other.Distance {
		return other, true
	}
	found := false
	for i := range fp.Elements {
		fp.Elements[i].eachVertex(func(p orb.Point) {
			found = found || b.Others.Nearest(p).Distance < b.Lines.Nearest(p).Distance
		})
	}
	return other, found
}

// Stretch is a piece of a bank between two stations.
type Stretch struct {
	Points []orb.Point
	Length float64 // metres along the bank
}

// Occupied returns the stretches of the bank between the extreme feet of the
// footprint's vertices, one for each separately mapped line of the bank.
func (b *Bank) Occupied(fp *Footprint) []Stretch {
	type extent struct{ from, to float64 }
	chains, _ := b.Lines.chains()
	place := map[int32][2]int{} // segment -> chain and edge
	bases := make([]Baseline, len(chains))
	for i, c := range chains {
		if c.loop {
			c.segs = openOpposite(c.segs, b.Lines.Nearest(b.foot).seg)
		}
		bases[i] = NewBaseline(b.Lines.points(c))
		for edge, k := range c.segs {
			place[k] = [2]int{i, edge}
		}
	}
	extents := map[int]extent{}
	for i := range fp.Elements {
		visit := func(p orb.Point) {
			f := b.Lines.Nearest(p)
			at := place[f.seg]
			station := bases[at[0]].Station(at[1], f.t)
			e, ok := extents[at[0]]
			if !ok {
				e = extent{station, station}
			}
			extents[at[0]] = extent{math.Min(e.from, station), math.Max(e.to, station)}
		}
		fp.Elements[i].outline(func(p, q orb.Point) {
			n := 1.0
			if len(chains) > 1 { // an edge can run from one line past the end of another
				n = math.Max(1, math.Ceil(distance(p, q)))
			}
			for k := 0.0; k <= n; k++ {
				visit(orb.Point{p[0] + k/n*(q[0]-p[0]), p[1] + k/n*(q[1]-p[1])})
			}
		})
	}
	var out []Stretch
	for i := range chains {
		if e, ok := extents[i]; ok {
			out = append(out, Stretch{bases[i].Between(e.from, e.to), e.to - e.from})
		}
	}
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

// WidthAcross returns how wide the water is across the site: the least distance
// from the stretches to another shore, square to the trend of the bank. +Inf if
// no other shore is near.
func (b *Bank) WidthAcross(occupied []Stretch) Reach {
	best := Reach{Distance: math.Inf(1)}
	along := b.trend
	out := orb.Point{-along[1], along[0]} // waterward
	// turned gives a point's place along the bank and how far out it lies.
	turned := func(p orb.Point) (float64, float64) {
		return p[0]*along[0] + p[1]*along[1], p[0]*out[0] + p[1]*out[1]
	}
	for _, s := range occupied {
		for i := 1; i < len(s.Points); i++ {
			p, q := s.Points[i-1], s.Points[i]
			p0, _ := turned(p)
			q0, _ := turned(q)
			for _, k := range b.Others.use {
				g := &b.Others.segs[k]
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
					if width := far0 - near0; width > 0 && width < best.Distance {
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
