package screening

import (
	"context"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// What a request is for, worked by hand: without a datum neither the crest of 0.5 ft over
// high water nor the choice of path is known; without the kind alone the path stands if it
// is a sill.
func TestWhatARequestIsFor(t *testing.T) {
	const crest, kind = "measure: crest_above_mhw, at_most: 1 ft, says: Low, ", "measure: kind, any_of: [sill], if_stated: true, says: Only sills"
	for _, c := range []struct {
		name, properties string
		criteria         []string
		want             []string // authorities, why, then
	}{
		{"opens an easier path", `"id":"a","kind":"sill","crest_elev_ft":1,"accuracy_ft":0.1,"elevation_accuracy_ft":0.1`, []string{crest + "cite: x"},
			[]string{"town", "town: Low", "town: Small if this bears it out, else Full"}},
		{"two things", `"id":"a","crest_elev_ft":1,"accuracy_ft":0.1,"elevation_accuracy_ft":0.1`, []string{crest + "cite: x", strings.Replace(kind, "if_stated: true, ", "", 1)},
			[]string{"town", "town: Low", "town: Small if all that is asked bears it out, else Full"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sketchtest.PlainSite(bar(c.properties, 0, 60))
			j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nproposals: proposals\nlayers: {high_water: {file: high, surveyed: seen, accuracy: 0.1 ft, datum: NAVD88, date: 2024-05-01}}\n"))
			require.NoError(t, err)
			out := sketchtest.Memory{}
			_, err = Run(context.Background(), j, sketchtest.WithBook{Sketch: s, Criteria: c.criteria}, out, Options{Workers: 1})
			require.NoError(t, err)
			rows, err := csv.NewReader(out["requests.csv"]).ReadAll()
			require.NoError(t, err)
			require.Greater(t, len(rows), 1)
			require.Equal(t, c.want, []string{rows[1][1], rows[1][3], rows[1][4]})
		})
	}
}
