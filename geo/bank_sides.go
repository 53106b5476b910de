package geo

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// acrossPlace is a place of a structure on one side of the midway line.
type acrossPlace struct {
	node int
	leap int // the nearest
	side int // of the leap, on which the place lies; if it is across, home is the other
}

// sides is a midway line with what lies on either side of it.
type sides struct {
	leaps  []int
	parts  [2]int // the same twice where the part goes round its end
	places [2][]acrossPlace
	weight [2]float64
	index  *flat.Index // of the leaps; made when first asked
}

// decide parts the mesh into home and across. Leaps across which no shore lies ahead of
// either side are ignored: lips of a mouth, tips of groins.
func (m *mesh) decide() (home map[int]bool, away []acrossPlace) {
	m.ignored = make([]bool, len(m.leaps))
	for {
		weights := m.parts()
		all := m.midways()
		ignoredOne := false
		for _, s := range all {
			if !m.faces(s) {
				for _, l := range s.leaps {
					m.ignored[l] = true
				}
				ignoredOne = true
			}
		}
		if ignoredOne {
			continue
		}
		if len(all) == 0 {
			return nil, nil
		}
		largest := -1
		for part, w := range weights {
			if largest < 0 || w > weights[largest] || w == weights[largest] && part < largest {
				largest = part
			}
		}
		home = map[int]bool{}
		for i := range m.nodes {
			home[i] = m.part[i] == largest
		}
		crossed, equal := false, false
		for _, s := range all {
			other := -1 // the side that is not home
			switch {
			case s.parts[0] == s.parts[1] && s.parts[0] == largest:
				if other = 1; s.weight[0] < s.weight[1] {
					other = 0
				}
				equal = equal || even(s.weight[0], s.weight[1])
			case s.parts[0] == largest:
				other = 1
			case s.parts[1] == largest:
				other = 0
			default:
				continue
			}
			if s.parts[0] != s.parts[1] {
				equal = equal || even(weights[s.parts[0]], weights[s.parts[1]])
			}
			for _, p := range s.places[other] {
				home[p.node] = false
			}
			for _, l := range s.leaps {
				crossed = crossed || !m.leaps[l].apart
			}
			away = append(away, m.across(s, other)...)
			// Round the end of the midway line what is of the home part may look across.
			for i := range m.nodes {
				w, ok := m.nodes[i].way()
				if !ok || !home[i] || s.parts[0] == s.parts[1] {
					continue
				}
				l := &m.leaps[m.nearestLeap(s, m.nodes[i].at)]
				if flat.Dot(w, l.way[1-other]) < leapCos && flat.Distance(m.nodes[i].at, l.at) < m.nodes[i].foot.Distance {
					home[i] = false
				}
			}
		}
		m.bank.Even, m.bank.Apart = m.bank.Even || equal, m.bank.Apart || !crossed
		return home, away
	}
}

func even(a, b float64) bool { return math.Abs(a-b) <= halves*(a+b) }

// faces reports whether a midway line is one: whether shore lies ahead across it or enough
// of either side lies behind it; both, for the smaller side, where a part goes round its end.
func (m *mesh) faces(s *sides) bool {
	for side := range 2 {
		if m.alongWall(s, side) && m.behind(s, side) {
			return true
		}
	}
	if s.parts[0] != s.parts[1] {
		return len(m.ahead(s, 0)) > 0
	}
	alike, smaller := even(s.weight[0], s.weight[1]), 0
	if s.weight[1] < s.weight[0] {
		smaller = 1
	}
	for side := range 2 {
		if (alike || side == smaller) && m.behind(s, side) && len(m.ahead(s, side)) > 0 {
			return true
		}
	}
	return false
}

// midways gathers the leaps by the parts that they lie between; those within one part by
// where they lie.
func (m *mesh) midways() []*sides {
	byParts := map[[2]int]*sides{}
	var out []*sides
	var within []int
	for i := range m.leaps {
		if m.ignored[i] {
			continue
		}
		l := &m.leaps[i]
		a, b := m.part[l.node[0]], m.part[l.node[1]]
		if a == b {
			within = append(within, i)
			continue
		}
		if a > b {
			a, b = b, a
			l.turn()
		}
		s := byParts[[2]int{a, b}]
		if s == nil {
			s = &sides{parts: [2]int{a, b}}
			byParts[s.parts] = s
			out = append(out, s)
		}
		s.leaps = append(s.leaps, i)
	}
	for _, s := range out {
		for i := range m.nodes {
			for side, part := range s.parts {
				if m.part[i] == part && !m.nodes[i].fine {
					s.places[side] = append(s.places[side], acrossPlace{i, m.nearestLeap(s, m.nodes[i].at), side})
				}
			}
		}
	}
	for len(within) > 0 {
		var s *sides
		if s, within = m.string(within); s != nil {
			m.facingBack(s)
			out = append(out, s)
		}
	}
	return out
}

