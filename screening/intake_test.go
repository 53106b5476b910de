package screening

import (
	"bytes"
	"context"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// sent is a plain site with proposals in files of their own, and how the job names them.
type sent struct {
	files     map[string][]string
	proposals string
	whole     string            // the text of the only file
	out       sketchtest.Memory // what has come out
}

// run returns the rows of summary.csv and of measures.csv in their order, and the report.
func (s *sent) run(t *testing.T) (summary, measures []map[string]string, report *Report, err error) {
	site := sketchtest.PlainSite("")
	for name, features := range s.files {
		site[name] = features
	}
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: "+s.proposals+
		"\nlayers: {high_water: {file: high, surveyed: seen, accuracy: 0.1 ft, datum: NAVD88, date: 2024-05-01}}\n"))
	require.NoError(t, err)
	s.out = sketchtest.Memory{}
	var files job.Files = sketchtest.WithBook{Sketch: site, Criteria: []string{
		"measure: mhw_farthest, at_most: 30 ft", "measure: overall_length, at_most: 100 ft", "measure: kind, any_of: [sill]"}}
	if s.whole != "" {
		files = sketchtest.WithFile{Files: files, Name: s.proposals, Text: []byte(s.whole)}
	}
	report, err = Run(context.Background(), j, files, s.out, Options{Workers: 2})
	if err != nil {
		return nil, nil, nil, err
	}
	rows := func(name string) (made []map[string]string) {
		all, err := csv.NewReader(bytes.NewReader(s.out[name].Bytes())).ReadAll()
		require.NoError(t, err)
		for _, row := range all[1:] {
			cells := map[string]string{}
			for i, cell := range row {
				cells[all[0][i]] = cell
			}
			made = append(made, cells)
		}
		return made
	}
	return rows("summary.csv"), rows("measures.csv"), report, nil
}

// bar is a sill of so many feet, its landward edge 3 ft from the shore, its waterward 9 ft.
func bar(properties string, from, to float64) string {
	return sketchtest.Rectangle(properties, from, 3, to, 9)
}

const sill = `,"kind":"sill","accuracy_ft":0.1`

