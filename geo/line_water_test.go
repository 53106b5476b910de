package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat/flattest"
)

// layerOf builds a joined layer of lines drawn in feet.
func layerOf(lines ...[]orb.Point) *Layer {
	var b LayerBuilder
	for _, line := range lines {
		b.AddLine(onSite(line))
	}
	return b.Build(true)
}

var everything = orb.Bound{Min: orb.Point{-83, 27}, Max: orb.Point{-82, 28}}

func sayAll(side int) func(int) int { return func(int) int { return side } }

// TestFaceWater: a shore drawn east along y = 0. Each kind of evidence settles
// it by itself; what disagrees with it unsettles it. Worked by hand.
func TestFaceWater(t *testing.T) {
	shore := []orb.Point{} // ten edges
	for x := -100.0; x <= 100; x += 20 {
		shore = append(shore, orb.Point{x, 0})
	}
	south := func(at orb.Point) bool { return site.Forward(at)[1] < 0 }
	north := func(at orb.Point) bool { return site.Forward(at)[1] > 0 }
	mixed := func(at orb.Point) bool { return (site.Forward(at)[1] > 0) == (site.Forward(at)[0] > 0) }
	uneven := func(at orb.Point) bool { return (site.Forward(at)[1] > 0) == (site.Forward(at)[0] > 25*ft) }
	above := layerOf([]orb.Point{{-120, 10}, {120, 10}}).Near(site, everything)
	below := layerOf([]orb.Point{{-120, -10}, {120, -10}}).Near(site, everything)
	beyond := layerOf([]orb.Point{{300, 10}, {400, 10}}).Near(site, everything)
	for _, c := range []struct {
		name     string
		evidence Evidence
		want     float64 // +1 water north, -1 south, 0 unsettled
		why      string
	}{
		{"stated left", Evidence{Stated: sayAll(1)}, 1, ""},
		{"stated right", Evidence{Stated: sayAll(-1)}, -1, ""},
		{"land south", Evidence{Land: south}, 1, ""},
		{"land north", Evidence{Land: north}, -1, ""},
		{"low water north", Evidence{Other: above, OtherWaterward: true}, 1, ""},
		{"low water south", Evidence{Other: below, OtherWaterward: true}, -1, ""},
		{"high water north", Evidence{Other: above}, -1, ""},
		{"nothing", Evidence{}, 0, "not known"},
		{"nothing stated", Evidence{Stated: sayAll(0)}, 0, "not known"},
		{"land nowhere", Evidence{Land: func(orb.Point) bool { return false }}, 0, "not known"},
		{"a line elsewhere", Evidence{Other: beyond, OtherWaterward: true}, 0, "not known"},
		{"an open line is no island", Evidence{RingIsIsland: true}, 0, "not known"},
		{"all agree", Evidence{Stated: sayAll(1), Land: south, Other: above, OtherWaterward: true}, 1, ""},
		{"stated against land", Evidence{Stated: sayAll(1), Land: north}, 0, "contradicted by the stated side and the land areas"},
		{"stated against low water", Evidence{Stated: sayAll(-1), Other: above, OtherWaterward: true}, 0, "contradicted by the stated side and the other tidal line"},
		{"land against low water", Evidence{Land: south, Other: below, OtherWaterward: true}, 0, "contradicted by the land areas and the other tidal line"},
		{"land on both sides, unevenly", Evidence{Land: uneven}, 0, "contradicted"},
		{"land on both sides, evenly", Evidence{Land: mixed}, 0, "contradicted"},
		{"land on both sides, low water north", Evidence{Land: mixed, Other: above, OtherWaterward: true}, 0, "contradicted"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.evidence.Plane = site
			faced, unsettled := layerOf(shore).Near(site, everything).FaceWater(c.evidence)
			if c.want == 0 {
				require.True(t, faced.Empty())
				require.Len(t, unsettled, 1)
				require.Contains(t, unsettled[0].Why, c.why)
				require.False(t, unsettled[0].Lines.Empty())
				return
			}
			require.Empty(t, unsettled)
			signed, _ := faced.Signed(orb.Point{30 * ft, 20 * ft})
			require.InDelta(t, c.want*20, signed/ft, 0.001)
		})
	}
}

