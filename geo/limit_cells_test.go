package geo

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
	"waterward/geo/flat/flattest"
)

func areaWhere(t *testing.T, c *area.Cells, in func(p orb.Point) bool) float64 {
	t.Helper()
	chosen := func(i int) bool { return in(c.Cells[i].Inside) }
	sum := 0.0
	for i, cell := range c.Cells {
		require.NoError(t, area.Check(orb.MultiPolygon{cell.Polygon}))
		if chosen(i) {
			sum += cell.Area
		}
	}
	joined := c.Join(chosen)
	require.NoError(t, area.Check(joined))
	require.InDelta(t, sum, area.Of(joined), 1e-6*sum)
	return sum
}

// A round island of radius 50: within 10 of its shore lies the annulus of
// pi(60^2 - 50^2) outside and pi(50^2 - 40^2) inside; a wedge between two walls
// from the middle is its share of it.
func TestCellsOfARoundIsland(t *testing.T) {
	var shore []orb.Point
	const n = 3600
	for i := range n + 1 {
		s, c := math.Sincos(2 * math.Pi * float64(i%n) / n)
		shore = append(shore, orb.Point{50 * c, 50 * s})
	}
	lines := NewLines(shore)
	window := orb.Bound{Min: orb.Point{-100, -100}, Max: orb.Point{100, 100}}
	rings, err := LimitRings(lines, 10, window)
	require.NoError(t, err)
	courses := []area.Course{
		{Points: flattest.Reversed(shore), Wall: true, Start: true}, // the water on its left
		{Points: []orb.Point{{0, 0}, {120, 0}}, Wall: true},
		{Points: []orb.Point{{0, 0}, {0, 120}}, Wall: true},
	}
	for _, ring := range rings {
		courses = append(courses, area.Course{Points: ring})
	}
	c, err := area.Divide(courses, window)
	require.NoError(t, err)
	radius := func(p orb.Point) float64 { return math.Hypot(p[0], p[1]) }
	outer := areaWhere(t, c, func(p orb.Point) bool { return radius(p) > 50 && radius(p) < 60 })
	require.InEpsilon(t, math.Pi*(3600-2500), outer, 1e-3)
	inner := areaWhere(t, c, func(p orb.Point) bool { return radius(p) < 50 && radius(p) > 40 })
	require.InEpsilon(t, math.Pi*(2500-1600), inner, 1e-3)
	quarter := areaWhere(t, c, func(p orb.Point) bool { return radius(p) > 50 && radius(p) < 60 && p[0] > 0 && p[1] > 0 })
	require.InEpsilon(t, outer/4, quarter, 1e-3)
	// From the water in the quarter no wall lets out.
	got := c.Gather(func(cell area.Cell) bool { return radius(cell.Inside) > 50 && cell.Inside[0] > 0 && cell.Inside[1] > 0 }, 1)
	sum := 0.0
	for _, i := range got {
		require.True(t, c.Cells[i].Inside[0] > 0 && c.Cells[i].Inside[1] > 0)
		sum += c.Cells[i].Area
	}
	require.InEpsilon(t, 100*100-math.Pi*2500/4, sum, 1e-4)
}

// Outside a square corner of the shore the water within d is two strips and a
// quarter of a circle.
func TestCellsAtASquareCorner(t *testing.T) {
	shore := []orb.Point{{-80, 0}, {0, 0}, {0, -80}} // land below and left
	window := orb.Bound{Min: orb.Point{-60, -60}, Max: orb.Point{60, 60}}
	rings, err := LimitRings(NewLines(shore), 9, window)
	require.NoError(t, err)
	courses := []area.Course{{Points: shore, Wall: true}}
	for _, ring := range rings {
		courses = append(courses, area.Course{Points: ring})
	}
	c, err := area.Divide(courses, window)
	require.NoError(t, err)
	lines := NewLines([]orb.Point{{0, -80}, {0, 0}, {-80, 0}})
	near := func(p orb.Point) bool { return lines.Nearest(p).Distance < 9 && (p[0] > 0 || p[1] > 0) }
	require.InEpsilon(t, 2*60*9+math.Pi*81/4, areaWhere(t, c, near), 1e-3)
}

