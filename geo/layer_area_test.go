package geo

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/geo/flat/flattest"
)

// wiggly is a ring of n vertices about a circle, metres, rough by a share of the way from one
// to the next; in degrees.
func wiggly(r *rand.Rand, n int, radius, rough float64) orb.Ring {
	ring, middle := make(orb.Ring, n, n+1), site.Inverse(orb.Point{})
	for i := range ring {
		turn := 2 * math.Pi * float64(i) / float64(n)
		out := radius + rough*2*math.Pi*radius/float64(n)*(r.Float64()-0.5)
		ring[i] = middle
		ring[i][0] += out * math.Cos(turn) / crs.MetresPerDegree / math.Cos(middle[1]*crs.PerDegree)
		ring[i][1] += out * math.Sin(turn) / crs.MetresPerDegree
	}
	return append(ring, ring[0])
}

// asWhole is the layer with all of its areas asked as a whole.
func (l *Layer) asWhole() *Layer {
	whole := *l
	whole.Items = append([]Item{}, l.Items...)
	for i := range whole.Items {
		whole.Items[i].size = 0
	}
	return &whole
}

// TestLargeAreas: of areas of many positions, with islands in them, a site is told the same
// by the edges near it as by the whole of them.
func TestLargeAreas(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var b LayerBuilder
	island := wiggly(r, 2000, 120, 8)
	island.Reverse()
	b.AddArea(orb.MultiPolygon{{wiggly(r, 3000, 300, 8), island}})
	b.AddArea(orb.MultiPolygon{{wiggly(r, 2500, 200, 8)}})
	layer := b.Build(false)
	whole := layer.asWhole()
	touched, apart := 0, 0
	for range 300 {
		at, turn := 340*r.Float64(), 2*math.Pi*r.Float64()
		x, y := at*math.Cos(turn), at*math.Sin(turn)
		var ring orb.Ring
		for _, p := range flattest.RingOf(x, y, x+1+30*r.Float64(), y+1+5*r.Float64()) {
			ring = append(ring, site.Inverse(p))
		}
		fp, err := NewFootprint(orb.Polygon{ring}, 0, 0)
		require.NoError(t, err)
		near := layer.Near(fp.Plane, everything)
		got, want := fp.Contact(layer, near), fp.Contact(whole, whole.Near(fp.Plane, everything))
		require.Equal(t, want.Touched, got.Touched)
		require.Equal(t, want.Item, got.Item)
		require.InDelta(t, want.Nearest.Distance, got.Nearest.Distance, 1e-9)
		require.InDelta(t, want.Depth, got.Depth, 2*tolerance)
		shared, err := fp.SharedArea(layer, got.Touched)
		require.NoError(t, err)
		of, err := fp.SharedArea(whole, want.Touched)
		require.NoError(t, err)
		require.InDelta(t, of, shared, 1e-6)
		for range 20 {
			p := site.Inverse(orb.Point{x + 60*r.Float64() - 30, y + 60*r.Float64() - 30})
			require.Equal(t, whole.AreasAt(p), layer.AreasAt(p))
		}
		if touched++; len(want.Touched) == 0 {
			touched, apart = touched-1, apart+1
		}
	}
	require.Greater(t, touched, 100)
	require.Greater(t, apart, 20)
}

// TestDeepInALargeArea: where no edge of a large area is near, all of a footprint is shared
// and no edge bears on it.
func TestDeepInALargeArea(t *testing.T) {
	var b LayerBuilder
	b.AddArea(orb.MultiPolygon{{wiggly(rand.New(rand.NewPCG(7, 8)), 5000, 5000, 2)}})
	layer := b.Build(false)
	fp := placed(t, flattest.Box(0, 0, 40, 10))
	got := fp.Contact(layer, layer.Near(fp.Plane, crs.Window(orb.Bound{Min: fp.Plane.Inverse(fp.Bound.Min), Max: fp.Plane.Inverse(fp.Bound.Max)}, 300)))
	require.Equal(t, []int{0}, got.Touched)
	require.True(t, math.IsInf(got.Depth, 1))
	shared, err := fp.SharedArea(layer, got.Touched)
	require.NoError(t, err)
	require.InDelta(t, 400, shared/(ft*ft), 1e-3) // 40 by 10 ft
}

// BenchmarkLargeArea is what an area of so many vertices, so many metres from one to the
// next, costs a site at its edge and one deep in it: whether it is touched, how deep, how near,
// how much is shared, and whether the site is covered.
func BenchmarkLargeArea(b *testing.B) {
	for _, c := range []struct {
		n     int
		apart float64
	}{{1e4, 0.5}, {1e5, 0.5}, {1e6, 0.5}, {1e7, 0.5}, {1e7, 0.0057}} {
		ring := wiggly(rand.New(rand.NewPCG(1, 2)), c.n, float64(c.n)*c.apart/(2*math.Pi), 8)
		var build LayerBuilder
		build.AddArea(orb.MultiPolygon{{ring}})
		layer := build.Build(false)
		for _, where := range []struct {
			name string
			at   orb.Point
		}{{"east edge", ring[0]}, {"north edge", ring[c.n/4]}, {"north-east edge", ring[c.n/8]}, {"inside", site.Inverse(orb.Point{3, 4})}} {
			fp, err := NewFootprint(orb.LineString{where.at, {where.at[0] + 0.0003, where.at[1]}}, 6, 0)
			require.NoError(b, err)
			window := crs.Window(orb.Bound{Min: where.at, Max: where.at}, 1000*ft)
			b.Run(fmt.Sprintf("%d/%g m/%s", c.n, c.apart, where.name), func(b *testing.B) {
				for b.Loop() {
					near := layer.Near(fp.Plane, window)
					touched := fp.Contact(layer, near).Touched
					if _, err := fp.SharedArea(layer, touched); err != nil {
						b.Fatal(err)
					}
					fp.DepthInside(layer, near, nil, 0)
				}
			})
		}
	}
}
