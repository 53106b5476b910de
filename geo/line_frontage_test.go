package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/geo/flat/flattest"
)

// Two lines that meet end to end, drawn towards each other, and a square.
func TestStrands(t *testing.T) {
	var b LayerBuilder
	b.AddLine(onSite([]orb.Point{{0, 0}, {100, 0}, {200, 0}}))
	b.AddLine(onSite([]orb.Point{{300, 0}, {200, 0}}))
	b.AddArea(siteArea(flattest.Box(0, 50, 10, 60)))
	l := b.Build(true)
	require.Equal(t, 2, l.Strands())
	points, closed := l.Strand(0)
	require.False(t, closed)
	require.Equal(t, onSite([]orb.Point{{0, 0}, {100, 0}, {200, 0}, {300, 0}}), points)
	require.Equal(t, []int{0, 0, 1}, []int{l.EdgeItem(0, 0), l.EdgeItem(0, 1), l.EdgeItem(0, 2)})
	points, closed = l.Strand(1)
	require.True(t, closed)
	require.Len(t, points, 5)
	require.Equal(t, 2, l.EdgeItem(1, 3))
}

// The shore runs along y = 0, water to the north, with a creek 6 ft wide from x = 20
// to x = 26; worked by hand.
func TestBehind(t *testing.T) {
	var shores, lots LayerBuilder
	shores.AddLine(onSite([]orb.Point{{-100, 0}, {20, 0}, {20, -40}, {26, -40}, {26, 0}, {100, 0}}))
	lots.AddArea(siteArea(flattest.Box(-50, -80, 10, -15)))  // 15 ft back
	lots.AddArea(siteArea(flattest.Box(30, -80, 90, -2)))    // beyond the creek
	lots.AddArea(siteArea(flattest.Box(-60, 10, 60, 50)))    // in the water
	lots.AddArea(siteArea(flattest.Box(-90, -80, -50, 0)))   // to the line
	lots.AddArea(siteArea(flattest.Box(-40, -200, 10, -80))) // far back
	window := crs.Window(orb.MultiPoint(onSite([]orb.Point{{-100, -100}, {100, 100}})).Bound(), 10)
	near, outlines := shores.Build(true).Near(site, window), lots.Build(false).Near(site, window)
	behind := func(edge int, x, y float64, water int) map[int]float64 {
		out := map[int]float64{}
		for _, f := range (Shore{Near: near, Water: water}).Behind(edge, orb.Point{x * ft, y * ft}, outlines, 30*ft) {
			out[outlines.Item(f)] = f.Distance / ft
		}
		return out
	}
	require.InDeltaMapValues(t, map[int]float64{0: 15}, behind(0, 0, 0, 1), 1e-3)
	require.InDeltaMapValues(t, map[int]float64{2: 10}, behind(0, 0, 0, -1), 1e-3, "the water on the other side")
	// 10 ft from lot 1, but over the creek; lot 0 is the root of 10^2 + 15^2 away.
	require.InDeltaMapValues(t, map[int]float64{0: 18.028}, behind(1, 20, 0, 1), 1e-3)
	require.InDeltaMapValues(t, map[int]float64{1: 4}, behind(3, 26, -20, 1), 1e-3)
	require.InDeltaMapValues(t, map[int]float64{0: 20.616, 3: 0}, behind(0, -64.142, 0, 1), 1e-3, "on an outline")
	require.Empty(t, behind(4, 99, 0, -1), "lot 1 in the water, lot 2 too far")

	landward, waterward := (Shore{Near: near, Water: 1}).Beside(4, orb.Point{50 * ft, 0}, ft)
	require.InDelta(t, -1, landward[1]/ft, 1e-3)
	require.InDelta(t, 1, waterward[1]/ft, 1e-3)
}

