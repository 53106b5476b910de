package screening

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// Two mounds 60 by 6 ft, 6 ft apart, that will settle half a foot, with sides of 4 to 1:
// as placed their feet lie 2 ft farther out all round. The toe at 9 ft is then at 11, the
// landward edge at 3 ft is at 1, the opening of 6 ft is 2 ft, the bases of 2 x 360 sq ft
// are 2 x 64 x 10 = 1280, and a run of 60 ft becomes one of 64 + 2 + 64 = 130. Worked by
// hand.
func TestAMoundAsPlacedIsWider(t *testing.T) {
	two := func(text string) sketchtest.Sketch {
		return onForeshore(fmt.Sprintf(`{"type":"Feature","properties":{%s,"width_ft":6},"geometry":{"type":"MultiLineString","coordinates":[%s,%s]}}`, text, sketchtest.Positions(0, 60), sketchtest.Positions(66, 126)))
	}
	const settling = sketchtest.Plain + `,"settlement_ft":0.5`
	for asks, says := range map[string]string{
		"measure: mhw_farthest, at_most: 10 ft":                                      "its toe lies 2 ft farther out all round (farthest reach from mean high water 11 ft): draw it as placed",
		"measure: mhw_farthest, at_most: 11.5 ft":                                    "",
		"measure: mhw_nearest, at_least: 2 ft":                                       "(nearest reach from mean high water 1 ft)",
		"measure: mlw_farthest, at_most: -10 ft":                                     "(farthest reach from mean low water -9 ft)",
		"measure: narrowest_opening, at_least: 5 ft":                                 "(narrowest opening 2 ft)",
		"measure: longest_run, with: {opening: 5 ft}, at_most: 100 ft":               "(longest run without a counting opening 130 ft)",
		"measure: longest_run, with: {opening: 5 ft}, at_most: 131 ft":               "",
		"measure: openings, with: {opening: 2.1 ft}, at_least: 1":                    "(number of counting openings 0.00)",
		"measure: openings, with: {opening: 1.9 ft}, at_least: 1":                    "",
		"measure: openings_lacking, with: {opening: 5 ft, every: 60 ft}, at_most: 1": "(number of openings lacking 2.00)",
		"measure: overall_length, at_most: 128 ft":                                   "(overall length with openings 130 ft)",
		"measure: bank_length, at_most: 128 ft":                                      "(length along the bank 130 ft)",
		"measure: element_length, at_most: 127 ft":                                   "(length of the elements together 128 ft)",
		"measure: footprint_area, at_most: 1000 sqft":                                "(footprint area 1280.0 sq ft)",
		"measure: footprint_area, at_most: 1300 sqft":                                "",
	} {
		row, _ := judged(t, sketchtest.WithBook{Sketch: two(settling + `,"side_slope":4`), Criteria: []string{asks}}, bothLines)
		require.Empty(t, row["error"])
		require.Equal(t, []string{"11.00", "2.00", "1280.0"}, []string{row["placed_mhw_farthest_ft"], row["placed_narrowest_opening_ft"], row["placed_footprint_sqft"]})
		require.Equal(t, "small", row["town_path"], asks)
		if says == "" {
			require.Equal(t, "firm", row["town_certainty"], "%s: %s", asks, row["town_requests"])
			continue
		}
		require.Equal(t, "needs information", row["town_certainty"], asks)
		require.Contains(t, row["town_requests"], "as placed, before it settles 0.50 ft, ", asks)
		require.Contains(t, row["town_requests"], says, asks)
		// Nothing settles, nothing is asked.
		for _, text := range []string{sketchtest.Plain, sketchtest.Plain + `,"settlement_ft":0`} {
			row, _ = judged(t, sketchtest.WithBook{Sketch: two(text + `,"side_slope":4`), Criteria: []string{asks}}, bothLines)
			require.Equal(t, "firm", row["town_certainty"], asks)
			require.Empty(t, row["placed_mhw_farthest_ft"])
		}
	}
	// A slope may be that of a crest 2 ft wide, half a foot over its bed: (6 - 2) / 2 / 0.5.
	row, _ := judged(t, sketchtest.WithBook{Sketch: two(settling + `,"crest_width_ft":2,"bed_elev_ft":-0.5`), Criteria: []string{"measure: mhw_farthest, at_most: 10 ft"}}, bothLines)
	require.Equal(t, "11.00", row["placed_mhw_farthest_ft"])
	// Where it is not known, 5 to 1 is thought of at the most: 2.5 ft.
	for asks, firm := range map[string]bool{"measure: mhw_farthest, at_most: 11.6 ft": true, "measure: mhw_farthest, at_most: 11.4 ft": false, "measure: footprint_area, at_most: 5000 sqft": false} {
		row, _ := judged(t, sketchtest.WithBook{Sketch: two(settling), Criteria: []string{asks}}, bothLines)
		require.Equal(t, firm, row["town_certainty"] == "firm", asks)
		require.Equal(t, firm, !strings.Contains(row["town_requests"], "by how much is not known: the fill needs crest_elev_ft and bed_elev_ft, in one datum; state side_slope"), asks)
	}
}

// A meadow 1.5 ft off the toe lies under the foot as placed, 2 ft farther out, and one
// 2.5 ft off does not.
func TestAMoundAsPlacedReachesSeagrass(t *testing.T) {
	for off, firm := range map[float64]bool{1.5: false, 2.5: true} {
		s := onForeshore(sketchtest.Rectangle(sketchtest.Plain+`,"settlement_ft":0.5,"side_slope":4`, 0, 3, 60, 9))
		s["grass"] = []string{sketchtest.Rectangle(`"id":"g"`, 0, 9+off, 60, 60)}
		row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: seagrass_overlap, at_most: 0 sqft"}}, bothLines+"  seagrass: {file: grass, accuracy: 0.1 ft, date: 2026-01-01, surveyed: seen}\n")
		require.Equal(t, firm, row["town_certainty"] == "firm", row["town_requests"])
	}
}
