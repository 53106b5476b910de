package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat/flattest"
)

// TestSignedReaches: a shore along y = 0 with the water north of it, lengths in
// feet. Worked by hand.
func TestSignedReaches(t *testing.T) {
	shore := NewLines(inFeet(orb.Point{-1000, 0}, orb.Point{1000, 0}))
	rough := NewLines(inFeet(orb.Point{-1000, 0}, orb.Point{0, 0}, orb.Point{10, 5}, orb.Point{20, 0}, orb.Point{1000, 0}))
	for _, c := range []struct {
		name                     string
		fp                       *Footprint
		lines                    *Lines
		farthest, least, nearest float64
	}{
		{"wholly waterward", boxFeet(10, 4, 60, 9), shore, 9, 4, 4},
		{"straddling the line", boxFeet(10, -3, 60, 9), shore, 9, -3, 0},
		{"wholly landward", boxFeet(10, -9, 60, -4), shore, -4, -9, 4},
		{"touching from the water", boxFeet(10, 0, 60, 9), shore, 9, 0, 0},
		{"touching from the land", boxFeet(10, -9, 60, 0), shore, 0, -9, 0},
		{"its edge on the line all along", boxFeet(-900, 0, 900, 0.5), shore, 0.5, 0, 0},
		// The land in the structure is a triangle 1 ft high and 4 ft wide; the
		// middle of its base, (10, 4), lies 2/sqrt(5) ft from either slope. Of
		// the upper corners, (-5, 9) lies 9 ft off.
		{"a point of land inside", boxFeet(-5, 4, 25, 9), rough, 9, -0.894427, 0},
		{"a hole does not count", drawn([]orb.Polygon{{flattest.RingOf(0, 2*ft, 40*ft, 42*ft), flattest.RingOf(5*ft, 7*ft, 35*ft, 37*ft)}}), shore, 42, 2, 2},
		// The middle of the hole would be nearest to the islet round (20, 22).
		{"an islet in the hole", drawn([]orb.Polygon{{flattest.RingOf(0, 2*ft, 40*ft, 42*ft), flattest.RingOf(5*ft, 7*ft, 35*ft, 37*ft)}}),
			NewLines(inFeet(clockwise(19, 21, 21, 23)...)), 26.870058, 14, 14}, // corner to corner: 19 ft each way
		{"an islet under the structure", boxFeet(0, 0, 40, 40), NewLines(inFeet(clockwise(18, 18, 22, 22)...)), 25.455844, -2, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			far, least := c.fp.Farthest(c.lines), c.fp.Least(c.lines)
			require.InDelta(t, c.farthest, far.Distance/ft, 0.001001)
			require.InDelta(t, c.least, least.Distance/ft, 0.001001)
			require.InDelta(t, c.nearest, c.fp.Nearest(c.lines).Distance/ft, 1e-9)
			for _, r := range []Reach{far, least} {
				signed, _ := c.lines.Signed(r.At)
				require.InDelta(t, signed, r.Distance, 1e-9, "what it says at its witness point")
			}
		})
	}
}

// clockwise is an islet: the water lies on the left of it.
func clockwise(x0, y0, x1, y1 float64) []orb.Point {
	ring := flattest.RingOf(x0, y0, x1, y1)
	ring.Reverse()
	return ring
}

// TestTouchingAlongAnEdgeIsQuick: an edge drawn along the shore is the commonest
// input of all. The greatest landward reach of 0 must be settled by few looks at
// the line, not by halving the edge down to the tolerance.
func TestTouchingAlongAnEdgeIsQuick(t *testing.T) {
	shore := []orb.Point{}
	for x := -500.0; x <= 500; x += 5 {
		shore = append(shore, orb.Point{x, 0})
	}
	lines := NewLines(shore)
	for _, c := range []struct {
		name     string
		fp       *Footprint
		far, low float64
	}{
		{"on the line", drawn([]orb.Polygon{flattest.Box(-200, 0, 200, 2)}), 2, 0},
		{"parallel", drawn([]orb.Polygon{flattest.Box(-200, 7, 200, 9)}), 9, 7},
		{"a hair across", drawn([]orb.Polygon{flattest.Box(-200, -1e-6, 200, 2)}), 2, 0},
	} {
		require.InDelta(t, c.far, c.fp.Farthest(lines).Distance, tolerance, c.name)
		require.InDelta(t, c.low, c.fp.Least(lines).Distance, tolerance+1e-6, c.name)
	}
}

