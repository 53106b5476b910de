package screening

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// inSystem is a sketch with all its layers but one written in a projection.
func inSystem(t *testing.T, s sketchtest.Sketch, system *crs.System) sketchtest.Sketch {
	out := sketchtest.Sketch{}
	for name, features := range s {
		for _, text := range features {
			f, err := geojson.ReadFeature(name, []byte(text), nil)
			require.NoError(t, err)
			switch g := f.Geometry.(type) {
			case orb.LineString:
				for i := range g {
					g[i] = system.Projected(g[i])
				}
			case orb.Polygon:
				for _, ring := range g {
					for i := range ring {
						ring[i] = system.Projected(ring[i])
					}
				}
			}
			at, err := json.Marshal(f.Geometry)
			require.NoError(t, err)
			_, rest, _ := strings.Cut(text, `"coordinates":`)
			out[name] = append(out[name], strings.Replace(text, rest, string(at)+"}}", 1))
		}
	}
	return out
}

// Candidates are drawn on the datum of the shore and lie where they are drawn: layers on
// NAD83, in feet, give what the same numbers on WGS 84 do. The limit is 2 ft from what is
// drawn, the shift between the datums that of [crs.DatumShift], 4.3 and 8.0 ft. A candidate
// says that its accuracy of 0 is meant; in the file of somebody else it is not filled in.
func TestCandidatesLieOnTheDatumOfTheirLayers(t *testing.T) {
	town := []string{"measure: mhw_farthest, at_most: 10 ft", "measure: seagrass_nearest, at_least: 10 ft", "measure: riparian_nearest, at_least: 10 ft"}
	for _, system := range []struct {
		name string
		code int // of longitude and latitude on its datum; 0: none need be stated
	}{{"EPSG:4326", 0}, {"EPSG:6438", 6318}, {"EPSG:2236", 4269}} {
		t.Run(strings.ReplaceAll(system.name, ":", "_"), func(t *testing.T) {
			written, err := crs.Parse(system.name)
			require.NoError(t, err)
			s := sketchtest.Everything()
			s["all"] = []string{sketchtest.SurveyedAll}
			if !written.IsDegrees() {
				s = inSystem(t, s, written)
			}
			mapped := strings.ReplaceAll(`
decision_date: 2026-11-25
books: [./town.yaml]
envelope: {reach: 100 ft}
layers:
  high_water: {file: high, accuracy: 0.5 ft, date: 2026-01-01, crs: SYSTEM}
  low_water: {file: low, accuracy: 0.5 ft, date: 2026-01-01, crs: SYSTEM}
  seagrass: {file: grass, surveyed: all, accuracy: 0.5 ft, date: 2026-01-01, crs: SYSTEM}
  riparian: {file: riparian, surveyed: all, accuracy: 0.5 ft, date: 2026-01-01, crs: SYSTEM}
  parcels: {file: lots, crs: SYSTEM}
`, "SYSTEM", system.name)
			j, err := job.Load("job.yaml", strings.NewReader(mapped))
			require.NoError(t, err)
			out := sketchtest.Memory{}
			_, err = Envelope(t.Context(), j, sketchtest.WithBook{Sketch: s, Criteria: town}, out, Options{Workers: 1})
			require.NoError(t, err)
			row := sketchtest.Lots(t, out)["L"]
			require.Equal(t, "Small", row["town_title"])
			require.Equal(t, "firm", row["town_certainty"])
			for _, name := range []string{"candidates.geojson", "envelope.geojson", "frontage.geojson"} {
				require.Equal(t, system.code != 0, strings.Contains(out[name].String(), fmt.Sprintf(`"urn:ogc:def:crs:EPSG::%d"`, system.code)), name)
			}
			require.Contains(t, out["candidates.geojson"].String(), `"accuracy_ft":0,`)

			drawn := out["candidates.geojson"].String()
			for file, certainty := range map[string]string{
				drawn: "firm",
				strings.ReplaceAll(drawn, layers.MadeBy, "somebody"):                      "needs information",
				strings.ReplaceAll(drawn, `"accuracy_ft":0,`, `"accuracy_ft":3,`):         "close call", // 2.0 ft of 2
				strings.ReplaceAll(drawn, "EPSG::"+fmt.Sprint(system.code), "EPSG::4326"): map[bool]string{true: "firm", false: "close call"}[system.code == 0],
			} {
				j.Proposals = job.ProposalSources{{Files: job.FileList{"candidates.geojson"}}}
				screened := sketchtest.Memory{}
				_, err = Run(t.Context(), j, sketchtest.WithFile{Files: sketchtest.WithBook{Sketch: s, Criteria: town}, Name: "candidates.geojson", Text: []byte(file)}, screened, Options{Workers: 1})
				require.NoError(t, err)
				for _, row := range sketchtest.Rows(t, screened) {
					require.Equal(t, "small", row["town_path"])
					require.Equal(t, certainty, row["town_certainty"])
				}
			}
		})
	}
}
