package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// fewEdges is how many edges of an outline are looked at one by one sooner than found by
// where they lie.
const fewEdges = 100

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

// edgesNear visits, in their order, the edges of the outline that may lie no farther from
// what a box holds than so many metres, and perhaps others.
func (e *Element) edgesNear(box *flat.Box, metres float64, visit func(a, b orb.Point)) {
	if e.edges == nil || math.IsInf(metres, 1) {
		e.outline(visit)
		return
	}
	by := metres + flat.BoxSlack
	var hits []int
	e.edges.index.Search(flat.Box{MinX: box.MinX - by, MinY: box.MinY - by, MaxX: box.MaxX + by, MaxY: box.MaxY + by}, func(i int) bool {
		hits = append(hits, i)
		return true
	})
	slices.Sort(hits)
	for _, i := range hits {
		visit(e.edges.all[i].A, e.edges.all[i].B)
	}
}

// nearest is the place of the outline nearest to a point, and the square of how far off it
// is, if that is no more than a limit, squared.
func (s *edges) nearest(at orb.Point, limit float64) (orb.Point, float64) {
	i, least := s.index.Nearest(at, limit, func(i int) float64 {
		q, _ := flat.Project(s.all[i].A, s.all[i].B, at)
		return flat.Squared(q, at)
	})
	if i < 0 {
		return at, least
	}
	q, _ := flat.Project(s.all[i].A, s.all[i].B, at)
	return q, least
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
