package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// connect joins the nodes of the same square and of neighbouring ones.
func (m *mesh) connect() {
	for i := range m.nodes {
		k := m.key(m.nodes[i].element, m.nodes[i].at)
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				for _, j := range m.cells[cellKey{k.element, k.x + dx, k.y + dy}] {
					if j < i && (m.nodes[i].pieces != nil || m.nodes[j].pieces != nil) {
						m.join(i, j)
					}
				}
			}
		}
	}
}

// join joins two nodes unless there is a leap between them.
func (m *mesh) join(i, j int) {
	if l, is := m.bank.leapOf(m.near.Nearest, m.nodes[i].pace, m.nodes[j].pace); is {
		l.node = [2]int{i, j}
		m.leaps = append(m.leaps, l)
		return
	}
	m.joined.unite(i, j)
}

// link joins two elements along the least gap between them.
func (m *mesh) link(l Link) {
	last := m.nearestNode(l.A, l.From)
	m.bank.acrossLink(l, func(_ *pacing, _, q pace) {
		next := m.put(node{pace: q, element: -1})
		before := len(m.leaps)
		m.join(last, next)
		for k := before; k < len(m.leaps); k++ {
			m.leaps[k].apart = true
		}
		last = next
	})
	m.join(last, m.nearestNode(l.B, l.To))
}

func (m *mesh) nearestNode(element int, at orb.Point) int {
	best, least := -1, math.Inf(1)
	for _, i := range m.of[element] {
		if d := flat.Squared(m.nodes[i].at, at); d < least {
			best, least = i, d
		}
	}
	return best
}

// parts joins the nodes that no leap parts, and returns the weight of each part by the
// node that stands for it.
func (m *mesh) parts() map[int]float64 {
	all := slices.Clone(m.joined)
	for i, l := range m.leaps {
		if m.ignored[i] {
			all.unite(l.node[0], l.node[1])
		}
	}
	weights := map[int]float64{}
	m.part = make([]int, len(m.nodes))
	for i := range m.nodes {
		m.part[i] = all.root(i)
		weights[m.part[i]] += m.nodes[i].weight
	}
	return weights
}

// groups are things by number that are united, each known by the least of its group.
type groups []int

func (g groups) root(i int) int {
	for g[i] != i {
		g[i] = g[g[i]]
		i = g[i]
	}
	return i
}

func (g groups) unite(i, j int) {
	i, j = g.root(i), g.root(j)
	g[max(i, j)] = min(i, j)
}
