package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// Lengths in this file are in feet, all cases worked by hand. Lines are drawn
// with the water on their left.

// canal is a 16 ft canal, its head at x = 200, drawn as one line.
var canal = inFeet(orb.Point{-300, 0}, orb.Point{200, 0}, orb.Point{200, 16}, orb.Point{-300, 16})

// TestHomeBankInACanal: past the middle the far bank is nearer, and the reach
// is still taken from the bank the structure stands at.
func TestHomeBankInACanal(t *testing.T) {
	for name, lines := range map[string]*Lines{
		"one line":  NewLines(canal),
		"two lines": NewLines(canal[:2], canal[2:]),
		"far first": NewLines(canal[2:], canal[:2]),
	} {
		t.Run(name, func(t *testing.T) {
			fp := boxFeet(40, 1, 60, 12)
			bank := HomeBank(fp, lines)
			require.False(t, bank.Island)
			requireFeet(t, 12, bank.Farthest(fp).High.Distance, "from its own bank")
			requireFeet(t, 1, bank.Nearest(fp).High.Distance, "from its own bank")
			other, nearer := bank.OtherShoreNearer()
			require.True(t, nearer)
			requireFeet(t, 4, other.Distance, "to the far bank")
			occupied := bank.Occupied()
			require.Len(t, occupied, 1)
			requireFeet(t, 20, occupied[0].Length, "along the bank")
			requireFeet(t, 16, widthOf(bank), "across the canal")

			short := boxFeet(40, 1, 60, 7)
			_, nearer = HomeBank(short, lines).OtherShoreNearer()
			require.False(t, nearer, "all of it is on its own side of the middle")
		})
	}
	fp := boxFeet(40, 4, 60, 15)
	requireFeet(t, 12, fp.Farthest(HomeBank(fp, NewLines(canal)).Lines).Distance, "standing at the north bank")
	require.Nil(t, HomeBank(fp, NewLines()))
}

// TestDeadEnd: at the head of a canal the far side is still another shore: from
// the head, and from the side it starts at, the structure reaches 12 ft, though
// no part of it is more than 8 ft from some side.
func TestDeadEnd(t *testing.T) {
	fp := boxFeet(188, 4, 199, 12)
	bank := HomeBank(fp, NewLines(canal))
	requireFeet(t, 12, fp.FarthestUnsigned(bank.Lines).Distance, "from the head")
	requireFeet(t, 1, fp.Nearest(bank.Lines).Distance, "from the head")
}

// TestIslet: an islet off a structure does not become its shore by being
// nearer; beside an islet far from the mainland it is the shore.
func TestIslet(t *testing.T) {
	mainland := inFeet(orb.Point{-1000, 0}, orb.Point{1000, 0})
	near := NewLines(mainland, inFeet(clockwise(45, 14, 55, 24)...))
	fp := boxFeet(0, 5, 100, 12)
	bank := HomeBank(fp, near)
	require.False(t, bank.Island)
	requireFeet(t, 12, bank.Farthest(fp).High.Distance, "from the mainland")
	other, nearer := bank.OtherShoreNearer()
	require.True(t, nearer)
	requireFeet(t, 2, other.Distance, "from the islet")

	// An islet between a structure and the mainland hides some of the shore
	// behind it; the reach is still that from the mainland.
	shore := []orb.Point{}
	for x := -300.0; x <= 400; x += 2 {
		shore = append(shore, orb.Point{x, 0})
	}
	fp = boxFeet(0, 20, 100, 25)
	bank = HomeBank(fp, NewLines(inFeet(shore...), inFeet(clockwise(30, 5, 60, 15)...)))
	require.False(t, bank.Island)
	requireFeet(t, 25, bank.Farthest(fp).High.Distance, "from the mainland behind the islet")
	requireFeet(t, 20, bank.Nearest(fp).High.Distance, "from the mainland behind the islet")

	islet := clockwise(0, 300, 60, 360)
	fp = boxFeet(10, 280, 40, 294)
	bank = HomeBank(fp, NewLines(mainland, inFeet(islet...)))
	require.True(t, bank.Island)
	requireFeet(t, 20, bank.Farthest(fp).High.Distance, "from the islet")
	requireFeet(t, 6, bank.Nearest(fp).High.Distance, "from the islet")
	_, nearer = bank.OtherShoreNearer()
	require.False(t, nearer)
}

