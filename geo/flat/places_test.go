package flat

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What meets any of the bounds, by asking each of them.
func TestPlacesMeet(t *testing.T) {
	require.False(t, NewPlaces(nil).Meet(orb.Bound{Max: orb.Point{1, 1}}))
	rapid.Check(t, func(t *rapid.T) {
		bound := rapid.Custom(func(t *rapid.T) orb.Bound {
			x, y := rapid.Float64Range(-180, 180).Draw(t, "x"), rapid.Float64Range(-90, 90).Draw(t, "y")
			return orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + rapid.Float64Range(0, 40).Draw(t, "w"), y + rapid.Float64Range(0, 40).Draw(t, "h")}}
		})
		all := rapid.SliceOfN(bound, 0, 40).Draw(t, "places")
		b := bound.Draw(t, "bound")
		want := false
		for _, p := range all {
			want = want || p.Intersects(b)
		}
		require.Equal(t, want, NewPlaces(all).Meet(b))
	})
}
