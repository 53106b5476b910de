package screening

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

func withSurvey(grass ...string) sketchtest.Sketch {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["grass"] = grass
	return s
}

const (
	surveyedGrass = "proposals: {file: proposals, accuracy: 0.1 ft}\nlayers: {high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88, date: 2026-01-01}, low_water: {file: low, accuracy: 0.1 ft, date: 2026-01-01}, seagrass: {file: grass, surveyed: seen, accuracy: 0.1 ft, date: 2026-01-01}, " + sketchtest.NoneOfRest + "}\n"
	onlyGrass     = "surveyed: seen, only: {from: KIND, any_of: [grass, 9113]"
)

// A bed lies over the structure here; what only makes of its class must never read as
// no bed at all without a word.
func TestWhatOnlyLeavesOutIsSaid(t *testing.T) {
	far := sketchtest.Rectangle(`"id":"far","KIND":"grass"`, 500, 100, 600, 200)
	for _, c := range []struct{ property, others, overlap, certainty, request string }{
		{`"KIND":"Grass"`, "", "360.0", "firm", ""},
		{`"KIND":" grass "`, "", "360.0", "firm", ""},
		{`"KIND":9113`, "", "360.0", "firm", ""},
		{`"KIND":"9113.0"`, "", "360.0", "firm", ""},
		{`"KIND":""`, "", "", "needs information", ""},
		{`"KIND":null`, "", "", "needs information", ""},
		{`"OTHER":1`, "", "", "needs information", ""},
		{`"KIND":"sparse"`, "", "0.0", "needs information", `features of seagrass near here are left out by only, by their KIND: "sparse" (1)`},
		{`"KIND":"sparse"`, ", others: []", "", "needs information", ""},
		{`"KIND":"sparse"`, ", others: [algae]", "", "needs information", ""},
		{`"KIND":"Algae"`, ", others: [algae]", "0.0", "firm", ""},
		{`"KIND":"sparse"`, `, others: ["*"]`, "0.0", "firm", ""},
	} {
		s := withSurvey(far, sketchtest.Rectangle(`"id":"here",`+c.property, -10, 0, 80, 30))
		rows, report, err := jobOf(t, s, strings.Replace(surveyedGrass, "surveyed: seen", onlyGrass+c.others+"}", 1))
		require.NoError(t, err)
		require.Equal(t, c.overlap, rows["a"]["seagrass_overlap_sqft"], c)
		require.Equal(t, c.certainty, rows["a"]["state_certainty"], c)
		left := strings.Contains(strings.Join(report.Doubts, " "), "seagrass: by only are left out, by their KIND:")
		require.Equal(t, c.overlap == "0.0", left, c)
		if c.request != "" {
			require.Contains(t, rows["a"]["state_requests"], c.request)
		} else {
			require.NotContains(t, rows["a"]["state_requests"], "left out")
		}
	}
}

// Where features of a layer are lost nothing on it is firm, surveyed or not; where all
// are, nothing is known. A feature that says it has no geometry may lie anywhere too.
func TestALayerThatLostFeatures(t *testing.T) {
	far := sketchtest.Rectangle(`"id":"far"`, 500, 100, 600, 200)
	esri := `{"type":"Feature","properties":{"id":"x"},"geometry":{"rings":[]}}`
	null := `{"type":"Feature","properties":{"id":"x"},"geometry":null}`
	huge := strings.Replace(sketchtest.Rectangle(`"id":"x"`, -10, 0, 80, 30), "[[[", "[[[1e999,0],[", 1)
	for name, c := range map[string]struct {
		grass                     []string
		nearest, certainty, lacks string
	}{
		"whole":      {[]string{far}, "", "firm", ""},
		"one lost":   {[]string{far, esri}, "", "needs information", "1 feature of seagrass cannot be used and may lie anywhere"},
		"all lost":   {[]string{esri}, "", "needs information", ""},
		"unlocated":  {[]string{far, null}, "", "needs information", "1 feature of seagrass cannot be used and may lie anywhere"},
		"bad number": {[]string{far, huge}, "", "needs information", ""},
	} {
		rows, _, err := jobOf(t, withSurvey(c.grass...), surveyedGrass)
		require.NoError(t, err, name)
		require.Equal(t, c.certainty, rows["a"]["state_certainty"], name)
		require.Contains(t, rows["a"]["state_requests"], c.lacks, name)
	}
}

// One bed among others has latitude and longitude swapped: it lies over the structure.
func TestOneSwappedFeature(t *testing.T) {
	far := sketchtest.Rectangle(`"id":"far"`, 500, 100, 600, 200)
	swapped := `{"type":"Feature","properties":{"id":"swapped"},"geometry":{"type":"Polygon","coordinates":[[[30,-74.6],[30,-74.5999],[30.0001,-74.5999],[30.0001,-74.6],[30,-74.6]]]}}`
	rows, report, err := jobOf(t, withSurvey(far, swapped), surveyedGrass)
	require.NoError(t, err)
	require.Equal(t, "needs information", rows["a"]["state_certainty"])
	require.Contains(t, strings.Join(report.Messages, " "), "grass: feature 2 (id swapped): it lies beside a proposal only with latitude and longitude swapped")
}

// A layer that as a whole lies elsewhere, though a survey says it is complete here, makes
// nothing firm.
func TestALayerThatLiesElsewhere(t *testing.T) {
	elsewhere := `{"type":"Feature","properties":{"id":"e"},"geometry":{"type":"Polygon","coordinates":[[[-70,30],[-69.9,30],[-69.9,30.1],[-70,30]]]}}`
	rows, report, err := jobOf(t, withSurvey(elsewhere), surveyedGrass)
	require.NoError(t, err)
	require.Equal(t, "needs information", rows["a"]["state_certainty"])
	require.Contains(t, strings.Join(report.Doubts, " "), "seagrass: grass lies nowhere near the high water line")
}

// Bed A is exact and 11 ft off, bed B is known to 14 ft and lies 12 ft off: that B may
// be nearer than 10 ft leaves the county's 10 ft open. Guards by hand: A 1.6449 x
// sqrt(0.1^2+0.1^2)/2.4477 = 0.10 < 1; B 1.6449 x sqrt(14^2+0.1^2)/2.4477 = 9.41, less
// the 1 ft it lies farther, 8.41 > 1.
func TestACoarseFeatureBehindAnExactOne(t *testing.T) {
	s := withSurvey(
		sketchtest.Rectangle(`"id":"A","accuracy_ft":0.1`, 0, 20, 60, 40),
		sketchtest.Rectangle(`"id":"B","accuracy_ft":14`, 72, 3, 90, 9))
	_, criteria := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: seagrass_nearest, at_least: 10 ft"}}, "\n  high_water: {file: high, accuracy: 0.1 ft}\n  seagrass: {file: grass, surveyed: seen}\n")
	require.Equal(t, "close", criteria[0]["result"])
	tolerance, err := strconv.ParseFloat(criteria[0]["tolerance_ft"], 64)
	require.NoError(t, err)
	require.InDelta(t, 8.41, tolerance, 0.01)
}
