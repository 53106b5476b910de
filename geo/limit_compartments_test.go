package geo

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
	"waterward/geo/flat/flattest"
)

// What is gathered from a start, among walls and rings drawn at random, is the same cells
// whether or not what lies beyond the walls is left out.
func TestRoomsLeaveOutNothingThatCountsBeforeAStart(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	window := orb.Bound{Min: orb.Point{-50, -50}, Max: orb.Point{50, 50}}
	place := func() orb.Point { return orb.Point{120*r.Float64() - 60, 120*r.Float64() - 60} }
	left, gathered := 0, 0
	for range 200 {
		shore := []orb.Point{{60, 0}, {20, 3 * r.Float64()}, {-20, 3 * r.Float64()}, {-60, 0}}
		walls := []area.Course{{Points: shore[:2], Wall: true}, {Points: orb.LineString(flattest.Reversed(shore[1:3])), Wall: true, Start: true}, {Points: shore[2:], Wall: true}}
		for range r.IntN(6) {
			walls = append(walls, area.Course{Points: []orb.Point{place(), place()}, Wall: true})
		}
		var plain []area.Course
		for range 10 {
			at, size := place(), 10*r.Float64()
			plain = append(plain, area.Course{Points: flattest.Star(r, at, size, 2*size, 3+r.IntN(20))})
		}
		all := append(append([]area.Course{}, walls...), plain...)
		rooms, err := NewCompartments(walls, window)
		require.NoError(t, err)
		kept := rooms.Kept(all)
		left += edgesOf(all) - edgesOf(kept)

		whole, err := area.Divide(all, window)
		require.NoError(t, err)
		parted, err := area.Divide(kept, window)
		require.NoError(t, err)
		wet := func(c area.Cell) bool { return c.Inside[1] > -40 }
		want, got := whole.Gather(wet, 5), parted.Gather(wet, 5)
		require.Len(t, got, len(want))
		for i := range want {
			require.Equal(t, whole.Cells[want[i]], parted.Cells[got[i]])
		}
		gathered += len(want)
	}
	require.Greater(t, left, 10_000)
	require.Greater(t, gathered, 1_000)
}

func edgesOf(courses []area.Course) int {
	sum := 0
	for _, c := range courses {
		sum += len(c.Points) - 1
	}
	return sum
}

// A distance that is said not to be met in the rooms is met at none of many places there.
func TestRoomsReached(t *testing.T) {
	r := rand.New(rand.NewPCG(53, 54))
	window := orb.Bound{Min: orb.Point{-50, -50}, Max: orb.Point{50, 50}}
	never := 0
	for range 300 {
		x, y := 40*r.Float64(), 40*r.Float64()
		room := []orb.Point{{0, 0}, {x + 5, 0}, {x + 5, y + 5}, {0, y + 5}, {0, 0}}
		rooms, err := NewCompartments([]area.Course{{Points: room, Wall: true, Start: true}}, window)
		require.NoError(t, err)
		lines := NewLines(flattest.Star(r, orb.Point{200 * (r.Float64() - 0.5), 200 * (r.Float64() - 0.5)}, 1, 20, 12))
		d := 100 * r.Float64()
		if rooms.Reached(lines, d) {
			continue
		}
		never++
		side := math.Copysign(1, lines.Nearest(orb.Point{}).Distance-d)
		for range 50 {
			at := orb.Point{(x + 5) * r.Float64(), (y + 5) * r.Float64()}
			require.Positive(t, side*(lines.Nearest(at).Distance-d))
		}
	}
	require.Greater(t, never, 50)
}
