package screening

import (
	"encoding/csv"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

func TestDatesOfLayers(t *testing.T) {
	for text, want := range map[string]string{
		"2024-08-20": "2024-08-20", " 2024/08/20": "2024-08-20", "20240820": "2024-08-20", "2024-08": "2024-08-01", "2024": "2024-01-01",
		"2024-08-20T23:59:00Z": "2024-08-20", "2024-08-20T00:00:00": "2024-08-20", "2024-08-20T00:00:00.000Z": "2024-08-20",
		"2024-08-20 00:00:00": "2024-08-20", "2024/08/20 00:00:00+00": "2024-08-20", "2024-08-20 23:30:00 -05:00": "2024-08-20", "2024-08-20 09:30": "2024-08-20",
		"2024-08-20T": "", "2024-08-20 late": "", "2024 00:00:00": "", "2024-13-20 00:00:00": "",
		// Milliseconds from 1970: 19,955 days of 86,400,000 are up to 2024-08-20.
		"1724112000000": "2024-08-20", "1724112000000.0": "2024-08-20", "1724198399999": "2024-08-20", "1724112000000.5": "", "17241120000.00": "",
		"08/20/2024": "", "8/9/2024": "", "summer 2024": "", "": "", "20241399": "", "99991231": "9999-12-31",
	} {
		got, ok := job.ParseDate(text)
		require.Equal(t, want != "", ok, text)
		if ok {
			require.Equal(t, want, got.Format(time.DateOnly), text)
		}
	}
}

// Five years before the decision date, 2026-11-25, is 2021-11-25.
func TestOldDataSupportNoFirmResult(t *testing.T) {
	for _, tt := range []struct {
		layer, properties, certainty string
	}{
		{"date: 2021-11-25, max_age: 5 years", `"id":"g"`, "firm"},
		{"date: 2021-11-24, max_age: 5 years", `"id":"g"`, "needs information"},
		{"date: 2021-11-24", `"id":"g"`, "needs information"}, // by what is usual
		{"date: 2021-11-25", `"id":"g"`, "firm"},
		{"date: 2011, max_age: 20 years", `"id":"g"`, "firm"},
		{"max_age: 60 months", `"id":"g"`, "needs information"},
		{"date: some day, max_age: 5 years", `"id":"g"`, "needs information"},
		{"date: 2011, max_age: 5 years, properties: {date: FLOWN}", `"FLOWN":1724112000000`, "firm"},
		{"date: 2024, max_age: 5 years, properties: {date: FLOWN}", `"FLOWN":"20110801"`, "needs information"},
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		s["grass"] = []string{sketchtest.Rectangle(tt.properties, 20, 100, 50, 200)}
		rows, _, err := jobOf(t, s, `
proposals: {file: proposals, accuracy: 0.1 ft}
layers:
  high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88, date: 2026-01-01}
  seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, `+tt.layer+`}
  wetlands: {none: true}
  areas: {coral: {none: true}, shellfish_bed: {none: true}}
`)
		require.NoError(t, err)
		require.Equal(t, "exemption", rows["a"]["state_path"], tt.layer)
		require.Equal(t, tt.certainty, rows["a"]["state_certainty"], tt.layer)
	}
	_, _, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), "layers: {high_water: {file: high, max_age: old}}")
	require.ErrorContains(t, err, `"old" is no age; write it as "5 years"`)
}

// judged runs a job with the town's book and returns the proposal's row and a row
// for each criterion, by the name of its column.
func judged(t *testing.T, w sketchtest.WithBook, layers string) (row map[string]string, criteria []map[string]string) {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: {file: proposals, accuracy: 0.1 ft}\nlayers:\n"+layers))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	_, err = Run(t.Context(), j, w, out, Options{Workers: 1})
	require.NoError(t, err)
	all, err := csv.NewReader(out["criteria.csv"]).ReadAll()
	require.NoError(t, err)
	for _, cells := range all[1:] {
		c := map[string]string{}
		for i, name := range all[0] {
			c[name] = cells[i]
		}
		criteria = append(criteria, c)
	}
	return sketchtest.Rows(t, out)["a"], criteria
}

