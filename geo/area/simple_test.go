package area

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat/flattest"
)

// What is taken for valid without the library's check is valid to GEOS: the areas of
// testdata/dirty. Most of the valid ones of one ring are seen to be.
func TestSurelyValidIsValid(t *testing.T) {
	seen := 0
	eachDirtyArea(t, func(t *testing.T, d dirtyArea, area orb.MultiPolygon) {
		if surelyValid(area) {
			seen++
			require.True(t, d.Properties.Valid)
		}
	})
	require.Greater(t, seen, 5)
}

// And to the geometry library (a port of JTS): random rings on a small grid, where
// edges meet, touch and overlap in every way, and stars, most of which are valid.
func TestSurelySimpleAgreesWithTheLibrary(t *testing.T) {
	sure := 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "n")
		var ring orb.Ring
		for range n {
			ring = append(ring, orb.Point{float64(rapid.IntRange(0, 4).Draw(t, "x")), float64(rapid.IntRange(0, 4).Draw(t, "y"))})
		}
		ring = append(ring, ring[0])
		valid := toPolygon(orb.Polygon{ring}).Validate() == nil
		if surelySimple(ring) {
			sure++
			require.True(t, valid, "%v", ring)
		} else if valid { // no two edges but neighbours meet, and the signs are all sure
			require.Less(t, len(slices.Compact(ring.Clone())), len(ring), "a valid ring is left in doubt: %v", ring)
		}
		star := flattest.DrawStar(t, orb.Point{3, -2}, 1, 40)
		if surelySimple(star) {
			sure++
			require.NoError(t, toPolygon(orb.Polygon{star}).Validate(), "%v", star)
		}
	})
	require.Greater(t, sure, 50)
}

// No value that is not finite, or so small that products vanish, is ever sure.
func TestNothingIsSureOfWhatHasNoDigits(t *testing.T) {
	square := orb.Ring{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}
	require.True(t, surelySimple(square))
	for _, scale := range []float64{1e-200, 1e200} {
		ring := square.Clone()
		for i := range ring {
			ring[i] = orb.Point{ring[i][0] * scale, ring[i][1] * scale}
		}
		require.False(t, surelySimple(ring), "%g", scale)
	}
	require.False(t, surelySimple(orb.Ring{{0, 0}, {1, 0}, {1, 0}, {0, 1}, {0, 0}}), "a position twice")
	require.False(t, surelySimple(orb.Ring{{0, 0}, {2, 0}, {1, 0}, {0, 1}, {0, 0}}), "a spike")
}

// BenchmarkCheckArea: a bed of 65 vertices.
func BenchmarkCheckArea(b *testing.B) {
	var ring orb.Ring
	for i := range 64 {
		sin, cos := math.Sincos(float64(i) / 64 * 2 * math.Pi)
		ring = append(ring, orb.Point{-74.6 + 1e-4*cos, 30 + 1e-4*sin})
	}
	bed := orb.MultiPolygon{{append(ring, ring[0])}}
	for b.Loop() {
		if Check(bed) != nil {
			b.Fatal("it is valid")
		}
	}
}
