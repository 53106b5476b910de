package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// Lengths in this file are in feet; every case is worked by hand. On either side of each
// limit lies a case.

func bankOf(fp *Footprint, shore ...[]orb.Point) *Bank {
	for i := range shore {
		shore[i] = inFeet(shore[i]...)
	}
	return HomeBank(fp, NewLines(shore...))
}

// TestShoresThatFaceEachOther: the ways from midway to the sides of a corner are 180
// degrees less its angle apart.
func TestShoresThatFaceEachOther(t *testing.T) {
	for angle, facing := range map[float64]bool{74: true, 76: false} {
		s, c := math.Sincos(angle * math.Pi / 180)
		mid := 80 * math.Tan(angle*math.Pi/360)
		b := bankOf(boxFeet(75, mid-20, 85, mid+10), shoreLine(600*c, 600*s, 0, 0, 600, 0))
		require.Equal(t, facing, !b.plain(), "%g degrees", angle)
	}
}

// TestHeadsSquareToTheBank: the head of a canal is of the home bank if it has turned by no
// more than 91 degrees from the wall, and a corner 12 ft off the wall and 11 ft off the
// head has its foot on the head; of one that has, the bank ends at its corner.
func TestHeadsSquareToTheBank(t *testing.T) {
	for lean, bank := range map[float64]float64{0.5: 112, 1.5: 89} {
		top := 200 - 16*math.Tan(lean*math.Pi/180)
		b := bankOf(boxFeet(100, 1, 189, 12), shoreLine(-300, 0, 200, 0, top, 16, -300, 16))
		require.InDelta(t, bank, b.Length().Along/ft, 0.2, "%g degrees", lean)
	}
}

// TestEqualHalves: sides that differ by less than 2 % are equal.
func TestEqualHalves(t *testing.T) {
	for more, equal := range map[float64]bool{0.01: true, 0.03: false} {
		b := bankOf(boxFeet(40, 8-5*(1+more), 60, 8+5*(1-more)), append([]orb.Point{}, c16...))
		require.Equal(t, equal, b.Even, "%g", more)
		require.False(t, b.plain())
	}
}

// TestLookingInAtAMouth: a bar before the mouth of a slip with a stem down into that stands
// in the slip only if the stem is long.
func TestLookingInAtAMouth(t *testing.T) {
	for deep, in := range map[float64]bool{30: true, 0.2: false} {
		b := bankOf(feetBoxes([4]float64{-100, 3, 100, 12}, [4]float64{4, -deep, 17, 4}), append([]orb.Point{}, slip...))
		require.Equal(t, in, !b.plain(), "%g ft", deep)
		if in { // the stem is 16 from the eastern wall
			requireFeet(t, 16, b.Farthest(b.fp).High.Distance, "in the slip")
		}
	}
}

// TestBehindTheMidwayLine: of a structure square to a wall 8 times 130 sq ft lie below the
// midway line to the tip of a spit, up to which it looks from beside, see TestASpitIsShore.
// With more than that beside it at the wall, from where straight out is open water, the tip
// does not face it.
func TestBehindTheMidwayLine(t *testing.T) {
	for beside, far := range map[float64]float64{0.85: 150, 1.2: (129.0*129 + 180*180) / 360} {
		b := bankOf(feetBoxes([4]float64{-234, 3, -226, 150}, [4]float64{-234 - beside*8*130/30, 3, -234, 33}), append([]orb.Point{}, spit...))
		requireFeet(t, far, b.Farthest(b.fp).High.Distance, "with so much beside it")
	}
}

// TestFeetThatSpread: a shore runs along a structure if its feet spread at least half as
// wide as that. The wall of TestASpitIsShore ends at a slip 7 or 3 of 8 ft along; from the
// lip the outer corner is hypot(1, 150) off.
func TestFeetThatSpread(t *testing.T) {
	for end, far := range map[float64]float64{-227: math.Hypot(1, 150), -231: (129.0*129 + 180*180) / 360} {
		b := bankOf(boxFeet(-234, 3, -226, 150), append(shoreLine(-900, 0, end, 0, end, -300, -200, -300, -200, 0), spit[1:]...))
		requireFeet(t, far, b.Farthest(b.fp).High.Distance, "up to the slip")
	}
}

// TestBesideALongStructure: how long it goes on away from the midway line is of no matter.
func TestBesideALongStructure(t *testing.T) {
	b := bankOf(feetBoxes([4]float64{60, 5, 110, 85}, [4]float64{110, 5, 900, 15}), append([]orb.Point{}, bentAway...))
	requireFeet(t, 85, b.Farthest(b.fp).High.Distance, "at its wall")
}

// TestTurnedBack: a shore that goes on round a corner faces the stretch before it if it has
// turned by more than 120 degrees.
func TestTurnedBack(t *testing.T) {
	for turn, kept := range map[float64]int{119: 2, 121: 1} {
		s, c := math.Sincos(turn * math.Pi / 180)
		b := bankOf(boxFeet(-100, 5, -50, 12), shoreLine(-300, 0, 0, 0, 300*c, 300*s))
		require.Len(t, b.Facing(NewLines(inFeet(shoreLine(-300, 0, 0, 0)...)), b).Lines.use, kept, "%g degrees", turn)
	}
}

