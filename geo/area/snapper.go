package area

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// snapper are the ends of edges, none nearer to another than snap, so that cutting edges
// where they meet comes to an end.
type snapper struct {
	snap  float64
	at    []orb.Point        // by number
	last  map[[2]int64]int32 // by square: the last one known in it
	prior []int32            // by number: the one known before in its square; -1: none
}

// endSquare is how many times snap the side of a square is: so many that what lies
// within snap of a position seldom lies in another square.
const endSquare = 1024

func newSnapper(snap float64, room int) *snapper {
	return &snapper{snap, make([]orb.Point, 0, room), make(map[[2]int64]int32, room), make([]int32, 0, room)}
}

// of returns the number of the end that stands for a position: of the first one known
// within snap, or its own.
func (e *snapper) of(p orb.Point) int32 {
	low, square, high := e.square(p, -e.snap), e.square(p, 0), e.square(p, e.snap)
	first := int32(len(e.at))
	for x := low[0]; x <= high[0]; x++ {
		for y := low[1]; y <= high[1]; y++ {
			i, known := e.last[[2]int64{x, y}]
			for ; known && i >= 0; i = e.prior[i] {
				if i < first && flat.Distance(p, e.at[i]) <= e.snap {
					first = i
				}
			}
		}
	}
	if int(first) < len(e.at) {
		return first
	}
	prior, known := e.last[square]
	if !known {
		prior = -1
	}
	e.last[square], e.at, e.prior = first, append(e.at, p), append(e.prior, prior)
	return first
}

// square is where a position lies, moved by so much each way.
func (e *snapper) square(p orb.Point, by float64) [2]int64 {
	if e.snap == 0 { // everything lies at 0
		return [2]int64{}
	}
	side := endSquare * e.snap
	return [2]int64{int64(math.Floor((p[0] + by) / side)), int64(math.Floor((p[1] + by) / side))}
}
