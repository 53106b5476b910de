package screening

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestDatesOfLayers(t *testing.T) {
	for text, want := range map[string]string{
		"2024-08-20": "2024-08-20", " 2024/08/20": "2024-08-20", "20240820": "2024-08-20", "2024-08": "2024-08-01", "2024": "2024-01-01",
		"2024-08-20T23:59:00Z": "2024-08-20",
		"1724112000000":        "2024-08-20", // milliseconds from 1970
		"08/20/2024":           "",           // or is it the 8th of a month?
		"summer 2024":          "", "": "", "20241399": "",
	} {
		got, ok := parseDate(text)
		require.Equal(t, want != "", ok, text)
		if ok {
			require.Equal(t, want, got.Format(time.DateOnly), text)
		}
	}
}

// Five years before the decision date, 2026-11-25, is 2021-11-25.
func TestOldDataSupportNoFirmResult(t *testing.T) {
	for _, tt := range []struct {
		layer, properties, standing string
	}{
		{"date: 2021-11-25, max_age: 5 years", `"id":"g"`, "firm"},
		{"date: 2021-11-24, max_age: 5 years", `"id":"g"`, "needs information"},
		{"date: 2021-11-24", `"id":"g"`, "firm"},
		{"max_age: 60 months", `"id":"g"`, "needs information"},
		{"date: some day, max_age: 5 years", `"id":"g"`, "needs information"},
		{"date: 2011, max_age: 5 years, properties: {date: FLOWN}", `"FLOWN":1724112000000`, "firm"},
		{"date: 2024, max_age: 5 years, properties: {date: FLOWN}", `"FLOWN":"20110801"`, "needs information"},
	} {
		s := plainSite(rectangle(plain, 0, 3, 60, 9))
		s["grass"] = []string{rectangle(tt.properties, 20, 100, 50, 200)}
		rows, _, err := jobOf(t, s, `
proposals: {file: proposals, accuracy: 0.1 ft}
layers:
  high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88}
  seagrass: {file: grass, accuracy: 0.1 ft, `+tt.layer+`}
`)
		require.NoError(t, err)
		require.Equal(t, "exemption", rows["a"]["state_path"], tt.layer)
		require.Equal(t, tt.standing, rows["a"]["state_standing"], tt.layer)
	}
	_, _, err := jobOf(t, plainSite(rectangle(plain, 0, 3, 60, 9)), "layers: {high_water: {file: high, max_age: old}}")
	require.ErrorContains(t, err, `"old" is no age; write it as "5 years"`)
}
