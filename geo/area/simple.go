package area

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

const (
	// comparedEach is how many other edges of a ring each is set against on average
	// before the ring is left to the library, whose index is made for that.
	comparedEach = 32
	// crossError is the greatest error of the sign of three points, as a share of its
	// two products: eight roundings, and as much again.
	crossError = 16 * 0x1p-53
	// leastCross is where products lose digits to underflow.
	leastCross = 1e-290
)

// surelyValid reports whether an area is valid beyond doubt, at a tenth of the cost of
// the library's check: polygons of one ring each, whose bounds lie apart, and whose edges
// meet only their neighbours. What it leaves in doubt may be valid too.
func surelyValid(area orb.MultiPolygon) bool {
	for _, polygon := range area {
		if len(polygon) != 1 || !surelySimple(polygon[0]) {
			return false
		}
	}
	return len(area) == 1 || allApart(area)
}

// sweptEdge is an edge of a ring, in order of its least x.
type sweptEdge struct {
	flat.Box
	at int
}

// surelySimple reports whether the edges of a closed ring surely meet only their
// neighbours, and those only at their common vertex.
func surelySimple(ring orb.Ring) bool {
	n := len(ring) - 1
	if n < 3 || ring[0] != ring[n] {
		return false
	}
	var few [128]sweptEdge // room for most rings
	edges := few[:0]
	if n > len(few) {
		edges = make([]sweptEdge, 0, n)
	}
	edges = edges[:n]
	for i := range edges {
		a, b, c := ring[i], ring[i+1], ring[(i+2)%n]
		// A spike folds back; three points in line that do not are in order.
		if _, sure := surely(a, b, c); !sure && !((c[0]-b[0])*(b[0]-a[0])+(c[1]-b[1])*(b[1]-a[1]) > 0) {
			return false
		}
		edges[i] = sweptEdge{flat.Box{MinX: min(a[0], b[0]), MinY: min(a[1], b[1]), MaxX: max(a[0], b[0]), MaxY: max(a[1], b[1])}, i}
	}
	slices.SortFunc(edges, func(e, f sweptEdge) int { return cmp.Compare(e.MinX, f.MinX) })
	left := comparedEach * n
	for i := range edges {
		e := &edges[i]
		for j := i + 1; j < n && edges[j].MinX <= e.MaxX; j++ {
			if left--; left < 0 {
				return false
			}
			f := &edges[j]
			if f.MinY > e.MaxY || f.MaxY < e.MinY {
				continue
			}
			if apart := f.at - e.at; apart == 1 || apart == -1 || apart == n-1 || apart == 1-n {
				continue
			}
			if !surelyApart(ring[e.at], ring[e.at+1], ring[f.at], ring[f.at+1]) {
				return false
			}
		}
	}
	return true
}

// surelyApart reports whether the line through one of two segments surely has the other
// on one side.
func surelyApart(a, b, c, d orb.Point) bool {
	oneSide := func(a, b, c, d orb.Point) bool {
		side, sure := surely(a, b, c)
		other, alsoSure := surely(a, b, d)
		return sure && alsoSure && side == other
	}
	return oneSide(a, b, c, d) || oneSide(c, d, a, b)
}

// surely returns on which side of the way from a to b a point lies, and whether that is
// beyond rounding. Values that are not finite are never sure.
func surely(a, b, p orb.Point) (side int, sure bool) {
	one, other := (b[0]-a[0])*(p[1]-a[1]), (b[1]-a[1])*(p[0]-a[0])
	least := max(crossError*(math.Abs(one)+math.Abs(other)), leastCross)
	switch d := one - other; {
	case d > least:
		return 1, true
	case d < -least:
		return -1, true
	}
	return 0, false
}
