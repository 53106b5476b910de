package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// WidthAcross returns the width of the water across the site: the least straight way from
// a foot on the home bank out through part of the structure on to the next shore, and on
// to the next shore or rock. Feet on land narrower than 10 ft do not ask; if all are,
// those on the shore without it do. +Inf if no other shore is near.
func (b *Bank) WidthAcross() (shore, rock Reach) {
	f := b.feetOn()
	narrow, g := f.allNarrow(b.all), b.generally()
	if narrow == nil {
		narrow = make([][]extent, len(f.chains))
	}
	shore, asked := f.widthTo(b.shores(), narrow)
	if !asked && g != nil {
		f, narrow = g.feetOn(), make([][]extent, len(g.feetOn().chains))
		shore, _ = f.widthTo(g.shores(), narrow)
	}
	if rock = shore; !b.Rocks.Empty() {
		rock, _ = f.widthTo(b.all, narrow)
	}
	return shore, rock
}

// shores are the bank and other shore, but no rocks.
func (b *Bank) shores() *Lines {
	out := &Lines{layer: b.Lines.layer, segs: b.Lines.segs, use: slices.Clone(b.Lines.use)}
	for _, k := range b.Others.use { // the segments of the bank begin with theirs
		if !slices.Contains(b.Rocks.use, k) {
			out.use = append(out.use, k)
		}
	}
	return out
}

// WidthBefore is the width of the water across a stretch of the bank that is no structure:
// the footprint is a line along it. It is that of a structure so far off the shore along
// all of it, or nearer where the water is too narrow for that: to the next shore, and on to
// the next shore or rock. +Inf if no other shore is near.
func (b *Bank) WidthBefore(away float64) (shore, rock Reach) {
	front := b.feetOn()
	for ; away > walkLeast; away /= 2 {
		lines := LimitLines(b.Lines, away, WaterSide, b.fp.Bound.Pad(2*away))
		if len(lines) == 0 {
			continue
		}
		f := feetOf(b.Lines, alone(Element{Lines: lines}).Elements, nil)
		narrow := f.allNarrow(b.all)
		if narrow == nil {
			narrow = make([][]extent, len(f.chains))
		}
		f.only(front)
		rock, asked := f.widthTo(b.all, narrow)
		if !asked {
			continue
		}
		if shore = rock; !b.Rocks.Empty() {
			shore, _ = f.widthTo(b.shores(), narrow)
		}
		return shore, rock
	}
	return b.WidthAcross()
}

// only keeps the feet that are others' too.
func (f *feet) only(others *feet) {
	for c, all := range f.spans {
		var kept []extent
		for _, s := range all {
			for _, o := range others.spans[c] {
				if p := (extent{max(s.from, o.from), min(s.to, o.to)}); p.from <= p.to {
					kept = append(kept, p)
				}
			}
		}
		f.spans[c] = kept
	}
	for corner, places := range f.fans {
		at := f.station(places[0].foot)
		if !meetsAny(others.spans[f.of[places[0].foot.seg]], at-jumpWithin, at+jumpWithin) {
			delete(f.fans, corner)
		}
	}
}

// widthTo is the least way straight out from the feet to other shore, and whether any
// foot was asked: square to the line between its corners, from a corner as far round as
// the structure lies.
func (f *feet) widthTo(shores *Lines, narrow [][]extent) (Reach, bool) {
	best, asked := Reach{Distance: math.Inf(1)}, false
	for c := range f.chains {
		for _, s := range f.spans[c] {
			for _, k := range f.chains[c].segs {
				g := &f.lines.segs[k]
				long := flat.Distance(g.a, g.b)
				for _, from := range f.stations.on(c, k, []extent{s}) {
					if off(narrow[c], from.from, from.to, f.length[c]) {
						asked = true
						f.squareTo(k, flat.At(g.a, g.b, 0, long, from.from-f.start[k]), flat.At(g.a, g.b, 0, long, from.to-f.start[k]), shores, &best)
					}
				}
			}
		}
	}
	for corner, places := range f.fans {
		first := places[0].foot
		c := f.of[first.seg]
		at := f.station(first)
		if !off(narrow[c], at, at, f.length[c]) {
			continue
		}
		asked = true
		fanTo(corner, places, shores, &best)
	}
	return best, asked
}