func TestCrossed(t *testing.T) {
	lines := NewLines(flattest.RingOf(0, 0, 10, 10), flattest.RingOf(5, 5, 20, 20), flattest.RingOf(30, 0, 40, 10))
	for _, c := range []struct {
		from, to orb.Point
		want     []int
	}{
		{orb.Point{-1, 2}, orb.Point{3, 3}, []int{0}},
		{orb.Point{-1, 2}, orb.Point{7, 7}, []int{0, 1}},
		{orb.Point{-1, 2}, orb.Point{45, 3}, nil},         // through two of them
		{orb.Point{-1, -1}, orb.Point{7, 7}, []int{0, 1}}, // through their corners
		{orb.Point{3, 3}, orb.Point{35, 5}, []int{0, 2}},
	} {
		require.ElementsMatch(t, c.want, lines.Crossed(c.from, c.to), "%v to %v", c.from, c.to)
	}
}

// The line runs along y = 0, its station 0 at x = -100; worked by hand.
func TestCarried(t *testing.T) {
	base := NewBaseline(inFeet(orb.Point{-100, 0}, orb.Point{0, 0}, orb.Point{100, 0}))
	for name, c := range map[string]struct {
		outline []orb.Point
		foot    orb.Point // from which its nearest point is taken
		want    float64
	}{
		"straight up":      {[]orb.Point{{-50, -20}, {10, -20}, {10, -90}, {-50, -90}}, orb.Point{30, 0}, 110},
		"leaning 1 in 2":   {[]orb.Point{{-50, -20}, {10, -20}, {-20, -80}, {-50, -80}}, orb.Point{30, 0}, 120},
		"a corner cut off": {[]orb.Point{{-50, -20}, {10, -20}, {10.01, -20.01}, {10.01, -90}, {-50, -90}}, orb.Point{30, 0}, 110.01},
		"on the line":      {[]orb.Point{{-50, 0}, {10, 0}, {10, -90}, {-50, -90}}, orb.Point{30, 0}, 110},
		// By 35 degrees; carried on it would meet the line at x = -64.
		"a front that falls back":     {[]orb.Point{{-50, -10}, {31.92, -67.36}, {-50, -90}}, orb.Point{5.83, 0}, 82.77},
		"a side from within its edge": {[]orb.Point{{-50, 0}, {10, 0}, {40, -60}, {-50, -60}}, orb.Point{30, 0}, 110},
	} {
		outline := NewLines(inFeet(append(c.outline, c.outline[0])...))
		end := outline.Nearest(orb.Point{c.foot[0] * ft, c.foot[1] * ft})
		require.InDelta(t, c.want, base.Carried(outline, end, 0, 200*ft, 60*ft)/ft, 0.03, name)
	}
	// Of what may be asked only the piece between two stations counts.
	outline := NewLines(inFeet(orb.Point{-50, -20}, orb.Point{10, -20}, orb.Point{10, -90}))
	end := outline.Nearest(orb.Point{30 * ft, 0})
	require.InDelta(t, 105, base.Carried(outline, end, 0, 105*ft, 60*ft)/ft, 1e-9)
	// A front that is known to go on beyond the piece leads nowhere inland.
	on := NewLines(inFeet(orb.Point{-60, 0.5}, orb.Point{90, -2}, orb.Point{90, -90}))
	require.InDelta(t, 100, base.Carried(on, on.Nearest(orb.Point{}), 0, 100*ft, 60*ft)/ft, 0.02)
	// A side line that meets it only beyond reach does not count: the line is nearest at x = 10.
	leaning := NewLines(inFeet(orb.Point{-50, -20}, orb.Point{10, -20}, orb.Point{-20, -80}))
	require.InDelta(t, 110, base.Carried(leaning, leaning.Nearest(orb.Point{30 * ft, 0}), 0, 200*ft, 20*ft)/ft, 1e-9)
}

func TestFacingOfAStrand(t *testing.T) {
	var b LayerBuilder
	b.AddLine(onSite([]orb.Point{{0, 0}, {100, 0}}))
	b.AddLine(onSite([]orb.Point{{0, 50}, {100, 50}}))
	near := b.Build(true).Near(site, crs.Window(orb.MultiPoint(onSite([]orb.Point{{0, 0}, {100, 50}})).Bound(), 10))
	facings := near.Facings(Evidence{Stated: func(item int) int { return -item }, Plane: site})
	require.Len(t, facings, 2)
	require.Equal(t, []int{0, 0, 1, -1}, []int{facings[0].Strand(), facings[0].Water(), facings[1].Strand(), facings[1].Water()})
}
