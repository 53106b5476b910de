package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
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
			found := m.ahead(s.places[other])
			for _, p := range s.places[other] {
				home[p.node] = false
			}
			if len(found) == 0 { // only from the other side is there anything
				for _, l := range s.leaps {
					m.ignored[l] = true
				}
				ignoredOne = true
				continue
			}
			for _, l := range s.leaps {
				crossed = crossed || !m.leaps[l].apart
			}
			away = append(away, found...)
			// Round the end of the midway line what is of the home part may look across.
			for i := range m.nodes {
				w, ok := m.nodes[i].way()
				if !ok || !home[i] || s.parts[0] == s.parts[1] {
					continue
				}
				l := &m.leaps[m.nearestLeap(s.leaps, m.nodes[i].at)]
				if dot(w, l.way[1-other]) < leapCos && distance(m.nodes[i].at, l.at) < m.nodes[i].foot.Distance {
					home[i] = false
				}
			}
		}
		if !ignoredOne {
			m.bank.Even, m.bank.Apart = m.bank.Even || equal, m.bank.Apart || !crossed
			return home, away
		}
		away = nil
	}
}

func even(a, b float64) bool { return math.Abs(a-b) <= halves*(a+b) }

// faces reports whether a midway line is one: whether shore lies ahead across it, and, if
// a part goes round its end, enough of the smaller side behind it.
func (m *mesh) faces(s *sides) bool {
	if s.parts[0] != s.parts[1] {
		return len(m.ahead(s.places[1])) > 0 || len(m.ahead(s.places[0])) > 0
	}
	smaller := 0
	if s.weight[1] < s.weight[0] {
		smaller = 1
	}
	if even(s.weight[0], s.weight[1]) { // no matter which
		return m.behind(s, 0) && len(m.ahead(s.places[0])) > 0 || m.behind(s, 1) && len(m.ahead(s.places[1])) > 0
	}
	return m.behind(s, smaller) && len(m.ahead(s.places[smaller])) > 0
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
					s.places[side] = append(s.places[side], acrossPlace{i, m.nearestLeap(s.leaps, m.nodes[i].at), side})
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

// string takes the first of some leaps within one part and those that follow it, each
// turned as its neighbour is.
func (m *mesh) string(all []int) (*sides, []int) {
	reach := 3 * max(m.size, walkMost)
	part := m.part[m.leaps[all[0]].node[0]]
	s := &sides{parts: [2]int{part, part}, leaps: all[:1:1]}
	rest := slices.Clone(all[1:])
	for {
		best, at, to := reach*reach, -1, -1
		for i, k := range rest {
			for _, j := range s.leaps {
				if d := squared(m.leaps[k].at, m.leaps[j].at); d < best && m.part[m.leaps[k].node[0]] == part {
					best, at, to = d, i, j
				}
			}
		}
		if at < 0 {
			return s, rest
		}
		l, o := &m.leaps[rest[at]], &m.leaps[to]
		if dot(l.way[0], o.way[0])+dot(l.way[1], o.way[1]) < dot(l.way[0], o.way[1])+dot(l.way[1], o.way[0]) {
			l.turn()
		}
		s.leaps = append(s.leaps, rest[at])
		rest = slices.Delete(rest, at, at+1)
	}
}

func (m *mesh) nearestLeap(leaps []int, at orb.Point) int {
	best, least := leaps[0], math.Inf(1)
	for _, l := range leaps {
		if d := squared(m.leaps[l].at, at); d < least {
			best, least = l, d
		}
	}
	return best
}

// facingBack finds what of a part that goes round the end of a midway line lies on either
// side of it: what looks back from the other.
func (m *mesh) facingBack(s *sides) {
	for i := range m.nodes {
		w, ok := m.nodes[i].way()
		if !ok || m.part[i] != s.parts[0] {
			continue
		}
		k := m.nearestLeap(s.leaps, m.nodes[i].at)
		back := [2]float64{dot(w, m.leaps[k].way[1]), dot(w, m.leaps[k].way[0])}
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

// behind reports whether enough of a side lies behind the midway line: straight out from
// its own shore one crosses that inside the structure.
func (m *mesh) behind(s *sides, side int) bool {
	total, behind := 0.0, 0.0
	for _, p := range s.places[side] {
		n := &m.nodes[p.node]
		total += n.weight
		if n.weight > 0 && m.leapsOut(n.pace) {
			behind += n.weight
		}
	}
	return behind >= behindShare*total
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

// ahead keeps of places across a midway line those whose foot lies ahead: seen from the
// nearest places of the structure, more than 105 degrees from the way to the home foot of
// the leap.
func (m *mesh) ahead(places []acrossPlace) []acrossPlace {
	var out []acrossPlace
	for _, p := range places {
		n, l := &m.nodes[p.node], &m.leaps[p.leap]
		if n.fine || n.pieces != nil && l.node[p.side] != p.node { // the feet of the outline reach farther
			continue
		}
		own, _ := n.way()
		if dot(m.seen(n.foot.At, own), m.seen(l.foot[1-p.side], l.way[1-p.side])) < leapCos {
			out = append(out, p)
		}
	}
	return out
}

// seen is the way to a place of the shore from the nearest place of the structure;
// otherwise where that touches it.
func (m *mesh) seen(at, otherwise orb.Point) orb.Point {
	from, d := m.fp.nearestOutline(at)
	if d <= onLine || m.touches && m.fp.holds(at) {
		return otherwise
	}
	return orb.Point{(at[0] - from[0]) / d, (at[1] - from[1]) / d}
}

// nearestTo is the place of the footprint nearest to a point, and how far off it is: 0
// within.
func (fp *Footprint) nearestTo(at orb.Point) (orb.Point, float64) {
	if fp.holds(at) {
		return at, 0
	}
	return fp.nearestOutline(at)
}

// holds reports whether a point lies within the footprint.
func (fp *Footprint) holds(at orb.Point) bool {
	for i := range fp.Elements {
		e := &fp.Elements[i]
		if len(e.pieces) > 0 && squared(e.centre, at) <= e.radius*e.radius && e.contains(at) {
			return true
		}
	}
	return false
}

// nearestOutline is the place of the outline nearest to a point, and how far off it is.
func (fp *Footprint) nearestOutline(at orb.Point) (orb.Point, float64) {
	best, least := at, math.Inf(1)
	for i := range fp.Elements {
		e := &fp.Elements[i]
		if distance(e.centre, at)-e.radius > least {
			continue
		}
		e.outline(func(a, b orb.Point) {
			q, _ := project(a, b, at)
			if d := distance(q, at); d < least {
				best, least = q, d
			}
		})
	}
	return best, least
}
