package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// turnedBack is the cosine of 120 degrees: shore of the same line that has turned by
// more runs back across the water; about square to it runs the side of a corner.
const turnedBack = -0.5

// beyondAll is how many times as far off as any place of a structure is from some lines
// they cannot be the nearest to it, nor end near enough to matter.
const beyondAll = 2.0

// besideLeast is how far round a structure, in metres, it is asked at least to which shore
// other lines belong, for limits that are drawn off them there.
const besideLeast = 75.0

// generalSpan is how far along a bank to either side, in metres (150 ft), its general
// direction is taken; common practice, no source.
const generalSpan = 150 * metresPerFoot

// Along returns the bank's own stretch of another tidal line, or nil if none is mapped
// before every foot of the footprint, or the way to it from any of that leads over land:
// what of that lies nearest to the home bank and not to a shore that faces it. From that
// the structure is measured by the same rule. A closed line, a shoal, is none of a shore
// that is not closed.
func (b *Bank) Along(lines *Lines) *Bank {
	if lines.Empty() {
		return nil
	}
	all := lines.joined()
	var low *Bank
	var rest *Lines
	for reach := max(besideLeast, beyondAll*b.fp.farOff(all)); ; {
		own, others, before := b.parted(all, true, reach)
		last := math.IsInf(reach, 1)
		if own.Empty() || last && !b.allAlong(before) {
			return nil
		}
		if far := beyondAll * b.fp.farOff(own); far > reach {
			reach = max(far, 2*reach)
			continue
		}
		low, rest = HomeBank(b.fp, own), others
		if last || !low.Island && b.allAlong(before) {
			break
		}
		reach = math.Inf(1) // the mainland, or what goes on along the bank, may lie anywhere
	}
	low.all = all
	shoals := &Lines{layer: all.layer, segs: low.Lines.segs, use: rest.where(func(_ int32, s *segment) bool { return s.ring }).use}
	low.Rocks = &Lines{layer: all.layer, segs: low.Lines.segs, use: slices.Concat(shoals.use, low.Rocks.use)}
	low.Others = &Lines{layer: all.layer, segs: low.Lines.segs, use: slices.Concat(rest.use, low.Others.use)}
	if low.Unmapped() || !b.reaches(low.Lines) {
		return nil
	}
	return low
}

// allAlong reports whether all feet of the footprint lie on some stretches of the bank.
func (b *Bank) allAlong(before [][]extent) bool {
	f := b.feetOn()
	for c, spans := range f.spans {
		for _, span := range spans {
			at := span.from
			for moved := true; moved && at < span.to-ties; {
				moved = false
				for _, s := range before[c] {
					for _, lap := range f.laps(c) {
						if s.from+lap <= at+ties && s.to+lap > at+ties {
							at, moved = s.to+lap, true
						}
					}
				}
			}
			if at < span.to-ties {
				return false
			}
		}
	}
	return true
}

// Beside keeps of other lines what belongs to this shore: what lies nearest to the home
// bank and not to a shore that faces it.
func (b *Bank) Beside(lines *Lines) *Lines {
	own, _, _ := b.parted(lines, false, math.Inf(1))
	return own
}