// Lengths and distances are as drawn, worked by hand.
func TestVersions(t *testing.T) {
	type want struct{ path, aside, wrong string }
	decided := want{path: "small"}
	for _, c := range []struct {
		name      string
		proposals []string
		want      []want
	}{
		{"alone", []string{bar(`"id":"p"`+sill, 0, 60)}, []want{decided}},
		{"the later number", []string{bar(`"id":"p","version":1`+sill, 0, 60), bar(`"id":"p","version":2`+sill, 0, 160)},
			[]want{{aside: "version 1; version 2 is decided (feature 2)"}, {path: "full"}}},
		{"the later number first", []string{bar(`"id":"p","version":"v10"`+sill, 0, 60), bar(`"id":"p","version":"v9"`+sill, 0, 160)},
			[]want{decided, {aside: "version v9; version v10 is decided (feature 1)"}}},
		{"days", []string{bar(`"id":"p","version":"2026-03-14"`+sill, 0, 160), bar(`"id":"p","version":"20261001"`+sill, 0, 60)},
			[]want{{aside: "version 2026-03-14; version 20261001 is decided (feature 2)"}, decided}},
		{"times of one day", []string{bar(`"id":"p","version":"2026-03-14T16:00:00Z"`+sill, 0, 60), bar(`"id":"p","version":"2026-03-14T09:30:00Z"`+sill, 0, 160)},
			[]want{decided, {aside: "version 2026-03-14T09:30:00Z; version 2026-03-14T16:00:00Z is decided (feature 1)"}}},
		{"another id beside them", []string{bar(`"id":"p","version":1`+sill, 0, 60), bar(`"id":"q","version":1`+sill, 100, 160), bar(`"id":"p","version":2`+sill, 0, 60)},
			[]want{{aside: "version 1; version 2 is decided (feature 3)"}, decided, decided}},
		{"no version", []string{bar(`"id":"p"`+sill, 0, 60), bar(`"id":"p"`+sill, 100, 160)},
			[]want{{wrong: "2 features have this id: feature 1 and feature 2"}, {wrong: "2 features have this id"}}},
		{"a version of one only", []string{bar(`"id":"p","version":1`+sill, 0, 60), bar(`"id":"p"`+sill, 100, 160)},
			[]want{{wrong: "of 2 features of this id 1 state the version"}, {wrong: "of 2 features"}}},
		{"one version twice", []string{bar(`"id":"p","version":1`+sill, 0, 60), bar(`"id":"p","version":2`+sill, 0, 60), bar(`"id":"p","version":2.0`+sill, 100, 160)},
			[]want{{wrong: "2 features of this id are of version 2"}, {wrong: "are of version 2"}, {wrong: "are of version 2"}}},
		{"letters", []string{bar(`"id":"p","version":"A"`+sill, 0, 60), bar(`"id":"p","version":"B"`+sill, 0, 60)},
			[]want{{wrong: "its versions are A, B: write them all as numbers"}, {wrong: "A, B"}}},
		{"1.10 and 1.9", []string{bar(`"id":"p","version":"1.10"`+sill, 0, 60), bar(`"id":"p","version":"1.9"`+sill, 0, 60)},
			[]want{{wrong: "either can be the later"}, {wrong: "either"}}},
		{"a month and a day of it", []string{bar(`"id":"p","version":"2026-11"`+sill, 0, 60), bar(`"id":"p","version":"2026-11-25"`+sill, 0, 60)},
			[]want{{wrong: "either can be the later: give the day of each"}, {wrong: "either"}}},
		{"a month and a day before it", []string{bar(`"id":"p","version":"2026-11"`+sill, 0, 60), bar(`"id":"p","version":"2026-10-31"`+sill, 0, 160)},
			[]want{decided, {aside: "version 2026-10-31; version 2026-11 is decided (feature 1)"}}},
		{"a number and a year", []string{bar(`"id":"p","version":3`+sill, 0, 60), bar(`"id":"p","version":2026`+sill, 0, 60)},
			[]want{{wrong: "either can be the later: number them"}, {wrong: "either"}}},
		{"a number and a day", []string{bar(`"id":"p","version":"20261125"`+sill, 0, 60), bar(`"id":"p","version":3`+sill, 0, 60)},
			[]want{{wrong: "either"}, {wrong: "either"}}},
		{"years, one with a point", []string{bar(`"id":"p","version":"2026"`+sill, 0, 160), bar(`"id":"p","version":"2026.1"`+sill, 0, 60)},
			[]want{{aside: "version 2026.1 is decided"}, decided}},
		{"nines", []string{bar(`"id":"p","version":9999`+sill, 0, 60), bar(`"id":"p","version":2`+sill, 0, 60)},
			[]want{{wrong: "its version is 9999, which files write where there is none"}, {wrong: "9999"}}},
		// 23:30 five hours behind is 04:30 of the next day, 01:00 nine hours ahead 16:00 of the day before.
		{"minutes in two zones", []string{bar(`"id":"p","version":"2026-11-25T23:30-05:00"`+sill, 0, 60), bar(`"id":"p","version":"2026-11-26T01:00+09:00"`+sill, 0, 160)},
			[]want{decided, {aside: "version 2026-11-25T23:30-05:00 is decided"}}},
		{"parts", []string{bar(`"id":"p","part":"A"`+sill, 0, 60), bar(`"id":"p","part":"B"`+sill, 60, 120)},
			[]want{{path: "full"}, {aside: "part B; decided as one structure with part A (feature 1)"}}},
		{"parts of a version", []string{bar(`"id":"p","part":"A","version":1`+sill, 0, 60), bar(`"id":"p","part":"A","version":2`+sill, 0, 40), bar(`"id":"p","part":"B","version":2`+sill, 50, 90)},
			[]want{{aside: "version 1; version 2 is decided (feature 2)"}, decided, {aside: "part B; decided as one structure with part A (feature 2)"}}},
		{"a part that its latest version does not have", []string{bar(`"id":"p","part":"A","version":1`+sill, 0, 60), bar(`"id":"p","part":"B","version":1`+sill, 60, 120), bar(`"id":"p","part":"A","version":2`+sill, 0, 60)},
			[]want{{wrong: "version 1 has a part B and version 2 has none"}, {wrong: "has none"}, {wrong: "has none"}}},
		{"one part twice", []string{bar(`"id":"p","part":"A"`+sill, 0, 60), bar(`"id":"p","part":"a"`+sill, 60, 120)},
			[]want{{wrong: "part a stands there twice, as feature 1 and as feature 2"}, {wrong: "twice"}}},
		{"one part named", []string{bar(`"id":"p","part":"A"`+sill, 0, 60), bar(`"id":"p"`+sill, 60, 120)},
			[]want{{wrong: "2 features have this id"}, {wrong: "2 features have this id"}}},
		{"a part that cannot be used", []string{bar(`"id":"p","part":"A"`+sill, 0, 60), bar(`"id":"p","part":"B","width_ft":-1`+sill, 60, 120)},
			[]want{{wrong: "a part of it cannot be used: p: feature 2 (id p): width_ft"}, {aside: "part B"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			summary, _, report, err := (&sent{files: map[string][]string{"p": c.proposals}, proposals: "p"}).run(t)
			require.NoError(t, err)
			require.Len(t, summary, len(c.want))
			aside := 0
			for i, w := range c.want {
				require.Equal(t, w.path, summary[i]["town_path"], i)
				require.Contains(t, summary[i]["not_decided"], w.aside)
				require.Contains(t, summary[i]["error"], w.wrong)
				if w.aside != "" {
					aside++
				} else {
					require.Empty(t, summary[i]["not_decided"])
				}
			}
			require.Equal(t, aside, report.Aside)
		})
	}
}

// Each is decided, and none of them is firm unless nobody can take it for the other.
func TestIDsThatReadAlike(t *testing.T) {
	for _, c := range []struct{ one, other, certainty string }{
		{`"P-1"`, `"p-1"`, "needs information"}, {`"P-1"`, `" P-1  "`, "needs information"}, {`"P-1"`, `"P-1\u200b"`, "needs information"},
		{`"Anse-\u00e9"`, `"Anse-e\u0301"`, "needs information"}, {`"P-\uff11"`, `"P-1"`, "needs information"}, {`"P-\u2460"`, `"P-\u2461"`, "firm"}, // Unicode Standard Annex 15
		{`12`, `12.0`, "needs information"}, {`"P-1"`, `"P-2"`, "firm"}, {`"1.1"`, `"11"`, "firm"}, {`12`, `120`, "firm"},
	} {
		summary, _, _, err := (&sent{files: map[string][]string{"p": {bar(`"id":`+c.one+sill, 0, 60), bar(`"id":`+c.other+sill, 200, 260)}}, proposals: "p"}).run(t)
		require.NoError(t, err)
		for _, row := range summary {
			require.Equal(t, "small", row["town_path"])
			require.Equal(t, c.certainty, row["town_certainty"], "%s %s", c.one, c.other)
		}
	}
}

// A version of a day to come is not the one that is decided today, perhaps. The day of the
// rules is 2026-11-25 here.
func TestAVersionOfADayToCome(t *testing.T) {
	for later, certainty := range map[string]string{"2026-11-25": "firm", "2026-11-26": "needs information", "2030-01-01": "needs information"} {
		summary, _, _, err := (&sent{files: map[string][]string{"p": {bar(`"id":"p","version":"2026-01-01"`+sill, 0, 60), bar(`"id":"p","version":"`+later+`"`+sill, 0, 60)}}, proposals: "p"}).run(t)
		require.NoError(t, err)
		require.Contains(t, summary[0]["not_decided"], "version "+later+" is decided")
		require.Equal(t, certainty, summary[1]["town_certainty"], later)
	}
}

// A part without its others may be all of the structure, or they are lost.
func TestAPartAlone(t *testing.T) {
	for properties, certainty := range map[string]string{`,"part":"2"`: "needs information", `,"part":"N/A"`: "firm", `,"part":""`: "firm"} {
		summary, _, _, err := (&sent{files: map[string][]string{"p": {bar(`"id":"p"`+properties+sill, 0, 60)}}, proposals: "p"}).run(t)
		require.NoError(t, err)
		require.Equal(t, certainty, summary[0]["town_certainty"], properties)
	}
}

// 60 ft and the 60 ft of a part that says it is of the same project are 120 ft, where 100 ft
// are the limit; so may be what a file that breaks off had.
func TestWhatMayBelongToAProject(t *testing.T) {
	const heron = `,"project":"7"` + sill
	own := bar(`"id":"p"`+heron, 0, 60)
	for name, c := range map[string]struct {
		others    []string
		cut       string
		certainty string
	}{
		"alone":                {nil, "", "firm"},
		"a part of another":    {[]string{bar(`"id":"q","part":1`+sill, 200, 210), bar(`"id":"q","part":2`+heron, 220, 280)}, "", "needs information"},
		"a number":             {[]string{bar(`"id":"q","project":7.0`+sill, 200, 210)}, "", "firm"},
		"a file that ends":     {nil, `{"type":"FeatureCollection","features":[` + bar(`"id":"z"`+sill, 200, 210) + ",", "needs information"},
		"an id twice":          {[]string{bar(`"id":"q"`+heron, 200, 210), bar(`"id":"q"`+heron, 220, 280)}, "", "needs information"},
		"the part of no other": {[]string{bar(`"id":"q","part":1`+sill, 200, 210), bar(`"id":"q","part":2`+sill, 220, 280)}, "", "firm"},
	} {
		t.Run(name, func(t *testing.T) {
			site := sketchtest.PlainSite("")
			site["p"] = append([]string{own}, c.others...)
			proposals := "[p]"
			if c.cut != "" {
				proposals = "[p, cut]"
			}
			j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: "+proposals+"\nlayers: {high_water: {file: high, surveyed: seen, accuracy: 0.1 ft, datum: NAVD88, date: 2024-05-01}}\n"))
			require.NoError(t, err)
			out := sketchtest.Memory{}
			_, err = Run(context.Background(), j, sketchtest.WithFile{Files: sketchtest.WithBook{Sketch: site, Criteria: []string{"measure: project_length, at_most: 100 ft"}}, Name: "cut", Text: []byte(c.cut)}, out, Options{Workers: 2})
			require.NoError(t, err)
			rows, err := csv.NewReader(bytes.NewReader(out["summary.csv"].Bytes())).ReadAll()
			require.NoError(t, err)
			path := "small"
			if name == "an id twice" { // no sum, so no path that asks for one, and each row asks once
				path = "full"
				require.NotContains(t, out["requests.csv"].String(), "town; town")
			}
			require.Equal(t, []string{path, c.certainty}, rows[1][5:7])
			if name == "a number" {
				require.Contains(t, out["measures.csv"].String(), "70.00")
			}
		})
	}
}

// Two bars of 60 ft that abut are one of 120 ft; 40 ft, an opening of 10 ft and 40 ft are
// 90 ft overall; 26 ft wide 20 ft out the strip's far edge is 33 ft from the shore.
func TestPartsAreOneStructure(t *testing.T) {
	for _, c := range []struct {
		name             string
		second           string
		overall, reaches string
		path, certainty  string
	}{
		{"abutting", bar(`"id":"p","part":2`+sill, 60, 120), "120.00", "9.00", "full", "firm"},
		{"with an opening", bar(`"id":"p","part":2`+sill, 70, 100), "100.00", "9.00", "", ""},
		{"short", bar(`"id":"p","part":2`+sill, 65, 85), "85.00", "9.00", "small", "firm"},
		{"a line with a width of its own", sketchtest.Shape("LineString", `"id":"p","part":2,"width_ft":26`+sill, [2]float64{65, 20}, [2]float64{85, 20}), "", "33.00", "full", "firm"},
		{"of another kind", bar(`"id":"p","part":2,"kind":"dock","accuracy_ft":0.1`, 65, 85), "85.00", "9.00", "small", "needs information"},
		{"nearer to the limit by its own accuracy", bar(`"id":"p","part":2,"kind":"sill","accuracy_ft":0.1,"crest_elev_ft":1,"elevation_accuracy_ft":0.1`, 65, 85), "85.00", "9.00", "small", "firm"},
		{"of another project", bar(`"id":"p","part":2,"project":"Heron"`+sill, 65, 85), "85.00", "9.00", "small", "needs information"},
		{"begun at another time", bar(`"id":"p","part":2,"started":"2026-03-01"`+sill, 65, 85), "85.00", "9.00", "small", "needs information"},
		{"without its kind", bar(`"id":"p","part":2,"accuracy_ft":0.1`, 65, 85), "85.00", "9.00", "small", "needs information"},
		{"less accurate", bar(`"id":"p","part":2,"kind":"sill","accuracy_ft":60`, 65, 85), "85.00", "9.00", "small", "close call"},
	} {
		t.Run(c.name, func(t *testing.T) {
			summary, measures, _, err := (&sent{files: map[string][]string{"p": {bar(`"id":"p","part":1`+sill, 0, 60), c.second}}, proposals: "p"}).run(t)
			require.NoError(t, err)
			require.Equal(t, c.reaches, measures[0]["mhw_farthest_ft"])
			if c.overall != "" {
				require.Equal(t, c.overall, measures[0]["overall_length_ft"])
			}
			if c.path != "" {
				require.Equal(t, c.path, summary[0]["town_path"])
				require.Equal(t, c.certainty, summary[0]["town_certainty"])
			}
			require.Empty(t, summary[1]["town_path"])
		})
	}
}

// What a part lacks is asked for, and not only where the whole comes to.
func TestWhatAPartLacksIsAskedFor(t *testing.T) {
	site := sketchtest.PlainSite("")
	const sound = `,"kind":"sill","accuracy_ft":0.1,"datum":"NAVD88","elevation_accuracy_ft":0.1`
	site["proposals"] = []string{bar(`"id":"p","part":1`+sound+`,"crest_elev_ft":1`, 0, 40), bar(`"id":"p","part":2`+sound, 50, 90)}
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: proposals\nlayers: {high_water: {file: high, surveyed: seen, accuracy: 0.1 ft, datum: NAVD88, date: 2024-05-01}}\n"))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	_, err = Run(context.Background(), j, sketchtest.WithBook{Sketch: site, Criteria: []string{"measure: crest_above_mhw, at_most: 1.5 ft"}}, out, Options{Workers: 1})
	require.NoError(t, err)
	require.Contains(t, out["requests.csv"].String(), "part 2 of p, with which it is one structure, comes out as full for want of this: the proposal states no crest_elev_ft")
}

// What each part states is weighed: a crest of 1 ft above high water by the first, of 1.45 ft
// good to 0.5 ft by the second, against 1.5 ft at most. The second alone is a close call.
func TestEachPartIsWeighed(t *testing.T) {
	const heights = `,"kind":"sill","accuracy_ft":0.1,"datum":"NAVD88","crest_elev_ft":`
	site := sketchtest.PlainSite("")
	for name, c := range map[string]struct{ second, certainty string }{
		"well inside": {"1.5,\"elevation_accuracy_ft\":0.1", "firm"},
		"close":       {"1.95,\"elevation_accuracy_ft\":0.5", "needs information"},
		"unstated":    {"1.95", "needs information"},
	} {
		t.Run(name, func(t *testing.T) {
			site["proposals"] = []string{
				bar(`"id":"p","part":1`+heights+`1.5,"elevation_accuracy_ft":0.1`, 0, 40),
				bar(`"id":"p","part":2`+heights+c.second, 50, 90),
			}
			j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: proposals\nlayers: {high_water: {file: high, surveyed: seen, accuracy: 0.1 ft, datum: NAVD88, date: 2024-05-01}}\n"))
			require.NoError(t, err)
			out := sketchtest.Memory{}
			_, err = Run(context.Background(), j, sketchtest.WithBook{Sketch: site, Criteria: []string{"measure: crest_above_mhw, at_most: 1.5 ft"}}, out, Options{Workers: 1})
			require.NoError(t, err)
			rows, err := csv.NewReader(out["summary.csv"]).ReadAll()
			require.NoError(t, err)
			require.Equal(t, []string{"small", c.certainty}, rows[1][5:7])
		})
	}
}

// A file that breaks off takes nothing from those behind it: their parts and neighbours stay
// what they are.
func TestBehindABrokenFile(t *testing.T) {
	site := sketchtest.PlainSite("")
	site["p"] = []string{bar(`"id":"p","part":"A"`+sill, 0, 60), bar(`"id":"q"`+sill, 300, 360), bar(`"id":"p","part":"B"`+sill, 60, 120)}
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: [cut, p]\nlayers: {high_water: {file: high, surveyed: seen, accuracy: 0.1 ft, datum: NAVD88, date: 2024-05-01}}\n"))
	require.NoError(t, err)
	cut := `{"type":"FeatureCollection","features":[` + bar(`"id":"lost"`+sill, 500, 520) + "," + bar(`"id":"also"`+sill, 600, 620) + ","
	out := sketchtest.Memory{}
	_, err = Run(context.Background(), j, sketchtest.WithFile{Files: sketchtest.WithBook{Sketch: site, Criteria: []string{"measure: overall_length, at_most: 100 ft"}}, Name: "cut", Text: []byte(cut)}, out, Options{Workers: 2})
	require.NoError(t, err)
	rows, err := csv.NewReader(out["summary.csv"]).ReadAll()
	require.NoError(t, err)
	var got []string
	for _, row := range rows[1:] {
		got = append(got, row[0]+" "+row[5])
	}
	require.Equal(t, []string{"lost ", "also ", "cut ", "p full", "q small", "p "}, got)
}

func TestManyFiles(t *testing.T) {
	files := map[string][]string{
		"one": {bar(`"NO":"p","VER":1`+sill, 0, 60)},
		"two": {bar(`"NO":"p","VER":2`+sill, 0, 160), bar(`"NO":"q"`+sill, 300, 360)},
		"own": {bar(`"id":"r","STRUCTURE":"sill","accuracy_ft":0.1`, 500, 560)},
	}
	mapped := "properties: {id: NO, version: VER}"
	summary, _, report, err := (&sent{files: files, proposals: "[{file: [one, two], " + mapped + "}, {file: own, properties: {kind: STRUCTURE}}]"}).run(t)
	require.NoError(t, err)
	require.Len(t, summary, 4)
	for i, want := range []map[string]string{
		{"id": "p", "source_file": "one", "town_path": "", "not_decided": "version 1; version 2 is decided (feature 1 of two)"},
		{"id": "p", "source_file": "two", "town_path": "full"},
		{"id": "q", "source_file": "two", "town_path": "small"},
		{"id": "r", "source_file": "own", "town_path": "small", "kind": "sill"},
	} {
		for column, value := range want {
			require.Equal(t, value, summary[i][column], "%d %s", i, column)
		}
	}
	require.Contains(t, strings.Join(report.Warnings, "\n"), "1 of 3 features in one, two have no VER, in which version is looked for")

	_, _, _, err = (&sent{files: files, proposals: "[one, two, one]"}).run(t)
	require.ErrorContains(t, err, "the file one is named twice")

	summary, _, _, err = (&sent{files: map[string][]string{"one": files["one"], "two": {bar(`"id":"p"`+sill, 0, 60)}}, proposals: "[{file: one, properties: {id: NO}}, two]"}).run(t)
	require.NoError(t, err)
	for _, row := range summary {
		require.Contains(t, row["error"], "2 features have this id: feature 1 and feature 1 of two")
	}
}
