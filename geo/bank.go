package geo

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Bank is the stretch of a tidal line that a proposal faces: its home bank.
type Bank struct {
	Lines  *Lines // the bank
	Others *Lines // other shores near the site
	Island bool   // the bank is that of a closed line

	foot   orb.Point   // where the bank is nearest to the proposal
	trend  orb.Point   // unit vector along the bank there, water on the left
	along  orb.Point   // the same where most of the proposal has its foot
	all    *Lines      // the bank and the others
	in     []bool      // by segment: whether it is of the bank
	trends []orb.Point // by segment

	stationed *stations // see stations; nil until asked
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
	chains := lines.chains()
	trends := lines.trends(chains)
	var all []candidate
	for _, c := range chains {
		all = append(all, candidate{c, fp.Nearest(&Lines{layer: lines.layer, segs: lines.segs, use: c.segs})})
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(a.near.Distance, b.near.Distance) })
	var home *Bank
	least := math.Inf(1)
	across := 0.0 // no two places of the footprint are farther apart
	for i := range fp.Elements {
		across = math.Max(across, distance(fp.Elements[0].centre, fp.Elements[i].centre)+fp.Elements[i].radius)
	}
	across *= 2
	for i, c := range all {
		if c.near.Distance >= least {
			break
		}
		b, others := banksOf(fp, lines, chains, c.chain, c.near.Foot, trends)
		if i == 0 && len(others) == 0 && (len(all) == 1 || all[1].near.Distance >= c.near.Distance+across) {
			return b // all of it lies within reach of this one sooner
		}
		if reach := fp.FarthestUnsigned(b.Lines).Distance; reach < least {
			home, least = b, reach
		}
		for _, o := range others {
			if reach := fp.FarthestUnsigned(o.wall).Distance; reach < least {
				home, least = o.Bank, reach
			}
		}
	}
	return home
}

// mostBanks is how many other banks are grown along one line: the walls and the head
// of a canal are three.
const mostBanks = 3

// banksOf returns the bank along one line at the foot of the footprint there, and those
// at the feet of other places of it which that one does not reach. The end of a
// structure may be nearer to the head of a canal than the structure is to its own wall.
// What such a bank is worth is the reach of the one wall at that foot: with the shore of
// the first beside it more would be within reach, as from a spit and the wall behind it.
func banksOf(fp *Footprint, lines *Lines, chains []chain, of chain, foot Foot, trends []orb.Point) (first *Bank, others []otherBank) {
	first, g := newBank(fp, lines, chains, of, foot, trends[foot.seg], trends)
	rest := &Lines{layer: lines.layer, segs: lines.segs}
	for _, k := range of.segs {
		if !first.in[k] {
			rest.use = append(rest.use, k)
		}
	}
	if rest.Empty() || rest.Nearest(g.centre).Distance-g.radius > g.greatest+boxSlack {
		return first, nil
	}
	for i := range g.samples {
		f := rest.Nearest(g.samples[i].at)
		if f.Distance >= g.samples[i].distance || len(others) == mostBanks || slices.ContainsFunc(others, func(o otherBank) bool { return o.in[f.seg] }) {
			continue
		}
		o, _ := newBank(fp, lines, chains, of, f, trends[f.seg], trends)
		others = append(others, otherBank{o, o.wallAt(of, f.seg)})
	}
	return first, others
}

// otherBank is a bank with the wall from which it was grown.
type otherBank struct {
	*Bank
	wall *Lines
}

// wallAt is what of the bank runs on from a segment of a chain, both ways, in about its
// direction.
func (b *Bank) wallAt(c chain, start int32) *Lines {
	out := &Lines{layer: b.all.layer, segs: b.all.segs, use: []int32{start}}
	at, n := slices.Index(c.segs, start), len(c.segs)
	for _, step := range [2]int{1, -1} {
		for i := at + step; len(out.use) < n && (c.loop || i >= 0 && i < n); i += step {
			k := c.segs[((i%n)+n)%n]
			if t, s := b.trends[k], b.trends[start]; !b.in[k] || t[0]*s[0]+t[1]*s[1] < besideCos {
				break
			}
			out.use = append(out.use, k)
		}
	}
	return out
}

// newBank parts the lines into the bank at foot and other shores.
func newBank(fp *Footprint, lines *Lines, chains []chain, home chain, foot Foot, trend orb.Point, trends []orb.Point) (*Bank, *growth) {
	g := newGrowth(fp, lines)
	g.from(home, foot.seg)
	island := lines.segs[home.segs[0]].ring
	for _, c := range chains {
		// An islet is a shore of its own.
		if first := &lines.segs[c.segs[0]]; !island && !first.ring && !g.in[c.segs[0]] && !g.holdsStrandOf(home, c) {
			g.take(c)
		}
	}
	keep := func(in bool) *Lines {
		return lines.where(func(k int32, _ *segment) bool { return g.in[k] == in })
	}
	return &Bank{
		Lines: keep(true), Others: keep(false), Island: island, foot: foot.At, trend: trend,
		in: g.in, all: lines, trends: trends, along: g.along(trends, trend),
	}, g
}

// Least returns the least signed distance of the footprint from the bank. Only
// what lies landward of the shore as a whole counts as landward: past the place
// where a bank has been cut off from another shore, its side says nothing.
func (b *Bank) Least(fp *Footprint) Reach {
	if fp.greatest(b.all, rightSide).Distance > 0 {
		return fp.Least(b.Lines)
	}
	return fp.Nearest(b.Lines)
}

// EndsShort reports whether part of the footprint lies past the end of the
// mapped bank: how far it is from the shore there, and on which side, nobody
// can say.
func (b *Bank) EndsShort(fp *Footprint) bool {
	short := false
	for i := range fp.Elements {
		e := &fp.Elements[i]
		near := b.Lines.around(e.centre, e.radius)
		if !near.haveEnd() {
			continue
		}
		e.eachVertex(func(p orb.Point) {
			short = short || near.pastEnd(p, near.Nearest(p))
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
		e := &fp.Elements[i]
		if b.Others.Nearest(e.centre).Distance-e.radius > b.Lines.Nearest(e.centre).Distance+e.radius {
			continue // nowhere on it
		}
		e.eachVertex(func(p orb.Point) {
			found = found || b.Others.Nearest(p).Distance < b.Lines.Nearest(p).Distance
		})
	}
	return other, found
}

// LandBetween reports whether the way from a point of the bank, or of the water, leads over
// land to another: whether it crosses a shore.
func (b *Bank) LandBetween(from, to orb.Point) bool {
	// A little off the shore, so that its own edges are not crossed.
	d := distance(from, to)
	if d <= touching {
		return false
	}
	start := orb.Point{from[0] + touching*(to[0]-from[0])/d, from[1] + touching*(to[1]-from[1])/d}
	if signed, _ := b.all.Signed(start); signed < 0 {
		return true
	}
	way := ringEdge{start, to}
	over := way.rect(0)
	for _, s := range b.all.over(&over) {
		if s.meets(&over) && way.crosses(ringEdge{s.a, s.b}) {
			return true
		}
	}
	return false
}

// Within is the bank with no more of it, and of other shores, than may meet a bound: for
// asking about many places there.
func (b *Bank) Within(bound orb.Bound) *Bank {
	near := *b
	near.stationed = nil
	near.Lines, near.Others, near.all = b.Lines.meeting(bound), b.Others.meeting(bound), b.all.meeting(bound)
	return &near
}
