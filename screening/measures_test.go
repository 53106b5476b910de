package screening

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
	"waterward/screening/sketchtest"
)

// withLevels is a plain site whose tidal lines have elevations: mean high water
// 0.5 ft and mean low water -1.5 ft, a mean tide range of 2 ft.
func withLevels(proposal string) sketchtest.Sketch {
	s := sketchtest.PlainSite(proposal)
	s["low"] = []string{sketchtest.Shape("LineString", `"id":"l","elevation_ft":-1.5`, sketchtest.Along(20)...)}
	return s
}

// Worked by hand: the deepest of -1, -3.25 and -2 lies 1.75 ft below -1.5; their
// mean, -2.0833, 2.5833 below 0.5; fill to 1.25 ft stands 2.75 ft over mean low
// water, which is 1.375 tide ranges.
func TestDepthsAndFill(t *testing.T) {
	row := screened(t, withLevels(sketchtest.Rectangle(sketchtest.Plain+`,"bed_elev_ft":[-1,-3.25,-2],"fill_elev_ft":1.25,"wetland_elev_ft":-0.75`, 0, 3, 60, 9)))
	require.Equal(t, "1.75", row["mlw_greatest_depth_ft"])
	require.Equal(t, "2.58", row["mhw_mean_depth_ft"])
	require.Equal(t, "1.38", row["fill_tide_ranges"])
	require.Equal(t, "0.75", row["crest_above_wetland_ft"])
	require.Equal(t, "no", row["fill"])
	// Above a tidal plane itself no tie is needed; but one elevation cannot be
	// above two planes.
	above := `"id":"a","kind":"sill","material":"rock","crest_elev_ft":0,"datum":"MLW","bed_elev_ft":-2,"fill_elev_ft":1`
	row = screened(t, sketchtest.PlainSite(sketchtest.Rectangle(above, 0, 3, 60, 9)))
	require.Equal(t, "2.00", row["mlw_greatest_depth_ft"])
	require.Empty(t, row["mhw_mean_depth_ft"])
	require.Empty(t, row["fill_tide_ranges"])
}

// TestEveryMeasureHasItsColumn: what a book can ask of a structure stands in one of the two
// tables of a row a proposal.
func TestEveryMeasureHasItsColumn(t *testing.T) {
	var names []string
	for _, c := range append(summaryColumns(nil), measuresColumns(nil, 5*job.Foot, 75*job.Foot)...) {
		names = append(names, c.name)
	}
	for m := range rules.Measures() {
		if m.Quantity != rules.Names { // as many as there are areas
			require.Contains(t, names, site.RecordOf(m.Name).Column.Name, m.Name)
		}
	}
}

func TestStatedWordsAndListsAreReadStrictly(t *testing.T) {
	for properties, wrong := range map[string]string{
		`"bed_elev_ft":[1,null]`:      "bed_elev_ft is [1,null], which is not a list of numbers",
		`"bed_elev_ft":[1,"deep"]`:    "not a list of numbers",
		`"bed_elev_ft":{"a":1}`:       "not a number",
		`"fetch_mi":-1`:               "fetch_mi is -1, which is less than nothing",
		`"stone_size_ft":"one stone"`: "not a number",
	} {
		row := screened(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+","+properties, 0, 3, 60, 9)))
		require.Contains(t, row["error"], wrong, properties)
		require.Empty(t, row["state_path"], properties)
	}
	row := screened(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+`,"bed_elev_ft":[]`, 0, 3, 60, 9)))
	require.Empty(t, row["error"])
	require.Empty(t, row["mhw_mean_depth_ft"])
}

// Three elements of 40 ft with openings of 6 and 3 ft, 129 ft in all. Of openings
// of 5 ft one counts, so the runs are 40 and 83 ft; the middle of that opening
// lies 43 and 86 ft from the ends. One opening is due for each full 75 ft: one.
func TestOpeningsInARow(t *testing.T) {
	line := fmt.Sprintf(`{"type":"Feature","properties":{%s,"width_ft":4},"geometry":{"type":"MultiLineString","coordinates":[%s,%s,%s]}}`,
		sketchtest.Plain, sketchtest.Positions(0, 40), sketchtest.Positions(46, 86), sketchtest.Positions(89, 129))
	row := screened(t, sketchtest.PlainSite(line))
	require.Equal(t, "83.00", row["longest_run_ft"])
	require.Equal(t, "86.00", row["opening_spacing_ft"])
	require.Equal(t, "1", row["openings"])
	require.Equal(t, "0", row["openings_lacking"])
}

