package screening

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// bothLines are the layers of the plain site, all in one datum.
const bothLines = "  high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88, date: 2026-01-01}\n  low_water: {file: low, accuracy: 0.1 ft, datum: NAVD88, date: 2026-01-01}\n"

// What stands for no value, and heights no tidal shore has, are refused wherever a
// proposal states them; the row says which. A foreshore of 55 ft of tide fits within 60
// (from memory), common practice, no source.
func TestHeightsThatCannotBe(t *testing.T) {
	for stated, says := range map[string]string{
		`"crest_elev_ft":-9999`:                          "crest_elev_ft is -9999, which files write where there is none",
		`"crest_elev_ft":-999`:                           "crest_elev_ft is -999, which files write",
		`"crest_elev_ft":-1e300`:                         "crest_elev_ft is -1e+300: no tidal shore lies so far from its datum",
		`"crest_elev_ft":61`:                             "crest_elev_ft is 61: no tidal shore",
		`"crest_elev_ft":99`:                             "crest_elev_ft is 99: no tidal shore",
		`"crest_elev_ft":0,"bed_elev_ft":[-1,-9999,-2]`:  "bed_elev_ft is -9999, which files write",
		`"crest_elev_ft":0,"bed_elev_ft":-999`:           "bed_elev_ft is -999, which files write",
		`"crest_elev_ft":0,"wetland_elev_ft":99`:         "wetland_elev_ft is 99: no tidal shore",
		`"crest_elev_ft":0,"fill_elev_ft":-99`:           "fill_elev_ft is -99, which files write",
		`"crest_elev_ft":0,"high_tide_line_elev_ft":9e9`: "high_tide_line_elev_ft is 9e+09: no tidal shore",
		`"crest_elev_ft":0,"settlement_ft":9999`:         "settlement_ft is 9999, which files write",
		`"crest_elev_ft":0,"settlement_ft":21`:           "settlement_ft is 21: no mound on a foreshore is so high",
		`"crest_elev_ft":0,"crest_width_ft":1e300`:       "crest_width_ft is 1e+300: no reef or sill is so large",
		`"crest_elev_ft":0,"void_pct":101`:               "void_pct is 101: that is more than all of it",
		`"crest_elev_ft":0,"fetch_mi":9999`:              "fetch_mi is 9999, which files write",
		// A crest that does not stand over its own bed is no structure.
		`"crest_elev_ft":0,"bed_elev_ft":0`:          "its crest (crest_elev_ft 0) does not stand above its own bed (bed_elev_ft 0)",
		`"crest_elev_ft":-2.5,"bed_elev_ft":-2`:      "its crest (crest_elev_ft -2.5) does not stand above its own bed (bed_elev_ft -2)",
		`"crest_elev_ft":-2.5,"bed_elev_ft":[-1,-2]`: "its crest (crest_elev_ft -2.5) does not stand above its own bed (bed_elev_ft -1.5)",
	} {
		rows, report, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, `"crest_elev_ft":0`, stated, 1), 0, 3, 60, 9)), sketchtest.OneOfEach)
		require.NoError(t, err)
		require.Contains(t, rows["a"]["error"], says, stated)
		require.Empty(t, rows["a"]["state_path"], stated)
		require.Equal(t, 1, report.Unusable, stated)
	}
	// Nines that are numbers stay so: 9.99 ft over the datum, a bed at -0.99.
	rows, _, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, `"crest_elev_ft":0`, `"crest_elev_ft":9.99,"bed_elev_ft":-0.99`, 1), 0, 3, 60, 9)), sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Empty(t, rows["a"]["error"])
	require.Equal(t, "9.49", rows["a"]["crest_above_mhw_ft"])
}

// A line whose elevation cannot be still says where it runs; its elevation is unknown,
// by file, feature and value, and no station stands in for it.
func TestALinesElevationThatCannotBe(t *testing.T) {
	for stated, says := range map[string]string{
		"99": "elevation_ft is 99: no tidal shore lies so far from its datum", "1e300": "elevation_ft is 1e+300: no tidal shore", "-9999": "elevation_ft is -9999, which files write",
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		s["high"] = []string{sketchtest.Shape("LineString", `"id":"h","side":"water_left","elevation_ft":`+stated, sketchtest.Along(0)...)}
		s["ts.csv"] = sketchtest.TideTable
		row, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_above_mhw, at_most: 0 ft", "measure: mhw_farthest, at_most: 10 ft"}}, bothLines+"levels: {stations: [ts.csv]}\n")
		_, report, err := jobOf(t, s, sketchtest.OneOfEach)
		require.NoError(t, err)
		require.Empty(t, row["crest_above_mhw_ft"], stated)
		require.Equal(t, "9.00", row["mhw_farthest_ft"], stated)
		require.Contains(t, criteria[0]["reason"], "high: feature 1 (id h): "+says, stated)
		require.Contains(t, strings.Join(report.Doubts, "\n"), "1 elevation of ", stated)
		require.Contains(t, strings.Join(report.Doubts, "\n"), says, stated)
	}
}

