package geo

import (
	"math"
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

// TestAlongBesideASpit: the low water line of the beach, with or without one on the other
// side of a spit, says nothing of the spit's own side, to which a part of the structure is
// nearest; one that goes up along it does. By hand, in feet.
func TestAlongBesideASpit(t *testing.T) {
	high := NewLines(inFeet(shoreLine(-1200, -85, 0, -85, 0, 8, 5, 8, 5, -85, 1200, -85)...))
	west, east := inFeet(shoreLine(-1202, -82.6, -2.5, -82.6, -2.5, 10)...), inFeet(shoreLine(7.5, -82.6, 1202, -82.6)...)
	bank := HomeBank(boxFeet(20, -45, 60, -38), high)
	requireFeet(t, 47+55, bank.Length().Along, "of the spit and of the beach")
	require.Nil(t, bank.Along(NewLines(west, east)), "none on this side of the spit")
	require.Nil(t, bank.Along(NewLines(east)), "the beach only")
	require.NotNil(t, HomeBank(boxFeet(60, -80, 100, -70), high).Along(NewLines(east)), "before the beach only")
	for _, end := range []float64{-38.5, -37.5} {
		low := bank.Along(NewLines(west, inFeet(shoreLine(7.5, end, 7.5, -82.6, 1202, -82.6)...)))
		require.Equal(t, end > -38, low != nil, "up to %g", end)
	}
	// Low water close to the other side, and far out on this one: the way over the spit is
	// the shorter.
	far := inFeet(shoreLine(5, 20, 40, 20, 40, -70, 1202, -70)...)
	require.Nil(t, HomeBank(boxFeet(8, -50, 12, -40), high).Along(NewLines(west, far)), "over the spit")
}

// TestTouchingARock: the distance of a structure that touches a rock, or its low water
// line, can be taken from that and from the shore, whichever way rounding has it. In feet,
// by hand.
func TestTouchingARock(t *testing.T) {
	for _, in := range []float64{-0.001, 0, 0.001, 1} { // so far into it
		high := NewLines(inFeet(straight...), inFeet(clockwise(45, 40, 55, 47+in)...))
		low := NewLines(inFeet(shoreLine(-900, 2, 900, 2)...), inFeet(clockwise(43, 38, 57, 47+in)...))
		fp := boxFeet(30, 47, 70, 52)
		bank := HomeBank(fp, high)
		along := bank.Along(low)
		require.NotNil(t, along)
		for shore, b := range map[float64]*Bank{0: bank, 2: along} {
			near := b.Nearest(fp)
			offShore, offRock := near.High.Distance, near.Low.Distance
			if offShore < 0 {
				offShore, offRock = near.OffRocks.Distance, near.High.Distance
			}
			requireFeet(t, 47-shore, offShore, "from the shore")
			requireFeet(t, -in, offRock, "from the rock")
		}
	}
}

// TestMainlandBesideAnIslet: the home bank is an islet, and the low water line along it is
// that round it; both can be taken from the mainland. In feet, by hand.
func TestMainlandBesideAnIslet(t *testing.T) {
	high := NewLines(inFeet(straight...), inFeet(clockwise(0, 60, 60, 100)...))
	low := NewLines(inFeet(shoreLine(-900, 5, 900, 5)...), inFeet(clockwise(-5, 55, 65, 105)...))
	fp := boxFeet(15, 40, 45, 50)
	bank := HomeBank(fp, high)
	along := bank.Along(low)
	require.NotNil(t, along)
	requireFeet(t, 20, bank.Farthest(fp).High.Distance, "from the islet")
	requireFeet(t, 50, bank.Farthest(fp).Mainland.Distance, "from the mainland")
	requireFeet(t, 15, along.Farthest(fp).High.Distance, "from low water round the islet")
	requireFeet(t, 45, along.Farthest(fp).Mainland.Distance, "from that of the mainland")
	requireFeet(t, 35, along.Nearest(fp).Mainland.Distance, "from that of the mainland")
}

// TestRingThatClosesByRounding: low water round a rock whose last position is off its first
// by rounding is none of the shore's, and none of it stays. In feet, by hand.
func TestRingThatClosesByRounding(t *testing.T) {
	for _, off := range []float64{0, 1e-12, 1e-6} {
		ring := clockwise(44, 36, 56, 47)
		ring[len(ring)-1][0] += off
		bank := HomeBank(boxFeet(30, 50, 70, 55), NewLines(inFeet(straight...), inFeet(clockwise(46, 38, 54, 45)...)))
		along := bank.Along(NewLines(inFeet(shoreLine(-900, 2, 900, 2)...), inFeet(ring...)))
		require.NotNil(t, along)
		require.Len(t, along.Lines.use, 1, off)
		requireFeet(t, 53, along.Farthest(bank.fp).High.Distance, "from the shore's")
	}
}

// A front lies on the shore, and rounding may put any place of it on land.
func TestLowWaterBeforeAFrontOnTheShore(t *testing.T) {
	for angle := 0.0; angle < 360; angle += 7 {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		turned := func(x, y float64) orb.Point { return orb.Point{x*cos - y*sin, x*sin + y*cos} }
		high := NewLines(inFeet(turned(-900, 0), turned(900, 0)))
		low := NewLines(inFeet(turned(-900, 10), turned(900, 10)))
		fp := drawn(nil, inFeet(turned(-33.3, -0.001), turned(66.7, -0.001)))
		require.NotNil(t, HomeBank(fp, high).Along(low), "%g degrees", angle)
	}
}
