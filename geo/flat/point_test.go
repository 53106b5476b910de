package flat

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// What divides by nothing has an answer too. Worked by hand.
func TestDegenerate(t *testing.T) {
	a, b := orb.Point{0, 0}, orb.Point{2, 0}
	require.Equal(t, a, At(a, b, 1, 1, 1), "ends of one place")
	require.Equal(t, orb.Point{1, 0}, At(a, b, 1, 3, 2))
	window := &orb.Bound{Max: orb.Point{1, 1}}
	_, meets := Clipped(orb.Point{5, 0}, orb.Point{5, 1}, window)
	require.False(t, meets, "along an axis, beside the window")
	in, meets := Clipped(orb.Point{0.5, -1}, orb.Point{0.5, 3}, window)
	require.True(t, meets)
	require.Equal(t, Interval{0.25, 0.5}, in)
	require.Equal(t, orb.Point{1, 0}, Crossing(Edge{a, b}, Edge{orb.Point{1, 0}, orb.Point{3, 0}}), "along one line: an end of what they share")
}

// A quarter turn to the left of east is north.
func TestTurns(t *testing.T) {
	east, north := orb.Point{1, 0}, orb.Point{0, 1}
	require.InDelta(t, math.Pi/2, Turn(east, north), 1e-15)
	require.InDelta(t, -math.Pi/2, Turn(north, east), 1e-15)
	turned := Turned(east, math.Pi/2)
	require.InDelta(t, 0, turned[0], 1e-15)
	require.InDelta(t, 1, turned[1], 1e-15)
	require.Equal(t, north, LeftNormal(orb.Point{}, east, 1))
}
