package inspect

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// inspectedJob inspects a sketch under a job written out.
func inspectedJob(t *testing.T, files job.Files, text string) *JobInspection {
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\n"+text))
	require.NoError(t, err)
	found, err := Job(files, j)
	require.NoError(t, err)
	return found
}

// criteria are those that hang on a need; none if the job does not have it.
func (j *JobInspection) criteria(what string) []string {
	for _, n := range j.Needs {
		if n.What == what {
			return n.Criteria
		}
	}
	return nil
}

const stateOnly = "books: [us-fl-state]\n"

// What a book holds against a proposal only if it states it, as the exemption does fill, is
// asked for all the same, and so is the text that nobody has read. Read off the book.
func TestWhatABookAsksIsANeed(t *testing.T) {
	bare := sketchtest.PlainSite(sketchtest.Rectangle(`"id":"a"`, 0, 3, 60, 9))
	found := inspectedJob(t, bare, stateOnly+sketchtest.OneOfEach)
	require.Contains(t, found.criteria("the property fill"), "us-fl-state/exemption/fill")
	require.Contains(t, found.criteria("the property kind"), "us-fl-state/exemption/kind")
	require.Contains(t, found.criteria("the property material"), "us-fl-state/exemption/material")
	require.Contains(t, found.criteria("the text of F.A.C. 62-330.632(2)(d) and following"), "us-fl-state/oyster-habitat/rest")
	require.Contains(t, found.criteria("the property crest_elev_ft"), "us-fl-state/exemption/crest")

	stated := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	require.Empty(t, inspectedJob(t, stated, stateOnly+sketchtest.OneOfEach).criteria("the property crest_elev_ft"))

	// A layer given of which nothing can be used leaves the same criteria open as none.
	stated["grass"] = []string{sketchtest.Shape("LineString", "", sketchtest.Along(100)...)}
	none := strings.Replace(sketchtest.OneOfEach, ", seagrass: {file: grass, accuracy: 0.1 ft}", "", 1)
	require.NotEqual(t, sketchtest.OneOfEach, none)
	useless, missing := inspectedJob(t, stated, stateOnly+sketchtest.OneOfEach), inspectedJob(t, stated, stateOnly+none)
	require.Contains(t, missing.criteria("layers.seagrass"), "us-fl-state/exemption/seagrass")
	require.Equal(t, missing.criteria("layers.seagrass"), useless.criteria("layers.seagrass"))
}

// A book that asks for data of the last 2 years and a layer of 2024-11-24: one day too
// old on 2026-11-25, and young enough the day after that.
func TestAnAgeThatCannotBeMet(t *testing.T) {
	s := sketchtest.WithBook{Sketch: sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), Criteria: []string{"measure: seagrass_nearest, at_least: 50 ft, max_age: 2 years"}}
	for date, old := range map[string]bool{"2024-11-24": true, "2024-11-25": false, "Aug 2024": true} {
		j := "books: [./town.yaml]\n" + strings.Replace(sketchtest.OneOfEach, "file: grass", "file: grass, date: "+date, 1)
		found := inspectedJob(t, s, j)
		require.Equal(t, old, found.criteria("layers.seagrass no older than 2 years") != nil, date)
		found = inspectedJob(t, s, strings.Replace(j, "date: "+date, "max_age: 24 months, date: "+date, 1))
		minds := strings.Join(found.Layers[len(found.Layers)-1].Minds, "\n")
		require.Equal(t, old, strings.Contains(minds, "max_age is not met by 1 of 1 feature (first: "), date)
	}
}

// A book that asks for the time exposed, and a job with and without a station.
func TestWaterLevelsThatAreMissing(t *testing.T) {
	s := sketchtest.WithBook{Sketch: sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), Criteria: []string{"measure: crest_exposed, at_most: 55 %"}}
	s.Sketch["ts.csv"] = sketchtest.TideTable
	j := "books: [./town.yaml]\n" + sketchtest.OneOfEach
	require.Equal(t, []string{"town/small/c0"}, inspectedJob(t, s, j).criteria("levels"))
	require.Nil(t, inspectedJob(t, s, j+"levels: {stations: [ts.csv]}\n").criteria("levels"))
}

// Machines find lists, never null.
func TestAnInspectionHasNoNull(t *testing.T) {
	found := inspectedJob(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)), stateOnly+sketchtest.OneOfEach)
	text, err := json.Marshal(found)
	require.NoError(t, err)
	require.NotContains(t, string(text), "null")
	require.Contains(t, string(text), `"doubts":[],"refused":[]`)
}
