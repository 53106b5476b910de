package geo

import (
	"cmp"
	"errors"
	"math"
	"math/big"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// ringEdge is a straight piece of a ring, its ends in order of position, so that the
// same piece drawn either way is the same edge.
type ringEdge struct{ a, b orb.Point }

// mark is what is known of an edge.
type mark uint8

const (
	plainMark mark = 1 << iota
	wallMark       // what cannot be passed
	startMark      // what cells are gathered from
)

// edgeSet holds edges and their marks. Of an edge drawn again, parity tells a set
// to drop it, as drawn twice it parts nothing from nothing; else it gets both
// marks.
type edgeSet struct {
	marks  map[ringEdge]mark
	parity bool
}

func newEdgeSet(parity bool) *edgeSet { return &edgeSet{map[ringEdge]mark{}, parity} }

func (s *edgeSet) add(a, b orb.Point, m mark) {
	switch {
	case a == b:
		return
	case byPosition(a, b) > 0:
		a, b = b, a
	}
	e := ringEdge{a, b}
	if _, again := s.marks[e]; again && s.parity {
		delete(s.marks, e)
		return
	}
	s.marks[e] |= m
}

// moved returns the set with every end moved to the one that stands for it.
func (s *edgeSet) moved(at *ends) *edgeSet {
	out := newEdgeSet(s.parity)
	for _, e := range s.edges() {
		out.add(at.of(e.a), at.of(e.b), s.marks[e])
	}
	return out
}

// edges are those of the set in order of position.
func (s *edgeSet) edges() []ringEdge {
	out := make([]ringEdge, 0, len(s.marks))
	for e := range s.marks {
		out = append(out, e)
	}
	slices.SortFunc(out, func(e, f ringEdge) int { return cmp.Or(byPosition(e.a, f.a), byPosition(e.b, f.b)) })
	return out
}

func byPosition(a, b orb.Point) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) }

const (
	// mostRounds is how often edges are cut where they meet. Rounding the place
	// where two cross moves them by less than a nanometre, so that the second
	// round seldom finds anything and the third next to never.
	mostRounds = 10
	// mostEdges is how many edges cutting may leave: more are no drawing that
	// repairing could make sense of.
	mostEdges = 2_000_000
)

var errTangled = errors.New("it is too tangled to be repaired")

// noded cuts edges wherever they meet, so that what is left meets only at ends. A
// piece keeps the mark of its edge.
func (s *edgeSet) noded() (*edgeSet, error) {
	snap := snapOf(s.edges())
	at := newEnds(snap)
	s = s.moved(at)
	for range mostRounds {
		edges := s.edges()
		cuts, err := cutsOf(edges, snap)
		if err != nil {
			return nil, err
		}
		if len(cuts) == 0 {
			return s, nil
		}
		cut := newEdgeSet(s.parity)
		for i, e := range edges {
			places := cuts[i]
			slices.SortFunc(places, func(p, q orb.Point) int { return cmp.Compare(along(e, p), along(e, q)) })
			from := e.a
			for _, p := range append(places, e.b) {
				to := at.of(p)
				cut.add(from, to, s.marks[e])
				from = to
			}
		}
		s = cut
	}
	return nil, errTangled
}

// along orders points of an edge from its first end.
func along(e ringEdge, p orb.Point) float64 {
	return (p[0]-e.a[0])*(e.b[0]-e.a[0]) + (p[1]-e.a[1])*(e.b[1]-e.a[1])
}

// cutsOf returns where each edge meets others short of its own ends.
func cutsOf(edges []ringEdge, snap float64) (map[int][]orb.Point, error) {
	index := edgeIndex(edges)
	cuts := map[int][]orb.Point{}
	n := 0
	for i, e := range edges {
		all := index.search(e.rect(snap), func(j int) bool {
			if j <= i {
				return true
			}
			onE, onF := meet(e, edges[j], snap)
			cuts[i] = append(cuts[i], onE...)
			cuts[j] = append(cuts[j], onF...)
			if n += len(onE) + len(onF); n > mostEdges {
				return false
			}
			return true
		})
		if !all {
			return nil, errTangled
		}
	}
	for i, at := range cuts {
		if len(at) == 0 {
			delete(cuts, i)
		}
	}
	return cuts, nil
}

