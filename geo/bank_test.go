package geo

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// Lengths in this file are in feet, all cases worked by hand. Lines are drawn
// with the water on their left.

// canal is a 16 ft canal, its head at x = 200, drawn as one line.
var canal = inFeet(orb.Point{-300, 0}, orb.Point{200, 0}, orb.Point{200, 16}, orb.Point{-300, 16})

func requireFeet(t *testing.T, want, metres float64, why string) {
	t.Helper()
	require.InDelta(t, want, metres/ft, 0.001001, why)
}

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
			requireFeet(t, 12, fp.Farthest(bank.Lines).Distance, "from its own bank")
			requireFeet(t, 1, fp.Least(bank.Lines).Distance, "from its own bank")
			other, nearer := bank.OtherShoreNearer(fp)
			require.True(t, nearer)
			requireFeet(t, 4, other.Distance, "to the far bank")
			occupied := bank.Occupied(fp)
			require.Len(t, occupied, 1)
			requireFeet(t, 20, occupied[0].Length, "along the bank")
			requireFeet(t, 16, bank.WidthAcross(occupied, 0).Distance, "across the canal")

			short := boxFeet(40, 1, 60, 7)
			_, nearer = HomeBank(short, lines).OtherShoreNearer(short)
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
	requireFeet(t, 12, fp.Farthest(bank.Lines).Distance, "from the mainland")
	other, nearer := bank.OtherShoreNearer(fp)
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
	requireFeet(t, 25, fp.Farthest(bank.Lines).Distance, "from the mainland behind the islet")
	requireFeet(t, 20, fp.Least(bank.Lines).Distance, "from the mainland behind the islet")

	islet := clockwise(0, 300, 60, 360)
	fp = boxFeet(10, 280, 40, 294)
	bank = HomeBank(fp, NewLines(mainland, inFeet(islet...)))
	require.True(t, bank.Island)
	requireFeet(t, 20, fp.Farthest(bank.Lines).Distance, "from the islet")
	requireFeet(t, 6, fp.Least(bank.Lines).Distance, "from the islet")
	_, nearer = bank.OtherShoreNearer(fp)
	require.False(t, nearer)
}

// TestSquareCorner: both arms of an L are one bank; the structure is the case
// H8 of the directed distances.
func TestSquareCorner(t *testing.T) {
	lines := NewLines(inFeet(orb.Point{0, 0}, orb.Point{100, 0}, orb.Point{100, 100}))
	fp := drawn(nil, inFeet(orb.Point{40, 20}, orb.Point{95, 75}))
	bank := HomeBank(fp, lines)
	requireFeet(t, 40, fp.FarthestUnsigned(bank.Lines).Distance, "at (60, 40)")
	requireFeet(t, 40, fp.Farthest(bank.Lines).Distance, "all of it is waterward")
	occupied := bank.Occupied(fp)
	require.Len(t, occupied, 1)
	requireFeet(t, 135, occupied[0].Length, "stations 40 to 175")
	require.Len(t, occupied[0].Points, 3, "round the corner")
}

func TestOccupied(t *testing.T) {
	straight := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{30, 0}, orb.Point{500, 0}))
	fp := boxFeet(10, 5, 60, 12)
	occupied := HomeBank(fp, straight).Occupied(fp)
	require.Len(t, occupied, 1)
	requireFeet(t, 50, occupied[0].Length, "a straight shore")
	require.InDeltaSlice(t, []float64{10, 0, 60, 0}, []float64{
		occupied[0].Points[0][0] / ft, occupied[0].Points[0][1], occupied[0].Points[2][0] / ft, occupied[0].Points[2][1]}, 1e-9)

	pieces := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{30, 0}), inFeet(orb.Point{40, 0}, orb.Point{500, 0}))
	occupied = HomeBank(fp, pieces).Occupied(fp)
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
		requireFeet(t, 12, fp.Farthest(bank.Lines).Distance, "south of the islet")
		occupied := bank.Occupied(fp)
		require.Len(t, occupied, 1, "start %d", start)
		requireFeet(t, 50, occupied[0].Length, "across the seam")
	}
}

