package screening

import (
	"bytes"
	"context"
	"encoding/csv"
	"io"
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// ran screens proposals beside the plain shore, all of it surveyed, compared with earlier
// outputs if any are given.
func ran(t *testing.T, day string, since sketchtest.Memory, proposals ...string) (sketchtest.Memory, *Report, error) {
	s := sketchtest.PlainSite("")
	s["proposals"] = proposals
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: "+day+"\nbooks: [./town.yaml]\nproposals: proposals\nlayers: {high_water: {file: high, surveyed: seen, accuracy: 1 ft, datum: NAVD88, date: 2024-05-01}}\n"))
	require.NoError(t, err)
	options := Options{Workers: 2, Version: "1"}
	if since != nil {
		options.Since = func(name string) (io.ReadCloser, error) {
			if since[name] == nil {
				return nil, fs.ErrNotExist
			}
			return io.NopCloser(bytes.NewReader(since[name].Bytes())), nil
		}
	}
	out := sketchtest.Memory{}
	report, err := Run(context.Background(), j, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 10 ft, says: Near", "measure: kind, any_of: [sill], says: Sills"}}, out, options)
	return out, report, err
}

// far is a bar that reaches so far, in feet, off the shore.
func far(properties string, to float64) string { return sketchtest.Rectangle(properties, 0, 3, 60, to) }

// What changed is worked by hand: positions good to 1 ft each (95 %) leave a distance 0.95 ft
// open, 1.6449 * sqrt(1 + 1) / 2.4477, so that 8.0 and 8.5 ft are the same and 8.0 and 9.5
// are not.
func TestSinceAnEarlierRun(t *testing.T) {
	const own = `"id":"p","kind":"sill","accuracy_ft":1`
	for _, c := range []struct {
		name          string
		before, after []string
		want          []string // id, what, authority, before, after
	}{
		{"nothing", []string{far(own, 8)}, []string{far(own, 8)}, nil},
		{"within tolerance", []string{far(own, 8)}, []string{far(own, 8.5)}, []string{"p,footprint_sqft,,300.0,330.0"}}, // which has none
		{"beyond tolerance", []string{far(own, 6)}, []string{far(own, 7.5)}, []string{"p,mhw_farthest_ft,,6.00,7.50", "p,footprint_sqft,,180.0,270.0"}},
		{"another path", []string{far(own, 8)}, []string{far(own, 30)}, []string{"p,path,town,Small,Full", "p,mhw_farthest_ft,,8.00,30.00", "p,footprint_sqft,,300.0,1620.0"}},
		{"a request answered", []string{far(`"id":"p","accuracy_ft":1`, 6)}, []string{far(own, 6)},
			[]string{"p,path,town,Full,Small", "p,certainty,town,needs information,firm", "p,no longer asked,,the proposal does not state its kind,"}},
		{"a new version", []string{far(own+`,"version":1`, 6)}, []string{far(own+`,"version":1`, 6), far(own+`,"version":2`, 6)}, []string{"p,version,,1,2"}},
		{"only the version decided before", []string{far(own+`,"version":1`, 30), far(own+`,"version":2`, 6)}, []string{far(own+`,"version":2`, 6)}, nil},
		{"one id twice", []string{far(own, 6), far(own, 8)}, []string{far(own, 6), far(own, 8)}, nil},
		{"new and gone", []string{far(own, 6)}, []string{far(`"id":"q","kind":"sill","accuracy_ft":1`, 6)}, []string{"q,proposal,,,new", "p,proposal,,there,gone"}},
		{"no result", []string{far(own, 6)}, []string{far(own+`,"width_ft":-1`, 6)}, []string{"p,without a result,,,*", "p,mhw_farthest_ft,,6.00,"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			first, _, err := ran(t, "2026-11-25", nil, c.before...)
			require.NoError(t, err)
			out, report, err := ran(t, "2026-11-25", first, c.after...)
			require.NoError(t, err)
			rows, err := csv.NewReader(out["changes.csv"]).ReadAll()
			require.NoError(t, err)
			var got []string
			for _, row := range rows[1:] {
				if !strings.HasPrefix(row[1], "file of proposals") {
					got = append(got, strings.Join(row, ","))
				}
			}
			for _, want := range c.want {
				at := 0
				for at < len(got) && got[at] != want && !(strings.HasSuffix(want, "*") && strings.HasPrefix(got[at], strings.TrimSuffix(want, "*"))) {
					at++
				}
				if strings.HasSuffix(want, "6.00,") { // a row without a result has no measures to compare
					require.Equal(t, len(got), at)
					continue
				}
				require.Less(t, at, len(got), "%s in %q", want, got)
			}
			if c.name == "within tolerance" {
				require.Len(t, got, 1)
			}
			if c.want == nil {
				require.Empty(t, got)
				require.Zero(t, report.Changed)
			} else {
				require.Equal(t, 1, report.Changed)
			}
			require.Equal(t, report.Changed > 0, strings.Contains(out["index.html"].String(), "1 changed</a> since the earlier run"))
		})
	}
}

func TestSinceWhatIsDecidedBy(t *testing.T) {
	first, _, err := ran(t, "2026-11-25", nil, far(`"id":"p","kind":"sill","accuracy_ft":1`, 6))
	require.NoError(t, err)
	out, _, err := ran(t, "2026-12-25", first, far(`"id":"p","kind":"sill","accuracy_ft":1`, 6))
	require.NoError(t, err)
	require.Equal(t, "id,what,authority,before,after\r\n,decision date,,2026-11-25,2026-12-25\r\n", out["changes.csv"].String())
}

// What is no earlier screening is refused, with what it lacks.
func TestSinceWhatIsNoScreening(t *testing.T) {
	whole, _, err := ran(t, "2026-11-25", nil, far(`"id":"p","kind":"sill"`, 6))
	require.NoError(t, err)
	for name, c := range map[string]struct{ file, text, wrong string }{
		"another command":   {"run.json", `{"tool":"waterward","command":"envelope"}`, "it is no result of waterward screen"},
		"no JSON":           {"run.json", "{", "its run.json cannot be read"},
		"a table of old":    {"summary.csv", "id,path\np,small\n", "its summary.csv has no column not_decided; it was written by waterward 1"},
		"a broken table":    {"measures.csv", "id,a\n\"p", "its measures.csv cannot be read"},
		"a table not there": {"requests.csv", "", "its requests.csv is not there"},
	} {
		t.Run(name, func(t *testing.T) {
			broken := sketchtest.Memory{}
			for k, v := range whole {
				broken[k] = v
			}
			broken[c.file] = bytes.NewBufferString(c.text)
			if c.text == "" {
				delete(broken, c.file)
			}
			_, _, err := ran(t, "2026-11-25", broken, far(`"id":"p","kind":"sill"`, 6))
			require.ErrorContains(t, err, c.wrong)
		})
	}
}