// Nothing mapped can be younger than the day on which it is decided.
func TestDatesAfterTheDecision(t *testing.T) {
	for _, date := range []string{"2026-11-26", "99991231"} {
		_, _, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), "proposals: {file: proposals}\nlayers: {high_water: {file: high}, seagrass: {file: grass, date: "+date+"}}\n")
		require.ErrorContains(t, err, "after the decision date 2026-11-25: correct one of them", date)
	}
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["grass"] = []string{sketchtest.Rectangle(`"FLOWN":"2026-11-26"`, 400, 100, 500, 200)}
	rows, report, err := jobOf(t, s, "proposals: {file: proposals}\nlayers: {high_water: {file: high}, seagrass: {file: grass, surveyed: seen, properties: {date: FLOWN}}}\n")
	require.NoError(t, err)
	require.Contains(t, strings.Join(report.Messages, " "), "its date is 2026-11-26, after the decision date 2026-11-25")
	require.Empty(t, rows["a"]["seagrass_nearest_ft"])
}

// Eighteen months before the decision date, 2026-11-25, is 2025-05-25.
func TestABookLimitsTheAgeOfWhatItAsks(t *testing.T) {
	const high = "  high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88}\n"
	for _, tt := range []struct {
		layers, asks, reason string // no reason: firm
	}{
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2011}", "measure: seagrass_nearest, at_least: 50 ft",
			"seagrass is of 2011-01-01, older than the 5 years it may be"}, // what is usual
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2025-05-25}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months", ""},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2025-05-24}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			"seagrass is of 2025-05-24, older than the 18 months it may be"},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			"seagrass states no date, and may be no older than 18 months"},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: some day}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			`the date of seagrass, "some day", cannot be read, and it may be no older than 18 months`},
		// The day decided for is the last that can be right.
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2026-11-25}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months", ""},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 1795608000000}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months", ""}, // its noon
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 8/20/2026}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			`the date of seagrass, "8/20/2026", does not tell its month from its day (write the year first), and it may be no older than 18 months`},
		// Of book and job the stricter, whichever it is.
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2025-05-24, max_age: 1 year}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			"seagrass is of 2025-05-24, older than the 1 year it may be"},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2025-05-24, max_age: 5 years}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			"seagrass is of 2025-05-24, older than the 18 months it may be"},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2025-05-24, max_age: 5 years}", "measure: seagrass_nearest, at_least: 50 ft", ""},
		// The date of a feature counts before that of its layer; of what is not
		// found there is only that of the layer.
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2011, properties: {date: FLOWN}}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months", ""},
		{"seagrass: {file: far, surveyed: seen, accuracy: 0.1 ft, date: 2011}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			"none within 840 ft; seagrass is of 2011-01-01, older than the 18 months it may be; the survey of seagrass goes no farther"},
		{"seagrass: {file: far, surveyed: seen, accuracy: 0.1 ft, date: 2026-08-01, properties: {date: FLOWN}}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months", ""},
		{"seagrass: {file: far, surveyed: seen, accuracy: 0.1 ft, properties: {date: FLOWN}}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			"none within 840 ft; the features of seagrass state their own dates, and none is near; it may be no older than 18 months; the survey of seagrass goes no farther"},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, properties: {date: DRAWN}}", "measure: seagrass_nearest, at_least: 50 ft, max_age: 18 months",
			"seagrass states no date, and may be no older than 18 months"},
		{"areas: {lease: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2011}}", "measure: in_area:lease, is: outside, max_age: 18 months",
			"the area lease is of 2011-01-01, older than the 18 months it may be"},
		// Each of several inputs is of its own layer, and one stated is of none.
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2026-08-20}\n  wetlands: {file: marsh, surveyed: seen, accuracy: 0.1 ft, date: 2026-08-20}", "least_of: [seagrass_nearest, wetland_nearest, fetch], at_least: 50 ft, max_age: 18 months", ""},
		{"seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2026-08-20}\n  wetlands: {file: marsh, surveyed: seen, accuracy: 0.1 ft, date: 2011}", "least_of: [seagrass_nearest, wetland_nearest, fetch], at_least: 50 ft, max_age: 18 months",
			"wetlands is of 2011-01-01, older than the 18 months it may be; of 3, the distance to wetlands decides"},
		// A crest above mean high water itself rests on no map.
		{"", "measure: crest_above_mhw, at_most: 1 ft, max_age: 18 months", "the mean high water line states no date, and may be no older than 18 months"},
		{"wetlands: {file: grass}", "measure: mhw_farthest, at_most: 100 ft, max_age: 1 month", "the mean high water line states no date, and may be no older than 1 month"},
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+`,"fetch_mi":1`, 0, 3, 60, 9))
		s["grass"] = []string{sketchtest.Rectangle(`"id":"g","FLOWN":"20260801"`, 400, 100, 500, 200)}
		s["marsh"] = []string{sketchtest.Rectangle(`"id":"m"`, 400, 100, 500, 200)}
		s["far"] = []string{sketchtest.Rectangle(`"id":"f"`, -900, 500, -880, 2500), sketchtest.Rectangle(`"id":"g"`, 980, 500, 999, 2500)}
		row, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{tt.asks}}, high+"  "+tt.layers+"\n")
		name := tt.layers + ", " + tt.asks
		require.Equal(t, "small", row["town_path"], name)
		require.Equal(t, "meets", criteria[0]["result"], name)
		if tt.reason == "" {
			require.Equal(t, "firm", row["town_certainty"], name)
			require.NotContains(t, criteria[0]["reason"], "older", name)
			continue
		}
		require.Equal(t, "needs information", row["town_certainty"], name)
		require.Equal(t, tt.reason, criteria[0]["reason"], name)
	}
	above := strings.Replace(sketchtest.Plain, "NAVD88", "MHW", 1)
	row, criteria := judged(t, sketchtest.WithBook{Sketch: sketchtest.PlainSite(sketchtest.Rectangle(above, 0, 3, 60, 9)), Criteria: []string{"measure: crest_above_mhw, at_most: 1 ft, max_age: 18 months"}}, high)
	require.Equal(t, "firm", row["town_certainty"])
	require.Empty(t, criteria[0]["reason"])
}

