package geo

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// extent is a piece of a line between two stations, from no more than to; over the seam of
// a closed line to is more than its length.
type extent struct{ from, to float64 }

// nowhere is no piece at all.
var nowhere = extent{math.Inf(1), math.Inf(-1)}

// with is the piece up to another station.
func (e extent) with(at float64) extent { return extent{min(e.from, at), max(e.to, at)} }

// feet are the places of some lines that are nearest to any place of an outline.
type feet struct {
	*stations
	spans [][]extent           // by chain; after settle in order and apart
	fans  map[orb.Point][]pace // at corners of the lines: places from which the foot is there
}

func newFeet(lines *Lines) *feet {
	s := newStations(lines)
	return &feet{stations: s, spans: make([][]extent, len(s.chains)), fans: map[orb.Point][]pace{}}
}

// feetOf gathers the feet of elements and hands every step on.
func feetOf(lines *Lines, elements []Element, step func(w *pacing, p, q pace)) *feet {
	out := newFeet(lines)
	for i := range elements {
		e := &elements[i]
		w := newPacing(lines.around(e.centre, e.radius))
		e.outline(func(a, b orb.Point) {
			if p := w.to(a); !e.Discs {
				out.tied(p, w.trail.beside(a, a))
			}
			w.along(a, b, func(p, q pace) {
				out.step(w, p, q)
				if step != nil {
					step(w, p, q)
				}
			})
			if len(e.pieces) == 0 { // a line ends where no edge begins
				out.tied(w.to(b), w.trail.beside(b, b))
			}
		})
	}
	out.settle()
	return out
}

// step takes in what lies between two neighbouring places of an outline.
func (f *feet) step(w *pacing, p, q pace) {
	f.fan(p)
	f.fan(q)
	if c := f.of[p.foot.seg]; c == f.of[q.foot.seg] {
		first, last := p.foot, q.foot
		from, to := f.station(first), f.station(last)
		if from > to {
			from, to, first, last = to, from, last, first
		}
		if f.chains[c].loop && to-from > f.length[c]/2 {
			from, to, first, last = to, from+f.length[c], last, first
		}
		if p.foot.seg == q.foot.seg || to-from <= jumpWithin || to-from <= 1.2*flat.Distance(p.at, q.at) && !f.stepped(c, from, to) {
			f.add(int(c), extent{from, to})
			f.corners(w, p, q, first, last, to-from)
			return
		}
	}
	if flat.Distance(p.at, q.at) <= jumpWithin {
		for _, g := range [2]Foot{p.foot, q.foot} {
			at := f.station(g)
			f.add(int(f.of[g.seg]), extent{at, at})
		}
		return
	}
	m := w.at(flat.Middle(p.at, q.at))
	f.step(w, p, m)
	f.step(w, m, q)
}

// stepped reports whether a piece of a chain holds more than a corner of a segment that
// runs aside: no place between those that see the ends may be before that, nor before
// what of the shore lies at its foot.
func (f *feet) stepped(chain int32, from, to float64) bool {
	a, b := f.at(int(chain), from), f.at(int(chain), to)
	long := flat.Distance(a, b)
	points := f.between(int(chain), from, to)
	for i := 1; i < len(points); i++ {
		p, q := points[i-1], points[i]
		d := flat.Distance(p, q)
		if d > jumpWithin && flat.Dot(flat.Way(p, q), flat.Way(a, b)) < asideCos*d*long {
			return true
		}
	}
	return false
}

func (f *feet) add(chain int, s extent) {
	all := f.spans[chain]
	if n := len(all); n > 0 && s.from <= all[n-1].to+jumpWithin && s.to >= all[n-1].from-jumpWithin {
		all[n-1] = extent{min(s.from, all[n-1].from), max(s.to, all[n-1].to)}
		return
	}
	f.spans[chain] = append(all, s)
}

// tied takes in all feet of a place that are equally near: those at which no neighbour
// along the line is nearer.
func (f *feet) tied(p pace, near *Lines) {
	limit := p.foot.Distance + ties
	for _, k := range near.use {
		s := &near.segs[k]
		at, t := flat.Project(s.a, s.b, p.at)
		d := flat.Distance(at, p.at)
		if k == p.foot.seg || d > limit || f.of[k] < 0 || !near.lowest(s, t, d, p.at) {
			continue
		}
		g := Foot{d, at, k, t}
		station := f.station(g)
		f.add(int(f.of[k]), extent{station, station})
		f.fan(pace{p.at, g})
	}
}

// lowest reports whether a foot on a segment is no farther from p than its neighbours.
func (l *Lines) lowest(s *segment, t, d float64, p orb.Point) bool {
	other := int32(-1)
	switch t {
	case 0:
		other = s.prev
	case 1:
		other = s.next
	}
	if other < 0 {
		return true
	}
	at, _ := flat.Project(l.segs[other].a, l.segs[other].b, p)
	return flat.Distance(at, p) >= d
}

// settle puts the spans in order and joins those that meet.
func (f *feet) settle() {
	for i, all := range f.spans {
		if f.chains[i].loop {
			for k, s := range all {
				if s.to-s.from >= f.length[i] {
					all = []extent{{0, f.length[i]}}
					break
				}
				for s.from < 0 {
					s.from, s.to = s.from+f.length[i], s.to+f.length[i]
				}
				for s.from >= f.length[i] {
					s.from, s.to = s.from-f.length[i], s.to-f.length[i]
				}
				all[k] = s
			}
			for _, s := range all { // over the seam: what lies beyond it too
				if s.to > f.length[i] {
					all = append(all, extent{0, s.to - f.length[i]})
				}
			}
			for k := range all {
				all[k].to = min(all[k].to, f.length[i])
			}
		}
		slices.SortFunc(all, func(a, b extent) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
		out := all[:0]
		for _, s := range all {
			if n := len(out); n > 0 && s.from <= out[n-1].to+jumpWithin {
				out[n-1].to = max(out[n-1].to, s.to)
				continue
			}
			out = append(out, s)
		}
		f.spans[i] = out
	}
}

// whole is the piece of a chain between its extreme feet, of a closed one all but the
// longest piece without a foot; across is how long that is if where the foot jumps it is
// taken straight over. False if it has no foot.
func (f *feet) whole(chain int) (whole extent, across float64, has bool) {
	all := f.spans[chain]
	if len(all) == 0 {
		return extent{}, 0, false
	}
	first := 0
	if f.chains[chain].loop {
		longest := -1.0
		for i, s := range all {
			before := all[(i+len(all)-1)%len(all)].to
			if i == 0 {
				before -= f.length[chain]
			}
			if gap := s.from - before; gap > longest+jumpWithin {
				longest, first = gap, i
			}
		}
	}
	whole = extent{all[first].from, all[first].from}
	for i := range all {
		s := all[(first+i)%len(all)]
		if first+i >= len(all) {
			s.from, s.to = s.from+f.length[chain], s.to+f.length[chain]
		}
		if i > 0 {
			across += flat.Distance(f.at(chain, whole.to), f.at(chain, s.from))
		}
		across += s.to - s.from
		whole.to = s.to
	}
	return whole, across, true
}