// A hole in a cell is passed through: a ring that is no wall hides nothing.
func TestGatheringPassesRings(t *testing.T) {
	window := orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{10, 10}}
	ring := []orb.Point{{4, 4}, {6, 4}, {6, 6}, {4, 6}, {4, 4}}
	start := area.Course{Points: []orb.Point{{0, 1}, {10, 1}}, Wall: true, Start: true}
	for _, walled := range []bool{false, true} {
		c, err := area.Divide([]area.Course{start, {Points: ring, Wall: walled}}, window)
		require.NoError(t, err)
		require.Len(t, c.Cells, 3)
		sum := 0.0
		for _, i := range c.Gather(func(cell area.Cell) bool { return cell.Inside[1] > 1 }, 1) {
			sum += c.Cells[i].Area
		}
		require.InDelta(t, map[bool]float64{false: 90, true: 86}[walled], sum, 1e-9)
	}
}

// Only what lies left of a start is gathered, which way ever its edges are numbered, and
// lines can say which way they run where a piece of them is drawn against it.
func TestGatheringFromTheLeft(t *testing.T) {
	window := orb.Bound{Min: orb.Point{-10, -10}, Max: orb.Point{10, 10}}
	everything := func(area.Cell) bool { return true }
	for _, line := range [][]orb.Point{{{-10, 0}, {10, 0}}, {{10, 0}, {-10, 0}}, {{0, 10}, {0, -10}}, {{-10, -10}, {10, 10}}} {
		shore := NewLines(line)
		for _, front := range [][]orb.Point{line, flattest.Reversed(line)} {
			c, err := area.Divide(shore.Courses(shore.Turned(front)), window)
			require.NoError(t, err)
			require.Len(t, c.Cells, 2)
			got := c.Gather(everything, 1)
			require.Len(t, got, 1)
			signed, _ := shore.Signed(c.Cells[got[0]].Inside)
			require.Positive(t, signed)
			require.Equal(t, line, shore.Turned(front))
		}
	}
}

// TestALineThatEndsInARing: a line that ends in a ring leaves both what they are: water gathered through the ring,
// and an area each. Worked by hand: 20 by 20 in 100 by 99.
func TestALineThatEndsInARing(t *testing.T) {
	window := orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{100, 100}}
	c, err := area.Divide([]area.Course{
		{Points: []orb.Point{{0, 1}, {100, 1}}, Wall: true, Start: true},
		{Points: []orb.Point{{40, 40}, {60, 40}, {60, 60}, {40, 60}, {40, 40}}},
		{Points: []orb.Point{{20, 50}, {50, 50}}},
	}, window)
	require.NoError(t, err)
	sum := 0.0
	for _, i := range c.Gather(func(area.Cell) bool { return true }, 1) {
		sum += c.Cells[i].Area
		require.InDelta(t, c.Cells[i].Area, area.Of(c.Join(func(k int) bool { return k == i })), 1e-9)
	}
	require.InDelta(t, 9900, sum, 1e-9)
}

// TestDustBetweenCellsIsTheirs: two lines 1e-6 m apart leave a hair of 1e-4 square metres
// between two halves of a window. Worked by hand: joined with both, the window is one area;
// with one of them the hair is left out, or the hair alone.
func TestDustBetweenCellsIsTheirs(t *testing.T) {
	c, err := area.Divide([]area.Course{
		{Points: []orb.Point{{0, 50}, {100, 50}}},
		{Points: []orb.Point{{0, 50.000001}, {100, 50.000001}}},
	}, orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{100, 100}})
	require.NoError(t, err)
	require.Len(t, c.Cells, 3)
	half := func(i int) bool { return c.Cells[i].Area > area.Dust }
	whole := c.Join(half)
	require.Len(t, whole, 1)
	require.Len(t, whole[0], 1)
	require.InDelta(t, 10000, area.Of(whole), 1e-9)
	one := slices.IndexFunc(c.Cells, func(c area.Cell) bool { return c.Inside[1] > 51 })
	require.InDelta(t, 5000, area.Of(c.Join(func(i int) bool { return i == one })), 2e-4)
	require.InDelta(t, 1e-4, area.Of(c.Join(func(i int) bool { return !half(i) })), 1e-8)
}