// An opening within the resolution of the width that counts makes a close call
// only where the answer hangs on it: runs of 30 and of 65 ft are both within 75.
func TestAnOpeningAtTheWidthMattersOnlyIfTheAnswerHangsOnIt(t *testing.T) {
	line := fmt.Sprintf(`{"type":"Feature","properties":{%s,"width_ft":4},"geometry":{"type":"MultiLineString","coordinates":[%s,%s]}}`,
		sketchtest.Plain, sketchtest.Positions(0, 30), sketchtest.Positions(35, 65))
	row := screened(t, sketchtest.PlainSite(line))
	require.Equal(t, "exemption", row["state_path"])
	require.Equal(t, "firm", row["state_certainty"])
}

// Worked by hand: a sill at y 10 to 16 before, beside and past a marsh that ends
// at y 6.
func TestOnlyTheWetlandBehindCounts(t *testing.T) {
	for _, tt := range []struct {
		name                                string
		x0, x1                              float64
		marsh                               []string
		nearest, behind, farthest, landward string
	}{
		{"before it", 0, 60, []string{sketchtest.Rectangle(`"id":"m"`, -50, -10, 110, 6)}, "4.00", "4.00", "10.00", "4.00"},
		{"past its end with half", 0, 60, []string{sketchtest.Rectangle(`"id":"m"`, -50, -10, 30, 6)}, "4.00", "4.00", "10.00", "4.00"},
		{"beside it", 3, 60, []string{sketchtest.Rectangle(`"id":"m"`, -50, -10, 0, 6)}, "5.00", "", "", ""},
		{"before two with a gap", 0, 60, []string{sketchtest.Rectangle(`"id":"m"`, -50, -10, 20, 6), sketchtest.Rectangle(`"id":"n"`, 40, -10, 90, 6)}, "4.00", "4.00", "10.00", "4.00"},
		{"covering some", 0, 60, []string{sketchtest.Rectangle(`"id":"m"`, -50, -10, 110, 12)}, "0.00", "0.00", "4.00", "-2.00"},
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, tt.x0, 10, tt.x1, 16))
		s["marsh"] = tt.marsh
		row := screened(t, s)
		require.Equal(t, []string{tt.nearest, tt.behind, tt.farthest, tt.landward},
			[]string{row["wetland_nearest_ft"], row["wetland_behind_ft"], row["wetland_farthest_ft"], row["wetland_landward_edge_ft"]}, tt.name)
	}
}

// The marsh of a narrow creek's far bank is near, and not behind.
func TestTheFarBanksMarshIsNotBehind(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 10, 60, 16))
	far := sketchtest.Along(40)
	for i, j := 0, len(far)-1; i < j; i, j = i+1, j-1 {
		far[i], far[j] = far[j], far[i]
	}
	s["high"] = []string{sketchtest.Shape("LineString", `"id":"h","side":"water_left","elevation_ft":0.5`, append(sketchtest.Along(0), far...)...)}
	s["marsh"] = []string{sketchtest.Rectangle(`"id":"m"`, -50, 36, 110, 60)}
	delete(s, "low")
	row := screened(t, s)
	require.Equal(t, "20.00", row["wetland_nearest_ft"])
	require.Empty(t, row["wetland_behind_ft"])
	require.Empty(t, row["wetland_landward_edge_ft"])
}

// Open water is not claimed where an islet is nearer to the end of the structure than its
// own shore, though nothing lies square across: the islet begins 4 ft past its end.
func TestNoOpenWaterBesideAnotherShore(t *testing.T) {
	for islet, result := range map[bool]string{false: "meets", true: "unknown"} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		high := sketchtest.Shape("LineString", `"id":"h","side":"water_left","elevation_ft":0.5`, sketchtest.Along(0)...)
		s["high"] = []string{high}
		if islet {
			s["high"] = append(s["high"], sketchtest.Shape("LineString", `"id":"i","side":"water_left"`,
				[2]float64{64, 6}, [2]float64{64, 12}, [2]float64{72, 12}, [2]float64{72, 6}, [2]float64{64, 6}))
		}
		_, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: waterway_share, at_most: 0.1666"}}, "  high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88}\n")
		require.Equal(t, result, criteria[0]["result"], criteria[0]["reason"])
	}
}
