package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// split parts every piece beside a leap again, and gives each of the smaller pieces to
// that side of the leap whose way to the shore is more like its own.
func (m *mesh) split() {
	beside := m.besideLeaps()
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

// besideLeaps are the leaps beside each node that has pieces.
func (m *mesh) besideLeaps() map[int][]int {
	beside := map[int][]int{}
	for i, l := range m.leaps {
		for _, n := range l.node {
			if m.nodes[n].pieces != nil {
				beside[n] = append(beside[n], i)
			}
		}
	}
	return beside
}

func (m *mesh) piecesBesideLeaps() int {
	pieces := 0
	for n := range m.besideLeaps() {
		pieces += len(m.nodes[n].pieces)
	}
	return pieces
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