// A book can limit the age of just the measures whose values name one layer.
func TestDatedMeasuresNameTheirLayer(t *testing.T) {
	limits := map[rules.Quantity]string{
		rules.Length: "at_least: 0 ft", rules.Area: "at_least: 0 sqft", rules.Volume: "at_least: 0 cuyd", rules.VolumePerLength: "at_least: 0 cuyd/ft",
		rules.Ratio: "at_most: 99", rules.Count: "at_least: 0", rules.Word: "none_of: [tyre, main, sill, rock, no]", rules.Names: "is: outside",
	}
	var names []string
	for m := range rules.Measures() {
		if m.Quantity == rules.Names {
			m.Name += ":lease"
		}
		names = append(names, m.Name)
	}
	var asks []string
	for _, name := range names {
		m, ok := rules.FindMeasure(name)
		require.True(t, ok, name)
		var with string
		for i, parameter := range m.Parameters {
			with += []string{", with: {", ", "}[i] + parameter + ": 5 ft"
		}
		if with != "" {
			with += "}"
		}
		limit := limits[m.Quantity]
		if m.Words != nil {
			limit = "is: yes"
		}
		asks = append(asks, fmt.Sprintf("measure: %s%s, %s", name, with, limit))
	}
	s := withLevels(sketchtest.Rectangle(sketchtest.Plain+`,"bed_elev_ft":-2,"crest_width_ft":1,"fill_elev_ft":1,"wetland_elev_ft":-1,"fetch_mi":1,"side_slope":1,"stone_size_ft":1,"fill_fines_pct":5,"wetland_width_ft":9,"mtl_landward_edge_ft":1,"high_tide_line_elev_ft":0.8`, 0, 10, 60, 16))
	s["marsh"] = []string{sketchtest.Rectangle(`"id":"m"`, -50, -10, 110, 6)}
	s["channel"] = []string{sketchtest.Rectangle(`"id":"c","reach":"main"`, -100, 300, 100, 400)}
	s["riparian"] = []string{sketchtest.Shape("LineString", `"id":"r"`, [2]float64{-60, -50}, [2]float64{-60, 500})}
	s["ts.csv"] = sketchtest.TideTable
	_, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: asks}, `
  high_water: {file: high, datum: NAVD88}
  low_water: {file: low, datum: NAVD88}
  seagrass: {file: grass}
  wetlands: {file: marsh}
  channels: {file: channel}
  riparian: {file: riparian}
  areas: {lease: {file: grass}}
levels: {stations: [ts.csv]}
`)
	require.Len(t, criteria, len(names))
	for i, c := range criteria {
		m, _ := rules.FindMeasure(names[i])
		require.NotEqual(t, "unknown", c["result"], "%s: %s", m.Name, c["reason"])
		if m.Name == "fill_tide_ranges" {
			require.False(t, m.Dated, "it rests on two layers and names one")
			continue
		}
		require.Equal(t, m.Dated, c["layer"] != "", m.Name)
	}
}