// parted parts other lines into what belongs to this shore and the rest; open leaves out
// closed lines beside open shore. Of what lies more than reach metres from the structure
// nothing else is asked: it belongs to this shore. before are the stretches of the bank, by
// chain, before which the former lie: between the extreme feet of each piece.
func (b *Bank) parted(lines *Lines, open bool, reach float64) (own, rest *Lines, before [][]extent) {
	s, bank := newStations(lines), newStations(b.Lines)
	away := make([][]extent, len(s.chains))
	before = make([][]extent, len(bank.chains))
	home, others, ways := NewTrail(b.Lines), NewTrail(b.Others), NewTrail(b.Lines)
	around := rectOf(b.fp.Bound)
	// here reports whether a place belongs to this shore, and on, whether a piece before the
	// bank goes on there: before a rock the line is not measured to and yet does.
	here := func(loop bool, at orb.Point) (f Foot, is, on bool) {
		if !(loop && open) && around.squared(at) > reach*reach {
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
			long := distance(g.a, g.b)
			n := math.Ceil(long / (2 * walkMost))
			for i := 1.0; i <= n; i++ {
				next := s.start[k] + long*i/n
				f, nextIs, on := here(chain.loop, atPlace(g.a, g.b, 0, n, i))
				if nextIs != is {
					low, high := at, next
					for high-low > jumpWithin {
						mid := (low + high) / 2
						f, midIs, on := here(chain.loop, atPlace(g.a, g.b, 0, long, mid-s.start[k]))
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

// faced reports whether a foot on the home bank lies across water from the structure:
// ahead, seen from the nearest place of that, or on shore that has turned to face that
// place's, and beyond the midway line. trail is along the bank.
func (b *Bank) faced(f Foot, trail *Trail) bool {
	from, d := b.fp.nearestTo(f.At)
	if d <= onLine {
		return false
	}
	home := b.Lines.landward(from)
	g := &b.Lines.segs[f.seg]
	ahead := dot(home, orb.Point{f.At[0] - from[0], f.At[1] - from[1]}) < leapCos*d
	if !ahead && dot(leftNormal(g.a, g.b, -1), home) >= roundCos {
		return false
	}
	w := newPacing(b.Lines)
	w.trail = trail
	w.along(from, f.At, func(p, q pace) { _, w.done = b.leapOf(w.trail.Nearest, p, q) })
	return w.done
}

// reaches reports whether some place of the outline lies in the water and from none that
// does the way to another line leads over land, as past a spit. Rocks are no land, nor is
// what lies landward of the shore where the other line does.
func (b *Bank) reaches(line *Lines) bool {
	shores := *b
	shores.all = b.shores()
	wet, over := false, false
	look := func(p pace) {
		if over || shores.onLand(p.at) {
			return
		}
		wet = true
		over = !shores.onLand(p.foot.At) && shores.LandBetween(p.at, p.foot.At)
	}
	for i := range b.fp.Elements {
		w := newPacing(line)
		if e := &b.fp.Elements[i]; e.Discs {
			look(w.to(e.centre))
		} else {
			e.outline(func(p, q orb.Point) {
				w.along(p, q, func(p, q pace) {
					look(p)
					look(q)
					w.done = over
				})
			})
		}
	}
	return wet && !over
}

// Facing is the bank with what of it runs along a stretch of a shore, and nothing that
// runs back on the other side of the water: past the head of a canal a line goes on as
// the far bank.
func (b *Bank) Facing(stretch *Lines, shore *Bank) *Bank {
	trends, of := b.Lines.trends(b.Lines.chains()), shore.Lines.trends(shore.Lines.chains())
	own := *b
	own.feet, own.general, own.sought = nil, nil, false
	own.Lines = b.Lines.where(func(k int32, s *segment) bool {
		at := stretch.Nearest(middle(s.a, s.b)).At
		t, here := trends[k], of[shore.Lines.Nearest(at).seg]
		return t[0]*here[0]+t[1]*here[1] > turnedBack
	})
	return &own
}

// TrendAt returns the general direction of the bank at a point of it, the water on
// its left: that of the chord between the places 150 ft along the bank to either side,
// or where it ends.
func (b *Bank) TrendAt(at orb.Point) orb.Point {
	f := b.feetOn()
	foot := b.Lines.Nearest(at)
	chain, station := int(f.of[foot.seg]), f.station(foot)
	low, high := station-generalSpan, station+generalSpan
	if !f.chains[chain].loop {
		low, high = math.Max(0, low), math.Min(f.length[chain], high)
	}
	from, to := f.at(chain, low), f.at(chain, high)
	if high-low >= f.length[chain] && f.chains[chain].loop || from == to { // a ring shorter than the span
		g := &b.Lines.segs[foot.seg]
		from, to = g.a, g.b
	}
	d := distance(from, to)
	return orb.Point{(to[0] - from[0]) / d, (to[1] - from[1]) / d}
}
