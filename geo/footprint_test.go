package geo

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

func shoelace(rings ...orb.Ring) float64 {
	sum := 0.0
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			sum += ring[i-1][0]*ring[i][1] - ring[i][0]*ring[i-1][1]
		}
	}
	return sum / 2
}

func TestPolygonArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shell := flattest.DrawStar(t, orb.Point{}, 10, 40)
		hole := flattest.DrawStar(t, orb.Point{}, 0.1, 0.9)
		want := shoelace(shell) - shoelace(hole)
		if rapid.Bool().Draw(t, "clockwise") { // RFC 7946, section 3.1.6: not to be refused
			shell.Reverse()
		}
		toDegrees := func(ring orb.Ring) orb.Ring {
			out := orb.Ring{}
			for _, p := range ring {
				out = append(out, site.Inverse(p))
			}
			return out
		}
		fp, err := NewFootprint(orb.Polygon{toDegrees(shell), toDegrees(hole)}, 0, 0)
		require.NoError(t, err)
		require.InEpsilon(t, want, fp.Area, 1e-7)
	})
}

// TestStripArea: a straight strip is length by width; at a square bend the two
// rectangles share a square of half the width and a quarter disc of half the
// width is added outside; a strip that turns back on itself ends in half a disc.
func TestStripArea(t *testing.T) {
	const w = 6 * ft
	for _, c := range []struct {
		name string
		line []orb.Point
		want float64 // square feet
	}{
		{"straight", []orb.Point{{0, 0}, {100, 0}}, 600},
		{"slanting", []orb.Point{{0, 0}, {30, 40}}, 300},
		{"with a vertex on the way", []orb.Point{{0, 0}, {20, 0}, {60, 0}, {100, 0}}, 600},
		{"left bend", []orb.Point{{0, 0}, {50, 0}, {50, 50}}, 600 - 9 + math.Pi*9/4},
		{"right bend", []orb.Point{{0, 0}, {50, 0}, {50, -50}}, 600 - 9 + math.Pi*9/4},
		{"two bends", []orb.Point{{0, 0}, {50, 0}, {50, 50}, {100, 50}}, 900 - 18 + math.Pi*9/2},
		{"there and back", []orb.Point{{0, 0}, {50, 0}, {0, 0}}, 300 + math.Pi*9/2},
		{"crossing itself", []orb.Point{{0, 0}, {50, 0}, {50, 30}, {20, 30}, {20, -30}}, (50+30+30+60)*6 - 3*9 + 3*math.Pi*9/4 - 36},
		// 0.02 degrees a bend: the areas added and shared are below 0.001.
		{"all but straight", []orb.Point{{0, 0}, {25, 0.009}, {50, 0}, {75, 0.009}, {100, 0}}, 600},
	} {
		t.Run(c.name, func(t *testing.T) {
			fp, err := NewFootprint(orb.LineString(onSite(c.line)), w, 0)
			require.NoError(t, err)
			require.Len(t, fp.Elements, 1)
			require.InDelta(t, c.want, fp.Area/(ft*ft), 0.01)
		})
	}
}

// TestBentStripsAreWhole draws strips along gently and sharply bent lines, as a
// structure that follows a shore is drawn: each must be taken, and cover what
// its rectangles and round bends cover. The area wanted is the share of points
// thrown at random that lie within half the width of the line (flat ends and
// all), so a missing piece of 0.2 m2 shows at a point.
func TestBentStripsAreWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for _, bend := range []float64{0.01, 0.3, 1} {
		for trial := range 40 {
			line := []orb.Point{{0, 0}}
			heading := r.Float64() * 6
			for range 2 + r.IntN(20) {
				heading += (r.Float64()*2 - 1) * bend
				s, c := math.Sincos(heading)
				p, step := line[len(line)-1], 5+10*r.Float64()
				line = append(line, orb.Point{p[0] + step*c, p[1] + step*s})
			}
			half := 0.5 + 1.5*r.Float64()
			degrees := orb.LineString{}
			for _, p := range line {
				degrees = append(degrees, site.Inverse(p))
			}
			var fp *Footprint
			var err error
			require.NotPanics(t, func() { fp, err = NewFootprint(degrees, 2*half, 0) }, "bend %g, trial %d", bend, trial)
			require.NoError(t, err, "bend %g, trial %d", bend, trial)
			in := fp.Elements[0].Lines[0] // the line, in the footprint's plane
			for range 2000 {
				i := 1 + r.IntN(len(in)-1)
				f, side := r.Float64(), (2*r.Float64()-1)*half*0.999
				n := flat.LeftNormal(in[i-1], in[i], side)
				p := orb.Point{in[i-1][0] + f*(in[i][0]-in[i-1][0]) + n[0], in[i-1][1] + f*(in[i][1]-in[i-1][1]) + n[1]}
				require.True(t, fp.covers(p) && fp.areaCovers(p), "bend %g, trial %d: %v of the strip is missing", bend, trial, p)
			}
		}
	}
}

// TestDiscReach: a disc reaches its radius beyond its centre and stops that
// short of it, within 0.0005 ft. Worked by hand.
func TestDiscReach(t *testing.T) {
	for _, diameter := range []float64{0.5, 3, 12, 60} {
		for _, turn := range []float64{0, 0.3, 1, 2.5} {
			fp, err := NewFootprint(orb.Point(site.Inverse(orb.Point{})), 0, diameter*ft)
			require.NoError(t, err)
			require.Equal(t, diameter*ft, fp.Elements[0].Length)
			require.InEpsilon(t, math.Pi*diameter*diameter/4, fp.Area/(ft*ft), 0.002)
			s, c := math.Sincos(turn)
			along := func(u float64) orb.Point { return orb.Point{(u*c + 40*s) * ft, (u*s - 40*c) * ft} }
			lines := NewLines([]orb.Point{along(-500), along(500)}) // 40 ft off the centre
			require.InDelta(t, 40+diameter/2, fp.Farthest(lines).Distance/ft, 0.0005)
			require.InDelta(t, 40-diameter/2, fp.Least(lines).Distance/ft, 0.0005)
		}
	}
}

func TestFootprintsThatCoverNothing(t *testing.T) {
	line, err := NewFootprint(orb.LineString(onSite([]orb.Point{{0, 0}, {30, 40}})), 0, 0)
	require.NoError(t, err)
	require.Contains(t, line.Incomplete, "width_ft")
	require.InDelta(t, 50*ft, line.Length(), 1e-6)
	point, err := NewFootprint(orb.Point{-82, 27}, 0, 0)
	require.NoError(t, err)
	require.Contains(t, point.Incomplete, "diameter_ft")
	for _, g := range []orb.Geometry{
		orb.LineString{{-82, 27}, {-82, 27}},
		orb.Polygon{{{-82, 27}, {-82, 27}, {-82, 27}, {-82, 27}}},
		orb.Polygon{{{-82, 27}, {-82, 27.001}, {-82, 27.002}, {-82, 27}}},
		orb.Collection{orb.Point{-82, 27}},
	} {
		require.NotPanics(t, func() { _, err = NewFootprint(g, 1, 0) }, "%v", g)
		require.Error(t, err, "%v", g)
	}
}
