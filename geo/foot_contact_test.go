package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
	"waterward/geo/flat/flattest"
)

// placed makes a rectangle drawn in feet a footprint, from degrees.
func placed(t *testing.T, polygon orb.Polygon) *Footprint {
	fp, err := NewFootprint(siteArea(polygon), 0, 0)
	require.NoError(t, err)
	return fp
}

func areasOf(areas ...[]orb.Polygon) *Layer {
	var b LayerBuilder
	for _, shape := range areas {
		b.AddArea(siteArea(shape...))
	}
	return b.Build(false)
}

func contactOf(fp *Footprint, layer *Layer) Contact {
	return fp.Contact(layer, layer.Near(fp.Plane, everything))
}

// TestContact: the footprint is 0 <= x <= 40, 0 <= y <= 10, lengths in feet.
// Worked by hand.
func TestContact(t *testing.T) {
	fp := placed(t, flattest.Box(0, 0, 40, 10))
	hole := clockwise(10, -5, 30, 15)
	for _, c := range []struct {
		name    string
		areas   [][]orb.Polygon
		nearest float64
		shared  float64
		depth   float64
		touched []int
		item    int
	}{
		{"apart", [][]orb.Polygon{{flattest.Box(60, 0, 90, 10)}, {flattest.Box(53, 0, 55, 10)}}, 13, 0, 0, nil, 1},
		{"corner to corner", [][]orb.Polygon{{flattest.Box(43, 14, 60, 20)}}, 5, 0, 0, nil, 0},
		{"touching edge", [][]orb.Polygon{{flattest.Box(40, 0, 60, 10)}}, 0, 0, 0, []int{0}, 0},
		{"overlapping", [][]orb.Polygon{{flattest.Box(30, 4, 60, 30)}}, 0, 60, 6, []int{0}, 0},
		{"inside", [][]orb.Polygon{{flattest.Box(-20, -20, 60, 30)}}, 0, 400, 25, []int{0}, 0},
		{"around a small one", [][]orb.Polygon{{flattest.Box(18, 3, 20, 7)}}, 0, 8, 1, []int{0}, 0},
		// Patches of several years: x 20..30 and 25..35 share 5 ft of width.
		{"overlapping patches", [][]orb.Polygon{{flattest.Box(20, 0, 30, 20)}, {flattest.Box(25, 0, 35, 20)}}, 0, 150, 5, []int{0, 1}, 0},
		{"the same patch twice", [][]orb.Polygon{{flattest.Box(20, 0, 30, 20)}, {flattest.Box(20, 0, 30, 20)}}, 0, 100, 5, []int{0, 1}, 0},
		{"two parts of one area", [][]orb.Polygon{{flattest.Box(-10, 0, 10, 10), flattest.Box(30, 0, 50, 10)}}, 0, 200, 5, []int{0}, 0},
		{"a hole in the area", [][]orb.Polygon{{{flattest.RingOf(-20, -20, 60, 30), hole}}}, 0, 200, 10, []int{0}, 0},
		{"one touched, one near", [][]orb.Polygon{{flattest.Box(41, 0, 50, 10)}, {flattest.Box(-10, 0, 5, 10)}}, 0, 50, 5, []int{1}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			layer := areasOf(c.areas...)
			got := contactOf(fp, layer)
			shared, err := fp.SharedArea(layer, got.Touched)
			require.NoError(t, err)
			require.Equal(t, c.touched, got.Touched)
			require.Equal(t, c.item, got.Item)
			require.InDelta(t, c.nearest, got.Nearest.Distance/ft, 1e-4)
			require.InDelta(t, c.shared, shared/(ft*ft), 1e-3)
			require.InDelta(t, c.depth, got.Depth/ft, 0.0011)
		})
	}
}

// TestContactInAHole: wholly within the hole of an area it touches nothing.
func TestContactInAHole(t *testing.T) {
	layer := areasOf([]orb.Polygon{{flattest.RingOf(-50, -50, 90, 60), clockwise(-10, -6, 50, 20)}})
	fp := placed(t, flattest.Box(0, 0, 40, 10))
	got := contactOf(fp, layer)
	require.Empty(t, got.Touched)
	require.InDelta(t, 6, got.Nearest.Distance/ft, 1e-4)
	_, in := fp.DepthInside(layer, layer.Near(fp.Plane, everything), nil, 0)
	require.False(t, in)
}

func TestContactWithNothing(t *testing.T) {
	layer := areasOf([]orb.Polygon{flattest.Box(5000, 0, 5100, 10)})
	fp := placed(t, flattest.Box(0, 0, 40, 10))
	got := fp.Contact(layer, layer.Near(fp.Plane, orb.Bound{Min: orb.Point{-82.6301, 27.7599}, Max: orb.Point{-82.6299, 27.7601}}))
	require.True(t, math.IsInf(got.Nearest.Distance, 1))
	require.Equal(t, -1, got.Item)
	require.Empty(t, got.Touched)
}

