package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// Along returns the bank's own stretch of another tidal line, or nil if none is
// mapped along it. The other line is the strand nearest to the bank; what of it
// runs along another shore does not count.
func (b *Bank) Along(fp *Footprint, lines *Lines) *Bank {
	chains := lines.chains()
	trends := lines.trends(chains)
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
		if !b.leads(fp, own, f, trends[f.seg]) || b.Others.Nearest(f.At).Distance < b.Lines.Nearest(f.At).Distance {
			continue // it runs along another shore
		}
		if f.Distance >= least {
			continue
		}
		var others []otherBank
		least = f.Distance
		if best, others = banksOf(fp, lines, chains, c, f, trends); len(others) == 0 {
			continue
		}
		reach := fp.FarthestUnsigned(best.Lines).Distance
		for _, o := range others {
			if !b.runsAlong(lines.Nearest(o.foot), trends) {
				continue
			}
			if r := fp.FarthestUnsigned(o.wall).Distance; r < reach {
				best, reach = o.Bank, r
			}
		}
	}
	if best == nil || best.Lines.Empty() {
		return nil
	}
	best.trend = b.trend
	return best
}

// squareCos is the cosine of 75 degrees: whether what runs at more to the shore leads with
// or against it may be told by rounding alone.
const squareCos = 0.25

// leads reports whether another line that has a foot near that of the structure, and a
// trend there, leads the way of the bank. Where the structure's foot is on the side of a
// groin or at a corner, square to the line, it may not lead against the bank before most
// of the structure. Nor may land lie between the line and more than half of that.
func (b *Bank) leads(fp *Footprint, line *Lines, f Foot, t orb.Point) bool {
	here, most := t[0]*b.trend[0]+t[1]*b.trend[1], t[0]*b.along[0]+t[1]*b.along[1]
	switch {
	case here < -squareCos, here <= squareCos && most < -squareCos:
		return false
	case here > squareCos && !b.landBefore(b.foot, f.At):
		return true
	}
	clear, cut := 0, 0
	for i := range fp.Elements {
		fp.Elements[i].eachVertex(func(from orb.Point) {
			if b.landBefore(from, line.Nearest(from).At) {
				cut++
			} else {
				clear++
			}
		})
	}
	return clear >= cut
}

// landBefore reports whether the way to a place on the water leads over land.
func (b *Bank) landBefore(from, to orb.Point) bool {
	signed, _ := b.all.Signed(to)
	return signed > 0 && b.LandBetween(from, to)
}

// runsAlong reports whether another line runs along this bank at a place of it, and
// along no other shore.
func (b *Bank) runsAlong(f Foot, trends []orb.Point) bool {
	near := b.Lines.Nearest(f.At)
	here, t := b.trends[near.seg], trends[f.seg]
	return t[0]*here[0]+t[1]*here[1] >= 0 && b.Others.Nearest(f.At).Distance >= near.Distance
}

// Beside keeps of other lines what belongs to this shore: what lies nearer to the
// bank than to another shore, and not across from it where the bank runs the
// other way.
func (b *Bank) Beside(lines *Lines) *Lines {
	return lines.where(func(_ int32, s *segment) bool {
		f := b.Lines.Nearest(middle(s.a, s.b))
		t := b.trends[f.seg]
		// The foot may lie on the side of a groin, square to the shore.
		with := t[0]*b.trend[0]+t[1]*b.trend[1] >= 0 || t[0]*b.along[0]+t[1]*b.along[1] >= 0
		return with && f.Distance <= b.Others.Nearest(middle(s.a, s.b)).Distance
	})
}

// Facing is the bank with all of its lines that run along a stretch of a shore, and
// nothing of them that runs back on the other side of the water: past the head of a
// canal a line goes on as the far bank.
func (b *Bank) Facing(stretch *Lines, shore *Bank) *Bank {
	strands := map[int32]bool{}
	for _, k := range b.Lines.use {
		strands[b.Lines.segs[k].strand] = true
	}
	own := *b
	own.stationed = nil
	own.Lines = b.all.where(func(k int32, s *segment) bool {
		at := stretch.Nearest(middle(s.a, s.b)).At
		t, here := b.trends[k], shore.trends[shore.Lines.Nearest(at).seg]
		return strands[s.strand] && t[0]*here[0]+t[1]*here[1] > turnedBack
	})
	return &own
}
