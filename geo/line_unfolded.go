package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// A line is a set of places: what of it is drawn again, by a second feature that begins
// before the first ends or by one that goes back over itself, is no second shore.

// unfolded is the lines without what any strand of them draws again going back over
// itself.
func (l *Lines) unfolded() *Lines {
	folded := map[int32]bool{}
	for _, k := range l.use {
		if l.turnsBack(k) {
			folded[l.segs[k].strand] = true
		}
	}
	if len(folded) == 0 {
		return l
	}
	out := l.where(func(_ int32, s *segment) bool { return !folded[s.strand] })
	strands := make([]int32, 0, len(folded))
	for s := range folded {
		strands = append(strands, s)
	}
	slices.Sort(strands)
	for _, strand := range strands {
		own := &Lines{layer: l.layer, segs: out.segs}
		for _, k := range l.use {
			if l.segs[k].strand == strand {
				own.use = append(own.use, k)
			}
		}
		own = own.drawnOnce()
		out = &Lines{layer: l.layer, segs: own.segs, use: append(out.use, own.use...)}
	}
	return out
}

// turnsBack reports whether the line goes back over a segment of it at its end.
func (l *Lines) turnsBack(k int32) bool {
	s := &l.segs[k]
	if s.next < 0 {
		return false
	}
	from, to, _ := s.beside(&l.segs[s.next])
	return to-from > onLine
}

// overlap reports whether a line ends on another, as where one begins before the other
// has ended.
func (l *Lines) overlap() bool {
	for _, k := range l.use {
		s := &l.segs[k]
		if s.prev != freeEnd && s.next != freeEnd {
			continue
		}
		around := flat.BoxOf(orb.MultiPoint{s.a, s.b}.Bound().Pad(touching))
		for o, g := range l.over(&around) {
			if o != k && g.meets(&around) {
				if from, to, _ := s.beside(g); to-from > onLine {
					return true
				}
			}
		}
	}
	return false
}

// beside is the piece of a segment, in metres from its beginning, along which another runs
// no farther from it than what touches, and whether that runs the same way.
func (s *segment) beside(o *segment) (from, to float64, same bool) {
	long := flat.Distance(s.a, s.b)
	if long == 0 || flat.Distance(o.a, o.b) == 0 {
		return 0, 0, false
	}
	along := flat.Direction(s.a, s.b)
	place := func(p orb.Point) (station, off float64) {
		v := flat.Way(s.a, p)
		return flat.Dot(v, along), along[0]*v[1] - along[1]*v[0]
	}
	a, offA := place(o.a)
	b, offB := place(o.b)
	from, to = max(0, min(a, b)), min(long, max(a, b))
	if to <= from {
		return 0, 0, false
	}
	offAt := func(station float64) float64 { return math.Abs(offA + (offB-offA)*(station-a)/(b-a)) }
	if offAt(from) > touching || offAt(to) > touching {
		return 0, 0, false
	}
	return from, to, b > a
}

// drawnOnce is the lines without what is drawn again in the same direction. What is drawn
// as often back as on is narrow land, or water, and stays.
func (l *Lines) drawnOnce() *Lines {
	out := &Lines{layer: l.layer, segs: slices.Clone(l.segs)}
	first, last := map[int32]int32{}, map[int32]int32{} // the piece at the beginning and the end of each
	for _, k := range l.use {
		s := &l.segs[k]
		long := flat.Distance(s.a, s.b)
		for _, p := range l.keptOf(k) {
			piece, n := *s, k
			if p.from > 0 || p.to < long {
				piece.a, piece.b = flat.At(s.a, s.b, 0, long, p.from), flat.At(s.a, s.b, 0, long, p.to)
				n = int32(len(out.segs))
				out.segs = append(out.segs, piece)
			}
			out.use = append(out.use, n)
			if p.from == 0 {
				first[k] = n
			} else {
				out.segs[n].prev = freeEnd
			}
			if p.to == long {
				last[k] = n
			} else {
				out.segs[n].next = freeEnd
			}
		}
	}
	linked := func(to int32, pieces map[int32]int32) int32 {
		if to < 0 {
			return to
		}
		if n, kept := pieces[to]; kept {
			return n
		}
		return freeEnd
	}
	for k, n := range first {
		out.segs[n].prev = linked(l.segs[k].prev, last)
	}
	for k, n := range last {
		out.segs[n].next = linked(l.segs[k].next, first)
	}
	return out.joined()
}

// keptOf are the pieces of a segment that are not drawn before, in order.
func (l *Lines) keptOf(k int32) []extent {
	type again struct {
		extent
		on, first bool // in the same direction; and it comes first
	}
	s := &l.segs[k]
	long := flat.Distance(s.a, s.b)
	var all []again
	cuts := []float64{0, long}
	around := flat.BoxOf(orb.MultiPoint{s.a, s.b}.Bound().Pad(touching))
	for o, g := range l.over(&around) {
		if o == k || !g.meets(&around) {
			continue
		}
		if from, to, same := s.beside(g); to-from > onLine {
			all = append(all, again{extent{from, to}, same, o < k})
			cuts = append(cuts, from, to)
		}
	}
	if len(all) == 0 {
		return []extent{{0, long}}
	}
	slices.Sort(cuts)
	var out []extent
	for i := 1; i < len(cuts); i++ {
		if cuts[i]-cuts[i-1] <= touching {
			continue
		}
		mid, net, before := (cuts[i-1]+cuts[i])/2, 1, false
		for _, a := range all {
			if a.from > mid || a.to < mid {
				continue
			}
			if a.on {
				net, before = net+1, before || a.first
			} else {
				net--
			}
		}
		if net < 0 || net > 0 && before {
			continue
		}
		if n := len(out); n > 0 && out[n-1].to >= cuts[i-1]-touching {
			out[n-1].to = cuts[i]
		} else {
			out = append(out, extent{cuts[i-1], cuts[i]})
		}
	}
	// What is shorter than what touches was left out at the ends.
	for i := range out {
		if out[i].from <= touching {
			out[i].from = 0
		}
		if out[i].to >= long-touching {
			out[i].to = long
		}
	}
	return out
}
