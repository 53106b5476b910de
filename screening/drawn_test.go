package screening

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// line is a line of measured.geojson or setbacks.geojson.
type line struct {
	Properties struct {
		ID, Measure, Title, Authority, Path, Cite, Criteria string
		Distance                                            float64  `json:"distance_ft"`
		Tolerance                                           *float64 `json:"tolerance_ft"`
	}
	Geometry struct{ Coordinates []orb.Point }
}

func linesOf(t *testing.T, text *bytes.Buffer) []line {
	var all struct{ Features []line }
	require.NoError(t, json.Unmarshal(text.Bytes(), &all))
	return all.Features
}

// feet are the places of a line in the local feet that the demo and sketches are drawn in.
func (l line) feet() []orb.Point {
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	var made []orb.Point
	for _, at := range l.Geometry.Coordinates {
		p := plane.Forward(at)
		made = append(made, orb.Point{p[0] / job.Foot, p[1] / job.Foot})
	}
	return made
}

// between says how long a line is and from where to where it runs along the shore.
func (l line) between() string {
	bound := orb.LineString(l.feet()).Bound()
	return fmt.Sprintf("%s: %.2f ft, x %.1f-%.1f", l.Properties.Title, l.Properties.Distance, bound.Min[0], bound.Max[0])
}

// alongShore are the lines of a proposal of what lies along the shore.
func alongShore(t *testing.T, text *bytes.Buffer, id string) []string {
	var made []string
	for _, l := range linesOf(t, text) {
		if p := l.Properties; p.ID == id && slices.Contains([]string{"opening", "narrowest_opening", "longest_run", "longest_overlap"}, p.Measure) {
			made = append(made, l.between())
		}
	}
	return made
}

// screenedBy is what comes of a sketch by a book of some criteria.
func screenedBy(t *testing.T, s sketchtest.Sketch, criteria ...string) sketchtest.Memory {
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: {file: proposals, accuracy: 0.1 ft}\nlayers:\n"+bothLines))
	require.NoError(t, err)
	made := sketchtest.Memory{}
	_, err = Run(t.Context(), j, sketchtest.WithBook{Sketch: s, Criteria: criteria}, made, Options{Workers: 1})
	require.NoError(t, err)
	return made
}

// TestWhatLiesAlongTheShoreIsDrawn: where the demo's openings, overlaps and runs lie follows
// from the feet in which it is drawn. Of P-05 the opening of 6 ft counts, that of 4.8 does
// not; of P-22 neither of 4 ft does; the rows of P-28 overlap from 35 to 70 - 25. Worked by
// hand.
func TestWhatLiesAlongTheShoreIsDrawn(t *testing.T) {
	measured := runDemo(t, 1)["measured.geojson"]
	for id, want := range map[string][]string{
		"P-05": {"narrowest opening 2-3: 4.80 ft, x 1660.0-1664.8", "longest run without a counting opening: 118.80 ft, x 1606.0-1724.8"},
		"P-07": {"longest run without a counting opening: 80.00 ft, x 1000.0-1080.0"},
		"P-22": {"narrowest opening 1-2: 4.00 ft, x 3982.0-3986.0", "narrowest opening 2-3: 4.00 ft, x 3990.0-3994.0", "longest run without a counting opening: 20.00 ft, x 3978.0-3998.0"},
		"P-28": {"longest overlap of neighbouring elements: 10.00 ft, x 35.0-45.0", "narrowest opening 1-2: 6.00 ft, x 35.0-35.0", "longest run without a counting opening: 35.00 ft, x 10.0-45.0"},
	} {
		require.Equal(t, want, alongShore(t, measured, id), id)
	}
}

// Three sills of 40 ft, openings of 6 and 3 ft between them, drawn from the east: they are
// numbered from the left for who looks over the water. The narrowest opening is drawn, and
// what is narrower than the widest opening that a book asks for; runs are those of the first
// width asked for, as in the tables. Worked by hand.
func TestNarrowOpeningsAreDrawn(t *testing.T) {
	row := sketchtest.PlainSite(fmt.Sprintf(`{"type":"Feature","properties":{%s,"width_ft":4},"geometry":{"type":"MultiLineString","coordinates":[%s,%s,%s]}}`,
		sketchtest.Plain, sketchtest.Positions(89, 129), sketchtest.Positions(46, 86), sketchtest.Positions(0, 40)))
	const run = "measure: longest_run, with: {opening: 5 ft}, at_most: 100 ft"
	const narrowest, longest = "narrowest opening 2-3: 3.00 ft, x 86.0-89.0", "longest run without a counting opening: 83.00 ft, x 46.0-129.0"
	require.Equal(t, []string{narrowest, longest}, alongShore(t, screenedBy(t, row, run)["measured.geojson"], "a"))
	wider := screenedBy(t, row, run, "measure: openings, with: {opening: 6.5 ft}, at_most: 3")
	require.Equal(t, []string{"opening 1-2: 6.00 ft, x 40.0-46.0", narrowest, longest}, alongShore(t, wider["measured.geojson"], "a"))
	// Without a width nobody knows how wide the openings are.
	row["proposals"][0] = strings.Replace(row["proposals"][0], `"width_ft":4`, `"note":"no width"`, 1)
	require.Empty(t, alongShore(t, screenedBy(t, row, run)["measured.geojson"], "a"))
}

