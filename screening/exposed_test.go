package screening

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// A crest in another datum than the line's elevation is set against it by the station:
// 1.7 ft over MLLW is 1.0 over NAVD88, as MLLW lies 0.7 below it; the line is at 0.5.
// A line without an elevation leaves it to the station: MHW is 1.4 over NAVD88.
func TestACrestInAnotherDatum(t *testing.T) {
	in := func(datum, crest string) string {
		return strings.Replace(strings.Replace(sketchtest.Plain, "NAVD88", datum, 1), `"crest_elev_ft":0,`, `"crest_elev_ft":`+crest+",", 1)
	}
	require.Contains(t, sketchtest.Plain, `"crest_elev_ft":0,`)
	for _, c := range []struct{ high, datum, crest, above, reason string }{
		{`"elevation_ft":0.5`, "NAVD88", "0.2", "-0.30", ""},
		{`"elevation_ft":0.5`, "MLLW", "1.7", "0.50", ""},
		{`"elevation_ft":0.5`, "MHW", "-0.25", "-0.25", ""},
		{`"id":"h"`, "NAVD88", "1.0", "-0.40", ""},
		{`"id":"h"`, "MSL", "1.25", "0.25", ""},
		{`"elevation_ft":0.5`, "NGVD29", "1.0", "", "NGVD29"},
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(in(c.datum, c.crest), 0, 3, 60, 9))
		s["high"] = []string{sketchtest.Shape("LineString", `"side":"water_left",`+c.high, sketchtest.Along(0)...)}
		s["ts.csv"] = sketchtest.TideTable
		rows, _, err := jobOf(t, s, sketchtest.OneOfEach+"levels: {stations: [ts.csv]}\n")
		require.NoError(t, err)
		require.Equal(t, c.above, rows["a"]["crest_above_mhw_ft"], c)
	}
	// Epochs that differ are refused.
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["ts.csv"] = sketchtest.TideTable
	_, _, err := jobOf(t, s, strings.Replace(sketchtest.OneOfEach, "datum: NAVD88", "datum: NAVD88, epoch: 2002-2020", 1)+"levels: {stations: [ts.csv]}\n")
	require.ErrorContains(t, err, "levels: ts.csv")
	require.ErrorContains(t, err, "2002-2020")
}

// Of a tide of one constituent an elevation z above its mean is out of the water for
// 1/2 + asin(z/A)/pi of the time, by formula. The node factor moves A by 3.7 % at most
// over the epoch and cancels but for a few tenths of a point.
func TestTimeExposed(t *testing.T) {
	for _, c := range []struct{ crest, z float64 }{{0.4, 0}, {0.9, 0.5}, {-0.1, -0.5}} {
		text := strings.Replace(sketchtest.Plain, `"crest_elev_ft":0,`, `"crest_elev_ft":`+strconv.FormatFloat(c.crest, 'g', -1, 64)+",", 1)
		s := sketchtest.PlainSite(sketchtest.Rectangle(text+`,"bed_elev_ft":-1.6`, 0, 3, 60, 9))
		s["ts.csv"] = sketchtest.TideTable
		rows, _, err := jobOf(t, s, sketchtest.OneOfEach+"levels: {stations: [ts.csv]}\n")
		require.NoError(t, err)
		got, err := strconv.ParseFloat(rows["a"]["crest_exposed_pct"], 64)
		require.NoError(t, err)
		require.InDelta(t, 100*(0.5+math.Asin(c.z)/math.Pi), got, 0.5)
		require.Equal(t, "0.0", rows["a"]["bed_exposed_pct"]) // 2 ft below the mean
		require.Contains(t, rows["a"]["notices"], "predicted from constituents at station TS Test Sound, 1.9 miles away, over 1983-2001")
		// The bed lies 3.0 ft below MHW (1.4) and 2.0 below MSL (0.4).
		height := c.crest + 1.6
		require.Equal(t, strconv.FormatFloat(100*height/3, 'f', 1, 64), rows["a"]["crest_share_mhw_pct"])
		require.Equal(t, strconv.FormatFloat(100*height/2, 'f', 1, 64), rows["a"]["crest_share_msl_pct"])
	}
	// Without a tide nothing is known, and it says so.
	rows, _, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Empty(t, rows["a"]["crest_exposed_pct"])
}

