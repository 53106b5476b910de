package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// turnedBack is the cosine of 120 degrees: shore of the same line that has turned by
// more runs back across the water; about square to it runs the side of a corner.
const turnedBack = -0.5

// partedReach is how far round a structure, in metres, it is asked first to which shore
// other lines belong. Twice as far as that is from any place of the structure no line is
// the nearest, nor ends near enough to matter.
const partedReach = 60.0

// generalSpan is how far along a bank to either side, in metres (150 ft), its general
// direction is taken; common practice, no source.
const generalSpan = 150 * metresPerFoot

// Along returns the bank's own stretch of another tidal line, or nil if none is mapped
// all along it: what of that lies nearest to the home bank and not to a shore that faces
// it. From that the structure is measured by the same rule. A closed line, a shoal, is
// none of a shore that is not closed.
func (b *Bank) Along(lines *Lines) *Bank {
	if lines.Empty() {
		return nil
	}
	all := lines.joined()
	var low *Bank
	var rest *Lines
	for reach := partedReach; ; reach *= 4 {
		own, others := b.parted(all, true, reach)
		if own.Empty() {
			return nil
		}
		if far := b.fp.farOff(own); far > reach/2 && !math.IsInf(reach, 1) {
			continue
		}
		low, rest = HomeBank(b.fp, own), others
		if !low.Island || math.IsInf(reach, 1) {
			break
		}
		reach = math.Inf(1) // the mainland may lie anywhere
	}
	low.all = all
	low.Others = &Lines{layer: all.layer, segs: low.Lines.segs, use: append(append([]int32{}, rest.use...), low.Others.use...)}
	if low.Unmapped() || b.mostlyCut(low.Lines) {
		return nil
	}
	return low
}

// Beside keeps of other lines what belongs to this shore: what lies nearest to the home
// bank and not to a shore that faces it.
func (b *Bank) Beside(lines *Lines) *Lines {
	own, _ := b.parted(lines, false, math.Inf(1))
	return own
}

// farOff is no less than how far any place of the footprint lies from lines.
func (fp *Footprint) farOff(lines *Lines) float64 {
	most := 0.0
	for i := range fp.Elements {
		e := &fp.Elements[i]
		most = max(most, lines.Nearest(e.centre).Distance+e.radius)
	}
	return most
}

// parted parts other lines into what belongs to this shore and the rest; open leaves out
// closed lines beside open shore. Of what lies more than reach metres from the structure
// nothing else is asked: it belongs to this shore.
func (b *Bank) parted(lines *Lines, open bool, reach float64) (own, rest *Lines) {
	s := newStations(lines)
	away := make([][]extent, len(s.chains))
	home, others, ways := NewTrail(b.Lines), NewTrail(b.Others), NewTrail(b.Lines)
	centre := b.fp.Bound.Center()
	reach += distance(b.fp.Bound.Min, b.fp.Bound.Max) / 2
	here := func(loop bool, at orb.Point) bool {
		if !(loop && open) && distance(at, centre) > reach {
			return true
		}
		f := home.Nearest(at)
		if !b.Others.Empty() && others.Nearest(at).Distance < f.Distance {
			return false
		}
		return !(loop && open && !b.Lines.segs[f.seg].ring) && !b.faced(f, ways)
	}
	for c, chain := range s.chains {
		at, is := 0.0, here(chain.loop, s.lines.segs[chain.segs[0]].a)
		from := 0.0
		for _, k := range chain.segs {
			g := &s.lines.segs[k]
			long := distance(g.a, g.b)
			n := math.Ceil(long / (2 * walkMost))
			for i := 1.0; i <= n; i++ {
				next := s.start[k] + long*i/n
				nextIs := here(chain.loop, atPlace(g.a, g.b, 0, n, i))
				if nextIs != is {
					low, high := at, next
					for high-low > jumpWithin {
						mid := (low + high) / 2
						if here(chain.loop, atPlace(g.a, g.b, 0, long, mid-s.start[k])) == is {
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
				at, is = next, nextIs
			}
		}
		if !is {
			away[c] = append(away[c], extent{from, s.length[c]})
		}
	}
	return s.without(away)
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

// mostlyCut reports whether the ways from most of the footprint to another line lead over
// land, as past a groin.
func (b *Bank) mostlyCut(line *Lines) bool {
	clear, cut := 0, 0
	for i := range b.fp.Elements {
		look := func(from orb.Point) {
			if to := line.Nearest(from).At; !b.onLand(to) && b.LandBetween(from, to) {
				cut++
			} else {
				clear++
			}
		}
		if e := &b.fp.Elements[i]; e.Discs {
			look(e.centre)
		} else {
			e.eachVertex(look)
		}
	}
	return cut > clear
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
