package inspect

import (
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

var today = job.Day{Time: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)}

// The demo county's files sort themselves, and the draft is a job that lacks only
// what nobody can guess.
func TestADraftOfTheDemoCounty(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(sketchtest.DemoDir, "*.geojson"))
	require.NoError(t, err)
	for i := range names {
		names[i] = filepath.Base(names[i])
	}
	text := Draft(sketchtest.Folder(sketchtest.DemoDir), names, []string{"job.yaml", "ts01.csv", "oysters.csv", "ts02.csv"}, today)
	j, err := job.Load("draft.yaml", strings.NewReader(text))
	require.NoError(t, err, text)
	want := sketchtest.DemoJob(t)
	require.Equal(t, want.Proposals[0].Files, j.Proposals[0].Files)
	for name, source := range want.Layers.Each() {
		switch name {
		case "areas.aquatic_preserve", "areas.critical_habitat", "areas.shellfish_lease": // named by their files
			continue
		}
		if source.None { // of which there is no file
			continue
		}
		got := j.Layers.Source(name)
		require.NotNil(t, got, name)
		require.Equal(t, source.Files, got.Files)
	}
	require.Equal(t, job.FileList{"preserve.geojson"}, j.Layers.Areas["preserve"].Files)
	require.Equal(t, "lease_survey.geojson", j.Layers.Areas["lease"].Surveyed)
	require.Equal(t, "seagrass_survey.geojson", j.Layers.Seagrass.Surveyed)
	require.Contains(t, text, `# or: high_water: {file: "mhw_coarse.geojson"}`)
	require.Equal(t, want.Levels.Stations, j.Levels.Stations)
	require.Equal(t, today, j.DecisionDate)
	require.NoError(t, j.Check())
}

// Names that mean nothing, files that are no layers and layers in no degrees: every file
// is spoken of.
func TestADraftOfOddFiles(t *testing.T) {
	dir := t.TempDir()
	files := map[string]string{
		"Ünits 2024 (final).geojson": `{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[-81,28],[-80.9,28],[-80.9,28.1],[-81,28]]]}}`,
		"mhw.geojson":                `{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[[500000,3100000],[500100,3100000]]}}`,
		"broken\n.json":              `{"type":`,
		"...json":                    `{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[-81,28]}}`,
		"package.json":               `{"name": "x", "version": "1"}`,
		"list.json":                  `{"features": [{"attributes": {"OBJECTID": 1}, "geometry": {"rings": []}}]}`,
	}
	for name, text := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	text := Draft(sketchtest.Folder(dir), slices.Sorted(maps.Keys(files)), nil, today)
	j, err := job.Load("draft.yaml", strings.NewReader(text))
	require.NoError(t, err, text)
	require.Contains(t, text, "{file: \"mhw.geojson\", crs: EPSG:26917} # 1 feature (none); 1 cannot be used: see inspect; no degrees: its crs is guessed")
	require.Contains(t, text, `# not read: broken\u000a.json`)
	require.Contains(t, text, `# no layer: {file: "...json"} # no layer that its name may mean can hold Point; 1 feature (1 Point)`)
	require.Contains(t, text, `# no layer: "package.json", none of what it holds is a GeoJSON feature`)
	require.Contains(t, text, `# no layer: "list.json", none of what it holds is a GeoJSON feature`)
	require.Equal(t, map[string]job.LayerSource{"nits_2024_final": {Files: job.FileList{"Ünits 2024 (final).geojson"}}}, j.Layers.Areas)
	require.Equal(t, job.FileList{"mhw.geojson"}, j.Layers.HighWater.Files)
}

// drawings are a folder of files that hold nothing but one feature of a geometry, by name.
type drawings map[string]string

func (d drawings) Open(name string) (io.ReadCloser, error) {
	coordinates := map[string]string{
		"Polygon": "[[[-81,28],[-80.9,28],[-80.9,28.1],[-81,28]]]", "LineString": "[[-81,28],[-80.9,28]]", "Point": "[-81,28]",
		"empty": "[]", "stray LineString": "[[500000,3100000],[500100,3100000]]",
	}[d[name]]
	text := fmt.Sprintf(`{"type":"Feature","properties":{},"geometry":{"type":%q,"coordinates":%s}}`, strings.TrimPrefix(d[name], "stray "), coordinates)
	return io.NopCloser(strings.NewReader(text)), nil
}

func (drawings) List(name string) (found, others []string, err error) {
	return []string{name}, nil, nil
}