// TestGeneralSpan: the direction of a bank is that of 150 ft to either side: a bend that
// begins 149 ft off turns it, one that begins 151 ft off does not.
func TestGeneralSpan(t *testing.T) {
	for off, bent := range map[float64]bool{149: true, 151: false} {
		b := bankOf(boxFeet(-10, 5, 10, 12), shoreLine(-800, 0, off, 0, off, -500))
		require.Equal(t, bent, b.TrendAt(orb.Point{})[1] < -1e-9, "%g ft", off)
	}
}

// TestRocks: a closed islet less across than the structure is long is none of its shores.
func TestRocks(t *testing.T) {
	for across, near := range map[float64]float64{2.9: 28.5, 3.1: 0.4} {
		s := across / math.Sqrt2
		b := bankOf(discsFeet(3, orb.Point{0, 30}), append([]orb.Point{}, straight...), clockwise(1.9, 29, 1.9+s, 29+s))
		requireFeet(t, near, b.Nearest(b.fp).High.Distance, "nearest")
	}
}

// TestIslets: an island up to 3 lengths of the structure across can be taken for an islet,
// and the mainland for the shore, at both tidal lines; beside a larger one it cannot.
func TestIslets(t *testing.T) {
	for across, islet := range map[float64]bool{8.9: true, 9.1: false, 900: false} {
		s := across / math.Sqrt2
		b := bankOf(discsFeet(3, orb.Point{0, 30}), append([]orb.Point{}, straight...), clockwise(1.9, 29, 1.9+s, 29+s))
		low := b.Along(NewLines(inFeet(shoreLine(-900, 5, 900, 5)...), inFeet(clockwise(1.7, 28.8, 2.1+s, 29.2+s)...)))
		require.NotNil(t, low)
		require.True(t, b.Island && low.Island)
		for bank, want := range map[*Bank][2]float64{b: {0.4, 28.5}, low: {0.2, 23.5}} {
			near := bank.Nearest(b.fp)
			requireFeet(t, want[0], near.High.Distance, "from the island")
			require.Equal(t, islet, !math.IsNaN(near.Mainland.Distance), "%g ft", across)
			if islet {
				requireFeet(t, want[1], near.Mainland.Distance, "from the mainland")
			}
		}
	}
}

// TestNarrowLand: land counts as narrow below 10 ft, if it reaches out more than its own
// width.
func TestNarrowLand(t *testing.T) {
	for _, c := range []struct {
		wide, long float64
		narrow     bool
	}{{9.9, 15, true}, {10.1, 15, false}, {9, 9.2, true}, {9, 8.8, false}} {
		b := bankOf(boxFeet(-20, c.long+1, 20, c.long+6), shoreLine(-800, 0, 0, 0, 0, c.long, c.wide, c.long, c.wide, 0, 800, 0))
		general := b.Farthest(b.fp).General.Distance
		require.Equal(t, c.narrow, general == general, "%g by %g", c.wide, c.long)
		if c.narrow {
			requireFeet(t, c.long+6, general, "without it")
		}
	}
}

// TestOneShoreInFeatures: features that end within 3 ft of one another are one shore; a
// wider gap anywhere behind the structure, between its corners too, is none.
func TestOneShoreInFeatures(t *testing.T) {
	for _, gap := range []float64{0, 0.1, 2.9, 3.1, 5, 12, 30, 49, 70} {
		b := bankOf(boxFeet(10, 5, 90, 12), shoreLine(-500, 0, 50-gap/2, 0), shoreLine(50+gap/2, 0, 500, 0))
		require.Equal(t, gap > 3, b.Unmapped(), "%g ft", gap)
		if gap < 3 {
			requireFeet(t, 80, b.Length().Along, "all along")
		}
	}
	b := bankOf(boxFeet(0, 5, 560, 12), shoreLine(-500, 0, 250, 0), shoreLine(316, 0, 1000, 0))
	require.True(t, b.Unmapped(), "560 ft of bank with a gap of 66 ft")
	high := bankOf(boxFeet(10, 5, 90, 12), append([]orb.Point{}, straight...))
	low := func(gap float64) *Bank {
		return high.Along(NewLines(inFeet(shoreLine(-500, 20, 50-gap/2, 20)...), inFeet(shoreLine(50+gap/2, 20, 500, 20)...)))
	}
	require.NotNil(t, low(2))
	for _, gap := range []float64{5, 30, 70} {
		require.Nil(t, low(gap), "low water with a gap of %g ft", gap)
	}
}

// TestLineThatEndsNearby: where the line ends within 1.5 times the reach of its place,
// shore beyond may be nearer to it.
func TestLineThatEndsNearby(t *testing.T) {
	x := math.Sqrt(1.5*1.5-1) * 12 // from there the end is 18 ft off
	for end, near := range map[float64]bool{-x + 0.1: true, -x - 0.1: false} {
		b := bankOf(ringFeet(0, 2, 6, 2, 0, 12), shoreLine(end, 0, 800, 0))
		require.False(t, b.Unmapped())
		require.Equal(t, near, b.EndsWithin(b.fp, b.Farthest(b.fp).High), "%g", end)
	}
}

