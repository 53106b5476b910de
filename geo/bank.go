package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// Bank is the shore that a structure belongs to, its home bank: each part of it is
// measured to the nearest mapped shore, and only where it reaches across the midway line
// between two shores that face each other does the side on which more than half of its
// area lies count alone. A closed islet less across than the structure is long is a rock
// and no shore.
type Bank struct {
	Lines  *Lines // the home bank; without another shore near, all that is mapped
	Others *Lines // shore across the midway line, and rocks; may be empty
	Rocks  *Lines // those
	Island bool   // the structure is nearest to a closed line that is no rock
	Islet  bool   // and is no more across than a few lengths of the structure
	Even   bool   // the midway line cuts the structure into equal halves
	Apart  bool   // its pieces stand on both sides of the midway line and none crosses it
	// Tangled says that the structure meets the midway line in too many places to tell to
	// which shore it belongs.
	Tangled bool

	all     *Lines     // every mapped shore
	fp      *Footprint // whose bank it is
	feet    *feet      // of fp on Lines; nil until asked
	general *Bank      // see generally
	sought  bool       // for general
}

// HomeBank returns the bank of lines, faced to the water, that the footprint belongs to,
// or nil if there are no lines. Where they are cut, in which direction and with which
// vertices they are drawn, is of no matter; features that end within 3 ft of one another
// are one line.
func HomeBank(fp *Footprint, lines *Lines) *Bank {
	if lines.Empty() {
		return nil
	}
	b := &Bank{fp: fp, all: lines.joined()}
	b.Lines, b.Rocks = b.all.withoutRocks(fp)
	if b.Rocks == nil {
		b.Rocks = &Lines{layer: b.all.layer, segs: b.all.segs}
	}
	out := b.Rocks
	for range mostTakenOut {
		if !b.leaps() {
			break
		}
		m := b.newMesh(fp)
		if b.Tangled = m.tangled; m.tangled {
			break
		}
		home, away := m.decide()
		if len(away) == 0 {
			break
		}
		s, pieces := m.takeOut(home, away)
		kept, taken := s.without(pieces)
		if taken.Empty() || kept.Empty() {
			break
		}
		// The segments of kept begin with those of what it is kept of.
		b.Lines, b.feet = kept, nil
		out = &Lines{layer: out.layer, segs: kept.segs, use: append(append([]int32{}, out.use...), taken.use...)}
	}
	b.Others = out
	f := fp.Nearest(b.Lines).Foot
	loop := b.Lines.loopAt(f)
	b.Island = loop != nil
	b.Islet = b.Island && widest(loop) <= mainlandLengths*fp.long()
	return b
}

// loopAt are the corners of the closed line a foot lies on, nil if not all of it is here.
func (l *Lines) loopAt(f Foot) []orb.Point {
	if f.seg < 0 || !l.segs[f.seg].ring {
		return nil
	}
	out := []orb.Point{l.segs[f.seg].a}
	for k := l.segs[f.seg].next; k >= 0; k = l.segs[k].next {
		if k == f.seg {
			return out
		}
		out = append(out, l.segs[k].a)
	}
	return nil
}

// leaps walks the outline and the gaps between elements, gathers the feet, and reports
// whether there may be a leap: whether there is one on the way, or one element may have
// one within it.
func (b *Bank) leaps() bool {
	found := false
	var of *pacing
	var ways *compass
	most := 0.0
	for i := range b.fp.Elements {
		most = max(most, b.fp.Elements[i].Area())
	}
	look := func(w *pacing, p, q pace) {
		if found {
			return
		}
		if w != of { // the outline of the next element
			found = ways.wide()
			of, ways = w, newCompass(most)
		}
		if way, ok := q.way(); ok && b.Lines.side(q.at, q.foot) > 0 {
			ways.add(way, q.foot)
		}
		if !found {
			_, found = b.leapOf(w.trail.Nearest, p, q)
		}
	}
	b.feet = feetOf(b.Lines, b.fp.Elements, look)
	found = found || ways.wide()
	if !found && len(b.fp.Elements) > 1 {
		for _, l := range b.fp.Links {
			b.acrossLink(l, func(w *pacing, p, q pace) {
				if !found {
					_, found = b.leapOf(w.trail.Nearest, p, q)
				}
			})
		}
	}
	return found
}

// feetOn are the feet of the footprint on the bank.
func (b *Bank) feetOn() *feet {
	if b.feet == nil {
		b.feet = feetOf(b.Lines, b.fp.Elements, nil)
	}
	return b.feet
}

// plain reports whether the home bank is every mapped shore.
func (b *Bank) plain() bool { return b.Others.Empty() }

