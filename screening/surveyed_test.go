package screening

import (
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// The proposal lies at 0 <= x <= 60, 3 <= y <= 9, 341 ft from the bed at x 400, y 100
// (340 and 91, so 351.97 ft). Worked by hand.
func TestSurveyedAreasInTiles(t *testing.T) {
	for _, tt := range []struct {
		name    string
		tiles   []string
		nearest string
		reason  string
	}{
		{"one", []string{sketchtest.Rectangle("", -500, -500, 560, 500)}, "351.97", ""},
		{"a seam through it", []string{sketchtest.Rectangle("", -500, -500, 30, 500), sketchtest.Rectangle("", 30, -500, 560, 500)}, "351.97", ""},
		{"a seam beside it", []string{sketchtest.Rectangle("", -500, -500, 70, 500), sketchtest.Rectangle("", 70, -500, 560, 500)}, "351.97", ""},
		{"overlapping", []string{sketchtest.Rectangle("", -500, -500, 70, 500), sketchtest.Rectangle("", 20, -500, 560, 500)}, "351.97", ""},
		{"four", []string{sketchtest.Rectangle("", -500, -500, 30, 6), sketchtest.Rectangle("", 30, -500, 560, 6), sketchtest.Rectangle("", -500, 6, 30, 500), sketchtest.Rectangle("", 30, 6, 560, 500)}, "351.97", ""},
		// Its edge is 100 ft off, nearer than the bed: more than that is known, no more.
		{"a seam, and an edge nearer than the bed", []string{sketchtest.Rectangle("", -100, -500, 30, 500), sketchtest.Rectangle("", 30, -500, 560, 500)}, "", "none within 100 ft; the survey of seagrass goes no farther"},
		{"a gap", []string{sketchtest.Rectangle("", -500, -500, 30, 500), sketchtest.Rectangle("", 32, -500, 560, 500)}, "", "the site is not inside the surveyed area of seagrass; have it surveyed"},
		{"elsewhere, with the bed", []string{sketchtest.Rectangle("", 300, -500, 560, 500)}, "", "the site is not inside the surveyed area of seagrass; have it surveyed"},
		{"elsewhere, apart from the bed", []string{sketchtest.Rectangle("", -500, -500, -300, 500)}, "", "the site is not inside the surveyed area of seagrass, which lies apart from the layer too: have it surveyed, or, if the two should meet, see to their coordinate systems (crs in the job holds for both)"},
	} {
		s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
		s["tiles"] = tt.tiles
		row, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: seagrass_nearest, at_least: 50 ft"}},
			"  high_water: {file: high, accuracy: 0.1 ft}\n  seagrass: {file: grass, surveyed: tiles, accuracy: 0.1 ft, date: 2026-01-01}\n")
		require.Equal(t, tt.nearest, row["seagrass_nearest_ft"], tt.name)
		require.Equal(t, tt.reason, criteria[0]["reason"], tt.name)
	}
}
