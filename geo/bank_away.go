package geo

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// takeOut returns the stations, by chain, of the shore across: from the feet that lie
// ahead along their line to its end or, before the next foot of the home side, to the
// first place from there that has turned more than 91 degrees from the home bank.
func (m *mesh) takeOut(home map[int]bool, away []acrossPlace) (*stations, [][]extent) {
	s := newStations(m.bank.Lines)
	type foot struct {
		station float64
		normal  orb.Point // of the home bank, to the water
	}
	own, other := make([][]float64, len(s.chains)), make([][]foot, len(s.chains))
	// Round the end of the midway line places may have a foot of those across.
	across := map[orb.Point]bool{}
	for _, p := range away {
		across[m.nodes[p.node].foot.At] = true
	}
	for i := range m.nodes {
		if f := m.nodes[i].foot; home[i] && !across[f.At] {
			own[s.of[f.seg]] = append(own[s.of[f.seg]], s.station(f))
		}
	}
	for _, p := range away {
		f, w := m.nodes[p.node].foot, m.leaps[p.leap].way[1-p.side]
		other[s.of[f.seg]] = append(other[s.of[f.seg]], foot{s.station(f), orb.Point{-w[0], -w[1]}})
	}
	out := make([][]extent, len(s.chains))
	for c := range s.chains {
		length, loop := s.length[c], s.chains[c].loop
		if len(other[c]) == 0 {
			continue
		}
		if len(own[c]) == 0 {
			out[c] = []extent{{0, length}}
			continue
		}
		slices.Sort(own[c])
		own[c] = slices.Compact(own[c])
		if loop { // begin at a foot of the home side and go once round
			first := own[c][0]
			own[c] = append(own[c], first+length)
			for i := range other[c] {
				if other[c][i].station < first {
					other[c][i].station += length
				}
			}
		}
		slices.SortFunc(other[c], func(a, b foot) int { return cmp.Compare(a.station, b.station) })
		for i := 0; i < len(other[c]); {
			next, _ := slices.BinarySearch(own[c], other[c][i].station)
			last := i
			for last+1 < len(other[c]) && (next == len(own[c]) || other[c][last+1].station < own[c][next]) {
				last++
			}
			if next == len(own[c]) || other[c][i].station < own[c][next]-jumpWithin {
				taken := extent{0, length}
				if next > 0 {
					taken.from = s.round(c, own[c][next-1], other[c][i].station, other[c][i].normal)
				}
				if next < len(own[c]) {
					taken.to = s.roundBack(c, own[c][next], other[c][last].station, other[c][last].normal)
				}
				if taken.to > taken.from+jumpWithin {
					out[c] = append(out[c], taken)
				}
			}
			i = last + 1
		}
	}
	return s, out
}

// turned reports whether a segment has turned from a bank of that normal.
func (s *stations) turned(k int32, normal orb.Point) bool {
	g := &s.lines.segs[k]
	return flat.Dot(flat.LeftNormal(g.a, g.b, 1), normal) < roundCos
}

// round is the first station from a foot of the home side on at which the shore has
// turned from it, at most that of another foot.
func (s *stations) round(chain int, from, most float64, normal orb.Point) float64 {
	segs := s.chains[chain].segs
	i, lap := s.edge(chain, from), from-s.within(chain, from)
	for {
		if i == len(segs) {
			i, lap = 0, lap+s.length[chain]
		}
		at := lap + s.start[segs[i]]
		if at >= most {
			return most
		}
		if s.turned(segs[i], normal) {
			return max(from, at)
		}
		if i++; i == len(segs) && !s.chains[chain].loop {
			return most
		}
	}
}

// roundBack is the same against the line.
func (s *stations) roundBack(chain int, from, least float64, normal orb.Point) float64 {
	segs := s.chains[chain].segs
	i, lap := s.edge(chain, from), from-s.within(chain, from)
	if lap+s.start[segs[i]] >= from { // at a vertex: the segment before
		i--
	}
	for {
		if i < 0 {
			if !s.chains[chain].loop {
				return least
			}
			i, lap = len(segs)-1, lap-s.length[chain]
		}
		g := &s.lines.segs[segs[i]]
		end := lap + s.start[segs[i]] + flat.Distance(g.a, g.b)
		if end <= least {
			return least
		}
		if s.turned(segs[i], normal) {
			return min(from, end)
		}
		i--
	}
}

// without parts the lines into what lies outside of some pieces of them and the pieces.
func (s *stations) without(taken [][]extent) (kept, out *Lines) {
	kept = &Lines{layer: s.lines.layer, segs: slices.Clone(s.lines.segs)}
	out = &Lines{layer: s.lines.layer}
	first, last := map[int32]int32{}, map[int32]int32{} // of the pieces of a segment that is cut
	for c, chain := range s.chains {
		for _, k := range chain.segs {
			of := s.on(c, k, taken[c])
			g := s.lines.segs[k]
			from, long := s.start[k], flat.Distance(g.a, g.b)
			if len(of) == 0 {
				kept.use = append(kept.use, k)
				continue
			}
			if of[0].from <= from+jumpWithin && of[0].to >= from+long-jumpWithin {
				out.use = append(out.use, k)
				continue
			}
			at := from
			piece := func(to float64, into *Lines) {
				if to <= at+jumpWithin {
					return
				}
				p, n := g, int32(len(kept.segs))
				if at > from {
					p.a, p.prev = flat.At(g.a, g.b, 0, long, at-from), cutEnd
				} else {
					first[k] = n
				}
				if to < from+long-jumpWithin {
					p.b, p.next = flat.At(g.a, g.b, 0, long, to-from), cutEnd
				} else {
					last[k] = n
				}
				kept.segs, into.use = append(kept.segs, p), append(into.use, n)
				at = to
			}
			for _, t := range of {
				piece(t.from, kept)
				piece(t.to, out)
			}
			piece(from+long, kept)
		}
	}
	out.segs = kept.segs
	for _, n := range first {
		if before := kept.segs[n].prev; before >= 0 {
			if piece, cut := last[before]; cut {
				before = piece
			}
			kept.segs[n].prev, kept.segs[before].next = before, n
		}
	}
	for _, n := range last {
		if after := kept.segs[n].next; after >= 0 && int(after) < len(s.lines.segs) {
			if piece, cut := first[after]; cut {
				after = piece
			}
			kept.segs[n].next, kept.segs[after].prev = after, n
		}
	}
	return kept, out
}

// on is what of some pieces of a chain lies on a segment of it, in order.
func (s *stations) on(chain int, k int32, pieces []extent) []extent {
	g := &s.lines.segs[k]
	from, to := s.start[k], s.start[k]+flat.Distance(g.a, g.b)
	var out []extent
	for _, t := range pieces {
		for _, lap := range [2]float64{0, s.length[chain]} { // over the seam of a closed line
			p, whole := extent{max(t.from-lap, from), min(t.to-lap, to)}, t.from-lap <= from && t.to-lap >= to
			if whole || p.to > p.from+jumpWithin {
				out = append(out, p)
			}
		}
	}
	slices.SortFunc(out, func(a, b extent) int { return cmp.Compare(a.from, b.from) })
	return out
}
