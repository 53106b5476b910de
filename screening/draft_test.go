package screening

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The demo county's files sort themselves, and the draft is a job that lacks only
// what nobody can guess.
func TestADraftOfTheDemoCounty(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(demoDir, "*.geojson"))
	require.NoError(t, err)
	for i := range names {
		names[i] = filepath.Base(names[i])
	}
	text := DraftJob(folder(demoDir), names)
	job, err := LoadJob("draft.yaml", strings.NewReader(text))
	require.NoError(t, err, text)
	want := demoJob(t)
	require.Equal(t, want.Proposals.File, job.Proposals.File)
	for name, source := range want.Layers.each() {
		switch name {
		case "areas.aquatic_preserve", "areas.critical_habitat", "areas.shellfish_lease": // named by their files
			continue
		}
		got := job.Layers.Source(name)
		require.NotNil(t, got, name)
		require.Equal(t, source.Files, got.Files)
	}
	require.Equal(t, FileList{"preserve.geojson"}, job.Layers.Areas["preserve"].Files)
	require.Equal(t, "lease_survey.geojson", job.Layers.Areas["lease"].Surveyed)
	require.Equal(t, "seagrass_survey.geojson", job.Layers.Seagrass.Surveyed)
	require.Contains(t, text, `# or: high_water: {file: "mhw_coarse.geojson"}`)
	lacks := job.Check()
	require.ErrorContains(t, lacks, "decision_date is missing")
	require.ErrorContains(t, lacks, "no rule books")
	require.Len(t, strings.Split(lacks.Error(), "\n"), 2)
}

// Names that mean nothing, files that are no layers and layers in no degrees.
func TestADraftOfOddFiles(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"Ünits 2024 (final).geojson": `{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[-81,28],[-80.9,28],[-80.9,28.1],[-81,28]]]}}`,
		"mhw.geojson":                `{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[[500000,3100000],[500100,3100000]]}}`,
		"broken\n.json":              `{"type":`,
		"...json":                    `{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[-81,28]}}`,
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	text := DraftJob(folder(dir), []string{"...json", "broken\n.json", "mhw.geojson", "Ünits 2024 (final).geojson"})
	job, err := LoadJob("draft.yaml", strings.NewReader(text))
	require.NoError(t, err, text)
	require.Contains(t, text, "no degrees: give its crs, perhaps EPSG:26917")
	require.Contains(t, text, "# not read: ")
	require.Equal(t, FileList{"Ünits 2024 (final).geojson"}, job.Layers.Areas["nits_2024__final"].Files)
	require.Equal(t, FileList{"...json"}, job.Layers.Areas["area"].Files)
}
