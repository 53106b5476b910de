package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/crs"
	"waterward/geo/flat/flattest"
)

// The footprint is 0 <= x <= 40, 0 <= y <= 10, lengths in feet: how deep it lies
// inside the areas of a coverage, taken as one. Worked by hand.
func TestAreasOfACoverageAreOne(t *testing.T) {
	fp := placed(t, flattest.Box(0, 0, 40, 10))
	hole := clockwise(10, -5, 30, 15)
	for _, c := range []struct {
		name  string
		areas [][]orb.Polygon
		want  float64 // 0: not inside
	}{
		{"a seam across", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {flattest.Box(20, -50, 90, 60)}}, 50},
		{"a seam along an edge", [][]orb.Polygon{{flattest.Box(-70, -50, 40, 60)}, {flattest.Box(40, -50, 90, 60)}}, 50},
		{"a seam beside it", [][]orb.Polygon{{flattest.Box(-70, -50, 45, 60)}, {flattest.Box(45, -50, 90, 60)}}, 50},
		{"drawn either way round", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {{clockwise(20, -50, 90, 60)}}}, 50},
		{"overlapping", [][]orb.Polygon{{flattest.Box(-70, -50, 25, 60)}, {flattest.Box(15, -44, 90, 60)}}, 44},
		{"drawn twice", [][]orb.Polygon{{flattest.Box(-70, -50, 90, 60)}, {flattest.Box(-70, -50, 90, 60)}}, 50},
		{"four tiles at a corner", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 5)}, {flattest.Box(20, -50, 90, 5)}, {flattest.Box(-70, 5, 20, 60)}, {flattest.Box(20, 5, 90, 60)}}, 50},
		{"one tile beside two", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {flattest.Box(20, -50, 90, 5)}, {flattest.Box(20, 5, 90, 60)}}, 50},
		{"a corner of four lacks one", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 15)}, {flattest.Box(20, -50, 90, 15)}, {flattest.Box(-70, 15, 20, 60)}}, 5},
		{"parts of one area a hair apart", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60), flattest.Box(20.01, -50, 90, 60)}}, 50},
		{"a hair apart", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {flattest.Box(20.01, -50, 90, 60)}}, 50},
		{"as far apart as sheets are", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {flattest.Box(20.9, -50, 90, 60)}}, 50},
		{"three as far apart as sheets are", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {flattest.Box(20.9, -50, 90, 5)}, {flattest.Box(20.9, 5.9, 90, 60)}}, 50},
		{"farther apart", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {flattest.Box(21.6, -50, 90, 60)}}, 0},
		{"farther apart beside it", [][]orb.Polygon{{flattest.Box(-70, -50, 43, 60)}, {flattest.Box(44.6, -50, 90, 60)}}, 3},
		{"a hole that another fills", [][]orb.Polygon{{{flattest.RingOf(-70, -50, 90, 60), hole}}, {flattest.Box(10, -5, 30, 15)}}, 50},
		{"a hole that another fills in part", [][]orb.Polygon{{{flattest.RingOf(-70, -50, 90, 60), hole}}, {flattest.Box(10, -5, 30, 12)}}, 2},
		{"a hole in one of two", [][]orb.Polygon{{{flattest.RingOf(-70, -50, 90, 60), hole}}, {flattest.Box(90, -50, 100, 60)}}, 0},
		{"only one end covered", [][]orb.Polygon{{flattest.Box(-70, -50, 20, 60)}, {flattest.Box(-90, -50, -70, 60)}}, 0},
	} {
		layer := areasOf(c.areas...)
		got, in := fp.DepthInside(layer, layer.Near(fp.Plane, everything), nil, 0)
		require.Equal(t, c.want > 0, in, c.name)
		if in {
			require.InDelta(t, c.want, got/ft, 1e-3, c.name)
		}
	}
}

// Each element must lie inside, in whichever area.
func TestElementsInAreasOfACoverage(t *testing.T) {
	fp, err := NewFootprint(siteArea(flattest.Box(0, 0, 10, 10), flattest.Box(30, 0, 40, 10)), 0, 0)
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		areas [][]orb.Polygon
		want  float64
	}{
		{"an area each", [][]orb.Polygon{{flattest.Box(-5, -5, 15, 15)}, {flattest.Box(26, -4, 45, 15)}}, 4},
		{"one of them in none", [][]orb.Polygon{{flattest.Box(-5, -5, 15, 15)}, {flattest.Box(50, -4, 65, 15)}}, 0},
	} {
		layer := areasOf(c.areas...)
		got, in := fp.DepthInside(layer, layer.Near(fp.Plane, everything), nil, 0)
		require.Equal(t, c.want > 0, in, c.name)
		require.InDelta(t, c.want, got/ft, 1e-3, c.name)
	}
}