// The elevations exposed 10, 20, 40 and 55 % of the time of that tide are its mean plus
// A sin(pi (p - 1/2)): -0.951, -0.809, -0.309 and 0.156 ft, 0.4 ft over NAVD88.
// Oysters measured 200 ft off live from -0.6 to 0.1 ft: within half a foot. A second
// table has them a foot higher, which is said.
func TestWhereOystersCanGrow(t *testing.T) {
	for shift, far := range map[float64]bool{0: false, 1: true} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		s["ts.csv"] = sketchtest.TideTable
		s["oysters.csv"] = []string{
			"lon,lat,top_ft,bottom_ft,datum,date",
			"-74.5994,30.0001," + strconv.FormatFloat(0.2+shift, 'g', -1, 64) + "," + strconv.FormatFloat(-0.5+shift, 'g', -1, 64) + ",NAVD88,2026-05-01",
			"-74.5994,30.0002," + strconv.FormatFloat(-0.4+shift, 'g', -1, 64) + "," + strconv.FormatFloat(-1.1+shift, 'g', -1, 64) + ",MSL,2026-05-01", // 0.4 ft higher over NAVD88
			"-74.5,30.0,9,8,NAVD88,2026-05-01",
		}
		rows, _, err := jobOf(t, s, sketchtest.OneOfEach+"levels: {stations: [ts.csv], oysters: oysters.csv}\n")
		require.NoError(t, err)
		var at [4]float64
		_, err = fmt.Sscanf(rows["a"]["growth_elevations"], "10 %%: %g; 20 %%: %g; 40 %%: %g; 55 %%: %g ft NAVD88", &at[0], &at[1], &at[2], &at[3])
		require.NoError(t, err, rows["a"]["growth_elevations"])
		for i, want := range []float64{-0.551, -0.409, 0.091, 0.556} {
			require.InDelta(t, want, at[i], 0.03, i)
		}
		require.Equal(t, map[bool]string{false: "from -0.60 to 0.10 ft NAVD88", true: "from 0.40 to 1.10 ft NAVD88"}[far], rows["a"]["oysters_live"])
		require.Contains(t, rows["a"]["notices"], "2 places measured")
		require.Equal(t, far, strings.Contains(rows["a"]["notices"], "more than 0.5 ft from what is computed"))
		require.Equal(t, "best growth", rows["a"]["growth_band"]) // the crest, 0 ft, is exposed 36.9 %
	}
}

// The station's NAVD88 lies at 6 ft: 1 ft over it is 7 over station datum, 0.6 over
// mean sea level, 0.4 below mean high water and 1.7 over MLLW.
func TestElevationsInAllDatums(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, `"crest_elev_ft":0,`, `"crest_elev_ft":1,`, 1), 0, 3, 60, 9))
	s["ts.csv"] = sketchtest.TideTable
	rows, _, err := jobOf(t, s, sketchtest.OneOfEach+"levels: {stations: [ts.csv]}\n")
	require.NoError(t, err)
	require.Equal(t, "NAVD88 1.00; MHHW -0.50; MHW -0.40; MTL 0.60; MSL 0.60; MLW 1.60; MLLW 1.70 ft (station TS Test Sound)", rows["a"]["crest_elevations"])
	require.Empty(t, rows["a"]["bed_elevations"])
}

// Of two stations a proposal may name the farther, by number or name; one that the job
// does not give leaves the height unknown. MLLW lies 0.7 ft below NAVD88 at TS, the
// nearer, and 1.2 ft at T2; the line is at 0.5 ft.
func TestTheStationNamed(t *testing.T) {
	far := slices.Clone(sketchtest.TideTable)
	for i, row := range far {
		far[i] = strings.NewReplacer("station,TS", "station,T2", "Test Sound", "Far Sound", "lat,30.0274965", "lat,30.5", "MLLW,5.3", "MLLW,4.8").Replace(row)
	}
	for name, above := range map[string]string{"": "0.50", "ts": "0.50", "T2": "0.00", "far sound": "0.00", "T3": ""} {
		text := strings.Replace(strings.Replace(sketchtest.Plain, "NAVD88", "MLLW", 1), `"crest_elev_ft":0,`, `"crest_elev_ft":1.7,"station":"`+name+`",`, 1)
		s := sketchtest.PlainSite(sketchtest.Rectangle(text, 0, 3, 60, 9))
		s["high"] = []string{sketchtest.Shape("LineString", `"side":"water_left","elevation_ft":0.5`, sketchtest.Along(0)...)}
		s["ts.csv"], s["t2.csv"] = sketchtest.TideTable, far
		rows, _, err := jobOf(t, s, sketchtest.OneOfEach+"levels: {stations: [ts.csv, t2.csv]}\n")
		require.NoError(t, err)
		require.Equal(t, above, rows["a"]["crest_above_mhw_ft"], name)
	}
}

