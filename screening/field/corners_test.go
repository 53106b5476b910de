package field

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"
)

const foot = 0.3048

// feet is an outline drawn in feet.
func feet(corners ...orb.Point) []orb.Polygon {
	var ring orb.Ring
	for _, c := range corners {
		ring = append(ring, orb.Point{c[0] * foot, c[1] * foot})
	}
	return []orb.Polygon{{append(ring, ring[0])}}
}

// names are the corners in their order, by name, in feet.
func names(corners []Corner) (made []string, at map[string]orb.Point) {
	at = map[string]orb.Point{}
	for _, c := range corners {
		made = append(made, c.Name)
		at[c.Name] = orb.Point{math.Round(c.At[0]/foot*100) / 100, math.Round(c.At[1]/foot*100) / 100}
	}
	return made, at
}

// Worked by hand, from the drawings: which corner lies where.
func TestCornersAreNamedByTheCompass(t *testing.T) {
	for name, tt := range map[string]struct {
		outline []orb.Polygon
		want    []string
		at      map[string]orb.Point
	}{
		"a long box, drawn either way round": {
			feet(orb.Point{0, 3}, orb.Point{60, 3}, orb.Point{60, 9}, orb.Point{0, 9}),
			[]string{"NE", "SE", "SW", "NW"},
			map[string]orb.Point{"NE": {60, 9}, "SE": {60, 3}, "SW": {0, 3}, "NW": {0, 9}},
		},
		"clockwise": {
			feet(orb.Point{0, 9}, orb.Point{60, 9}, orb.Point{60, 3}, orb.Point{0, 3}),
			[]string{"NE", "SE", "SW", "NW"}, nil,
		},
		"vertices along its edges and a chamfer of 0.1 ft are no corners": {
			feet(orb.Point{0, 3}, orb.Point{20, 3}, orb.Point{40, 3.3}, orb.Point{60, 3}, orb.Point{60, 8.9}, orb.Point{59.9, 9}, orb.Point{0, 9}),
			[]string{"NE", "SE", "SW", "NW"}, nil,
		},
		"askew, two corners lie in the north-east and two in the south-west": {
			feet(orb.Point{0, 0}, orb.Point{40, 40}, orb.Point{36, 44}, orb.Point{-4, 4}),
			[]string{"NE1", "NE2", "SW1", "SW2"},
			map[string]orb.Point{"NE1": {36, 44}, "NE2": {40, 40}, "SW1": {0, 0}, "SW2": {-4, 4}},
		},
		"a diamond": {
			feet(orb.Point{0, -10}, orb.Point{10, 0}, orb.Point{0, 10}, orb.Point{-10, 0}),
			[]string{"N", "E", "S", "W"}, nil,
		},
		"a hook": { // 40 ft wide and high: from its middle (40, 10) bears 117 degrees, (10, 40) 333, (10, 10) as (0, 0)
			feet(orb.Point{0, 0}, orb.Point{40, 0}, orb.Point{40, 10}, orb.Point{10, 10}, orb.Point{10, 40}, orb.Point{0, 40}),
			[]string{"SE1", "SE2", "SW1", "NW1", "NW2", "SW2"},
			map[string]orb.Point{"SE1": {40, 10}, "SE2": {40, 0}, "SW1": {0, 0}, "NW1": {0, 40}, "NW2": {10, 40}, "SW2": {10, 10}},
		},
	} {
		corners, off := CornersOf(tt.outline)
		got, at := names(corners)
		require.Equal(t, tt.want, got, name)
		for corner, place := range tt.at {
			require.Equal(t, place, at[corner], "%s: %s", name, corner)
		}
		require.LessOrEqual(t, off, stringWithin, name)
	}
}