// Where the line of mean high water changes beside the structure, every piece of it that
// some of the structure may stand before counts: a crest at 0 ft is 0.5 ft under the one
// and 0.2 over the other. A piece beyond the structure's reach does not.
func TestEveryLineBesideTheStructureCounts(t *testing.T) {
	piece := func(properties string, from, to float64) string {
		var at [][2]float64
		for x := from; x <= to; x += 30 {
			at = append(at, [2]float64{x, 0})
		}
		return sketchtest.Shape("LineString", `"side":"water_left",`+properties, at...)
	}
	for name, c := range map[string]struct {
		other     string
		from      float64
		certainty string
		says      string
	}{
		"lower":         {`"id":"o","elevation_ft":-0.2,"elevation_accuracy_ft":0.1`, 30, "needs information", "beside the structure the mean high water line lies at 0.50 ft (h) and at -0.20 ft (o): say which holds"},
		"a little":      {`"id":"o","elevation_ft":0.4,"elevation_accuracy_ft":0.1`, 30, "firm", ""},
		"poorly known":  {`"id":"o","elevation_ft":0.5,"elevation_accuracy_ft":3`, 30, "close call", ""},
		"not stated":    {`"id":"o"`, 30, "needs information", "the mean high water line (o), beside the structure too, has no elevation_ft that can be used: give it"},
		"not to be had": {`"id":"o","elevation_ft":99`, 30, "needs information", "the mean high water line (o), beside the structure too, has no elevation_ft that can be used: give it"},
		"far along":     {`"id":"o","elevation_ft":-0.2,"elevation_accuracy_ft":0.1`, 90, "firm", ""},
	} {
		s := onForeshore(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		seen := false
		const own = `"id":"h","elevation_ft":0.5,"elevation_accuracy_ft":0.1`
		for _, pieces := range [][]string{{piece(own, -600, c.from), piece(c.other, c.from, 600)}, {piece(c.other, c.from, 600), piece(own, -600, c.from)}} {
			s["high"] = pieces
			row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_above_mhw, at_most: 0 ft"}}, bothLines)
			if row["crest_above_mhw_ft"] == "-0.50" { // by its own
				seen = true
				require.Equal(t, c.certainty, row["town_certainty"], "%s: %s", name, row["town_requests"])
				require.Contains(t, row["town_requests"], c.says, name)
			}
			require.False(t, c.certainty != "firm" && row["town_certainty"] == "firm" && row["town_path"] == "small", name)
		}
		require.True(t, seen, name)
	}
}

// The lines tie the tidal planes to one another: 6.5 ft under mean high water, which lies
// at 0.5 ft, is 4.5 ft under mean low water at -1.5.
func TestTheLinesTieTheirPlanes(t *testing.T) {
	s := onForeshore(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, `"crest_elev_ft":0,"datum":"NAVD88"`, `"crest_elev_ft":-1,"bed_elev_ft":-6.5,"datum":"MHW"`, 1), 0, 3, 60, 9))
	row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 10 ft"}}, bothLines)
	require.Equal(t, []string{"6.50", "4.50", "-0.60"}, []string{row["mhw_mean_depth_ft"], row["mlw_greatest_depth_ft"], row["bed_expected_ft"]})
	require.Equal(t, "needs information", row["town_certainty"])
}

// A mound 60 by 6 ft, 2 ft wide at its crest, 0.5 ft high has a volume of 0.5/6 x (360 + 4
// x 58 x 4 + 56 x 2) = 116.67 cu ft, 4.32 cu yd. Were it 0.12 ft higher (1.6449/1.96 of
// the root of 2 x 0.1^2), 24 % more, 5.36; with feet 0.1 ft farther out or less, 4 %.
func TestAVolumeIsAsSureAsItsHeights(t *testing.T) {
	for text, certainty := range map[string][2]string{
		levelled: {"close call", "firm"}, `,"elevation_accuracy_ft":0.4`: {"close call", "close call"}, "": {"needs information", "needs information"},
	} {
		s := onForeshore(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, levelled, text+`,"bed_elev_ft":-0.5,"crest_width_ft":2`, 1), 0, 3, 60, 9))
		for i, limit := range []string{"5 cuyd", "6 cuyd"} {
			row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: fill_volume, at_most: " + limit}}, bothLines)
			require.Equal(t, "4.32", row["fill_cuyd"])
			require.Equal(t, certainty[i], row["town_certainty"], "%s %s: %s", text, limit, row["town_requests"])
		}
	}
}
