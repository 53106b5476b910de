package area

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// TestTriangulateCoversThePolygon: the triangles have the polygon's area, lie
// in it, and miss no point of it.
func TestTriangulateCoversThePolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Edges of a star whose corners lie 10 m out may come within 1 m of
		// its centre, so the hole stays inside that.
		shell := flattest.DrawStar(t, orb.Point{3, -2}, 10, 40)
		hole := flattest.DrawStar(t, orb.Point{3, -2}, 0.1, 0.9)
		hole.Reverse()
		polygon := orb.Polygon{shell, hole}
		sum := 0.0
		triangles := triangulate(polygon)
		for _, c := range triangles {
			area := flat.Cross(c[0], c[1], c[2]) / 2
			require.GreaterOrEqual(t, area, -1e-9, "counter-clockwise")
			sum += area
			middle := orb.Point{(c[0][0] + c[1][0] + c[2][0]) / 3, (c[0][1] + c[1][1] + c[2][1]) / 3}
			if area > 1e-9 {
				require.True(t, flattest.EvenOdd(middle, polygon...), "%v lies outside", c)
			}
		}
		require.InEpsilon(t, planar.Area(shell)+planar.Area(hole), sum, 1e-9)
		for range 30 {
			p := orb.Point{flattest.Within(t, -40, 40, "x"), flattest.Within(t, -40, 40, "y")}
			held := false
			for _, c := range triangles {
				held = held || flat.Cross(c[0], c[1], p) >= 0 && flat.Cross(c[1], c[2], p) >= 0 && flat.Cross(c[2], c[0], p) >= 0
			}
			if held {
				require.True(t, flattest.EvenOdd(p, polygon...))
			}
		}
	})
}

// TestConvexParts: what is convex stays whole, whichever way it was drawn; a dent or a
// hole makes triangles of it. Worked by hand.
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
