package screening

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// The accuracy of a public shoreline is text in metres. With the proposal's 3 ft the
// one-sided tolerance at 5 % is 1.6449/2.4477 of the root of both squares: 4.31 m are
// 14.1404 ft, with 3 ft 14.4551, so 9.7142 ft; 14 ft with 3 ft are 14.3178, so 9.6219;
// 3 ft alone 2.0161. Worked by hand.
func TestAccuraciesAsFilesWriteThem(t *testing.T) {
	for written, tolerance := range map[string]float64{
		`"4.31"`: 9.7142, `4.31`: 9.7142, `" 4.31 m"`: 9.7142, `"4.31m"`: 9.7142, `"431e-2 M"`: 9.7142, `"14 ft"`: 9.6219, `"168 in"`: 9.6219,
		// Not stated, as if nothing stood there.
		`""`: 2.0161, `null`: 2.0161, `"N/A"`: 2.0161, `"na"`: 2.0161, `"NULL"`: 2.0161, `"<Null>"`: 2.0161, `"unknown"`: 2.0161, `"None"`: 2.0161,
		`"NaN"`: 2.0161, `"-9999"`: 2.0161, `-9999.0`: 2.0161, `"-99"`: 2.0161, `"0"`: 2.0161, `0.0`: 2.0161, `"0 m"`: 2.0161,
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+`,"accuracy_ft":3`, 0, 3, 60, 9))
		s["high"] = []string{sketchtest.Shape("LineString", `"ATTRIBUTE":"Natural.Mean High Water","HOR_ACC":`+written+`,"side":"water_left"`, sketchtest.Along(0)...)}
		asks := sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 30 ft"}}
		row, criteria := judged(t, asks, "  high_water: {file: high, preset: tidal-shoreline, date: 2026-01-01}\n")
		require.Equal(t, "9.00", row["mhw_farthest_ft"], written)
		got, err := strconv.ParseFloat(criteria[0]["tolerance_ft"], 64)
		require.NoError(t, err, written)
		require.InDelta(t, tolerance, got, 0.0051, written) // the table has hundredths
		certainty := "firm"
		if tolerance < 3 {
			certainty = "needs information"
		}
		require.Equal(t, certainty, row["town_certainty"], written)
	}
}

// What is no accuracy and no mark of a missing one is a fault, and named as such.
func TestAccuraciesThatCannotBeRead(t *testing.T) {
	for written, wrong := range map[string]string{
		`"<5"`: `HOR_ACC is "<5", which is not a number`, `"3-5"`: `HOR_ACC is "3-5", which is not a number`,
		`"4,31"`: `HOR_ACC is "4,31", which is not a number`, `"4.31 cm"`: `HOR_ACC is "4.31 cm", which is not a number`,
		`"4.31 acre"`: `HOR_ACC is "4.31 acre"`, `-1`: "accuracy_ft is -", `"-5 m"`: "accuracy_ft is -",
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		s["high"] = []string{
			sketchtest.Shape("LineString", `"ATTRIBUTE":"Natural.Mean High Water","HOR_ACC":`+written+`,"side":"water_left"`, sketchtest.Along(0)...),
			sketchtest.Shape("LineString", `"ATTRIBUTE":"Depth Contour","HOR_ACC":"4.31"`, sketchtest.Along(90)...),
		}
		row, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 30 ft"}}, "  high_water: {file: high, preset: tidal-shoreline, date: 2026-01-01}\n")
		require.Empty(t, row["mhw_farthest_ft"], written)
		require.Contains(t, criteria[0]["reason"], wrong, written)
	}
}

// A length may bring its unit, which beats the one the job states; 1.8288 m are 6 ft
// and 18 in are 1.5 ft, 3 in and a half of them 1.25 ft below a crest of 0.5.
func TestLengthsWithTheirUnit(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Shape("LineString", `"id":"a","kind":"sill","width_ft":"1.8288 m","CREST":"-9 in","datum":"NAVD88","side_slope":"2 ft"`, [2]float64{0, 6}, [2]float64{60, 6}))
	job := `
proposals: {file: proposals, properties: {crest_elev_ft: {from: CREST, unit: m}}}
layers: {high_water: {file: high, datum: NAVD88}}
`
	rows, _, err := jobOf(t, s, job)
	require.NoError(t, err)
	require.Contains(t, rows["a"]["error"], `side_slope is "2 ft", which is not a number`)
	s["proposals"] = []string{sketchtest.Shape("LineString", `"id":"a","kind":"sill","width_ft":"1.8288 m","CREST":"-9 in","datum":"NAVD88"`, [2]float64{0, 6}, [2]float64{60, 6})}
	rows, _, err = jobOf(t, s, job)
	require.NoError(t, err)
	require.Equal(t, "9.00", rows["a"]["mhw_farthest_ft"])
	require.Equal(t, "-1.25", rows["a"]["crest_above_mhw_ft"])
}