func edgeIndex(edges []ringEdge) *packed {
	return newPacked(len(edges), func(i int) rect { return edges[i].rect(0) })
}

// rect is the bound of the edge and so much more.
func (e ringEdge) rect(more float64) rect {
	return rect{min(e.a[0], e.b[0]) - more, min(e.a[1], e.b[1]) - more, max(e.a[0], e.b[0]) + more, max(e.a[1], e.b[1]) + more}
}

// snapOf is how near to an edge an end is taken to lie on it: rounding moves a place
// where two edges cross by a ten-thousandth of that (9e-11 degrees, 9 micrometres,
// at 90 degrees). What is left then meets plainly or not at all, also for those who
// calculate with rounded numbers.
func snapOf(edges []ringEdge) float64 {
	const share = 1e-12
	greatest := 0.0
	for _, e := range edges {
		for k := range e.a {
			greatest = math.Max(greatest, math.Max(math.Abs(e.a[k]), math.Abs(e.b[k])))
		}
	}
	return share * greatest
}

// meet returns the points at which two edges must be cut: where an end of one lies
// on the other, or where they cross.
func meet(e, f ringEdge, snap float64) (onE, onF []orb.Point) {
	onE = append(e.within(f.a, snap), e.within(f.b, snap)...)
	onF = append(f.within(e.a, snap), f.within(e.b, snap)...)
	if len(onE)+len(onF) == 0 && e.crosses(f) {
		p := crossing(e, f)
		return []orb.Point{p}, []orb.Point{p}
	}
	return onE, onF
}

// crosses reports whether each of two edges has the ends of the other on its two
// sides.
func (e ringEdge) crosses(f ringEdge) bool {
	return orientation(e.a, e.b, f.a)*orientation(e.a, e.b, f.b) < 0 &&
		orientation(f.a, f.b, e.a)*orientation(f.a, f.b, e.b) < 0
}

// within returns a point if it lies on the edge short of its ends.
func (e ringEdge) within(p orb.Point, snap float64) []orb.Point {
	if p == e.a || p == e.b || planar.DistanceFromSegment(e.a, e.b, p) > snap {
		return nil
	}
	return []orb.Point{p}
}

// crossing is where two edges cross, rounded, and no farther out than their ends.
func crossing(e, f ringEdge) orb.Point {
	dx, dy := e.b[0]-e.a[0], e.b[1]-e.a[1]
	gx, gy := f.b[0]-f.a[0], f.b[1]-f.a[1]
	t := ((f.a[0]-e.a[0])*gy - (f.a[1]-e.a[1])*gx) / (dx*gy - dy*gx)
	p := orb.Point{e.a[0] + t*dx, e.a[1] + t*dy}
	for k := range p {
		low := math.Max(math.Min(e.a[k], e.b[k]), math.Min(f.a[k], f.b[k]))
		high := math.Min(math.Max(e.a[k], e.b[k]), math.Max(f.a[k], f.b[k]))
		if math.IsNaN(p[k]) { // all but parallel
			p[k] = low
		}
		p[k] = math.Min(math.Max(p[k], low), high)
	}
	return p
}

// orientation is +1 if p lies left of the direction from a to b, -1 right, 0 on
// the line, exactly: where rounding could decide, it is worked out in full.
func orientation(a, b, p orb.Point) int {
	// Shewchuk (1997), "Adaptive precision floating-point arithmetic and fast
	// robust geometric predicates", the first bound of orient2d.
	const bound = 3.3306690738754716e-16
	left, right := (a[0]-p[0])*(b[1]-p[1]), (a[1]-p[1])*(b[0]-p[0])
	if det := left - right; math.Abs(det) > bound*(math.Abs(left)+math.Abs(right)) {
		return cmp.Compare(det, 0)
	}
	return product(a[0], p[0], b[1], p[1]).Cmp(product(a[1], p[1], b[0], p[0]))
}

// product is (a-b)(c-d), exactly.
func product(a, b, c, d float64) *big.Float {
	// Enough for numbers of 53 bits whose exponents differ by 400.
	const bits = 1000
	difference := func(x, y float64) *big.Float {
		return new(big.Float).SetPrec(bits).Sub(big.NewFloat(x), big.NewFloat(y))
	}
	return new(big.Float).SetPrec(2*bits).Mul(difference(a, b), difference(c, d))
}
