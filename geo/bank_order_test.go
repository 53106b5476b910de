package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// TestOrder: however they are drawn, the elements follow one another from left to right for
// who looks over the water, and round an island from behind the widest stretch without one.
// Worked by hand; lengths in feet.
func TestOrder(t *testing.T) {
	shore := NewLines(inFeet(orb.Point{-300, 0}, orb.Point{300, 0}))
	drawn := apartFeet([4]float64{40, 5, 60, 10}, [4]float64{-60, 5, -40, 10}, [4]float64{-10, 5, 10, 10})
	require.Equal(t, []int{1, 2, 0}, HomeBank(drawn, shore).Order())

	// The ring begins in the middle of its south side, where the structure stands; it is
	// drawn clockwise, with the water on its left.
	island := NewLines(inFeet(orb.Point{0, 0}, orb.Point{-200, 0}, orb.Point{-200, 200}, orb.Point{200, 200}, orb.Point{200, 0}, orb.Point{0, 0}))
	south := apartFeet([4]float64{40, -10, 60, -5}, [4]float64{-60, -10, -40, -5}, [4]float64{5, -10, 25, -5})
	require.Equal(t, []int{0, 2, 1}, HomeBank(south, island).Order(), "looking south the east is on the left")
}
