package screening

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// A shoreline product holds lines of several kinds. One that says it is another is
// never measured to: it lies 1 ft from the structure here and mean high water 3 ft.
func TestLinesOfAnotherKind(t *testing.T) {
	for _, c := range []struct {
		layer, property, value string
		shore                  bool
	}{
		{"high", "ATTRIBUTE", "Natural.Apparent.Marsh Or Swamp", true},
		{"high", "class", "Depth contour 3 ft", false},
		{"high", "TYPE", "MLLW", false},
		{"high", "kind", "Limit of data", false},
		{"low", "ATTRIBUTE", "Natural.Mean High Water", false},
		{"low", "type", "MHW", false},
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		s[c.layer] = append(s[c.layer], sketchtest.Shape("LineString", `"id":"o","`+c.property+`":"`+c.value+`"`, sketchtest.Along(2)...))
		rows, report, err := jobOf(t, s, sketchtest.OneOfEach)
		require.NoError(t, err)
		require.Empty(t, rows["a"][map[string]string{"high": "mhw_farthest_ft", "low": "mlw_farthest_ft"}[c.layer]], c.value)
		require.Contains(t, strings.Join(report.Messages, " "), c.value)

		only := "file: " + c.layer + ", only: {from: " + c.property + ", any_of: [\"\"]}"
		rows, report, err = jobOf(t, s, strings.Replace(sketchtest.OneOfEach, "file: "+c.layer, only, 1))
		require.NoError(t, err)
		require.Empty(t, report.Messages)
		if c.shore { // it may be what the authority measures from
			require.Empty(t, rows["a"]["mhw_farthest_ft"])
			continue
		}
		require.Equal(t, "9.00", rows["a"]["mhw_farthest_ft"])
		require.Equal(t, "-11.00", rows["a"]["mlw_farthest_ft"])
	}
	// What names a place or is a remark says nothing of the kind.
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["high"] = []string{sketchtest.Shape("LineString", `"name":"Low Water Cove","remarks":"checked against MLLW","class":"Mean High Water"`, sketchtest.Along(0)...)}
	rows, report, err := jobOf(t, s, sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Empty(t, report.Messages)
	require.Equal(t, "9.00", rows["a"]["mhw_farthest_ft"])
}

// An only that reads another property says nothing of the kind of a line; a preset does.
func TestAnOnlyOfAnotherPropertyTrustsNoLine(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["high"] = []string{
		sketchtest.Shape("LineString", `"STATE":"X","KIND":"MHW"`, sketchtest.Along(0)...),
		sketchtest.Shape("LineString", `"STATE":"X","KIND":"Apparent"`, sketchtest.Along(-30)...),
	}
	for only, farthest := range map[string]string{
		"only: {from: STATE, any_of: [X]}":  "", // a line near that cannot be used
		"only: {from: KIND, any_of: [MHW]}": "9.00",
		"only: {from: kind, any_of: [MHW]}": "9.00", // however it is spelled
	} {
		rows, _, err := jobOf(t, s, strings.Replace(sketchtest.OneOfEach, "file: high", "file: high, "+only, 1))
		require.NoError(t, err)
		require.Equal(t, farthest, rows["a"]["mhw_farthest_ft"], only)
	}
}

// Low water lies 20 ft out on the left and 20 ft up the bank on the right: the lines
// cross once, at x = 350.
func TestTidalLinesThatCross(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["low"] = []string{sketchtest.Shape("LineString", `"id":"l"`, [2]float64{-800, 20}, [2]float64{300, 20}, [2]float64{400, -20}, [2]float64{800, -20})}
	rows, report, err := jobOf(t, s, sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Contains(t, rows["a"]["notices"], "cross near here (1 times within 1000 ft)")
	require.Contains(t, strings.Join(report.Doubts, "\n"), "cross in 1 place (first at -74.598894, 30.000000)") // PROJ 9.1: (350, 0) ft
	require.Equal(t, "-11.00", rows["a"]["mlw_farthest_ft"])
}

func TestTidalLinesThatChangedPlaces(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["high"] = []string{sketchtest.Shape("LineString", `"elevation_ft":-1.2`, sketchtest.Along(20)...)}
	s["low"] = []string{sketchtest.Shape("LineString", `"elevation_ft":0.5`, sketchtest.Along(0)...)}
	both := strings.Replace(sketchtest.OneOfEach, "file: low,", "file: low, datum: NAVD88,", 1)
	_, _, err := jobOf(t, s, both)
	require.ErrorContains(t, err, "high (high_water) lies at most -1.20 ft high and low (low_water) at least 0.50 ft: the two layers have changed places")

	// With sides stated, which two swapped files contradict, a run says so.
	s["high"] = []string{sketchtest.Shape("LineString", `"side":"water_left"`, sketchtest.Along(20)...)}
	s["low"] = []string{sketchtest.Shape("LineString", `"side":"water_left"`, sketchtest.Along(0)...)}
	_, report, err := jobOf(t, s, both)
	require.NoError(t, err)
	require.Contains(t, strings.Join(report.Doubts, "\n"), "high_water: at 1 of 1 features looked at, on which side of it the water lies is contradicted by the stated side and the other tidal line; are the files of high_water and low_water swapped")
}
