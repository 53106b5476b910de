package area

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat/flattest"
)

// TestNestedHoles: a hole in a hole is refused wherever its ring begins, also where the
// two touch at a corner or along an edge ("Holes are nested", GEOS 3.11.1 by shapely
// 1.8.5, explain_validity), and rebuilt it is part of the area again: 100 - 36 + 10 and
// 100 - 36 + 7.5, by hand. Holes that touch from without are none.
func TestNestedHoles(t *testing.T) {
	shell, hole := flattest.RingOf(0, 0, 10, 10), flattest.RingOf(2, 2, 8, 8)
	for _, c := range []struct {
		inner orb.Ring
		area  float64
	}{
		{orb.Ring{{2, 2}, {7, 2.5}, {7, 6.5}, {2, 2}}, 74},
		{orb.Ring{{2, 4}, {7, 3}, {7, 6}, {2, 4}}, 71.5},
	} {
		for from := range 3 {
			inner := append(append(orb.Ring{}, c.inner[from:3]...), c.inner[:from+1]...)
			for _, area := range []orb.MultiPolygon{{{shell, hole, inner}}, {{shell, inner, hole}}} {
				require.ErrorContains(t, Check(area), holesOverlap)
				rebuilt, err := Repair(area)
				require.NoError(t, err)
				require.InDelta(t, c.area, Of(rebuilt), 1e-9)
			}
		}
	}
	beside := orb.Ring{{8, 5}, {9, 6}, {9, 4}, {8, 5}}
	require.NoError(t, Check(orb.MultiPolygon{{shell, hole, beside}}))
}

// TestPlaceIn: on a grid, where much lies on edges and corners, as orb has it, which counts
// what is on the ring as inside.
func TestPlaceIn(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	seen := map[int]int{}
	for range 3000 {
		var ring orb.Ring
		for range 3 + r.IntN(5) {
			ring = append(ring, orb.Point{float64(r.IntN(6)), float64(r.IntN(6))})
		}
		ring = append(ring, ring[0])
		p := orb.Point{float64(r.IntN(6)), float64(r.IntN(6))}
		on := false
		for i := 1; i < len(ring); i++ {
			on = on || planar.DistanceFromSegment(ring[i-1], ring[i], p) < 1e-12
		}
		want := -1
		switch {
		case on:
			want = 0
		case planar.RingContains(ring, p):
			want = 1
		}
		require.Equal(t, want, placeIn(ring, p), "%v in %v", p, ring)
		seen[want]++
	}
	require.Greater(t, min(seen[-1], seen[0], seen[1]), 100)
}
