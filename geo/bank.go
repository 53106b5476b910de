package geo

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
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