// Readings are the ways in which a distance from a tidal line can be taken. Those of
// Distance NaN are the same as High or there is none.
type Readings struct {
	High     Reach // from the home bank, rocks left out
	Low      Reach // from the nearest of any mapped shore
	General  Reach // from the shore without groins and other narrow land
	Mainland Reach // if the home bank is an islet of a few lengths of the structure: from other shore
	OffRocks Reach // if part of it lies on a rock: as if that were none
}

// each takes the readings of a distance.
func (b *Bank) each(take func(lines *Lines) Reach) Readings {
	none := Reach{Distance: math.NaN()}
	out := Readings{High: take(b.Lines), Low: none, General: none, Mainland: none, OffRocks: none}
	if !b.plain() {
		out.Low = take(b.all)
	}
	if b.Islet {
		if main := b.all.where(func(_ int32, s *segment) bool { return !s.ring }); !main.Empty() {
			out.Mainland = take(main)
		}
	}
	return out
}

// Farthest returns the greatest distance of what of the footprint lies in the water, or
// the least signed distance if all of it lies on land.
func (b *Bank) Farthest(fp *Footprint) Readings {
	out := b.each(func(lines *Lines) Reach { return fp.farthestOff(lines, b.all) })
	if g := b.generally(); g != nil {
		out.General = fp.farthestOff(g.Lines, b.all)
	}
	return out
}

// Nearest returns the least signed distance of any part of the footprint. On land it is
// that from the nearest of any mapped shore, of a rock too.
func (b *Bank) Nearest(fp *Footprint) Readings {
	off := func(land *Lines) Readings {
		landward := fp.greatest(land, rightSide)
		landward.Distance = -landward.Distance
		return b.each(func(lines *Lines) Reach {
			if landward.Distance < 0 {
				return landward
			}
			return fp.Nearest(lines)
		})
	}
	out := off(b.all)
	if out.High.Distance < 0 && !b.Rocks.Empty() {
		out.OffRocks = off(b.shores()).High
	}
	return out
}

// LandwardEdge returns the greatest signed distance of the landward edge, as
// [Footprint.landwardEdge] does.
func (b *Bank) LandwardEdge(fp *Footprint) Readings { return b.each(fp.landwardEdge) }

// Lengths are the ways in which a length along the bank can be taken, in metres; NaN is
// the same as Along.
type Lengths struct {
	Along   float64 // between the extreme feet along the home bank
	Across  float64 // where the foot jumps, straight over
	General float64 // along the shore without groins and other narrow land
	Low     float64 // along the nearest of any mapped shore
}

// Length is how much of the bank the footprint occupies.
func (b *Bank) Length() Lengths {
	along, across := b.feetOn().occupied()
	out := Lengths{along, across, math.NaN(), math.NaN()}
	if g := b.generally(); g != nil {
		out.General, _ = g.feetOn().occupied()
	}
	if !b.plain() {
		out.Low, _ = feetOf(b.all, b.fp.Elements, nil).occupied()
	}
	return out
}

// occupied is the length of what lies between the extreme feet on all lines.
func (f *feet) occupied() (along, across float64) {
	for c := range f.chains {
		if whole, over, has := f.whole(c); has {
			along, across = along+whole.to-whole.from, across+over
		}
	}
	return along, across
}

// Occupied returns the stretches of the bank between the extreme feet of the whole
// outline, one for each line of it; of a closed line all but the longest stretch that has
// no foot.
func (b *Bank) Occupied() []Stretch {
	f := b.feetOn()
	var out []Stretch
	for c := range f.chains {
		if whole, _, has := f.whole(c); has {
			out = append(out, Stretch{f.between(c, whole.from, whole.to), whole.to - whole.from})
		}
	}
	return out
}

// OtherShoreNearer returns the reach of shore that is not of the home bank if it is
// nearer than that to some part of the footprint.
func (b *Bank) OtherShoreNearer() (Reach, bool) {
	if b.Others.Empty() {
		return Reach{}, false
	}
	other, found := b.fp.Nearest(b.Others), false
	if b.Lines.Nearest(other.At).Distance > other.Distance {
		return other, true
	}
	for i := range b.fp.Elements {
		b.fp.Elements[i].eachVertex(func(p orb.Point) {
			found = found || b.Others.Nearest(p).Distance < b.Lines.Nearest(p).Distance
		})
	}
	return other, found
}

func meetsAny(all []extent, from, to float64) bool {
	for _, s := range all {
		if s.from <= to && s.to >= from {
			return true
		}
	}
	return false
}

// Within is the bank with no more of it, and of other shores, than may meet a bound: for
// asking about many places there.
func (b *Bank) Within(bound orb.Bound) *Bank {
	near := *b
	near.feet, near.general, near.sought = nil, nil, false
	near.Lines, near.Others, near.Rocks, near.all = b.Lines.meeting(bound), b.Others.meeting(bound), b.Rocks.meeting(bound), b.all.meeting(bound)
	return &near
}