// What a name says, and what the geometry lets be. Common practice, no source.
func TestWhatTheNameOfAFileMeans(t *testing.T) {
	const polygon, line, point = "Polygon", "LineString", "Point"
	for _, c := range []struct{ file, geometry, layer string }{
		{"MHW survey 2026.geojson", line, "high_water"}, {"mean_high_water.geojson", line, "high_water"}, {"MeanLowWater2026.geojson", line, "low_water"},
		{"shoreline_2009.geojson", line, "high_water"}, {"shoreline.geojson", polygon, "shoreline"}, {"landmask.geojson", polygon, "shoreline"},
		{"MHHW.geojson", line, ""}, {"mllw_contour.geojson", line, ""}, // which are neither of the two
		{"islands_preserve.geojson", polygon, "areas.islands_preserve"}, {"seagrass_landcover.geojson", polygon, "seagrass"}, {"SAV-2236.json.gz", polygon, "seagrass"},
		{"savings.geojson", polygon, "areas.savings"}, {"inland_waters.geojson", polygon, "areas.inland_waters"}, {"wetlands.geojson", polygon, "wetlands"},
		{"seagrass.geojson", line, ""}, {"wetlands.geojson", line, ""}, {"riparian.geojson", polygon, ""}, {"mhw.geojson", polygon, ""}, {"roads.geojson", line, ""},
		{"channels.geojson", polygon, "channels"}, {"channel_lines.geojson", line, "channels"}, {"tax lots.geojson", polygon, "parcels"}, {"lot lines.geojson", line, ""},
		{"applications/2026_applications.geojson", point, "proposals"}, {"buoys.geojson", point, ""}, {"reefs.geojson", line, "proposals"},
		{"oyster_reefs.geojson", polygon, "areas.oyster_reefs"}, {"mhw_feet.geojson", "stray LineString", "high_water"}, {"grass_metres.geojson", "stray LineString", ""},
		{"coral_survey.geojson", polygon, "areas.coral_survey"}, // of no other file, so it may be the layer
	} {
		files := drawings{c.file: c.geometry}
		found, err := File(files, c.file, job.System{})
		require.NoError(t, err)
		require.Equal(t, c.layer, guess(c.file, found).layer, c.file)
		text := Draft(files, []string{c.file}, nil, today)
		_, err = job.Load("draft.yaml", strings.NewReader(text))
		require.NoError(t, err, text)
		require.Equal(t, c.layer == "", strings.Contains(text, "# no layer: "), text)
	}
}

// Files of one layer: where it was surveyed stands beside it, what cannot be used as it
// is comes last, and a survey of lines is the layer.
func TestFilesOfOneLayer(t *testing.T) {
	files := drawings{
		"a_grass_empty.geojson": "empty", "b_grass_stray.geojson": "stray LineString", "seagrass_2024.geojson": "Polygon", "seagrass_2024_survey.geojson": "Polygon",
		"grass_coverage.geojson": "Polygon", "Surveyed.geojson": "Polygon", "coverage_lines.geojson": "LineString", "mhw_survey.geojson": "LineString",
		"preserve.geojson": "Polygon", "preserve_mapped.geojson": "Polygon", "mapped.geojson": "Polygon",
	}
	text := Draft(files, slices.Sorted(maps.Keys(files)), nil, today)
	j, err := job.Load("draft.yaml", strings.NewReader(text))
	require.NoError(t, err, text)
	require.Equal(t, job.FileList{"seagrass_2024.geojson"}, j.Layers.Seagrass.Files)
	require.Equal(t, "seagrass_2024_survey.geojson", j.Layers.Seagrass.Surveyed)
	require.Equal(t, job.FileList{"mhw_survey.geojson"}, j.Layers.HighWater.Files)
	require.Equal(t, map[string]job.LayerSource{"preserve": {Files: job.FileList{"preserve.geojson"}, Surveyed: "preserve_mapped.geojson"}}, j.Layers.Areas)
	for name := range files {
		require.Equal(t, 1, strings.Count(text, fmt.Sprintf("%q", name)), name)
	}
	for _, name := range []string{"Surveyed.geojson", "mapped.geojson", "grass_coverage.geojson"} {
		require.Contains(t, text, `# no layer: {file: "`+name+`"} # by its name it says where a layer was surveyed`)
	}
	require.Contains(t, text, `# or: seagrass: {file: "a_grass_empty.geojson"} # 1 feature (none); 1 cannot be used`)
}

// Files whose names say nothing are proposals by two properties that tell; one does not.
func TestProposalsByTheirProperties(t *testing.T) {
	shape := `"geometry":{"type":"Polygon","coordinates":[[[-81,28],[-80.9,28],[-80.9,28.1],[-81,28]]]}}`
	for properties, want := range map[string]bool{
		`"KIND":"sill","Material":"rock"`:                  true,
		`"CREST_NAVD":1.2,"toe_elev":-3,"OWNER_NO":4`:      true,
		`"kind":"SAV","density":3`:                         false,
		`"name":"Unit 3","status":"approved"`:              false,
		`"id":"7","crest_elev_ft":0.5,"diameter_ft":"4.0"`: true,
	} {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "export 7.geojson"), []byte(`{"type":"Feature","properties":{`+properties+`},`+shape), 0o600))
		found, err := File(sketchtest.Folder(dir), "export 7.geojson", job.System{})
		require.NoError(t, err)
		require.Equal(t, want, guess("export 7.geojson", found).layer == "proposals", properties)
	}
}