// The datum of a record is of an epoch too, and one that is not that of the stations
// is refused.
func TestTheEpochOfARecord(t *testing.T) {
	record := []string{"time,level"}
	for i := range 240 {
		record = append(record, time.Date(2026, 1, 1, 0, 6*i, 0, 0, time.UTC).Format("2006-01-02 15:04")+fmt.Sprintf(",%.3f", math.Sin(float64(i)/20)))
	}
	for epoch, says := range map[string]string{"1983-2001": "", "2002-2020": "levels: gauge.csv: the tidal datums are of the epochs 1983-2001 and 2002-2020", "now": `levels: gauge.csv: "now" is not an epoch`} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		s["ts.csv"], s["gauge.csv"] = sketchtest.TideTable, record
		_, _, err := jobOf(t, s, sketchtest.OneOfEach+"levels: {stations: [ts.csv], record: {file: gauge.csv, unit: ft, datum: MLLW, zone: GMT, epoch: "+epoch+"}}\n")
		if says == "" {
			require.NoError(t, err)
			continue
		}
		require.ErrorContains(t, err, says)
	}
	_, _, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), strings.Replace(sketchtest.OneOfEach, "datum: NAVD88", "datum: NAVD88, epoch: lately", 1))
	require.ErrorContains(t, err, `high_water: epoch: "lately" is not an epoch`)
}

// levelled is how well the plain proposal states its heights.
const levelled = `,"elevation_accuracy_ft":0.1`

// A crest 0.3 ft below mean high water is a close call against a book's 0 ft where the
// proposal's heights are good to 0.4 ft and the line's to 0.1 (1.6449 / 1.96 of 0.41 is
// 0.35 ft), or both to 0.3 (0.36 ft), and none where they are good to 0.3 and 0.1 (0.27 ft).
// Where either is not stated, it has to be: so near to the limit it decides.
func TestHeightsThatAreCloseCalls(t *testing.T) {
	for _, c := range []struct{ own, line, certainty, requests string }{
		{"", `,"elevation_accuracy_ft":0.1`, "needs information", "the vertical accuracy of the proposal's elevations is not stated"},
		{`,"elevation_accuracy_ft":0.1`, "", "needs information", "the vertical accuracy of the mean high water line (#1) is not stated"},
		{`,"elevation_accuracy_ft":0.4`, `,"elevation_accuracy_ft":0.1`, "close call", ""},
		{`,"elevation_accuracy_ft":0.3`, `,"elevation_accuracy_ft":0.1`, "firm", ""},
		{`,"elevation_accuracy_ft":0.3`, `,"elevation_accuracy_ft":0.3`, "close call", ""},
	} {
		text := strings.NewReplacer(`"crest_elev_ft":0,`, `"crest_elev_ft":0.2,`, levelled, c.own).Replace(sketchtest.Plain)
		s := sketchtest.PlainSite(sketchtest.Rectangle(text, 0, 3, 60, 9))
		s["high"] = []string{sketchtest.Shape("LineString", `"side":"water_left","elevation_ft":0.5`+c.line, sketchtest.Along(0)...)}
		row, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_above_mhw, at_most: 0 ft"}}, bothLines)
		require.Equal(t, "-0.30", row["crest_above_mhw_ft"])
		require.Equal(t, c.certainty, row["town_certainty"], c)
		require.Equal(t, c.requests, row["town_requests"], c)
		if c.certainty == "close call" {
			require.Contains(t, criteria[0]["reason"], "the heights are good to 0.3")
		}
	}
}

// Fill 1.49 tide ranges over mean low water, of a tide of 2 ft, lies 0.02 ft from a limit
// of 1.5: a close call where heights are good to half a foot, and open where nobody says
// how good they are. Worked by hand.
func TestFillOfDoubtfulHeightIsACloseCall(t *testing.T) {
	for own, certainty := range map[string]string{"": "needs information", `,"elevation_accuracy_ft":0.5`: "close call"} {
		text := strings.Replace(strings.Replace(sketchtest.Plain, levelled, own+`,"fill_elev_ft":1.48`, 1), `"fill":"no"`, `"fill":"yes"`, 1)
		s := sketchtest.PlainSite(sketchtest.Rectangle(text, 0, 3, 60, 9))
		s["high"] = []string{sketchtest.Shape("LineString", `"side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, sketchtest.Along(0)...)}
		s["low"] = []string{sketchtest.Shape("LineString", `"elevation_ft":-1.5,"elevation_accuracy_ft":0.1`, sketchtest.Along(20)...)}
		row, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: fill_tide_ranges, at_most: 1.5"}}, bothLines)
		require.Equal(t, "1.49", row["fill_tide_ranges"])
		require.Equal(t, certainty, row["town_certainty"], criteria[0]["reason"])
	}
}