// TestSquareCorner: both arms of an L are one bank; the structure is the case
// H8 of the directed distances.
func TestSquareCorner(t *testing.T) {
	lines := NewLines(inFeet(orb.Point{0, 0}, orb.Point{100, 0}, orb.Point{100, 100}))
	fp := drawn(nil, inFeet(orb.Point{40, 20}, orb.Point{95, 75}))
	bank := HomeBank(fp, lines)
	requireFeet(t, 40, fp.FarthestUnsigned(bank.Lines).Distance, "at (60, 40)")
	requireFeet(t, 40, bank.Farthest(fp).High.Distance, "all of it is waterward")
	occupied := bank.Occupied()
	require.Len(t, occupied, 1)
	requireFeet(t, 135, occupied[0].Length, "stations 40 to 175")
	require.Len(t, occupied[0].Points, 3, "round the corner")
}

func TestOccupied(t *testing.T) {
	straight := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{30, 0}, orb.Point{500, 0}))
	fp := boxFeet(10, 5, 60, 12)
	occupied := HomeBank(fp, straight).Occupied()
	require.Len(t, occupied, 1)
	requireFeet(t, 50, occupied[0].Length, "a straight shore")
	require.InDeltaSlice(t, []float64{10, 0, 60, 0}, []float64{
		occupied[0].Points[0][0] / ft, occupied[0].Points[0][1], occupied[0].Points[2][0] / ft, occupied[0].Points[2][1]}, 1e-9)

	pieces := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{30, 0}), inFeet(orb.Point{40, 0}, orb.Point{500, 0}))
	occupied = HomeBank(fp, pieces).Occupied()
	require.Len(t, occupied, 2, "one for each separately mapped line")
	requireFeet(t, 20, occupied[0].Length, "10 to 30")
	requireFeet(t, 20, occupied[1].Length, "40 to 60")
}

// TestOccupiedAcrossTheSeam: an islet whose ring starts in the middle of the
// side the structure faces, then elsewhere: the stretch is the same.
func TestOccupiedAcrossTheSeam(t *testing.T) {
	corners := []orb.Point{{35, 0}, {0, 0}, {0, 80}, {80, 80}, {80, 0}}
	for start := range corners {
		ring := append(append([]orb.Point{}, corners[start:]...), corners[:start]...)
		lines := NewLines(inFeet(append(ring, ring[0])...))
		fp := boxFeet(10, -12, 60, -5)
		bank := HomeBank(fp, lines)
		require.True(t, bank.Island)
		requireFeet(t, 12, bank.Farthest(fp).High.Distance, "south of the islet")
		occupied := bank.Occupied()
		require.Len(t, occupied, 1, "start %d", start)
		requireFeet(t, 50, occupied[0].Length, "across the seam")
	}
}

// spit runs out from a wall and bends to the west.
var spit = shoreLine(-900, 0, 0, 0, 0, 150, -50, 172, -105, 180, -50, 185, 10, 160, 10, 0, 900, 0)

// TestASpitIsShore: a structure square to a wall, whose outer end is nearer to the tip of a
// spit than to the wall. A place h from the tip's abscissa that is as far from the wall as
// from the tip lies y out, where y^2 = h^2 + (180-y)^2, and the ways are 90 degrees and so
// much more apart as has the sine (180-y)/y. From h = 141 on that is no more than 104
// degrees, the two do not face each other and the structure is measured from both; at
// h = 121 it is 112 degrees, and the structure stands at the wall. By hand.
func TestASpitIsShore(t *testing.T) {
	shore := NewLines(inFeet(spit...))
	fp := boxFeet(-254, 3, -246, 160)
	bank := HomeBank(fp, shore)
	require.True(t, bank.plain())
	requireFeet(t, (149.0*149+180*180)/360, bank.Farthest(fp).High.Distance, "from its wall and the tip")
	fp = boxFeet(-234, 3, -226, 150)
	far := HomeBank(fp, shore).Farthest(fp)
	requireFeet(t, 150, far.High.Distance, "from its wall")
	requireFeet(t, (129.0*129+180*180)/360, far.Low.Distance, "from its wall and the tip")
}

// TestDiscsPastTheEndOfALine: where a line ends, its sides end with it, and a disc abreast
// of its end counts as a polygon of its corners does.
func TestDiscsPastTheEndOfALine(t *testing.T) {
	line := NewLines(inFeet([]orb.Point{{0, -40}, {0, 30}}...))
	discs, polygons := &Footprint{}, &Footprint{}
	for _, at := range inFeet([]orb.Point{{-3, 0}, {1, 60}}...) {
		e := Element{Lines: [][]orb.Point{{at, at}}, Discs: true, Length: 8 * ft, Areas: []orb.Polygon{disc(at, 4*ft)}}
		e.settle()
		discs.Elements = append(discs.Elements, e)
		polygons.Elements = append(polygons.Elements, alone(Element{Areas: e.Areas}).Elements...)
	}
	require.Greater(t, polygons.Beyond(line).Distance, 30*ft)
	require.InDelta(t, polygons.Beyond(line).Distance, discs.Beyond(line).Distance, arcTolerance)
}
