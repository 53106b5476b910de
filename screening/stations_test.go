package screening

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// station is the tide table of [sketchtest.TideTable] with other figures, by what each replaces, and
// without its tide, which takes long to predict.
func station(changes ...string) []string {
	out := slices.Clone(sketchtest.TideTable[:len(sketchtest.TideTable)-1])
	for i, row := range out {
		out[i] = strings.NewReplacer(changes...).Replace(row)
	}
	return out
}

// At TS mean high water lies 1.4 ft over NAVD88 and MLLW 0.7 ft below it, so 1.6 ft over
// MLLW is 0.9 over NAVD88, 0.5 below mean high water. Each of these makes that less than
// firm: a station 151 miles off (2.19 degrees of 69.1 miles); another as near that has
// MLLW 0.6 ft higher; a line half a foot off its plane at the station; a line of no
// stated epoch beside the station's, within half a foot of the limit. The limits on
// distance (10 miles), nearness (twice) and disagreement (0.3 ft) are common practice,
// no source.
func TestAStationThatIsNotOfTheSite(t *testing.T) {
	const mllw = `"crest_elev_ft":1.6,"datum":"MLLW"`
	epoch := strings.Replace(bothLines, "datum: NAVD88", "datum: NAVD88, epoch: 1983-2001", 2)
	for name, c := range map[string]struct {
		states, line, layers, limit string
		second                      []string
		first                       []string
		says                        string // none: firm
	}{
		"in order":                 {mllw, "1.4", epoch, "0", nil, station(), ""},
		"far":                      {mllw, "1.4", epoch, "0", nil, station("lat,30.0274965", "lat,32.19"), "station TS Test Sound is 151."},
		"ten miles":                {mllw, "1.4", epoch, "0", nil, station("lat,30.0274965", "lat,30.1446"), ""},
		"ten and a bit":            {mllw, "1.4", epoch, "0", nil, station("lat,30.0274965", "lat,30.1456"), "station TS Test Sound is 10.1 miles away, and datums carry 10.0 miles at most"},
		"nowhere":                  {mllw, "1.4", epoch, "0", nil, station("lat,30.0274965", "", "lon,-74.6", ""), "station TS Test Sound does not say where it is"},
		"another as near":          {mllw, "1.4", epoch, "0", station("station,TS", "station,T2", "lat,30.0274965", "lat,29.97", "MLLW,5.3", "MLLW,5.9", "MLW,5.4", "MLW,5.95"), station(), "by station T2 Test Sound, 2.1 miles away, it stands 0.10 ft above mean high water"},
		"which decides no other":   {mllw, "1.4", epoch, "0.7", station("station,TS", "station,T2", "lat,30.0274965", "lat,29.97", "MLLW,5.3", "MLLW,5.9", "MLW,5.4", "MLW,5.95"), station(), ""},
		"another twice as far":     {mllw, "1.4", epoch, "0", station("station,TS", "station,T2", "lat,30.0274965", "lat,29.94", "MLLW,5.3", "MLLW,5.9", "MLW,5.4", "MLW,5.95"), station(), ""},
		"one named":                {mllw + `,"station":"TS"`, "1.4", epoch, "0", station("station,TS", "station,T2", "lat,30.0274965", "lat,29.97", "MLLW,5.3", "MLLW,5.9", "MLW,5.4", "MLW,5.95"), station(), ""},
		"a line off its plane":     {`"crest_elev_ft":-1,"datum":"NAVD88"`, "0.9", epoch, "0", nil, station(), "mean high water lies at 0.90 ft NAVD88 by its line (h) and at 1.40 ft by station TS Test Sound, 1.9 miles away: check the line's elevation and its datum"},
		"by three tenths":          {`"crest_elev_ft":-1,"datum":"NAVD88"`, "1.1", epoch, "0", nil, station(), ""},
		"a line of no epoch":       {`"crest_elev_ft":1,"datum":"NAVD88"`, "1.4", bothLines, "0", nil, station(), "the epoch of the mean high water line is not stated, and that of station TS Test Sound is 1983-2001; state the line's"},
		"farther off the limit":    {`"crest_elev_ft":0.8,"datum":"NAVD88"`, "1.4", bothLines, "0", nil, station(), ""},
		"a plane without its line": {`"crest_elev_ft":1.0,"datum":"NAVD88"`, "null", epoch, "0", nil, station("lat,30.0274965", "lat,32.19"), "station TS Test Sound is 151."},
	} {
		t.Run(name, func(t *testing.T) {
			s := onForeshore(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, `"crest_elev_ft":0,"datum":"NAVD88"`, c.states, 1), 0, 3, 60, 9))
			s["high"] = []string{sketchtest.Shape("LineString", fmt.Sprintf(`"id":"h","side":"water_left","elevation_ft":%s,"elevation_accuracy_ft":0.1`, c.line), sketchtest.Along(0)...)}
			s["ts.csv"], s["t2.csv"] = c.first, c.second
			given := "ts.csv"
			if c.second != nil {
				given += ", t2.csv"
			}
			row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_above_mhw, at_most: " + c.limit + " ft"}}, c.layers+"levels: {stations: ["+given+"], accuracy: 0.05 ft}\n")
			require.Empty(t, row["error"])
			if c.says == "" {
				require.NotEqual(t, "needs information", row["town_certainty"], row["town_requests"])
				return
			}
			require.Equal(t, "needs information", row["town_certainty"])
			require.Contains(t, row["town_requests"], c.says)
		})
	}
}

