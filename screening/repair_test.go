package screening

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// bowTie crosses itself at (150, 150): two triangles of 100 by 50 ft, 5,000 sq ft;
// walked round, one counts against the other, so that it claims none.
var bowTie = sketchtest.Shape("Polygon", `"id":"tie"`, [2]float64{100, 100}, [2]float64{200, 200}, [2]float64{200, 100}, [2]float64{100, 200}, [2]float64{100, 100})

// Worked by hand: from the structure's corner (60, 9) to (100, 100) is the root of
// 40^2 + 91^2, 99.40 ft.
func TestAnAreaIsRebuiltAndSaysSo(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["grass"] = []string{bowTie}
	rows, report, err := jobOf(t, s, sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Equal(t, "99.40", rows["a"]["seagrass_nearest_ft"])
	require.Contains(t, rows["a"]["notices"], "1 area of seagrass near here, not valid as drawn, rebuilt (first: feature 1 (id tie)); look there")
	require.Zero(t, report.Defects)
	require.Len(t, report.Repairs, 1)
	require.Contains(t, report.Repairs[0], "grass: feature 1 (id tie): its area is not valid: a ring crosses or touches itself at (-74.5995261, 30.0004124)")
	require.Contains(t, report.Repairs[0], "0.0 sq ft as drawn, 5000.0 sq ft as used")

	rows, report, err = jobOf(t, s, "no_repair: true\n"+sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Empty(t, rows["a"]["seagrass_nearest_ft"])
	require.Equal(t, "needs information", rows["a"]["state_certainty"])
	require.Empty(t, report.Repairs)
	require.Equal(t, 1, report.Defects)
}

// The structure, 60 by 6 ft, reaches 4 ft into grass whose outline has a spike: of
// the 240 sq ft shared nothing is lost to it.
func TestASpikeTakesNothingFromASharedArea(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["grass"] = []string{sketchtest.Shape("Polygon", `"id":"g"`, [2]float64{-10, 5}, [2]float64{80, 5}, [2]float64{80, 7}, [2]float64{30, 7},
		[2]float64{80, 7}, [2]float64{80, 40}, [2]float64{-10, 40}, [2]float64{-10, 5})}
	rows, report, err := jobOf(t, s, sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Equal(t, "240.0", rows["a"]["seagrass_overlap_sqft"])
	require.Len(t, report.Repairs, 1)
	require.Contains(t, report.Repairs[0], "3150.0 sq ft as drawn, 3150.0 sq ft as used") // 90 by 35
}

// A coverage that is not valid is never rebuilt: it could claim what nobody surveyed.
func TestACoverageIsNotRebuilt(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["seen"] = []string{bowTie}
	_, _, err := jobOf(t, s, strings.Replace(sketchtest.OneOfEach, "file: grass", "file: grass, surveyed: seen", 1))
	require.ErrorContains(t, err, "seen: feature 1 (id tie): its area is not valid")
}