// TestOnAreas: a structure stands on land if a place of it does, not the middle of the box
// round it, which of one round a corner lot is on the lot. Worked by hand.
func TestOnAreas(t *testing.T) {
	lot := areasOf([]orb.Polygon{flattest.Box(-900, -900, 0, 0)})
	corner := orb.Polygon{{{-25, 2}, {2, 2}, {2, -25}, {6, -25}, {6, 6}, {-25, 6}, {-25, 2}}}
	for _, c := range []struct {
		name string
		fp   *Footprint
		on   bool
	}{
		{"round the corner of the lot", placed(t, corner), false},
		{"bent, and on the lot", placed(t, orb.Polygon{{{-45, -9}, {-9, -9}, {-9, -45}, {-5, -45}, {-5, -5}, {-45, -5}, {-45, -9}}}), true},
		{"along the lot", placed(t, flattest.Box(-40, 3, -10, 9)), false},
		{"on the lot", placed(t, flattest.Box(-40, -6, -10, 2)), true},
		{"a tenth of it on the lot", placed(t, flattest.Box(-40, -1, -10, 9)), false},
	} {
		require.Equal(t, c.on, c.fp.OnAreas(lot), c.name)
	}
}

// TestDepthInside: worked by hand.
func TestDepthInside(t *testing.T) {
	fp := placed(t, flattest.Box(0, 0, 40, 10))
	for _, c := range []struct {
		name string
		area orb.Polygon
		want float64
		in   bool
	}{
		{"inside", flattest.Box(-20, -7, 60, 30), 7, true},
		{"partly", flattest.Box(-20, -7, 30, 30), 0, false},
		{"its edge on the edge", flattest.Box(0, -20, 60, 30), 0, false},
		{"outside", flattest.Box(50, 0, 60, 10), 0, false},
		{"round a hole", orb.Polygon{flattest.RingOf(-20, -20, 60, 30), clockwise(10, 3, 12, 5)}, 0, false},
		{"beside a hole", orb.Polygon{flattest.RingOf(-90, -90, 90, 90), clockwise(44, 0, 50, 5)}, 4, true},
	} {
		layer := areasOf([]orb.Polygon{c.area})
		got, in := fp.DepthInside(layer, layer.Near(fp.Plane, everything), nil, 0)
		require.Equal(t, c.in, in, c.name)
		if c.in {
			require.InDelta(t, c.want, got/ft, 1e-4, c.name)
		}
	}
}

// TestCheckArea: OGC simple features, validity of areas.
func TestCheckArea(t *testing.T) {
	square := flattest.RingOf(0, 0, 10, 10)
	for _, c := range []struct {
		name  string
		area  orb.MultiPolygon
		valid bool
	}{
		{"square", orb.MultiPolygon{{square}}, true},
		{"clockwise square", orb.MultiPolygon{{clockwise(0, 0, 10, 10)}}, true},
		{"hole", orb.MultiPolygon{{square, clockwise(2, 2, 4, 4)}}, true},
		{"hole touching its shell at a point", orb.MultiPolygon{{square, {{0, 5}, {4, 6}, {4, 4}, {0, 5}}}}, true},
		{"two parts touching at a corner", orb.MultiPolygon{{square}, flattest.Box(10, 10, 20, 20)}, true},
		{"bow-tie", orb.MultiPolygon{{{{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}}}}, false},
		{"hole outside", orb.MultiPolygon{{square, clockwise(20, 2, 24, 4)}}, false},
		{"hole across its shell", orb.MultiPolygon{{square, clockwise(8, 2, 14, 4)}}, false},
		{"holes overlapping", orb.MultiPolygon{{square, clockwise(2, 2, 5, 5), clockwise(4, 4, 7, 7)}}, false},
		{"overlapping parts", orb.MultiPolygon{{square}, flattest.Box(5, 5, 15, 15)}, false},
		{"parts sharing an edge", orb.MultiPolygon{{square}, flattest.Box(10, 0, 20, 10)}, false},
		{"part within part", orb.MultiPolygon{{square}, flattest.Box(2, 2, 4, 4)}, false},
		{"spike", orb.MultiPolygon{{{{0, 0}, {10, 0}, {10, 10}, {10, 20}, {10, 10}, {0, 10}, {0, 0}}}}, false},
		{"no area", orb.MultiPolygon{{{{0, 0}, {10, 0}, {5, 0}, {0, 0}}}}, false},
	} {
		var err error
		require.NotPanics(t, func() { err = area.Check(c.area) }, c.name)
		require.Equal(t, c.valid, err == nil, "%s: %v", c.name, err)
	}
}