// TestRingWithoutEvidence is an island: the water lies outside, whichever way
// round it is drawn.
func TestRingWithoutEvidence(t *testing.T) {
	for _, ring := range [][]orb.Point{flattest.RingOf(0, 0, 60, 60), clockwise(0, 0, 60, 60)} {
		near := layerOf(ring).Near(site, everything)
		faced, unsettled := near.FaceWater(Evidence{Plane: site, RingIsIsland: true})
		require.Empty(t, unsettled)
		signed, f := faced.Signed(orb.Point{30 * ft, -9 * ft})
		require.InDelta(t, 9, signed/ft, 0.001)
		require.True(t, faced.OnRing(f))
		signed, _ = faced.Signed(orb.Point{30 * ft, 9 * ft})
		require.InDelta(t, -9, signed/ft, 0.001)
		_, unsettled = near.FaceWater(Evidence{Plane: site})
		require.Len(t, unsettled, 1)
	}
}

// TestJoinedFeaturesDrawnAgainstOneAnother: a shore mapped in three features,
// the middle one drawn the other way, is one line; what each states of its side
// is read the way it was drawn.
func TestJoinedFeaturesDrawnAgainstOneAnother(t *testing.T) {
	layer := layerOf([]orb.Point{{-200, 0}, {0, 0}}, []orb.Point{{50, 0}, {0, 0}}, []orb.Point{{50, 0}, {200, 0}})
	near := layer.Near(site, everything)
	for i, own := range near.ByItem() {
		require.Equal(t, i, own.Item)
	}
	require.Len(t, near.ByItem(), 3)
	sides := []int{1, -1, 1}
	faced, unsettled := near.FaceWater(Evidence{Stated: func(item int) int { return sides[item] }, Plane: site})
	require.Empty(t, unsettled)
	fp := boxFeet(-10, 5, 60, 12)
	bank := HomeBank(fp, faced)
	requireFeet(t, 12, fp.Farthest(bank.Lines).Distance, "from the joined line")
	occupied := bank.Occupied()
	require.Len(t, occupied, 1, "one line")
	requireFeet(t, 70, occupied[0].Length, "across both joints")
	for x, item := range map[float64]int{-30: 0, 20: 1, 70: 2} {
		f := faced.Nearest(orb.Point{x * ft, ft})
		require.Equal(t, item, faced.Item(f))
	}
	require.False(t, bank.Unmapped(), "a joint is no end")
	sides = []int{1, 1, 1}
	_, unsettled = near.FaceWater(Evidence{Stated: func(item int) int { return sides[item] }, Plane: site})
	require.Len(t, unsettled, 1, "the middle one says the opposite")
	require.Contains(t, unsettled[0].Why, "contradicted by the stated side")
}

// TestStatedBothWays: half of a joined line says left and half says right; no
// other evidence may settle that as if nothing had been said.
func TestStatedBothWays(t *testing.T) {
	near := layerOf([]orb.Point{{-100, 0}, {0, 0}}, []orb.Point{{0, 0}, {100, 0}}).Near(site, everything)
	sides := []int{1, -1}
	stated := func(item int) int { return sides[item] }
	south := func(at orb.Point) bool { return site.Forward(at)[1] < 0 }
	for _, e := range []Evidence{{Stated: stated, Plane: site}, {Stated: stated, Land: south, Plane: site}} {
		_, unsettled := near.FaceWater(e)
		require.Len(t, unsettled, 1)
		require.Contains(t, unsettled[0].Why, "contradicted by the stated side")
	}
}

// TestThreeLinesAtOnePoint are not joined: none is the other's continuation.
func TestThreeLinesAtOnePoint(t *testing.T) {
	layer := layerOf([]orb.Point{{-50, 0}, {0, 0}}, []orb.Point{{0, 0}, {50, 0}}, []orb.Point{{0, 0}, {0, 50}})
	require.Len(t, layer.strands, 3)
	ring := layerOf([]orb.Point{{0, 0}, {50, 0}, {50, 50}}, []orb.Point{{0, 0}, {0, 50}, {50, 50}})
	require.Len(t, ring.strands, 1, "two halves of a ring")
	near := ring.Near(site, everything)
	require.True(t, near.OnRing(near.Nearest(orb.Point{})))
}