// off reports whether a piece of a chain lies on none of some pieces.
func off(pieces []extent, from, to, length float64) bool {
	for _, p := range pieces {
		for _, lap := range [2]float64{0, length} {
			if from >= p.from-lap-jumpWithin && to <= p.to-lap+jumpWithin && to > p.from-lap && from < p.to-lap {
				return false
			}
		}
	}
	return true
}

// squareTo looks square out from a piece of a segment.
func (f *feet) squareTo(k int32, p, q orb.Point, shores *Lines, best *Reach) {
	n := flat.LeftNormal(f.lines.segs[k].a, f.lines.segs[k].b, 1)
	along := orb.Point{n[1], -n[0]}
	from, to := flat.Dot(p, along), flat.Dot(q, along)
	if from > to {
		from, to = to, from
	}
	base := flat.Dot(p, n)
	for _, o := range shores.use {
		g := &shores.segs[o]
		a, b := flat.Dot(g.a, along), flat.Dot(g.b, along)
		low, high := max(from, min(a, b)), min(to, max(a, b))
		if low > high {
			continue
		}
		if math.Abs(a-b) <= jumpWithin {
			continue // it runs straight out: what it leads to counts
		}
		ends := [2]orb.Point{flat.At(g.a, g.b, a, b, low), flat.At(g.a, g.b, a, b, high)}
		wide := [2]float64{flat.Dot(ends[0], n) - base, flat.Dot(ends[1], n) - base}
		nearer := 0
		if wide[1] < wide[0] {
			nearer = 1
		}
		if wide[1-nearer] <= onLine || wide[nearer] >= best.Distance {
			continue
		}
		// Shore that leans over its own corner leaves no width there.
		width, far := max(0, wide[nearer]), ends[nearer]
		t := flat.Dot(far, along) - flat.Dot(p, along)
		*best = Reach{width, orb.Point{p[0] + t*along[0], p[1] + t*along[1]}, Foot{Distance: width, At: far, seg: o}}
	}
}

// fanTo looks out from a corner between the outermost ways through places of the
// structure from which the corner is the nearest shore.
func fanTo(corner orb.Point, places []pace, shores *Lines, best *Reach) {
	way := func(p orb.Point) orb.Point { return flat.Way(corner, p) }
	side := func(a, b orb.Point) float64 { return a[0]*b[1] - a[1]*b[0] }
	right, left := way(places[0].at), way(places[0].at)
	for _, p := range places[1:] {
		if w := way(p.at); side(left, w) > 0 && flat.Dot(left, w) > -math.Abs(side(left, w)) {
			left = w
		} else if side(right, w) < 0 {
			right = w
		}
	}
	within := func(p orb.Point) bool {
		w := way(p)
		return side(right, w) >= 0 && side(w, left) >= 0 && flat.Dot(w, left)+flat.Dot(w, right) > 0
	}
	take := func(p orb.Point, o int32) {
		if d := flat.Distance(p, corner); d > onLine && d < best.Distance {
			*best = Reach{d, corner, Foot{Distance: d, At: p, seg: o}}
		}
	}
	for _, o := range shores.use {
		g := &shores.segs[o]
		if near, _ := flat.Project(g.a, g.b, corner); flat.Distance(near, corner) >= best.Distance {
			continue
		} else if within(near) {
			take(near, o)
			continue
		}
		for _, p := range [2]orb.Point{g.a, g.b} {
			if within(p) {
				take(p, o)
			}
		}
		for _, w := range [2]orb.Point{left, right} {
			a, b := side(w, way(g.a)), side(w, way(g.b))
			if a == b || a > 0 == (b > 0) {
				continue
			}
			if p := flat.At(g.a, g.b, a, b, 0); flat.Dot(way(p), w) > 0 {
				take(p, o)
			}
		}
	}
}
