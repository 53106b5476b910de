package geo

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"
)

// star is a ring about a place whose corners lie at random distances.
func star(r *rand.Rand, at orb.Point, least, most float64, corners int) orb.Ring {
	var ring orb.Ring
	for i := range corners {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		d := least + (most-least)*r.Float64()
		ring = append(ring, orb.Point{at[0] + d*c, at[1] + d*s})
	}
	return append(ring, ring[0])
}

// A cover holds what looking at every edge of the area says is inside, in areas of any
// number of edges, with holes and in parts.
func TestCoverHoldsWhatLiesInside(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for _, corners := range []int{3, 4, 17, 400} {
		for range 20 {
			area := orb.MultiPolygon{
				{star(r, orb.Point{0, 0}, 5, 9, corners), star(r, orb.Point{0, 0}, 1, 4, corners)},
				{star(r, orb.Point{20, 3}, 1, 9, corners)},
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
