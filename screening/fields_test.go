package screening

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// jobOf runs a sketch under a job written out.
func jobOf(t *testing.T, s sketchtest.Sketch, text string) (map[string]map[string]string, *Report, error) {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [us-fl-state, us-federal]\n"+text))
	if err != nil {
		return nil, nil, err
	}
	out := sketchtest.Memory{}
	report, err := Run(context.Background(), j, s, out, Options{Workers: 1})
	if err != nil {
		return nil, nil, err
	}
	return sketchtest.Rows(t, out), report, nil
}

// The plain site with everything under other names and in other units: a width of
// 1.8288 m is 6 ft, a crest of -3 in lies 0.75 ft under 0.5, an accuracy of
// 0.03048 m is 0.1 ft. Worked by hand.
func TestPropertiesUnderOtherNames(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Shape("LineString", `"APP_NO":" 77 ","TYP":1,"WIDTH_M":"1.8288","CREST":-3,"VDATUM":"NAVD88","BEDS":[-24,-36],"STUFF":"rk","PROJ":"Cove"`, [2]float64{0, 6}, [2]float64{60, 6}))
	s["high"] = []string{sketchtest.Shape("LineString", `"hor_acc":"0.03048","side":"water_left","ELEV_M":0.1524`, sketchtest.Along(0)...)}
	rows, _, err := jobOf(t, s, `
proposals:
  file: proposals
  accuracy: 0.1 ft
  properties:
    id: APP_NO
    kind: {from: TYP, values: {1: sill, 2: breakwater}}
    material: {from: STUFF, values: {rk: rock}}
    width_ft: {from: WIDTH_M, unit: m}
    crest_elev_ft: {from: CREST, unit: in}
    bed_elev_ft: {from: BEDS, unit: in}
    datum: VDATUM
    project: PROJ
    fill: {is: "no"}
layers:
  high_water: {file: high, datum: NAVD 88, date: 2026-01-01, properties: {accuracy_ft: {from: HOR_ACC, unit: m}, elevation_ft: {from: ELEV_M, unit: m}}}
  low_water: {file: low, accuracy: 0.1 ft, date: 2026-01-01}
  seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2026-01-01}
  wetlands: {none: true}
  areas: {coral: {none: true}, shellfish_bed: {none: true}}
`)
	require.NoError(t, err)
	row := rows["77"]
	require.NotNil(t, row)
	for name, want := range map[string]string{
		"kind": "sill", "material": "rock", "fill": "no", "mhw_farthest_ft": "9.00", "crest_above_mhw_ft": "-0.75",
		"mhw_mean_depth_ft": "3.00", "state_path": "exemption", "state_certainty": "firm", "error": "",
	} {
		require.Equal(t, want, row[name], name)
	}
}

func TestMappingsAreReadStrictly(t *testing.T) {
	for j, wrong := range map[string]string{
		"proposals: {file: proposals, properties: {widht_ft: W}}\nlayers: {high_water: {file: high}}":                     "proposals: nothing reads a property widht_ft; properties are",
		"proposals: {file: proposals, properties: {width_ft: {from: W, unit: acre}}}\nlayers: {high_water: {file: high}}": `"acre" is no unit of length`,
		"proposals: {file: proposals, properties: {kind: {from: K, unit: m}}}\nlayers: {high_water: {file: high}}":        "kind is no length, so it has no unit",
		"proposals: {file: proposals, properties: {kind: {form: K}}}\nlayers: {high_water: {file: high}}":                 `job.yaml:3:50: unknown key "form"`,
		"proposals: {file: proposals, properties: {kind: {from: K, is: sill}}}\nlayers: {high_water: {file: high}}":       "is found in one of the file's (from), or is the same for all features (is)",
		"proposals: {file: proposals}\nlayers: {high_water: {file: high, only: {from: K}}}":                               "high_water: only says which features belong to the layer",
		"proposals: {file: proposals}\nlayers: {high_water: {file: high, only: {from: id, any_of: [x]}}}":                 `high_water: none of the 1 features of high belongs to the layer by only: id is "h" (1)`,
		"proposals: {file: proposals}\nlayers: {high_water: {file: high, preset: shore}}":                                 "high_water: preset shore: there is none of that name; built in are critical-habitat, federal-channel",
		"proposals: {file: proposals}\nlayers: {high_water: {file: high}, areas: {a: {file: grass, properties: {b: c}}}}": "areas.a: nothing reads a property b",
	} {
		_, _, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), j)
		require.ErrorContains(t, err, wrong, j)
	}
	// A value the job gives no meaning may mean anything.
	rows, _, err := jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+`,"TYP":9`, 0, 3, 60, 9)),
		"proposals: {file: proposals, properties: {kind: {from: TYP, values: {1: sill}}}}\nlayers: {high_water: {file: high}}")
	require.NoError(t, err)
	require.Contains(t, rows["a"]["error"], `TYP is "9", for which the job gives no meaning`)
	// 2.00 is written as neither of the two, and the same number as both.
	rows, _, err = jobOf(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain+`,"TYP":2.00`, 0, 3, 60, 9)),
		`proposals: {file: proposals, properties: {kind: {from: TYP, values: {2: sill, "2.0": dock}}}}`+"\nlayers: {high_water: {file: high}}")
	require.NoError(t, err)
	require.Contains(t, rows["a"]["error"], `TYP is "2.00", for which the job gives no meaning`)
}

// A shoreline product with lines of other kinds than mean high water, its accuracy
// as text in metres (3.048 m are 10 ft): the end of the data, which is nearer, does not
// count, nor does an apparent shoreline far off; one that is nearer than mean high water
// leaves open which of them is the shore.
func TestAPresetKeepsTheRightLines(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["high"] = []string{
		sketchtest.Shape("LineString", `"ATTRIBUTE":"Natural.Mean High Water.Approximate","HOR_ACC":"3.048","side":"water_left","elevation_ft":0.5`, sketchtest.Along(0)...),
		sketchtest.Shape("LineString", `"ATTRIBUTE":"Natural.Apparent.Marsh Or Swamp","HOR_ACC":"3.048","side":"water_left"`, sketchtest.Along(-30)...),
		sketchtest.Shape("LineString", `"ATTRIBUTE":"Source Data Limit","HOR_ACC":""`, sketchtest.Along(1)...),
	}
	j := `
proposals: {file: proposals, accuracy: 0.1 ft}
layers:
  high_water: {file: high, datum: NAVD88, preset: tidal-shoreline, date: 2026-01-01}
  seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2026-01-01}
  wetlands: {none: true}
  areas: {coral: {none: true}, shellfish_bed: {none: true}}
`
	rows, _, err := jobOf(t, s, j)
	require.NoError(t, err)
	require.Equal(t, "9.00", rows["a"]["mhw_farthest_ft"])
	require.Equal(t, "close call", rows["a"]["state_certainty"], "10 ft of accuracy cannot tell 9 from 10")

	s["high"][1] = sketchtest.Shape("LineString", `"ATTRIBUTE":"Natural.Apparent.Marsh Or Swamp","HOR_ACC":"3.048"`, sketchtest.Along(2)...)
	rows, _, err = jobOf(t, s, j)
	require.NoError(t, err)
	require.Empty(t, rows["a"]["mhw_farthest_ft"])
	require.Contains(t, rows["a"]["state_requests"], `shore of another kind ("Natural.Apparent.Marsh Or Swamp"), which the job leaves out of the mean high water line, lies 1 ft off`)
}
