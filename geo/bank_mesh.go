package geo

import (
	"math"
	"slices"

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
	cells   map[cellKey][]int // nodes by element and square
	size    float64           // of a square, metres
	leaps   []leap
	ignored []bool // by leap
	joined  groups // nodes between which there is no leap
	part    []int  // by node: the node that stands for its part
}

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
	m := &mesh{bank: b, fp: fp, cells: map[cellKey][]int{}}
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
	for _, l := range m.fp.Links {
		m.parts()
		from, to := m.nearestOfParts(l.A, l.To), m.nearestOfParts(l.B, l.From)
		for _, i := range from {
			for _, j := range to {
				if m.part[i] == m.part[j] {
					continue
				}
				if !m.leapsBetween(i, j) {
					m.joined.unite(i, j)
				}
			}
		}
	}
}

// nearestOfParts are the nodes of an element that are nearest to a place, one of each part.
func (m *mesh) nearestOfParts(element int, at orb.Point) []int {
	best := map[int]int{}
	var order []int
	for i := range m.nodes {
		if m.nodes[i].element != element {
			continue
		}
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
	for i := range m.nodes {
		if n := &m.nodes[i]; n.element == element {
			n.foot = trail.Nearest(n.at)
		}
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
	for i := range m.nodes {
		if d := flat.Squared(m.nodes[i].at, at); m.nodes[i].element == element && d < least {
			best, least = i, d
		}
	}
	return best
}

// split parts every piece beside a leap again, and gives each of the smaller pieces to
// that side of the leap whose way to the shore is more like its own.
func (m *mesh) split() {
	beside := map[int][]int{}
	for i, l := range m.leaps {
		for _, n := range l.node {
			if m.nodes[n].pieces != nil {
				beside[n] = append(beside[n], i)
			}
		}
	}
	near := NewTrail(m.near)
	for n, count := 0, len(m.nodes); n < count; n++ {
		leaps := beside[n]
		if len(leaps) == 0 {
			continue
		}
		m.nodes[n].weight = 0
		for _, piece := range m.nodes[n].pieces {
			m.splitPiece(n, piece, leaps, near)
		}
	}
}

// splitPiece parts a piece of a node that some leaps lie beside.
func (m *mesh) splitPiece(n int, piece []orb.Point, leaps []int, near *Trail) {
	bound := orb.MultiPoint(piece).Bound()
	wide, high := bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1]
	for x := range meshParts {
		for y := range meshParts {
			small := clippedTo(piece, orb.Bound{
				Min: orb.Point{bound.Min[0] + wide*float64(x)/meshParts, bound.Min[1] + high*float64(y)/meshParts},
				Max: orb.Point{bound.Min[0] + wide*float64(x+1)/meshParts, bound.Min[1] + high*float64(y+1)/meshParts},
			})
			at, shape := centreOf(small)
			if shape <= 0 {
				continue
			}
			p := pace{at, near.Nearest(at)}
			to, most := n, -2.0
			if w, ok := p.way(); ok {
				for _, i := range leaps {
					l := &m.leaps[i]
					for side := range 2 {
						if like := flat.Dot(w, l.way[side]); like > most {
							to, most = l.node[side], like
						}
					}
				}
			}
			m.joined.unite(to, m.put(node{pace: p, element: m.nodes[n].element, weight: shape, fine: true}))
		}
	}
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

// clippedTo is what of a convex part lies in a bound.
func clippedTo(part []orb.Point, b orb.Bound) []orb.Point {
	out := part
	for side := range 4 {
		axis, limit, sign := side/2, b.Min[side/2], 1.0
		if side%2 == 1 {
			limit, sign = b.Max[axis], -1
		}
		var kept []orb.Point
		for i, p := range out {
			q := out[(i+1)%len(out)]
			in, next := sign*(p[axis]-limit), sign*(q[axis]-limit)
			if in >= 0 {
				kept = append(kept, p)
			}
			if in > 0 && next < 0 || in < 0 && next > 0 {
				kept = append(kept, flat.At(p, q, in, next, 0))
			}
		}
		if out = kept; len(out) < 3 {
			return nil
		}
	}
	return out
}

// centreOf is the middle of a convex part, and its area.
func centreOf(part []orb.Point) (orb.Point, float64) {
	if len(part) < 3 {
		return orb.Point{}, 0
	}
	var at orb.Point
	shape := 0.0
	for i := 1; i+1 < len(part); i++ {
		a := flat.Cross(part[0], part[i], part[i+1]) / 2
		shape += a
		for axis := range 2 {
			at[axis] += a * (part[0][axis] + part[i][axis] + part[i+1][axis]) / 3
		}
	}
	if shape <= 0 {
		return orb.Point{}, 0
	}
	return orb.Point{at[0] / shape, at[1] / shape}, shape
}
