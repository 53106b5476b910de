package area

import (
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// TestTrapezoidsCoverThePolygon: they have the polygon's area, lie in it, and miss no point
// of it.
func TestTrapezoidsCoverThePolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Edges of a star whose corners lie 10 m out may come within 1 m of
		// its centre, so the hole stays inside that.
		shell := flattest.DrawStar(t, orb.Point{3, -2}, 10, 40)
		hole := flattest.DrawStar(t, orb.Point{3, -2}, 0.1, 0.9)
		hole.Reverse()
		polygon := orb.Polygon{shell, hole}
		sum := 0.0
		parts := trapezoids(polygon)
		for _, part := range parts {
			ring := append(orb.Ring(slices.Clone(part)), part[0])
			area := planar.Area(ring)
			require.GreaterOrEqual(t, area, -1e-9, "counter-clockwise")
			require.True(t, isConvex(ring))
			sum += area
			middle, _ := planar.CentroidArea(ring)
			if area > 1e-9 {
				require.True(t, flattest.EvenOdd(middle, polygon...), "%v lies outside", part)
			}
		}
		require.InEpsilon(t, planar.Area(shell)+planar.Area(hole), sum, 1e-9)
		for range 30 {
			p := orb.Point{flattest.Within(t, -40, 40, "x"), flattest.Within(t, -40, 40, "y")}
			held := slices.ContainsFunc(parts, func(part []orb.Point) bool {
				for i := range part {
					if flat.Cross(part[i], part[(i+1)%len(part)], p) < 0 {
						return false
					}
				}
				return true
			})
			if held {
				require.True(t, flattest.EvenOdd(p, polygon...))
			}
		}
	})
}

// TestTrapezoidsAreFew: a comb of a thousand teeth, drawn lying, makes no more parts than it
// has corners, though an upright line crosses all of its teeth.
func TestTrapezoidsAreFew(t *testing.T) {
	ring := orb.Ring{{-1, 0}}
	for i := range 1000 {
		ring = append(ring, orb.Point{0, float64(i)}, orb.Point{9 + float64(i%7)/10, float64(i) + 0.3}, orb.Point{0, float64(i) + 0.6})
	}
	ring = append(ring, orb.Point{-1, 1000}, ring[0])
	require.Less(t, len(trapezoids(orb.Polygon{ring})), len(ring))
}

// TestConvexParts: what is convex stays whole, whichever way it was drawn; a dent or a
// hole makes trapezoids of it. Worked by hand.
func TestConvexParts(t *testing.T) {
	square := orb.Ring{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}}
	turned := square.Clone()
	turned.Reverse()
	for _, ring := range []orb.Ring{square, turned, {{0, 0}, {2, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}}} {
		parts := ConvexParts(orb.Polygon{ring})
		require.Len(t, parts, 1)
		require.Equal(t, orb.CCW, append(orb.Ring(parts[0]), parts[0][0]).Orientation())
	}
	require.Len(t, ConvexParts(orb.Polygon{{{2, 0}, {1, 1.5}, {-1, 1.5}, {-2, 0}, {-1, -1.5}, {1, -1.5}, {2, 0}}}), 1)
	require.Greater(t, len(ConvexParts(orb.Polygon{{{0, 0}, {4, 0}, {2, 1}, {0, 4}, {0, 0}}})), 1)
	require.Greater(t, len(ConvexParts(orb.Polygon{square, {{1, 1}, {1, 2}, {2, 2}, {1, 1}}})), 1)
}
