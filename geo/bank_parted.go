package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// parted parts other lines into what belongs to this shore and the rest; open leaves out
// closed lines beside open shore. Of what lies more than reach metres from the structure
// nothing else is asked: it belongs to this shore. before are the stretches of the bank, by
// chain, before which the former lie: between the extreme feet of each piece.
func (b *Bank) parted(lines *Lines, open bool, reach float64) (own, rest *Lines, before [][]extent) {
	s, bank := newStations(lines), newStations(b.Lines)
	away := make([][]extent, len(s.chains))
	before = make([][]extent, len(bank.chains))
	home, others, ways := NewTrail(b.Lines), NewTrail(b.Others), NewTrail(b.Lines)
	around := flat.BoxOf(b.fp.Bound)
	// here reports whether a place belongs to this shore, and on, whether a piece before the
	// bank goes on there: before a rock the line is not measured to and yet does.
	here := func(loop bool, at orb.Point) (f Foot, is, on bool) {
		if !(loop && open) && around.Squared(at) > reach*reach {
			return Foot{}, true, false
		}
		f = home.Nearest(at)
		if !b.Others.Empty() {
			if o := others.Nearest(at); o.Distance < f.Distance {
				return f, false, slices.Contains(b.Rocks.use, o.seg)
			}
		}
		is = !(loop && open && !b.Lines.segs[f.seg].ring) && !b.faced(f, ways)
		return f, is, is
	}
	for c, chain := range s.chains {
		piece := hull{on: bank, out: before}
		f, is, on := here(chain.loop, s.lines.segs[chain.segs[0]].a)
		piece.to(f, is, on)
		at, from := 0.0, 0.0
		for _, k := range chain.segs {
			g := &s.lines.segs[k]
			long := flat.Distance(g.a, g.b)
			n := math.Ceil(long / (2 * walkMost))
			for i := 1.0; i <= n; i++ {
				next := s.start[k] + long*i/n
				f, nextIs, on := here(chain.loop, flat.At(g.a, g.b, 0, n, i))
				if nextIs != is {
					low, high := at, next
					for high-low > jumpWithin {
						mid := (low + high) / 2
						f, midIs, on := here(chain.loop, flat.At(g.a, g.b, 0, long, mid-s.start[k]))
						if midIs {
							piece.to(f, midIs, on)
						}
						if midIs == is {
							low = mid
						} else {
							high = mid
						}
					}
					if is {
						from = high
					} else {
						away[c] = append(away[c], extent{from, high})
					}
				}
				piece.to(f, nextIs, on)
				at, is = next, nextIs
			}
		}
		piece.end()
		if !is {
			away[c] = append(away[c], extent{from, s.length[c]})
		}
	}
	own, rest = s.without(away)
	return own, rest, before
}

// hull gathers the stretches of a bank that hold the feet of the pieces of another line.
type hull struct {
	on    *stations
	out   [][]extent // by chain of the bank
	chain int
	piece extent
	last  float64
	open  bool
}

// to takes in the next foot, if it is one of a piece that goes on.
func (h *hull) to(f Foot, is, on bool) {
	if !on {
		h.end()
		return
	} else if !is {
		return
	}
	chain, at := int(h.on.of[f.seg]), h.on.station(f)
	if !h.open || chain != h.chain {
		h.end()
		h.chain, h.piece, h.open = chain, extent{at, at}, true
	} else if h.on.chains[chain].loop { // the shorter way round
		at += math.Round((h.last-at)/h.on.length[chain]) * h.on.length[chain]
	}
	h.piece, h.last = h.piece.with(at), at
}

func (h *hull) end() {
	if h.open {
		h.out[h.chain] = append(h.out[h.chain], h.piece)
	}
	h.open = false
}