// Two stations as near, one with a tide of 1 ft and one of 2 ft about the same mean: half
// a foot over it a crest is out of the water for 66.7 and for 58.0 % of the time (1/2 +
// asin(z/A)/pi, the node factor moving both by a few tenths).
func TestTwoTidesBesideTheSite(t *testing.T) {
	other := slices.Clone(sketchtest.TideTable)
	for i, row := range other {
		other[i] = strings.NewReplacer("station,TS", "station,T2", "lat,30.0274965", "lat,29.97", "M2,1,", "M2,2,", "MHW,7.4", "MHW,8.4", "MHHW,7.5", "MHHW,8.5", "MLW,5.4", "MLW,4.4", "MLLW,5.3", "MLLW,4.3").Replace(row)
	}
	s := onForeshore(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, `"crest_elev_ft":0`, `"crest_elev_ft":0.9`, 1), 0, 3, 60, 9))
	s["ts.csv"], s["t2.csv"] = sketchtest.TideTable, other
	for limit, certainty := range map[string]string{"62 %": "needs information", "90 %": "firm"} {
		row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_exposed, at_most: " + limit}}, bothLines+"levels: {stations: [ts.csv, t2.csv]}\n")
		require.Equal(t, certainty, row["town_certainty"], "%s: %s", limit, row["town_requests"])
		if certainty == "needs information" {
			require.Regexp(t, `by station T2 Test Sound, 2\.1 miles away, the crest is out of the water 5[78]\.\d % of the time; say which station is that of the site`, row["town_requests"])
		}
	}
}

// A crest 0.3 m below the mean of a tide of 1 m is out of the water for 40.3 % of the
// time. A gauge that falls dry for the lowest 7.9 % shows 35.2 %, and knows only that it
// is 32.4 to 40.3; one of less than a year may stand 0.5 ft off the mean of all years,
// with heights good to 0.1 ft a tolerance of 0.43 ft (1.6449 / 1.96 of 0.51), within which
// 40.3 % may be 32.2 to 44.7; three days tell nothing. A tidal datum has an epoch.
func TestWhatARecordCanTell(t *testing.T) {
	gauge := func(days int, lowest float64, mark func(i int) string) []string {
		out := []string{"Date Time, Water Level, Sigma, I, L"}
		for i := range days * 240 {
			level, at := math.Cos(2*math.Pi*float64(i)/124.206), time.Date(2026, 1, 1, 0, 6*i, 0, 0, time.UTC).Format("2006-01-02 15:04")
			if level < lowest {
				out = append(out, at+",,0,0,0")
			} else {
				out = append(out, fmt.Sprintf("%s,%.4f,0,%s", at, level, mark(i)))
			}
		}
		return out
	}
	sound := func(int) string { return "0,0" }
	for name, c := range map[string]struct {
		record    []string
		datum     string
		limit     string
		percent   string
		certainty string
		says      string
	}{
		"whole":                {gauge(60, -2, sound), "MSL, epoch: 1983-2001", "50 %", "40.3", "firm", ""},
		"near the limit":       {gauge(60, -2, sound), "MSL, epoch: 1983-2001", "44 %", "40.3", "close call", ""},
		"low waters missing":   {gauge(60, -0.9694, sound), "MSL, epoch: 1983-2001", "40 %", "35.2", "needs information", "7.9 % of the levels of the record are missing; with them the crest may be out of the water 32.4 to 40.3 % of the time: give a record without gaps"},
		"and it cannot matter": {gauge(60, -0.9694, sound), "MSL, epoch: 1983-2001", "60 %", "35.2", "firm", ""},
		"three days":           {gauge(3, -2, sound), "MSL, epoch: 1983-2001", "90 %", "", "needs information", "gauge.csv: the record is 2.996 days long; at least 14 days"},
		"too many missing":     {gauge(60, -0.9, sound), "MSL, epoch: 1983-2001", "90 %", "", "needs information", "gauge.csv: the record covers 85.6 % of its span"},
		"all marked":           {gauge(60, -2, func(int) string { return "0,1" }), "MSL, epoch: 1983-2001", "90 %", "", "needs information", "gauge.csv: the record covers 0.0 % of its span"},
		"of no epoch":          {gauge(60, -2, sound), "MSL", "90 %", "40.3", "needs information", "the record's datum, MSL, is of no stated epoch"},
	} {
		t.Run(name, func(t *testing.T) {
			s := onForeshore(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, `"crest_elev_ft":0,"datum":"NAVD88"`, `"crest_elev_ft":"-0.3 m","datum":"MSL"`, 1), 0, 3, 60, 9))
			s["gauge.csv"] = c.record
			row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_exposed, at_most: " + c.limit}}, bothLines+"levels: {record: {file: gauge.csv, unit: m, zone: GMT, datum: "+c.datum+"}}\n")
			require.Equal(t, c.percent, row["crest_exposed_pct"])
			require.Equal(t, c.certainty, row["town_certainty"], row["town_requests"])
			require.Contains(t, row["town_requests"], c.says)
		})
	}
}

