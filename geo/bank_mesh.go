package geo

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/flat"
)

// mesh is a structure in small pieces, parted by the leaps between neighbouring ones.
type mesh struct {
	bank    *Bank
	fp      *Footprint
	near    *Lines // what of the bank can be nearest to any of it
	touches bool   // it lies on the shore somewhere
	nodes   []node
	of      [][]int           // nodes by element
	cells   map[cellKey][]int // nodes by element and square
	size    float64           // of a square, metres
	leaps   []leap
	ignored []bool                  // by leap
	joined  groups                  // nodes between which there is no leap
	part    []int                   // by node: the node that stands for its part
	views   map[orb.Point]orb.Point // see seen; 0, 0: from no other place
	tangled bool                    // it is not looked at, as there are too many nodes and leaps
}

// mostCompared is how many leaps times nodes are looked at, which takes two or three seconds:
// those of 700 modules that fill a canal 48 ft wide.
const mostCompared = 4_000_000_000

// mostSplit is how many pieces beside leaps are parted again, each into dozens.
const mostSplit = 4_000

// node is a place of a structure with the piece of it that it stands for.
type node struct {
	pace
	element int
	weight  float64       // area; length where there is none
	pieces  [][]orb.Point // convex
	fine    bool          // one of those of a piece beside a leap; it only has a weight
}

type cellKey struct {
	element, x, y int
}

// newMesh parts the footprint; every place of its outline is a node without a weight, so
// that no piece is too thin.
func (b *Bank) newMesh(fp *Footprint) *mesh {
	m := &mesh{bank: b, fp: fp, of: make([][]int, len(fp.Elements)), views: map[orb.Point]orb.Point{}, cells: map[cellKey][]int{}}
	bound := fp.Elements[0].bound()
	for i := range fp.Elements[1:] {
		bound = bound.Union(fp.Elements[i+1].bound())
	}
	m.near = b.Lines.around(bound.Center(), flat.Distance(bound.Min, bound.Max)/2)
	m.touches = fp.touches(b.Lines)
	total, long := 0.0, 0.0
	for i := range fp.Elements {
		total += fp.Elements[i].Area()
		fp.Elements[i].outline(func(a, b orb.Point) { long += flat.Distance(a, b) })
	}
	if m.size = math.Sqrt(total / meshCells); total == 0 {
		m.size = max(long/meshCells, onLine)
	}
	for i := range fp.Elements {
		m.fill(i, total == 0)
	}
	m.connect()
	for _, l := range fp.Links {
		m.link(l)
	}
	if m.tangled = len(m.nodes)*len(m.leaps) > mostCompared || m.piecesBesideLeaps() > mostSplit; m.tangled {
		return m
	}
	m.alongside()
	m.sameSide()
	m.split()
	return m
}

// alongside joins what of two linked elements lies on the same side of the midway line,
// wherever the least gap between them is: the way between those of their places that are
// nearest to it has no leap.
func (m *mesh) alongside() {
	m.ignored = make([]bool, len(m.leaps))
	m.parts()
	for _, l := range m.fp.Links {
		from, to := m.nearestOfParts(l.A, l.To), m.nearestOfParts(l.B, l.From)
		joined := false
		for _, i := range from {
			for _, j := range to {
				if m.part[i] != m.part[j] && !m.leapsBetween(i, j) {
					m.joined.unite(i, j)
					joined = true
				}
			}
		}
		if joined {
			m.parts()
		}
	}
}

// nearestOfParts are the nodes of an element that are nearest to a place, one of each part.
func (m *mesh) nearestOfParts(element int, at orb.Point) []int {
	best := map[int]int{}
	var order []int
	for _, i := range m.of[element] {
		k, known := best[m.part[i]]
		if !known {
			order = append(order, m.part[i])
		}
		if !known || flat.Squared(m.nodes[i].at, at) < flat.Squared(m.nodes[k].at, at) {
			best[m.part[i]] = i
		}
	}
	out := make([]int, 0, len(order))
	for _, part := range order {
		out = append(out, best[part])
	}
	return out
}

func (m *mesh) key(element int, at orb.Point) cellKey {
	return cellKey{element, int(math.Floor(at[0] / m.size)), int(math.Floor(at[1] / m.size))}
}

func (m *mesh) put(n node) int {
	if n.element >= 0 {
		m.of[n.element] = append(m.of[n.element], len(m.nodes))
	}
	m.nodes = append(m.nodes, n)
	m.joined = append(m.joined, len(m.joined))
	return len(m.nodes) - 1
}

// fill makes the nodes of an element, one of each square, and joins those of its outline.
func (m *mesh) fill(element int, byLength bool) {
	e := &m.fp.Elements[element]
	trail := NewTrail(m.near)
	largest := map[cellKey]float64{} // of the pieces in a square, m2: the node lies in that
	for _, polygon := range e.Areas {
		for _, part := range area.ConvexParts(polygon) {
			low, high := m.key(element, part[0]), m.key(element, part[0])
			for _, p := range part {
				k := m.key(element, p)
				low.x, low.y, high.x, high.y = min(low.x, k.x), min(low.y, k.y), max(high.x, k.x), max(high.y, k.y)
			}
			for x := low.x; x <= high.x; x++ {
				for y := low.y; y <= high.y; y++ {
					square := orb.Bound{Min: orb.Point{float64(x) * m.size, float64(y) * m.size}, Max: orb.Point{float64(x+1) * m.size, float64(y+1) * m.size}}
					piece := clippedTo(part, square)
					at, shape := centreOf(piece)
					if shape <= 0 {
						continue
					}
					k := cellKey{element, x, y}
					if m.cells[k] == nil {
						m.cells[k] = []int{m.put(node{element: element})}
					}
					n := &m.nodes[m.cells[k][0]]
					n.weight, n.pieces = n.weight+shape, append(n.pieces, piece)
					if shape > largest[k] {
						largest[k], n.pace.at = shape, at
					}
				}
			}
		}
	}
	for _, i := range m.of[element] {
		m.nodes[i].foot = trail.Nearest(m.nodes[i].at)
	}
	w := newPacing(m.near)
	last, lastAt := -1, orb.Point{math.Inf(1), 0}
	e.outline(func(a, b orb.Point) {
		w.along(a, b, func(p, q pace) {
			if last < 0 || lastAt != p.at {
				last = m.outer(element, p)
			}
			next := m.outer(element, q)
			if byLength {
				m.nodes[next].weight += flat.Distance(p.at, q.at)
			}
			m.join(last, next)
			last, lastAt = next, q.at
		})
	})
}

func (m *mesh) outer(element int, p pace) int {
	n := m.put(node{pace: p, element: element})
	k := m.key(element, p.at)
	m.cells[k] = append(m.cells[k], n)
	return n
}
