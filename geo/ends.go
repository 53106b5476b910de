package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// ends are the ends of edges, none nearer to another than snap, so that cutting edges
// where they meet comes to an end.
type ends struct {
	snap float64
	near map[[2]int64][]orb.Point // by square of a side of snap
}

func newEnds(snap float64) *ends { return &ends{snap, map[[2]int64][]orb.Point{}} }

// of returns the end that stands for a position: the first one known within snap, or
// itself.
func (e *ends) of(p orb.Point) orb.Point {
	if e.snap == 0 { // everything lies at 0
		return p
	}
	square := [2]int64{int64(math.Floor(p[0] / e.snap)), int64(math.Floor(p[1] / e.snap))}
	for dx := int64(-1); dx <= 1; dx++ {
		for dy := int64(-1); dy <= 1; dy++ {
			for _, q := range e.near[[2]int64{square[0] + dx, square[1] + dy}] {
				if distance(p, q) <= e.snap {
					return q
				}
			}
		}
	}
	e.near[square] = append(e.near[square], p)
	return p
}