// Beside a station of a tide of 1 ft about 0.4 ft a gauge that shows it is believed; one of
// another zero, of metres called feet (a tide of 0.6 for 2 ft), of long ago (10 years;
// common practice, no source) or of days to come is asked about, and so are constituents
// of a third of the tide that the datums of their station make.
func TestARecordBesideAStation(t *testing.T) {
	for name, c := range map[string]struct {
		from  string
		reads func(z float64) float64
		says  string // none: firm
	}{
		"in order":     {"2026-01-01", func(z float64) float64 { return z }, ""},
		"another zero": {"2026-01-01", func(z float64) float64 { return z + 1 }, "the mean of the record is 1.40 ft NAVD88, and mean sea level at station TS Test Sound, 1.9 miles away, is 0.40 ft: check the record's datum and unit"},
		"half a foot":  {"2026-01-01", func(z float64) float64 { return z + 0.5 }, ""},
		"another unit": {"2026-01-01", func(z float64) float64 { return 0.3048 * z }, "the tide of the record goes 0.61 ft between mean low and mean high water, and at station TS Test Sound, 1.9 miles away, 2 ft: check the record's unit"},
		"long ago":     {"2016-09-20", func(z float64) float64 { return z }, "the record of levels ends on 2016-11-18, older than the 10 years it may be"},
		"not so long":  {"2016-10-01", func(z float64) float64 { return z }, ""},
		"days to come": {"2026-10-01", func(z float64) float64 { return z }, "the record of levels runs to 2026-11-29, after the decision date"},
	} {
		t.Run(name, func(t *testing.T) {
			first, err := time.Parse(time.DateOnly, c.from)
			require.NoError(t, err)
			rows := []string{"time,level"}
			for i := range 60 * 240 {
				rows = append(rows, fmt.Sprintf("%s,%.3f", first.Add(time.Duration(6*i)*time.Minute).Format("2006-01-02 15:04"), c.reads(0.4+math.Cos(2*math.Pi*float64(i)/124.206))))
			}
			s := onForeshore(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
			s["ts.csv"], s["gauge.csv"] = station(), rows
			row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_exposed, at_most: 95 %"}}, bothLines+"levels: {stations: [ts.csv], record: {file: gauge.csv, unit: ft, zone: GMT, datum: NAVD88}}\n")
			require.Equal(t, c.says == "", row["town_certainty"] == "firm", row["town_requests"])
			require.Contains(t, row["town_requests"], c.says)
		})
	}
	s := onForeshore(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["ts.csv"] = append(station(), "M2,0.33,0")
	row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: crest_exposed, at_most: 95 %"}}, bothLines+"levels: {stations: [ts.csv]}\n")
	require.Empty(t, row["crest_exposed_pct"])
	require.Contains(t, row["town_requests"], "the constituents of station TS Test Sound make a tide of 0.6")
}