// Sheets half a degree and a tenth of a degree wide, straight in degrees: their
// seam runs through the footprint, and their edges are cut in different places.
func TestSheetsOfDegrees(t *testing.T) {
	var b LayerBuilder
	b.AddArea(orb.MultiPolygon{flattest.Box(-83, 27.5, -82.5, 27.76)})
	for x := -83.0; x < -82.55; x += 0.1 {
		b.AddArea(orb.MultiPolygon{flattest.Box(x, 27.76, x+0.1, 28)})
	}
	layer := b.Build(false)
	fp := placed(t, flattest.Box(-20, -5, 20, 5)) // about 82.63 W 27.76 N
	got, in := fp.DepthInside(layer, layer.Near(fp.Plane, crs.Window(inDegrees(fp.Plane, fp.Bound), 300)), nil, 0)
	require.True(t, in)
	require.Greater(t, got, 300.0)
}

// degrees is a bound of the plane in degrees.
func inDegrees(p *crs.Plane, b orb.Bound) orb.Bound {
	return orb.Bound{Min: p.Inverse(b.Min), Max: p.Inverse(b.Max)}
}

// A rectangle cut at random into tiles, turned, its corners written with 9 decimals
// of a degree, one tile lost: the footprint lies as deep inside as it is far from
// the rectangle's edge and from the lost tile.
func TestTilesOfACoverage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := orb.Bound{Min: orb.Point{-200, -150}, Max: orb.Point{200, 150}}
		tiles := []orb.Bound{whole}
		for range rapid.IntRange(1, 8).Draw(t, "cuts") {
			i := rapid.IntRange(0, len(tiles)-1).Draw(t, "tile")
			axis, share := rapid.IntRange(0, 1).Draw(t, "axis"), flattest.Within(t, 0.1, 0.9, "share")
			one, two := tiles[i], tiles[i]
			if one.Max[axis]-one.Min[axis] < 20 { // slivers are joined, see abutting
				continue
			}
			one.Max[axis] += (share - 1) * (one.Max[axis] - one.Min[axis])
			two.Min[axis] = one.Max[axis]
			tiles[i] = one
			tiles = append(tiles, two)
		}
		lost := tiles[rapid.IntRange(0, len(tiles)-1).Draw(t, "lost")]
		sin, cos := math.Sincos(flattest.Within(t, 0, math.Pi, "turn"))
		turned := func(ring orb.Ring) orb.Polygon {
			out := make(orb.Ring, len(ring))
			for i, p := range ring {
				at := site.Inverse(orb.Point{p[0]*cos - p[1]*sin, p[0]*sin + p[1]*cos})
				out[i] = orb.Point{math.Round(at[0]*1e9) / 1e9, math.Round(at[1]*1e9) / 1e9}
			}
			return orb.Polygon{out}
		}
		var b LayerBuilder
		for _, tile := range tiles {
			if tile != lost {
				b.AddArea(orb.MultiPolygon{turned(tile.ToRing())})
			}
		}
		layer := b.Build(false)
		x, y := flattest.Within(t, -190, 180, "x"), flattest.Within(t, -140, 130, "y")
		own := orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + flattest.Within(t, 1, 9, "long"), y + flattest.Within(t, 1, 9, "wide")}}
		fp, err := NewFootprint(turned(own.ToRing()), 0, 0)
		require.NoError(t, err)
		want := 1e9
		for axis := range 2 {
			want = min(want, own.Min[axis]-whole.Min[axis], whole.Max[axis]-own.Max[axis])
		}
		away := func(axis int) float64 {
			return max(0, lost.Min[axis]-own.Max[axis], own.Min[axis]-lost.Max[axis])
		}
		want = min(want, math.Hypot(away(0), away(1)))
		got, in := fp.DepthInside(layer, layer.Near(fp.Plane, everything), nil, 0)
		const good = 0.003 // 0.01 ft
		if want > good {
			require.True(t, in)
			require.InDelta(t, want, got, good)
		} else {
			require.LessOrEqual(t, got, 2*good)
		}
	})
}