func TestWidthAcross(t *testing.T) {
	near := inFeet(orb.Point{-500, 0}, orb.Point{500, 0})
	fp := boxFeet(0, 2, 100, 10)
	for _, c := range []struct {
		name string
		far  []orb.Point
		want float64
	}{
		{"parallel", inFeet(orb.Point{500, 90}, orb.Point{-500, 90}), 90},
		{"narrowing", inFeet(orb.Point{200, 60}, orb.Point{-200, 140}), 80}, // at x = 100
		{"a point of the far shore", inFeet(orb.Point{300, 90}, orb.Point{50, 40}, orb.Point{-300, 90}), 40},
		{"a point not abreast", inFeet(orb.Point{500, 90}, orb.Point{160, 90}, orb.Point{150, 20}, orb.Point{140, 90}, orb.Point{-500, 90}), 90},
	} {
		bank := HomeBank(fp, NewLines(near, c.far))
		requireFeet(t, c.want, bank.WidthAcross(bank.Occupied(fp), 0).Distance, c.name)
	}
	bank := HomeBank(fp, NewLines(near))
	require.Greater(t, bank.WidthAcross(bank.Occupied(fp), 0).Distance, 1e9, "open water")
}

// TestAlong: the low water line of the home bank is the one along it, not the
// one nearest to the structure, nor an islet's.
func TestAlong(t *testing.T) {
	high := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{500, 0}), inFeet(orb.Point{500, 60}, orb.Point{-500, 60}))
	fp := boxFeet(0, 2, 50, 40)
	bank := HomeBank(fp, high)
	own := inFeet(orb.Point{-500, 10}, orb.Point{500, 10})
	far := inFeet(orb.Point{500, 50}, orb.Point{-500, 50})
	low := bank.Along(fp, NewLines(far, own))
	require.NotNil(t, low)
	requireFeet(t, 30, fp.Farthest(low.Lines).Distance, "from its own low water line")
	requireFeet(t, -8, fp.Least(low.Lines).Distance, "landward of it")
	require.Nil(t, bank.Along(fp, NewLines(inFeet(orb.Point{200, 10}, orb.Point{500, 10}))), "mapped elsewhere only")
	require.Nil(t, bank.Along(fp, NewLines(inFeet(clockwise(0, 5, 40, 9)...))), "an islet's")
	require.Nil(t, bank.Along(fp, NewLines()))
	both := bank.Along(fp, NewLines(append(append([]orb.Point{}, own...), far...))) // one U-shaped line
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
			along := bank.Along(fp, low)
			require.NotNil(t, along, lean)
			require.InDelta(t, 18*ft, fp.Farthest(along.Lines).Distance, 2*ft, lean)
			require.Len(t, bank.Beside(behind).use, 1, lean)
		}
	}
}

// TestAtTheHeadOfACanal: along a wall of a canal 80 ft wide, 20 ft off it and 6 ft from
// the head, which is nearer. The structure belongs to its wall: it reaches 34 ft out from
// that, where the far wall is 60 ft from its toe, and the water is 80 ft wide, whichever
// wall it is. Worked by hand.
func TestAtTheHeadOfACanal(t *testing.T) {
	corners := []orb.Point{{-300, 400}, {0, 400}, {0, 0}, {80, 0}, {80, 400}, {400, 400}}
	for _, every := range []float64{1000, 26, 17, 5} { // however the line is cut
		canal := NewLines(inFeet(cutEvery(every, corners)...))
		for _, c := range []struct {
			name string
			fp   *Footprint
		}{
			{"west wall", boxFeet(20, 6, 34, 150)},
			{"east wall", boxFeet(46, 6, 60, 150)},
			{"in pieces", feetBoxes([4]float64{20, 6, 34, 60}, [4]float64{20, 70, 34, 150})},
			{"well up the canal", boxFeet(20, 100, 34, 250)},
		} {
			bank := HomeBank(c.fp, canal)
			requireFeet(t, 34, c.fp.Farthest(bank.Lines).Distance, fmt.Sprintf("%s, every %g ft", c.name, every))
			width := bank.WidthAcross(bank.Occupied(c.fp), 34*ft).Distance
			requireFeet(t, 80, width, fmt.Sprintf("%s, every %g ft", c.name, every))
		}
	}
}

