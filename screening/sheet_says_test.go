package screening

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// TestSheetSays: what sheets say of a structure at a straight shore along y = 0, mean low water
// along y = 20. Worked by hand, in feet.
func TestSheetSays(t *testing.T) {
	stated := strings.Replace(sketchtest.Plain, `"id":"a"`, `"id":"a","crest_width_ft":2`, 1)
	bent := [][2]float64{{0, 30}, {30, 60}, {60, 60}}
	for name, c := range map[string]struct {
		proposal  string
		says, not []string
	}{
		// Each distance once, from either line by its own name.
		"straight": {sketchtest.Rectangle(stated+`,"bed_elev_ft":-2`, 0, 6, 60, 14),
			[]string{">14.00 to MHW<", ">6.00 to MHW<", ">14.00 to MLW<", ">6.00 to MLW<", ">60.00<", ">8.00<", ">20.00 MHW to MLW<", ">14.00 MHW to farthest toe T<", "Bed -2.00 as stated"}, []string{"landward of MLW"}},
		// The mean of several beds is not called stated.
		"two beds": {sketchtest.Rectangle(stated+`,"bed_elev_ft":[-1,-2]`, 0, 6, 60, 14), []string{"Bed -1.50, mean of 2 stated"}, []string{"-1.50 as stated"}},
		// 42.43 and 30 along a bend have no dimension line, and are told.
		"bent": {sketchtest.Shape("LineString", stated+`,"bed_elev_ft":-2,"width_ft":8`, bent...), []string{">72.43 along<"}, nil},
		// On land there is no section.
		"on land": {sketchtest.Rectangle(stated+`,"bed_elev_ft":-2`, 0, -20, 60, -12), []string{"No section: it lies landward of mean high water.", ">12.00 landward of MHW<"}, []string{"farthest toe"}},
		// Discs round a corner have no overall dimension line: 3 x 4 and two openings of 6. Their
		// width, the same of each, is told once.
		"discs": {sketchtest.Shape("MultiPoint", stated+`,"bed_elev_ft":-2,"diameter_ft":4`, [2]float64{0, 8}, [2]float64{10, 8}, [2]float64{10, 18}), []string{"Overall, elements and openings: 24.00 ft", ">diameter 4.00 typ.<"}, nil},
	} {
		j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [us-fl-state, us-federal]\n"+sketchtest.OneOfEach))
		require.NoError(t, err)
		made := sketchtest.Memory{}
		_, err = Run(context.Background(), j, sketchtest.PlainSite(c.proposal), made, Options{Workers: 1, Sheets: Sheets{All: true}})
		require.NoError(t, err, name)
		require.Contains(t, made, "sheets/a.html", name)
		sheet := made["sheets/a.html"].String()
		for _, text := range c.says {
			require.Equal(t, 1, strings.Count(sheet, text), "%s: %s", name, text)
		}
		for _, text := range c.not {
			require.NotContains(t, sheet, text, name)
		}
	}
}