// How far off the outline a string from one to the next is.
func TestStringsBetweenCorners(t *testing.T) {
	_, off := CornersOf(feet(orb.Point{0, 3}, orb.Point{60, 3}, orb.Point{60, 9}, orb.Point{0, 9}))
	require.Zero(t, off)
	// 20 ft along the lower edge, that vertex lies 0.3 ft above it: worked by hand.
	_, off = CornersOf(feet(orb.Point{0, 3}, orb.Point{20, 3.3}, orb.Point{60, 3}, orb.Point{60, 9}, orb.Point{0, 9}))
	require.InDelta(t, 0.3*foot, off, 1e-9)
}

// A round outline has so many corners that strings between them are never more than half a
// foot off it: of a circle of 20 ft across their sagitta, r (1 - cos of half the angle).
func TestCornersOfARoundOutline(t *testing.T) {
	var round []orb.Point
	for i := range 360 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 180)
		round = append(round, orb.Point{10 * cos, 10 * sin})
	}
	corners, off := CornersOf(feet(round...))
	require.LessOrEqual(t, off, stringWithin)
	require.GreaterOrEqual(t, len(corners), 10) // a sagitta of 0.5 ft takes 10 chords
	require.LessOrEqual(t, len(corners), 16)    // the next power of two
	seen := map[string]bool{}
	for _, c := range corners {
		require.False(t, seen[c.Name], c.Name)
		seen[c.Name] = true
	}
}

// A comb of more teeth than corners are named: the outermost, among them those of its box,
// and it is said that there are others.
func TestOutlinesOfManyCorners(t *testing.T) {
	comb := []orb.Point{{0, 0}, {400, 0}, {400, 5}}
	for x := 399.0; x > 0; x -= 4 {
		comb = append(comb, orb.Point{x, 20}, orb.Point{x - 2, 5})
	}
	corners, off := CornersOf(feet(comb...))
	require.True(t, math.IsNaN(off))
	require.LessOrEqual(t, len(corners), mostCorners)
	_, at := names(corners)
	var places []orb.Point
	for _, p := range at {
		places = append(places, p)
	}
	require.Len(t, places, len(corners))
	for _, p := range []orb.Point{{0, 0}, {400, 0}, {399, 20}} {
		require.Contains(t, places, p)
	}
	// Boxes that touch share their corners.
	var wall []orb.Polygon
	for x := 0.0; x < 50; x += 10 {
		wall = append(wall, feet(orb.Point{x, 0}, orb.Point{x + 10, 0}, orb.Point{x + 10, 4}, orb.Point{x, 4})...)
	}
	corners, _ = CornersOf(wall)
	require.Len(t, corners, 12)
}

func TestEndsOfLines(t *testing.T) {
	line := []orb.Point{{0, 0}, {10, 0.01}, {20, 0}, {20, 10}}
	ends, off := EndsOf([][]orb.Point{line}, true)
	require.InDelta(t, 0.01, off, 1e-9)
	require.Equal(t, []Corner{{"SW", line[0], true}, {"SE", line[2], false}, {"NE", line[3], true}}, ends)
	ends, _ = EndsOf([][]orb.Point{{{0, 0}, {30, 0}}}, true)
	require.Equal(t, []Corner{{"W", orb.Point{0, 0}, true}, {"E", orb.Point{30, 0}, true}}, ends)
	ends, _ = EndsOf([][]orb.Point{line}, false)
	require.Len(t, ends, 2)
	ends, _ = EndsOf([][]orb.Point{{{0, 0}, {9, 0}, {9, 9}, {0, 0}}, {{5, 5}, {5, 5}}}, false)
	require.Empty(t, ends, "closed ones, and points, have none")
	var wave []orb.Point
	for i := range 200 {
		wave = append(wave, orb.Point{float64(i), float64(i%2) * 3})
	}
	ends, off = EndsOf([][]orb.Point{wave}, true)
	require.True(t, math.IsNaN(off))
	require.LessOrEqual(t, len(ends), mostCorners)
	for i, a := range ends {
		for _, b := range ends[:i] {
			require.GreaterOrEqual(t, planar.Distance(a.At, b.At), SamePlace)
			require.NotEqual(t, a.Name, b.Name)
		}
	}
}
