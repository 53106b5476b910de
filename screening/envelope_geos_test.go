package screening

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

const publishedDir = "../testdata/published"

// A book whose three paths ask one thing of each kind of a place.
const placesBook = `
book: places
title: Criteria of place
authority: places
jurisdiction: invented
edition: "1"
in_force: {from: 2024-01-01, until: null}
status: in force
caution: For checks.
paths:
  - id: near
    title: Near the shore
    criteria:
      - {id: reach, measure: mhw_farthest, at_most: 30 ft, evidence: practice}
      - {id: neighbour, measure: riparian_nearest, at_least: 15 ft, evidence: practice}
      - {id: seagrass, measure: seagrass_nearest, at_least: 10 ft, evidence: practice}
      - {id: channel, measure: channel_nearest, at_least: 50 ft, evidence: practice}
  - id: middle
    title: Beyond low water
    criteria:
      - {id: reach, measure: mlw_farthest, at_most: 40 ft, evidence: practice}
      - {id: seagrass, measure: seagrass_overlap, at_most: 0 sqft, evidence: practice}
      - {id: share, measure: waterway_share, at_most: 1/4, evidence: practice}
  - id: far
    title: Off the shore
    criteria:
      - {id: off, measure: mhw_nearest, at_least: 20 ft, evidence: practice}
      - {id: reach, measure: mhw_farthest, at_most: 120 ft, evidence: practice}
      - {id: neighbour, measure: riparian_nearest, at_least: 25 ft, evidence: practice}
  - {id: last, title: All else, criteria: []}
`

const placesJob = `
decision_date: 2026-11-25
books: [./places.yaml]
layers:
  high_water: {file: envelope_high_water.geojson}
  low_water: {file: envelope_low_water.geojson}
  seagrass: {file: envelope_seagrass.geojson, surveyed: envelope_survey.geojson}
  channels: {file: envelope_channels.geojson}
  riparian: {file: envelope_riparian.geojson}
  parcels: {file: envelope_parcels.geojson}
`

// TestEnvelopesAgainstGEOS holds areas and reaches of envelopes on natural shores
// against testdata/published/envelope.csv (GEOS 3.11.1; the script stands there).
func TestEnvelopesAgainstGEOS(t *testing.T) {
	j, err := job.Load("job.yaml", strings.NewReader(placesJob))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	report, err := Envelope(t.Context(), j, sketchtest.WithFile{Files: sketchtest.Folder(publishedDir), Name: "./places.yaml", Text: []byte(placesBook)}, out, Options{Workers: 2, AllPaths: true})
	require.NoError(t, err)
	require.Zero(t, report.Unusable, report.Messages)
	type piece struct{ parcel, path, state string }
	areas := map[piece]float64{}
	var drawn struct {
		Features []struct {
			Properties struct {
				Parcel string  `json:"parcel_id"`
				Of     string  `json:"of"`
				State  string  `json:"state"`
				Area   float64 `json:"area_sqft"`
			} `json:"properties"`
		} `json:"features"`
	}
	require.NoError(t, json.Unmarshal(out["envelope.geojson"].Bytes(), &drawn))
	for _, f := range drawn.Features {
		p := f.Properties
		for name := range strings.SplitSeq(p.Of, ", ") {
			if path, ok := strings.CutPrefix(name, "places "); ok {
				areas[piece{p.Parcel, path, p.State}] = p.Area
			}
		}
	}
	parcels := sketchtest.Lots(t, out)
	file, err := os.Open(filepath.Join(publishedDir, "envelope.csv"))
	require.NoError(t, err)
	defer file.Close()
	want, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	want = want[1:]
	require.Len(t, areas, len(want)) // and nothing else is drawn
	require.GreaterOrEqual(t, len(want), 50)
	for _, row := range want {
		number := func(text string) float64 {
			v, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err, row)
			return v
		}
		// An edge may lie 0.05 ft off; areas come out far closer, as it lies off both ways.
		area := number(row[3])
		require.InDelta(t, area, areas[piece{row[0], row[1], row[2]}], math.Max(1, 0.001*area), row)
		if row[2] == "open" {
			require.InDelta(t, number(row[4]), number(parcels[row[0]]["places_"+row[1]+"_reach_ft"]), 0.05, row)
		}
	}
}