// A sill that adjoins another of its project is of one run with it, which reaches from end to
// end of both: 40 + 3 + 40 ft. Worked by hand.
func TestTheRunOfAdjoiningProposalsIsDrawn(t *testing.T) {
	other := strings.Replace(sketchtest.Plain, `"id":"a"`, `"id":"b"`, 1)
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+`,"project":"p"`, 0, 4, 40, 8))
	s["proposals"] = append(s["proposals"], sketchtest.Rectangle(other+`,"project":"p"`, 43, 4, 83, 8))
	out := screenedBy(t, s, "measure: longest_run, with: {opening: 5 ft}, at_most: 100 ft")["measured.geojson"]
	for _, id := range []string{"a", "b"} {
		require.Equal(t, []string{"longest run without a counting opening: 83.00 ft, x 0.0-83.0"}, alongShore(t, out, id), id)
	}
}

// TestMeasuredLinesSayHowFarOffTheyMayBe: by the accuracies of the demo, 0.2 ft of proposals,
// 0.1 of mean high and 0.5 of mean low water: 1.6449 x sqrt(0.2^2 + 0.1^2) / 2.4477 = 0.15,
// with 0.5 for 0.1 it is 0.36, and between two edges of the proposal, with 0.2, 0.19 (worked
// by hand); and as criteria.csv says of the same measure. Distances keep their signs: P-01
// lies landward of mean low water. P-07 stands in seagrass, at no distance, and has no line.
func TestMeasuredLinesSayHowFarOffTheyMayBe(t *testing.T) {
	out := runDemo(t, 1)
	all, err := csv.NewReader(out["criteria.csv"]).ReadAll()
	require.NoError(t, err)
	said := map[[2]string]string{}
	column := func(name string) int { return slices.Index(all[0], name) }
	for _, row := range all[1:] {
		if text := row[column("tolerance_ft")]; text != "" && row[column("value")] != "" {
			said[[2]string{row[0], row[column("measure")]}] = text
		}
	}
	want := map[string]string{
		"mhw_farthest": "9.40 0.15", "mhw_nearest": "3.00 0.15", "mlw_farthest": "-14.60 0.36", "mlw_nearest": "-21.00 0.36", "narrowest_opening": "6.50 0.19", "longest_run": "46.00 0.19",
	}
	compared := 0
	for _, l := range linesOf(t, out["measured.geojson"]) {
		p := l.Properties
		require.NotNil(t, p.Tolerance, "%s %s", p.ID, p.Measure)
		require.NotZero(t, p.Distance, "%s %s", p.ID, p.Measure)
		require.False(t, p.ID == "P-07" && p.Measure == "seagrass_nearest")
		if text, has := want[p.Measure]; has && p.ID == "P-01" {
			require.Equal(t, text, fmt.Sprintf("%.2f %.2f", p.Distance, *p.Tolerance), p.Measure)
			delete(want, p.Measure)
		}
		if text, has := said[[2]string{p.ID, p.Measure}]; has {
			require.Equal(t, text, fmt.Sprintf("%.2f", *p.Tolerance), "%s %s", p.ID, p.Measure)
			compared++
		}
	}
	require.Empty(t, want)
	require.Greater(t, compared, 40)
}

// TestSetbacksSayWhoseTheyAre: a line for what a limit demands, with all criteria that demand
// it; the path without criteria sets none. Worked by hand.
func TestSetbacksSayWhoseTheyAre(t *testing.T) {
	out := screenedBy(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)),
		`measure: mhw_farthest, at_most: 10 ft, cite: "Code 1"`, `measure: mhw_farthest, less_than: 10 ft, cite: "Code 2"`,
		`measure: mhw_farthest, at_most: 10 ft, cite: "Code 3"`, `measure: mlw_nearest, at_most: 2 m`)
	want := []string{
		"at most 10 ft from the mean high water line: Small (town)|town|Small|Code 1; Code 3|town/small/c0; town/small/c2|10.00 at 10.00",
		"less than 10 ft from the mean high water line: Small (town)|town|Small|Code 2|town/small/c1|10.00 at 10.00",
		"at most 2 m from the mean low water line: Small (town)|town|Small||town/small/c3|6.56 at 26.56", // beyond the line at 20 ft
	}
	var got []string
	for _, l := range linesOf(t, out["setbacks.geojson"]) {
		p := l.Properties
		got = append(got, fmt.Sprintf("%s|%.2f at %.2f", strings.Join([]string{p.Title, p.Authority, p.Path, p.Cite, p.Criteria}, "|"), p.Distance, l.feet()[0][1]))
	}
	require.Equal(t, want, got)
}