// string takes the first of some leaps within one part and those that follow it, the
// nearest to any of them first, each turned as its neighbour is.
func (m *mesh) string(all []int) (*sides, []int) {
	reach := 3 * max(m.size, walkMost)
	part := m.part[m.leaps[all[0]].node[0]]
	s := &sides{parts: [2]int{part, part}}
	away, to := make([]float64, len(all)), make([]int, len(all)) // of each, from those taken; -1: taken
	for i := range away {
		away[i] = reach * reach
	}
	for next := 0; next >= 0; {
		last := all[next]
		if next > 0 {
			l, o := &m.leaps[last], &m.leaps[to[next]]
			if flat.Dot(l.way[0], o.way[0])+flat.Dot(l.way[1], o.way[1]) < flat.Dot(l.way[0], o.way[1])+flat.Dot(l.way[1], o.way[0]) {
				l.turn()
			}
		}
		s.leaps = append(s.leaps, last)
		away[next], next = -1, -1
		for i, k := range all {
			if away[i] < 0 || m.part[m.leaps[k].node[0]] != part {
				continue
			}
			if d := flat.Squared(m.leaps[k].at, m.leaps[last].at); d < away[i] {
				away[i], to[i] = d, last
			}
			if away[i] < reach*reach && (next < 0 || away[i] < away[next]) {
				next = i
			}
		}
	}
	var rest []int
	for i, k := range all {
		if away[i] >= 0 {
			rest = append(rest, k)
		}
	}
	return s, rest
}

// nearestLeap is the leap of a midway line nearest to a place, the first of several.
func (m *mesh) nearestLeap(s *sides, at orb.Point) int {
	away := func(i int) float64 { return flat.Squared(m.leaps[s.leaps[i]].at, at) }
	if s.index == nil {
		s.index = flat.NewIndex(len(s.leaps), func(i int) flat.Box {
			p := m.leaps[s.leaps[i]].at
			return flat.Edge{A: p, B: p}.Box(0)
		})
	}
	i, _ := s.index.Nearest(at, math.Inf(1), away)
	return s.leaps[i]
}

// facingBack finds what of a part that goes round the end of a midway line lies on either
// side of it: what looks back from the other.
func (m *mesh) facingBack(s *sides) {
	for i := range m.nodes {
		w, ok := m.nodes[i].way()
		if !ok || m.part[i] != s.parts[0] {
			continue
		}
		k := m.nearestLeap(s, m.nodes[i].at)
		back := [2]float64{flat.Dot(w, m.leaps[k].way[1]), flat.Dot(w, m.leaps[k].way[0])}
		side := 0
		if back[1] < back[0] {
			side = 1
		}
		if back[side] < leapCos {
			s.places[side] = append(s.places[side], acrossPlace{i, k, side})
			s.weight[side] += m.nodes[i].weight
		}
	}
}

// behind reports whether enough of a side, about the midway line, lies behind that: straight
// out from its own shore one crosses it inside the structure.
func (m *mesh) behind(s *sides, side int) bool {
	total, behind := 0.0, 0.0
	for _, p := range s.places[side] {
		n := &m.nodes[p.node]
		if n.weight == 0 || !m.about(p.leap, n.at) {
			continue
		}
		if total += n.weight; m.leapsOut(n.pace) {
			behind += n.weight
		}
	}
	return behind > 0 && behind >= behindShare*total
}

// alongWall reports whether the shore of a side runs along it: its feet spread at least
// half as wide as its places. On a lip or a tip all have one foot.
func (m *mesh) alongWall(s *sides, side int) bool {
	out := m.leaps[s.leaps[0]].way[side]
	along := orb.Point{-out[1], out[0]}
	places, feet := nowhere, nowhere
	for _, p := range s.places[side] {
		n := &m.nodes[p.node]
		places, feet = places.with(flat.Dot(n.at, along)), feet.with(flat.Dot(n.foot.At, along))
	}
	return feet.to-feet.from >= spreadShare*(places.to-places.from)
}

// leapsOut reports whether straight out from its shore a place has a leap before it
// within the structure.
func (m *mesh) leapsOut(p pace) bool {
	w, ok := p.way()
	if !ok {
		return false
	}
	step := max(m.size/2, jumpWithin)
	for {
		at := orb.Point{p.at[0] - step*w[0], p.at[1] - step*w[1]}
		if !m.fp.holds(at) {
			return false
		}
		q := pace{at, m.near.Nearest(at)}
		if _, is := m.bank.leapOf(m.near.Nearest, p, q); is {
			return true
		}
		p = q
	}
}