// TestASpitIsNoPartOfTheWall: a structure square to a wall, whose outer end is nearer to
// the tip of a spit than to the wall, belongs to the wall it starts from: it reaches 150
// ft out from that, and its landward edge is 3 ft off. With the spit the wall would be
// within less, only by being more shore. Worked by hand.
func TestASpitIsNoPartOfTheWall(t *testing.T) {
	shore := NewLines(inFeet([]orb.Point{{-900, 0}, {0, 0}, {0, 150}, {-50, 172}, {-105, 180}, {-50, 185}, {10, 160}, {10, 0}, {900, 0}}...))
	fp := boxFeet(-234, 3, -226, 150)
	bank := HomeBank(fp, shore)
	requireFeet(t, 150, fp.Farthest(bank.Lines).Distance, "from its wall")
	requireFeet(t, 3, fp.LandwardEdge(bank.Lines).Distance, "its landward edge")
	require.Len(t, bank.Occupied(fp), 1)
	requireFeet(t, 8, bank.Occupied(fp)[0].Length, "the bank occupied")
}

// TestWidthBeyondCorners: the water is as wide as to the shore across at a corner of the
// shore, off the tip of a groin and before a headland of the same line, and open before
// the mouth of a slip, however long its walls are. Worked by hand.
func TestWidthBeyondCorners(t *testing.T) {
	lines := func(shores ...[]orb.Point) *Lines {
		for i := range shores {
			shores[i] = inFeet(shores[i]...)
		}
		return NewLines(shores...)
	}
	for _, c := range []struct {
		name  string
		shore *Lines
		fp    *Footprint
		want  float64 // 0: open
	}{
		{"off a square corner", lines([]orb.Point{{-500, 0}, {0, 0}, {0, -500}}, []orb.Point{{500, 60}, {-500, 60}}), boxFeet(3, 3, 13, 13), 60},
		{"off the tip of a groin", lines([]orb.Point{{-500, 0}, {-1.5, 0}, {-1.5, 60}, {1.5, 60}, {1.5, 0}, {500, 0}}, []orb.Point{{500, 150}, {-500, 150}}), boxFeet(-1.4, 66, 1.4, 76), 90},
		{"before a headland across a creek", lines([]orb.Point{{-500, 0}, {600, 0}, {600, 130}, {23, 130}, {0, 80}, {-23, 130}, {-500, 130}}), boxFeet(-20, 5, 20, 45), 80},
		{"before a slip", lines([]orb.Point{{-900, 0}, {-20, 0}, {-20, -60}, {20, -60}, {20, 0}, {900, 0}}), boxFeet(-60, 15, 60, 25), 0},
		{"before a long slip", lines([]orb.Point{{-900, 0}, {-20, 0}, {-20, -300}, {20, -300}, {20, 0}, {900, 0}}), boxFeet(-60, 15, 60, 25), 0},
	} {
		bank := HomeBank(c.fp, c.shore)
		width := bank.WidthAcross(bank.Occupied(c.fp), c.fp.Farthest(bank.Lines).Distance).Distance
		if c.want == 0 {
			require.True(t, math.IsInf(width, 1), "%s: %g ft", c.name, width/ft)
			continue
		}
		requireFeet(t, c.want, width, c.name)
	}
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
