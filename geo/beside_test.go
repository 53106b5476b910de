package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// TestAlong: the low water line of the home bank is the one along it, not the
// one nearest to the structure, nor an islet's.
func TestAlong(t *testing.T) {
	high := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{500, 0}), inFeet(orb.Point{500, 60}, orb.Point{-500, 60}))
	fp := boxFeet(0, 2, 50, 40)
	bank := HomeBank(fp, high)
	own := inFeet(orb.Point{-500, 10}, orb.Point{500, 10})
	far := inFeet(orb.Point{500, 50}, orb.Point{-500, 50})
	low := bank.Along(NewLines(far, own))
	require.NotNil(t, low)
	requireFeet(t, 30, low.Farthest(fp).High.Distance, "from its own low water line")
	requireFeet(t, -8, low.Nearest(fp).High.Distance, "landward of it")
	require.Nil(t, bank.Along(NewLines(inFeet(orb.Point{200, 10}, orb.Point{500, 10}))), "mapped elsewhere only")
	require.Nil(t, bank.Along(NewLines(inFeet(clockwise(0, 5, 40, 9)...))), "an islet's")
	require.Nil(t, bank.Along(NewLines()))
	both := bank.Along(NewLines(append(append([]orb.Point{}, own...), far...))) // one U-shaped line
	require.NotNil(t, both)
	requireFeet(t, 30, fp.Farthest(both.Lines).Distance, "of a U, the side along the bank")
}

// TestAlongPastAGroin: a structure nearest to the side of a short groin still has the low
// water line of the shore, and what is mapped behind that shore, whichever side it stands
// on and however the line leans. Worked by hand.
func TestAlongPastAGroin(t *testing.T) {
	groin := []orb.Point{{-500, 0}, {-8, 0}, {-8, 10}, {8, 10}, {8, 0}, {500, 0}}
	for _, lean := range []float64{-6, 0, 6} { // feet over its length
		low := NewLines(inFeet(orb.Point{-500, 12 - lean}, orb.Point{500, 12 + lean}))
		behind := NewLines(inFeet(orb.Point{500, -20}, orb.Point{-500, -20}))
		for _, fp := range []*Footprint{boxFeet(10, 5, 120, 30), boxFeet(-120, 5, -10, 30)} {
			bank := HomeBank(fp, NewLines(inFeet(groin...)))
			along := bank.Along(low)
			require.NotNil(t, along, lean)
			require.InDelta(t, 18*ft, fp.Farthest(along.Lines).Distance, 2*ft, lean)
			require.Len(t, bank.Beside(behind).use, 1, lean)
		}
	}
}

// TestAlongBehindAGroin: low water mapped on the other side of a groin only says nothing
// of this side, whether its line ends before the groin or goes round its end, nor does
// that of the far bank, a line of its own. In feet, the water north of the shore.
func TestAlongBehindAGroin(t *testing.T) {
	shore := inFeet(orb.Point{-900, 0}, orb.Point{0, 0}, orb.Point{0, 84}, orb.Point{4, 84}, orb.Point{4, 0}, orb.Point{900, 0})
	far := inFeet(orb.Point{900, 149}, orb.Point{-900, 149})
	west := inFeet(orb.Point{-900, 14}, orb.Point{-10, 14}, orb.Point{-10, 96}, orb.Point{2, 96})
	fp := boxFeet(14, 24, 70, 34)
	require.Nil(t, HomeBank(fp, NewLines(shore)).Along(NewLines(west)))

	bank := HomeBank(boxFeet(-90, 34, -4, 42), NewLines(shore, far))
	east := inFeet(orb.Point{14, 14}, orb.Point{900, 14})
	require.Nil(t, bank.Along(NewLines(east, inFeet(orb.Point{900, 141}, orb.Point{-900, 141}))))
}
