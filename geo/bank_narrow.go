package geo

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// generally is the bank without land narrower than 10 ft that reaches out more than its
// own width: groins, spurs, slips of the pen. nil if the structure has no foot on any.
func (b *Bank) generally() *Bank {
	if b.sought {
		return b.general
	}
	b.sought = true
	f := b.feetOn()
	if narrow := f.allNarrow(b.all); narrow != nil {
		b.general = &Bank{Lines: f.straightened(narrow), Others: b.Others, Rocks: b.Rocks, all: b.all, fp: b.fp, sought: true}
	}
	return b.general
}

// allNarrow returns the pieces of all lines that go round narrow land, nil if there is no
// foot on any.
func (f *feet) allNarrow(all *Lines) [][]extent {
	maybe := false
	for c := range f.chains {
		maybe = maybe || f.mayBeNarrow(c)
	}
	if !maybe {
		return nil
	}
	touched, out := false, make([][]extent, len(f.chains))
	for c := range f.chains {
		out[c] = f.narrow(c, all)
		for _, n := range out[c] {
			touched = touched || f.touches(c, n)
		}
	}
	if !touched {
		return nil
	}
	return out
}

func (f *feet) touches(chain int, n extent) bool {
	for _, lap := range [2]float64{0, f.length[chain]} {
		if meetsAny(f.spans[chain], n.from-lap+onLine, n.to-lap-onLine) {
			return true
		}
	}
	return false
}

// mayBeNarrow reports whether within 10 ft of any foot the shore of a chain turns by a
// right angle or more: without that there is no narrow land.
func (f *feet) mayBeNarrow(chain int) bool {
	for _, s := range f.spans[chain] {
		first := f.edge(chain, s.from)
		for i := first; i < len(f.chains[chain].segs); i++ {
			k := f.chains[chain].segs[i]
			g := &f.lines.segs[k]
			if f.start[k] > s.to {
				break
			}
			p := f.at(chain, max(s.from, f.start[k]))
			q := f.at(chain, min(s.to, f.start[k]+flat.Distance(g.a, g.b)))
			around := flat.BoxOf(orb.MultiPoint{p, q}.Bound().Pad(narrowLand))
			along := flat.Way(g.a, g.b)
			left, right := along, along // the farthest turned either way
			for o, h := range f.lines.over(&around) {
				if f.of[o] != int32(chain) || !h.meets(&around) {
					continue
				}
				d := flat.Way(h.a, h.b)
				if left[0]*d[1]-left[1]*d[0] > 0 {
					left = d
				} else if right[0]*d[1]-right[1]*d[0] < 0 {
					right = d
				}
				if flat.Dot(d, along) < 0 || flat.Dot(left, right) < 0 {
					return true
				}
			}
		}
	}
	return false
}

// narrow returns the pieces of a chain that go round narrow land, the largest of those
// that lie within one another.
func (f *feet) narrow(chain int, all *Lines) []extent {
	segs := f.chains[chain].segs
	var found []extent
	try := func(from extent, a, b orb.Point) {
		wide := flat.Distance(a, b)
		if wide <= 0 || wide >= narrowLand || from.to-from.from <= 2*wide {
			return
		}
		if signed, _ := all.Signed(flat.Middle(a, b)); signed >= 0 {
			return
		}
		line := f.between(chain, from.from, from.to)
		reach, area := 0.0, 0.0
		for i := 1; i < len(line); i++ {
			on, _ := flat.Project(a, b, line[i])
			reach = max(reach, flat.Distance(on, line[i]))
			area += flat.Cross(a, line[i-1], line[i]) / 2
		}
		// Land beyond an isthmus may be wide.
		if area < 0 && reach > wide && -area < reach*narrowLand {
			found = append(found, from)
		}
	}
	for i, k := range segs {
		a := f.lines.segs[k].a
		if before := f.lines.segs[k].prev; before >= 0 && f.of[before] == int32(chain) {
			p, q := f.lines.segs[before].a, f.lines.segs[k].b
			if math.Abs(flat.Cross(p, q, a)) <= jumpWithin*flat.Distance(p, q) && flat.Dot(flat.Way(p, a), flat.Way(a, q)) > 0 {
				continue // no corner
			}
		}
		around := flat.BoxOf(a.Bound().Pad(narrowLand))
		for o, h := range f.lines.over(&around) {
			if f.of[o] != int32(chain) || o == k || i > 0 && o == segs[i-1] || !h.meets(&around) {
				continue
			}
			at, t := flat.Project(h.a, h.b, a)
			if !f.lines.lowest(h, t, flat.Distance(at, a), a) {
				continue
			}
			here, there := f.start[k], f.station(Foot{At: at, seg: o, t: t})
			if there > here {
				try(extent{here, there}, a, at)
			} else if there < here {
				try(extent{there, here}, at, a)
			}
			if f.chains[chain].loop { // the other way round
				if there > here {
					try(extent{there, here + f.length[chain]}, at, a)
				} else if there < here {
					try(extent{here, there + f.length[chain]}, a, at)
				}
			}
		}
	}
	slices.SortStableFunc(found, func(a, b extent) int { return cmp.Compare(b.to-b.from, a.to-a.from) })
	var out []extent
	for _, s := range found {
		if !slices.ContainsFunc(out, func(o extent) bool { return s.from < o.to && s.to > o.from }) {
			out = append(out, s)
		}
	}
	return out
}

// straightened is the lines with a straight edge in place of each piece.
func (f *feet) straightened(pieces [][]extent) *Lines {
	kept, _ := f.without(pieces)
	for c, all := range pieces {
		for _, p := range all {
			a, b := f.at(c, p.from), f.at(c, p.to)
			k := int32(len(kept.segs))
			edge := segment{a: a, b: b, prev: cutEnd, next: cutEnd}
			for _, o := range kept.use {
				g := &kept.segs[o]
				if flat.Distance(g.b, a) <= 2*jumpWithin {
					g.next, edge.prev, edge.strand, edge.vertex = k, o, g.strand, g.vertex
				} else if flat.Distance(g.a, b) <= 2*jumpWithin {
					g.prev, edge.next = k, o
				}
			}
			if edge.prev < 0 && edge.next >= 0 {
				edge.strand, edge.vertex = kept.segs[edge.next].strand, kept.segs[edge.next].vertex
			}
			kept.segs, kept.use = append(kept.segs, edge), append(kept.use, k)
		}
	}
	return kept
}