// TestDitchBesideACornerLot: a ditch 8 ft wide beside a lot is not the water before it.
func TestDitchBesideACornerLot(t *testing.T) {
	shore := shoreLine(-900, 0, 0, 0, 0, -300, 8, -300, 8, 0, 900, 0)
	b := bankOf(boxFeet(-60, 5, -2, 12), shore, shoreLine(900, 500, -900, 500))
	requireFeet(t, 500, widthOf(b), "the bay")
}

// TestLandward: how much of a structure lies on land is told by its area; across a groin,
// whose depth is little, and deep behind the shore.
func TestLandward(t *testing.T) {
	for _, c := range []struct {
		fp   *Footprint
		want float64
	}{
		{boxFeet(10, -6, 30, 4), 0.6}, {boxFeet(10, -4, 30, 6), 0.4}, {boxFeet(10, 1, 30, 4), 0}, {boxFeet(10, -9, 30, -4), 1},
		{boxFeet(-40, 3, 40, 9), 4.0 / 80}, // over a groin 4 ft wide
	} {
		require.InDelta(t, c.want, bankOf(c.fp, append([]orb.Point{}, groin...)).Landward(c.fp), 0.01)
	}
}

// TestALineDrawnTwiceCountsOnce, in either direction, and one of the same ends does not.
func TestALineDrawnTwiceCountsOnce(t *testing.T) {
	line := shoreLine(0, 0, 50, 5, 100, 0)
	back := shoreLine(100, 0, 50, 5, 0, 0)
	require.Len(t, withoutRepeats([]strand{{points: line}, {points: back}, {points: line}}), 1)
	require.Len(t, withoutRepeats([]strand{{points: line}, {points: shoreLine(100, 0, 50, 6, 0, 0)}}), 2)
}

// TestLandwardOfALine: of a structure drawn as a line without a width it is told by length.
func TestLandwardOfALine(t *testing.T) {
	b := bankOf(boxFeet(10, 5, 40, 12), shoreLine(-500, 0, 500, 0))
	line := alone(Element{Lines: [][]orb.Point{inFeet(shoreLine(0, -40, 0, 60)...)}})
	require.InDelta(t, 0.4, b.Landward(line), 0.01)
	require.Zero(t, b.Landward(alone(Element{Lines: [][]orb.Point{{{0, -5}, {0, -5}}}})), "of no size, nothing")
}

// TestSmallIslands: round a rock smaller than what makes a trend each edge is its own, and
// on an island less round than 300 ft the bank trends as its edge there does. With the water
// on the left shores go round clockwise. Worked by hand.
func TestSmallIslands(t *testing.T) {
	square := func(side float64) []orb.Point { return shoreLine(0, 0, 0, side, side, side, side, 0, 0, 0) }
	rock := NewLines(inFeet(square(1)...))
	require.Equal(t, []orb.Point{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}, rock.trends(rock.chains()))
	island := bankOf(boxFeet(-30, 10, -10, 40), square(50))
	require.Equal(t, orb.Point{0, 1}, island.TrendAt(orb.Point{0, 25 * ft}))
	require.Equal(t, orb.Point{1, 0}, island.TrendAt(orb.Point{25 * ft, 50 * ft}))
}

// TestEndsAlong: the ends of a line that follows a segment come in the segment's direction,
// however the line runs.
func TestEndsAlong(t *testing.T) {
	s := &segment{a: orb.Point{0, 0}, b: orb.Point{10, 0}}
	for _, line := range [][]orb.Point{shoreLine(2, 0, 5, 5, 8, 0), shoreLine(8, 0, 5, 5, 2, 0)} {
		require.Equal(t, []orb.Point{{2, 0}, {8, 0}}, endsAlong(line, s))
	}
	require.Equal(t, []orb.Point{{8, 0}}, endsAlong(shoreLine(8, 0, 8, 9), s))
}

// TestNoLines: from no lines at all everything is infinitely far.
func TestNoLines(t *testing.T) {
	far, _ := NewLines().Signed(orb.Point{1, 2})
	require.True(t, math.IsInf(far, 1))
}

// TestPiecesInARow: of pieces in a row along a canal 85 ft wide, 39 to 44.4 ft off one wall,
// 3.5 of 5.4 ft lie on its side of the middle, wherever the gaps between them are least.
func TestPiecesInARow(t *testing.T) {
	for _, skew := range []float64{-0.2, 0, 0.2} {
		var parts [][4]float64
		for i := range 4 {
			x := 30 * float64(i)
			parts = append(parts, [4]float64{x, 39 + skew*float64(i%2), x + 26, 44.4 + skew*float64(i%2)})
		}
		b := bankOf(apartFeet(parts...), shoreLine(-400, 0, 500, 0), shoreLine(500, 85, -400, 85))
		requireFeet(t, 44.4+max(0, skew), b.Farthest(b.fp).High.Distance, "from its wall")
		require.False(t, b.Even || b.Apart)
	}
}
