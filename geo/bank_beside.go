package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
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
const generalSpan = 150 * crs.MetresPerFoot

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
	low.all, low.Islet = all, low.Island && b.Islet // one answer for both lines
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
	ahead := flat.Dot(home, flat.Way(from, f.At)) < leapCos*d
	if !ahead && flat.Dot(flat.LeftNormal(g.a, g.b, -1), home) >= roundCos {
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
		if signed, _ := shores.all.Signed(p.at); over || signed < -onLine { // a front lies on the shore
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
		at := stretch.Nearest(flat.Middle(s.a, s.b)).At
		t, here := trends[k], of[shore.Lines.Nearest(at).seg]
		return flat.Dot(t, here) > turnedBack
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
	return flat.Direction(from, to)
}
