package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat"
)

// drawn makes a footprint straight in the plane.
func drawn(polygons []orb.Polygon, lines ...[]orb.Point) *Footprint {
	e := Element{Areas: polygons, Lines: lines}
	e.settle()
	return &Footprint{Elements: []Element{e}, Bound: e.bound()}
}

// TestDirectedDistance holds cases whose answers are known outside this
// project. H1, H4-H7, H10 and the vertex answers of H2 and H3 are printed in
// the tests and documentation of general geometry engines; the exact values are
// exact fractions worked by hand or bracketed by an engine's buffer (GEOS
// 3.11.1: H3 is not covered at 74.60 and is at 74.63; H8 not at 39.99, is at
// 40.0001).
func TestDirectedDistance(t *testing.T) {
	cases := []struct {
		name    string
		polygon orb.Polygon
		from    []orb.Point
		to      []orb.Point
		want    float64
	}{
		{name: "H1", from: []orb.Point{{1, 1}, {5, 10}, {9, 1}}, to: []orb.Point{{0, 10}, {0, 0}, {10, 0}}, want: 85.0 / 13},
		{name: "H2", from: []orb.Point{{130, 0}, {0, 0}, {0, 150}}, to: []orb.Point{{10, 10}, {10, 150}, {130, 10}}, want: 55.877933383},
		{name: "H3", from: []orb.Point{{10, 10}, {10, 150}, {130, 10}}, to: []orb.Point{{130, 0}, {0, 0}, {0, 150}}, want: 970.0 / 13},
		{name: "H4", from: []orb.Point{{1, 6}, {3, 5}, {1, 4}}, to: []orb.Point{{1, 10}, {9, 5}, {1, 2}}, want: 3.391993216},
		{name: "H4 reversed", from: []orb.Point{{1, 10}, {9, 5}, {1, 2}}, to: []orb.Point{{1, 6}, {3, 5}, {1, 4}}, want: 6},
		{name: "H5", from: []orb.Point{{1, 6}, {3, 5}, {1, 4}}, to: []orb.Point{{1, 3}, {1, 9}, {9, 5}, {1, 1}}, want: 2},
		{name: "H6", polygon: orb.Polygon{{{2, 8}, {8, 2}, {2, 1}, {2, 8}}}, to: []orb.Point{{6, 5}, {4, 7}, {0, 0}, {9, 1}}, want: 2.4716522},
		{name: "H7", polygon: orb.Polygon{{{2, 8}, {8, 2}, {2, 1}, {2, 8}}}, to: []orb.Point{{6, 5}, {4, 7}, {0, 0}, {8, 4}}, want: 2.2326252},
		{name: "H8", from: []orb.Point{{40, 20}, {95, 75}}, to: []orb.Point{{0, 0}, {100, 0}, {100, 100}}, want: 40},
		{name: "H9", polygon: orb.Polygon{{{10, 10}, {90, 10}, {90, 90}, {10, 90}, {10, 10}}}, to: []orb.Point{{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}, want: 50},
		{name: "H10", from: []orb.Point{{2, 0}, {2, 1}}, to: []orb.Point{{0, 0}, {2, 0}}, want: 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			fp := drawn([]orb.Polygon{c.polygon})
			if c.polygon == nil {
				fp = drawn(nil, c.from)
			}
			got := fp.FarthestUnsigned(NewLines(c.to))
			require.InDelta(t, c.want, got.Distance, tolerance+1e-7)
			require.LessOrEqual(t, got.Distance, c.want+1e-7, "never above the true value")
			require.InDelta(t, got.Distance, flat.Distance(got.At, got.Foot.At), 1e-9, "between its witness points")
		})
	}
}

// TestSideAtVertex: the first case is the one in which the crosses of the two
// segments disagree (+200 and -310). Worked by hand.
func TestSideAtVertex(t *testing.T) {
	for _, c := range []struct {
		line []orb.Point
		p    orb.Point
		want float64
	}{
		{[]orb.Point{{0, 0}, {100, 0}, {20, 30}}, orb.Point{105, 2}, -1},
		{[]orb.Point{{0, 0}, {100, 0}, {20, 30}}, orb.Point{60, 8}, 1},
		{[]orb.Point{{0, 0}, {100, 0}, {100, 100}}, orb.Point{60, 40}, 1},
		{[]orb.Point{{0, 0}, {100, 0}, {100, -100}}, orb.Point{105, 5}, 1},
		{[]orb.Point{{0, 0}, {100, 0}}, orb.Point{50, 0}, 0},
	} {
		lines := NewLines(c.line)
		require.Equal(t, c.want, lines.side(c.p, lines.Nearest(c.p)), "%v", c)
	}
}

// Across a cove 20 wide the corners of what lies within 8 of its head are all on the
// shore; the greatest distance is that of the middle, worked by hand.
func TestSpanOfAnAreaBetweenWalls(t *testing.T) {
	cove := NewLines([]orb.Point{{-10, 20}, {-10, 0}, {10, 0}, {10, 20}}) // water on the left
	least, greatest := Span(orb.MultiPolygon{{{{-10, 0}, {10, 0}, {10, 8}, {-10, 8}, {-10, 0}}}}, cove)
	require.InDelta(t, 0, least, 1e-9)
	require.InDelta(t, 8, greatest, 0.0004)
}
