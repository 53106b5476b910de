package area

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat/flattest"
)

// A cover holds what looking at every edge of the area says is inside, in areas of any
// number of edges, with holes and in parts.
func TestCoverHoldsWhatLiesInside(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for _, corners := range []int{3, 4, 17, 400} {
		for range 20 {
			area := orb.MultiPolygon{
				{flattest.Star(r, orb.Point{0, 0}, 5, 9, corners), flattest.Star(r, orb.Point{0, 0}, 1, 4, corners)},
				{flattest.Star(r, orb.Point{20, 3}, 1, 9, corners)},
			}
			c := NewCover(area)
			held := 0
			for range 500 {
				p := orb.Point{40*r.Float64() - 10, 24*r.Float64() - 12}
				want := planar.MultiPolygonContains(area, p)
				require.Equal(t, want, c.Holds(p), p)
				if want {
					held++
				}
			}
			require.Positive(t, held)
		}
	}
	require.False(t, NewCover(nil).Holds(orb.Point{}))
}
