package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// fewEdges is how many edges of an outline are looked at one by one sooner than found by
// where they lie.
const fewEdges = 500

// edges are those of an outline of many, in their order, by where they lie.
type edges struct {
	all   []flat.Edge
	piece []int32 // of each, the piece whose outline it belongs to; nil for lines
	index *flat.Index
}

func newEdges(e *Element) *edges {
	out := &edges{}
	e.outline(func(a, b orb.Point) { out.all = append(out.all, flat.Edge{A: a, B: b}) })
	for i, polygon := range e.pieces {
		for _, ring := range polygon {
			for range len(ring) - 1 {
				out.piece = append(out.piece, int32(i))
			}
		}
	}
	out.index = flat.NewIndex(len(out.all), func(i int) flat.Box { return out.all[i].Box(0) })
	return out
}

// edgesNear visits, in their order, the edges of the outline that may lie no farther from a
// segment than so many metres, and perhaps others.
func (e *Element) edgesNear(a, b orb.Point, metres float64, visit func(a, b orb.Point)) {
	if e.edges == nil || math.IsInf(metres, 1) {
		e.outline(visit)
		return
	}
	e.edges.visit(flat.Edge{A: a, B: b}.Box(metres), visit)
}

// edgesAround is edgesNear for a place, and begins with what lies nearest to it.
func (e *Element) edgesAround(at orb.Point, metres float64, visit func(a, b orb.Point)) {
	if e.edges == nil {
		e.outline(visit)
		return
	}
	// No edge but those that come as near as some few, one in a row of them, can be nearest.
	most := metres
	step := max(1, int(math.Sqrt(float64(len(e.edges.all)))))
	for i := 0; i < len(e.edges.all); i += step {
		most = min(most, flat.Distance(at, e.edges.all[i].A))
	}
	e.edges.visit(flat.Edge{A: at, B: at}.Box(most), visit)
}

func (s *edges) visit(box flat.Box, visit func(a, b orb.Point)) {
	box = flat.Box{MinX: box.MinX - flat.BoxSlack, MinY: box.MinY - flat.BoxSlack, MaxX: box.MaxX + flat.BoxSlack, MaxY: box.MaxY + flat.BoxSlack}
	var hits []int
	s.index.Search(box, func(i int) bool {
		hits = append(hits, i)
		return true
	})
	slices.Sort(hits)
	for _, i := range hits {
		visit(s.all[i].A, s.all[i].B)
	}
}

// contain reports whether any of the pieces holds a place: the way up from it crosses the
// outline of that an odd number of times, or begins on it.
func (s *edges) contain(at orb.Point) bool {
	if s.piece == nil {
		return false
	}
	var odd []int32 // pieces, sorted
	on := false
	s.index.Search(flat.Box{MinX: at[0], MinY: at[1], MaxX: at[0], MaxY: math.Inf(1)}, func(i int) bool {
		a, b := s.all[i].A, s.all[i].B
		if a[0] > b[0] {
			a, b = b, a
		}
		side := flat.Orientation(a, b, at)
		if side == 0 && min(a[1], b[1]) <= at[1] && at[1] <= max(a[1], b[1]) {
			on = true
			return false
		}
		if a[0] <= at[0] && at[0] < b[0] && side < 0 {
			if k, known := slices.BinarySearch(odd, s.piece[i]); known {
				odd = slices.Delete(odd, k, k+1)
			} else {
				odd = slices.Insert(odd, k, s.piece[i])
			}
		}
		return true
	})
	return on || len(odd) > 0
}