// TestFreeEnd: beyond its end a line is extended by nothing: the distance is
// that to its end, and the foot says so. Worked by hand.
func TestFreeEnd(t *testing.T) {
	lines := NewLines(inFeet(orb.Point{-100, 0}, orb.Point{0, 0}))
	for _, c := range []struct {
		name string
		at   orb.Point
		want float64
		past bool
	}{
		{"abreast", orb.Point{-10, 5}, 5, false},
		{"abreast on land", orb.Point{-10, -5}, -5, false},
		{"past the end", orb.Point{3, 4}, 5, true},
		{"past the end on land", orb.Point{3, -4}, -5, true},
		{"past the other end", orb.Point{-103, 4}, 5, true},
	} {
		signed, f := lines.Signed(inFeet(c.at)[0])
		require.InDelta(t, c.want, signed/ft, 1e-9, c.name)
		require.Equal(t, c.past, lines.pastEnd(inFeet(c.at)[0], f), c.name)
	}
	// A structure on both sides of where the line would run on: its corners
	// are (3, 4) and (3, -12) nearest, (9, 12) and (9, -12) farthest.
	fp := boxFeet(3, -12, 9, 12)
	far, least := fp.Farthest(lines), fp.Least(lines)
	require.InDelta(t, 15, far.Distance/ft, 0.001001)
	require.InDelta(t, -15, least.Distance/ft, 0.001001)
	require.True(t, lines.pastEnd(far.At, far.Foot))
	require.True(t, (&Bank{Lines: lines, fp: fp}).Unmapped())
	require.False(t, (&Bank{Lines: lines, fp: boxFeet(-30, 2, 0, 6)}).Unmapped(), "up to the end and no farther")
}

// TestTwoShoresNotFaced: two shores drawn the same way, 20 ft apart. Midway
// between them the side changes though no line runs there. Worked by hand.
func TestTwoShoresNotFaced(t *testing.T) {
	lines := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{500, 0}), inFeet(orb.Point{-500, 20}, orb.Point{500, 20}))
	fp := boxFeet(-40, 2, 40, 18)
	require.InDelta(t, 10, fp.Farthest(lines).Distance/ft, 0.001001, "just short of midway it is left of the lower line")
	require.InDelta(t, -10, fp.Least(lines).Distance/ft, 0.001001, "just past it, right of the upper one")
}

// TestLineThatCrossesTheShore: an element without a width is a line; where it
// crosses, both of its reaches count. Worked by hand.
func TestLineThatCrossesTheShore(t *testing.T) {
	shore := NewLines(inFeet(orb.Point{-1000, 0}, orb.Point{1000, 0}))
	fp := drawn(nil, inFeet(orb.Point{0, -30}, orb.Point{0, 12}, orb.Point{9, -6}))
	require.InDelta(t, 12, fp.Farthest(shore).Distance/ft, 0.001001)
	require.InDelta(t, -30, fp.Least(shore).Distance/ft, 0.001001)
	// Both ends on land, the middle 12 ft out over a bight of the shore.
	bight := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{0, 0}, orb.Point{0, -40}, orb.Point{20, -40}, orb.Point{20, 0}, orb.Point{500, 0}))
	across := drawn(nil, inFeet(orb.Point{-15, -5}, orb.Point{35, -5}))
	require.InDelta(t, 10, across.Farthest(bight).Distance/ft, 0.001001, "midway between the walls")
	require.InDelta(t, -5, across.Least(bight).Distance/ft, 0.001001)
}

// TestBeyond: how far a structure crosses a riparian line is the lesser of its
// reaches to either side. Worked by hand.
func TestBeyond(t *testing.T) {
	line := NewLines(inFeet(orb.Point{0, -100}, orb.Point{0, 100}))
	for _, c := range []struct {
		name string
		fp   *Footprint
		want float64
	}{
		{"7 ft to the right", boxFeet(-20, 0, 7, 5), 7},
		{"7 ft to the left", boxFeet(-7, 0, 20, 5), 7},
		{"not across", boxFeet(3, 0, 20, 5), 0},
		{"touching", boxFeet(0, 0, 20, 5), 0},
		{"evenly", boxFeet(-6, 0, 6, 5), 6},
		{"a line across", drawn(nil, inFeet(orb.Point{-50, 0}, orb.Point{4, 0})), 4},
	} {
		require.InDelta(t, c.want, c.fp.Beyond(line).Distance/ft, 0.001001, c.name)
	}
}
