package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat/flattest"
)

// Shores along y = 0, feet, the water to the north; the structure is 0 <= x <= 40,
// 15 <= y <= 20. Worked by hand.
func TestTwoSurveysOfOneShore(t *testing.T) {
	shore := []orb.Point{{-500, 0}, {500, 0}}
	for _, c := range []struct {
		name  string
		other []orb.Point
		twice bool
	}{
		{"2 ft behind it", []orb.Point{{-500, -2}, {500, -2}}, true},
		{"drawn the other way, the water on the same side", []orb.Point{{500, -2}, {-500, -2}}, false}, // faced so, it is the back of a spit
		{"40 ft behind it", []orb.Point{{-500, -40}, {500, -40}}, false},
		{"aslant", []orb.Point{{0, -1}, {40, -29}}, false},
		{"only past its ends", []orb.Point{{-500, -2}, {-50, -2}}, false},
		{"a rock before it", []orb.Point{{10, 5}, {10, 10}, {20, 10}, {20, 5}, {10, 5}}, false},
		{"the rock drawn the other way", []orb.Point{{10, 5}, {20, 5}, {20, 10}, {10, 10}, {10, 5}}, false},
	} {
		fp := placed(t, flattest.Box(0, 15, 40, 20))
		lines := NewLines(scaled(shore), scaled(c.other))
		_, _, twice := lines.Twice(fp, 30*ft)
		require.Equal(t, c.twice, twice, c.name)
	}
	// Beyond the back of a spit 10 ft wide and a lagoon of 10 ft comes its far shore.
	lines := NewLines(scaled(shore), scaled([]orb.Point{{500, -10}, {-500, -10}}), scaled([]orb.Point{{-500, -20}, {500, -20}}))
	_, _, twice := lines.Twice(placed(t, flattest.Box(0, 15, 40, 20)), 30*ft)
	require.False(t, twice)
}

// scaled turns feet into metres.
func scaled(points []orb.Point) []orb.Point {
	out := make([]orb.Point, len(points))
	for i, p := range points {
		out[i] = orb.Point{p[0] * ft, p[1] * ft}
	}
	return out
}
