package screening

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
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
		rows, report, err := jobOf(t, plainSite(rectangle(strings.Replace(plain, `"crest_elev_ft":0`, stated, 1), 0, 3, 60, 9)), oneOfEach)
		require.NoError(t, err)
		require.Contains(t, rows["a"]["error"], says, stated)
		require.Empty(t, rows["a"]["state_path"], stated)
		require.Equal(t, 1, report.Unusable, stated)
	}
	// Nines that are numbers stay so: 9.99 ft over the datum, a bed at -0.99.
	rows, _, err := jobOf(t, plainSite(rectangle(strings.Replace(plain, `"crest_elev_ft":0`, `"crest_elev_ft":9.99,"bed_elev_ft":-0.99`, 1), 0, 3, 60, 9)), oneOfEach)
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
		s := plainSite(rectangle(plain, 0, 3, 60, 9))
		s["high"] = []string{shape("LineString", `"id":"h","side":"water_left","elevation_ft":`+stated, along(0)...)}
		s["ts.csv"] = tideTable
		row, criteria := withBook{s, []string{"measure: crest_above_mhw, at_most: 0 ft", "measure: mhw_farthest, at_most: 10 ft"}}.judged(t, bothLines+"levels: {stations: [ts.csv]}\n")
		_, report, err := jobOf(t, s, oneOfEach)
		require.NoError(t, err)
		require.Empty(t, row["crest_above_mhw_ft"], stated)
		require.Equal(t, "9.00", row["mhw_farthest_ft"], stated)
		require.Contains(t, criteria[0]["reason"], "high: feature 1 (id h): "+says, stated)
		require.Contains(t, strings.Join(report.Doubts, "\n"), "1 elevation of ", stated)
		require.Contains(t, strings.Join(report.Doubts, "\n"), says, stated)
	}
}
