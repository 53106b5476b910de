package area

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"waterward/geo/flat"
)

const (
	// joinedAtOnce is how many edges are joined all at once, if they meet in no more than
	// metAtOnce places. Of more, or of a tangle, each half is joined first, down to
	// joinedFirst edges: what lies within a half is gone when the halves meet, so that pieces
	// drawn over one another again and again are joined in about the time of sorting them.
	joinedAtOnce, metAtOnce = 20_000, 40_000
	joinedFirst             = 1_000
	// mostMet is in how many places in all they may meet: a second's work, and four times
	// what a zigzag of some thousand vertices comes to.
	mostMet = 500_000
)

// Union joins valid polygons, which may overlap.
func Union(polygons []orb.Polygon) ([]orb.Polygon, error) {
	if allApart(polygons) {
		return polygons, nil
	}
	if edgesOf(polygons) <= joinedAtOnce {
		left := metAtOnce
		if joined, err := coveredBy(1, polygons, &left); err == nil {
			return joined, nil
		}
	}
	left := mostMet
	joined, err := joinedByHalves(polygons, &left)
	if err != nil {
		return nil, fmt.Errorf("its parts cannot be joined: %w", err)
	}
	return joined, nil
}

func edgesOf(polygons []orb.Polygon) int {
	edges := 0
	for _, polygon := range polygons {
		for _, ring := range polygon {
			edges += len(ring) - 1
		}
	}
	return edges
}

// joinedByHalves joins polygons, which may meet in no more places than are left.
func joinedByHalves(polygons []orb.Polygon, left *int) ([]orb.Polygon, error) {
	if len(polygons) == 1 || allApart(polygons) {
		return polygons, nil
	}
	if edgesOf(polygons) <= joinedFirst {
		return coveredBy(1, polygons, left)
	}
	first, err := joinedByHalves(polygons[:len(polygons)/2], left)
	if err != nil {
		return nil, err
	}
	second, err := joinedByHalves(polygons[len(polygons)/2:], left)
	if err != nil {
		return nil, err
	}
	return coveredBy(1, slices.Concat(first, second), left)
}

// coveredBy returns what at least so many of valid polygons cover: each counts on the inner
// side of its outline. They may meet in no more places than are left. The library's overlay
// is not asked, as where it rounds crossings it may return ground twice, or none, and no
// error.
func coveredBy(least int32, polygons []orb.Polygon, left *int) ([]orb.Polygon, error) {
	var drawn drawing
	for _, polygon := range polygons {
		for i, ring := range polygon {
			turn := int32(1)
			if (twiceArea(ring) > 0) == (i > 0) { // the inner side is the right one
				turn = -1
			}
			drawn.add(ring, flanks{turn: turn})
		}
	}
	edges, err := drawn.set(false).noded(left)
	if err != nil {
		return nil, err
	}
	f := newFaces(edges)
	covers := f.covers()
	return f.joined(func(cycle int32) bool { return covers[cycle] >= least }), nil
}

// allApart reports whether no bounds of polygons meet, so that there is nothing to
// join.
func allApart(polygons []orb.Polygon) bool {
	bounds := make([]flat.Box, len(polygons))
	for i, p := range polygons {
		bounds[i] = flat.BoxOf(p.Bound())
	}
	slices.SortFunc(bounds, func(a, b flat.Box) int { return cmp.Compare(a.MinX, b.MinX) })
	for i := range bounds {
		for j := i + 1; j < len(bounds) && bounds[j].MinX <= bounds[i].MaxX; j++ {
			if bounds[i].Touches(&bounds[j]) {
				return false
			}
		}
	}
	return true
}

// Shared returns the area, in square metres, that two areas of the plane
// have in common. Parts of either may overlap one another.
func Shared(a, b []orb.Polygon) (float64, error) {
	// Only there can they share anything, which may be little of either.
	window := overlap(orb.MultiPolygon(a).Bound(), orb.MultiPolygon(b).Bound())
	var both []orb.Polygon
	for _, area := range [][]orb.Polygon{a, b} {
		joined, err := Union(areasWithin(area, window))
		if err != nil {
			return 0, err
		}
		both = append(both, joined...)
	}
	left := mostEdges
	shared, err := coveredBy(2, both, &left)
	if err != nil {
		return 0, fmt.Errorf("the shared area cannot be found: %w", err)
	}
	return Of(shared), nil
}

// overlap is what two bounds have in common, empty if they lie apart.
func overlap(a, b orb.Bound) orb.Bound {
	return orb.Bound{
		Min: orb.Point{max(a.Min[0], b.Min[0]), max(a.Min[1], b.Min[1])},
		Max: orb.Point{min(a.Max[0], b.Max[0]), min(a.Max[1], b.Max[1])},
	}
}

// areasWithin returns polygons less what lies outside a window. Where one falls apart its
// pieces stay joined by edges along the window, drawn to and fro, which part nothing.
func areasWithin(polygons []orb.Polygon, window orb.Bound) []orb.Polygon {
	var out []orb.Polygon
	for _, polygon := range polygons {
		switch b := polygon.Bound(); {
		case !b.Intersects(window):
			continue
		case !window.Contains(b.Min) || !window.Contains(b.Max):
			// A copy, as clipping changes what it is given.
			polygon = clip.Polygon(window, polygon.Clone())
		}
		if len(polygon) > 0 {
			out = append(out, polygon)
		}
	}
	return out
}
