package screening

import (
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// The properties by which the public schemas say of when a feature is: SRC_DATE of the
// national shoreline, text without marks between; SOURCEDATE of the statewide seagrass,
// often a year; EFFECTDATE of critical habitat.
func TestPresetsTellTheDatesOfFeatures(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["shore"] = []string{sketchtest.Shape("LineString", `"ATTRIBUTE":"Natural.Mean High Water","HOR_ACC":"4.31","SRC_DATE":"20120314"`, sketchtest.Along(0)...)}
	s["beds"] = []string{sketchtest.Rectangle(`"SEAGRASS":"Continuous","SOURCEDATE":"2015"`, 400, 100, 500, 200)}
	s["habitat"] = []string{sketchtest.Rectangle(`"STATUS":"Final","UNITNAME":"Unit 1","EFFECTDATE":1392768000000`, -500, -500, 500, 500)} // 2014-02-19
	_, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{
		"measure: mhw_farthest, at_most: 30 ft, max_age: 5 years", "measure: seagrass_nearest, at_least: 50 ft, max_age: 12 years", "measure: in_area:habitat, is: outside",
	}}, `
  high_water: {file: shore, preset: tidal-shoreline, properties: {side: {is: water_left}}}
  seagrass: {file: beds, preset: seagrass-statewide}
  areas: {habitat: {file: habitat, preset: critical-habitat}}
`)
	require.Equal(t, "2012-03-14", criteria[0]["date"])
	require.Contains(t, criteria[0]["reason"], "the mean high water line is of 2012-03-14, older than the 5 years it may be")
	require.Equal(t, "2015-01-01", criteria[1]["date"])
	require.NotContains(t, criteria[1]["reason"], "older")
	require.Equal(t, "2014-02-19", criteria[2]["date"])
}
