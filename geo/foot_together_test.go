package geo

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSurelyWithin: what it says is so, by the exact width; of discs 4 ft across, whose
// first places are those of one side, it says so of what lies half a width nearer. Worked by
// hand, in feet.
func TestSurelyWithin(t *testing.T) {
	one, err := NewFootprint(reefAt(0), 0, 4*ft)
	require.NoError(t, err)
	for _, c := range []struct {
		apart, within float64
		surely        bool
	}{
		{1, 6, true}, {-3, 2, true}, {1, 0.9, false}, {6, 5, false}, {20, 5, false},
	} {
		place := reefAt(4 + c.apart)
		other, err := NewFootprint(place, 0, 4*ft)
		require.NoError(t, err)
		require.Equal(t, c.surely, one.SurelyWithin(c.within*ft, other), "%+v", c)
		apart, err := one.Apart(Part{place, 0, 4 * ft})
		require.NoError(t, err)
		require.False(t, c.surely && apart >= c.within*ft, "%+v", c)
	}
	require.Equal(t, 4, boxFeet(0, 0, 46, 6).Edges())
}
