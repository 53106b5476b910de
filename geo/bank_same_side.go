package geo

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// sameSide joins parts across a leap from one and the same part that lie on one side of
// the midway line though no gap links them: the way between them, over no land, has no leap.
func (m *mesh) sameSide() {
	for again := len(m.fp.Elements) > 2; again; {
		m.parts()
		again = false
		for _, beside := range m.neighbours() {
			for i, a := range beside {
				for _, b := range beside[:i] {
					if m.part[a] == m.part[b] || m.bank.LandBetween(m.nodes[a].at, m.nodes[b].at) || m.leapsBetween(a, b) {
						continue
					}
					m.joined.unite(a, b)
					again = true
				}
			}
			if again {
				break
			}
		}
	}
}

// neighbours are, for every part that has several, a place of each of the parts across a
// leap from it, in the order of the leaps.
func (m *mesh) neighbours() [][]int {
	at := map[int]int{}
	var out [][]int
	known := map[[2]int]bool{}
	for i := range m.leaps {
		for side, n := range m.leaps[i].node {
			of, across := m.part[m.leaps[i].node[1-side]], m.part[n]
			if of == across || known[[2]int{of, across}] {
				continue
			}
			known[[2]int{of, across}] = true
			k, has := at[of]
			if !has {
				k = len(out)
				at[of], out = k, append(out, nil)
			}
			out[k] = append(out[k], m.nearestOfPart(across, m.leaps[i].at))
		}
	}
	return out
}

// nearestOfPart is the place of a part of the structure that is nearest to a point.
func (m *mesh) nearestOfPart(part int, at orb.Point) int {
	best, least := part, math.Inf(1)
	for i := range m.nodes {
		if n := &m.nodes[i]; m.part[i] == part && n.element >= 0 && flat.Squared(n.at, at) < least {
			best, least = i, flat.Squared(n.at, at)
		}
	}
	return best
}

// leapsBetween reports whether the straight way between two places has a leap.
func (m *mesh) leapsBetween(i, j int) bool {
	w := newPacing(m.near)
	w.along(m.nodes[i].at, m.nodes[j].at, func(p, q pace) { _, w.done = m.bank.leapOf(w.trail.Nearest, p, q) })
	return w.done
}
