package screening

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// Two pages of a layer that overlap: what stands in both is dropped from the
// second and counted; the same number on another shape is another feature. Of a
// bed of 20 x 2 ft under the footprint each copy would count once in the overlap.
func TestPagesThatOverlap(t *testing.T) {
	bed := sketchtest.Rectangle(`"OBJECTID":1`, 10, 7, 30, 9)
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["one"] = []string{bed, sketchtest.Rectangle(`"OBJECTID":2`, 300, 40, 320, 60)}
	s["two"] = []string{bed, sketchtest.Rectangle(`"OBJECTID":2`, 40, 7, 50, 9)}
	text := `
proposals: {file: proposals, accuracy: 0.1 ft}
layers:
  high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88}
  seagrass: {file: [one, two], accuracy: 0.1 ft}
`
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [us-fl-state]\n"+text))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	_, err = Run(t.Context(), j, s, out, Options{Workers: 1})
	require.NoError(t, err)
	require.Equal(t, "60.0", sketchtest.Rows(t, out)["a"]["seagrass_overlap_sqft"])
	require.Contains(t, out["run.json"].String(), `"repeated": 1,`)
}

func TestAPageAndTooFewDecimalsAreWarnedOf(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	for i := range 500 {
		s["page"] = append(s["page"], sketchtest.Rectangle(fmt.Sprintf(`"OBJECTID":%d`, i), 300, 40, 320, 60))
	}
	s["coarse"] = []string{`{"type":"Feature","properties":{"side":"water_left"},"geometry":{"type":"LineString","coordinates":[[-74.60251,30.00005],[-74.59750000,30.00005]]}}`}
	_, report, err := jobOf(t, s, `
proposals: {file: proposals, accuracy: 0.1 ft}
layers:
  high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88}
  low_water: {file: coarse}
  seagrass: {file: page, accuracy: 0.1 ft}
`)
	require.NoError(t, err)
	require.Equal(t, []string{
		// Half of 0.00001 degree is 0.557 m on the equator.
		"low_water: a feature of coarse is written with 5 decimals, so its positions may be 1.83 ft off: export it with more",
		"seagrass: page has exactly 500 features, the size of a page: make sure that it is the whole layer",
	}, report.Warnings)
}

func TestAFileOfALayerThatIsNoDegrees(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["metres"] = []string{`{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[500000,3000000],[500100,3000000],[500100,3000100],[500000,3000000]]]}}`}
	_, _, err := jobOf(t, s, `
proposals: {file: proposals}
layers:
  high_water: {file: high, datum: NAVD88}
  seagrass: {file: [grass, metres]}
`)
	require.ErrorContains(t, err, "metres: its coordinates (x 500000 to 500100, y 3000000 to 3000100) are no longitude and latitude, and it does not say what they are")
	require.ErrorContains(t, err, "--crs seagrass=EPSG:n")
}

// Of features beyond every proposal's reach only the extent is kept, and what a
// run says is the same as if all had been.
func TestFarFeaturesAreNotKept(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	near := len(s["grass"])
	for i := range 50 {
		x := 4000 + 200*float64(i)
		s["grass"] = append(s["grass"], sketchtest.Rectangle(fmt.Sprintf(`"id":"far %d"`, i), x, 100, x+100, 200))
	}
	j := &job.Job{
		Proposals: job.ProposalSources{{Files: job.FileList{"proposals"}}}, SearchRadius: job.Distance{Metres: job.DefaultRadius, Stated: true},
		Layers: job.LayerSources{HighWater: &job.LayerSource{Files: job.FileList{"high"}}, Seagrass: &job.LayerSource{Files: job.FileList{"grass"}}},
	}
	in, err := newIntake(t.Context(), s, j.Proposals)
	require.NoError(t, err)
	roster, err := newRoster(t.Context(), in)
	require.NoError(t, err)
	places := findProjects(t.Context(), roster, job.DefaultRadius).places
	kept, err := (&layers.Loader{Files: s, Log: &inputs.Log{}, Places: places}).Load(j)
	require.NoError(t, err)
	whole, err := (&layers.Loader{Files: s, Log: &inputs.Log{}}).Load(j)
	require.NoError(t, err)
	require.Len(t, kept.Layer("seagrass").Geo.Items, near)
	require.Len(t, whole.Layer("seagrass").Geo.Items, near+50)
	require.Equal(t, 50+near, kept.Layer("seagrass").Usable)
	keptBound, _ := kept.Layer("seagrass").Geo.Bound()
	wholeBound, _ := whole.Layer("seagrass").Geo.Bound()
	require.Equal(t, wholeBound, keptBound)
}

// With the files of the two tidal lines swapped, the stated side of each is at odds
// with the other line: no distance is known, and the reason names both.
func TestSwappedTidalLinesAreNeverMeasured(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 23, 60, 29))
	s["high"] = []string{sketchtest.Shape("LineString", `"side":"water_left"`, sketchtest.Along(20)...)}
	s["low"] = []string{sketchtest.Shape("LineString", `"side":"water_left"`, sketchtest.Along(0)...)}
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [us-fl-state]\nproposals: {file: proposals}\nlayers: {high_water: {file: high}, low_water: {file: low}}"))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	_, err = Run(t.Context(), j, s, out, Options{Workers: 1})
	require.NoError(t, err)
	require.Empty(t, sketchtest.Rows(t, out)["a"]["mhw_farthest_ft"])
	require.Contains(t, out["criteria.csv"].String(), "is contradicted by the stated side and the other tidal line")
}
