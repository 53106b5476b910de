package job

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPresetsAreSound(t *testing.T) {
	for _, name := range presetNames() {
		p, err := loadPreset(nil, name)
		require.NoError(t, err, name)
		require.NotEmpty(t, p.About, name)
		require.Empty(t, p.Properties.check(name, layerProperties))
	}
}

// FuzzLoadPreset: the same of a preset.
func FuzzLoadPreset(f *testing.F) {
	for _, name := range presetNames() {
		text, err := presets.ReadFile("presets/" + name + ".yaml")
		require.NoError(f, err)
		f.Add(string(text))
	}
	for _, seed := range []string{
		"", "about: x\n", "properties: {id: {from: &a A, values: {1: *a}}}\n", "only: {from: a, any_of: [b, ~, 1]}\n", "only: &o {from: *o}\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := loadPreset(only(text), "own.yaml")
		if err != nil {
			require.NotContains(t, err.Error(), "screening.")
			return
		}
		for name, field := range p.Properties {
			require.False(t, field.From != "" && field.Is != "", name)
			for value := range field.Values {
				require.Equal(t, strings.TrimSpace(value), value)
			}
		}
		p.Properties.check("layer", layerProperties)
	})
}

// FuzzLoadJob: whatever the bytes, there is a job or a *Error in words that know
// nothing of the program; the same bytes give the same job, and checking it
// changes nothing.
func FuzzLoadJob(f *testing.F) {
	jobSeeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		job, err := Load("job.yaml", strings.NewReader(text))
		again, errAgain := Load("job.yaml", strings.NewReader(text))
		require.Equal(t, job, again)
		require.Equal(t, err, errAgain)
		if err != nil {
			ofJob(t, err)
			return
		}
		require.Equal(t, job.Check(), job.Check())
		require.Equal(t, again, job) // checking has changed nothing
		job.FileNames()
		_ = job.UsePresets(only("")) // any answer will do, but there must be one
	})
}

// jobSeeds are jobs, and what YAML knows besides.
func jobSeeds(f *testing.F) {
	demo, err := os.ReadFile(filepath.Join("..", "..", "testdata", "marrowby", "job.yaml"))
	require.NoError(f, err)
	for _, seed := range []string{
		string(demo), everyKey, "", "null", "[]", "7", "a: b\n---\na: c\n", "\xef\xbb\xbfunverified: true\n", "\xff\xfea\x00:\x00 \x001\x00",
		"books: &a [x]\nlayers: {areas: {a: {file: *a}, b: {file: [&n c, *n]}}}\n",
		"books: &a [*a]\n", "layers: &l {areas: *l}\n", "layers: {areas: {<<: {a: {file: b}}}}\n",
		"proposals: {properties: &p {id: {from: *p}}}\n", "proposals: {properties: {id: {from: [a], is: {b: c}, values: [d, e]}}}\n",
		"proposals: {properties: {id: , kind: ~, fill: {from: ~}, site: {values: {~: 1, ' 1': 2, 1: 3}}}}\n",
		"search_radius: 1e308 mile\n", "search_radius: 1e999999999 ft\n", "search_radius: " + strings.Repeat("9", 5000) + " ft\n", "search_radius: 0x1p-1074 m\n", "search_radius: [1, ft]\n",
		"decision_date: 0000-00-00\n", "decision_date: 99999-01-01\n", "decision_date: !!timestamp 2026-11-25\n", "unverified: !!str yes\n", "unverified: !!binary eWVz\n", "books: !x [a]\n",
		"layers: {high_water: {max_age: 99999999999999999999 years}}\n", "layers: {high_water: {max_age: 1000 years, crs: EPSG:-1}}\n", "layers: {high_water: {crs: {a: b}}}\n",
		"books: [\"\\0\", \"\\x1b[2J\", \"\\u202e\"]\n", "books: \x00\n", "? {a: b}\n: c\n", "? |\n  a\n  b\n: c\n", "books: >+\n\n\n",
		strings.Repeat("[", 12_000), strings.Repeat("- ", 12_000), strings.Repeat("{a: ", 3000), "layers: {areas: " + strings.Repeat("{a: ", 3000),
		"layers: {areas: {" + strings.Repeat("a: {file: b}, ", 300) + "}}\n",
	} {
		f.Add(seed)
	}
}

// only is the one file there is, whatever its name.
type only string

func (o only) Open(string) (io.ReadCloser, error) {
	return io.NopCloser(strings.NewReader(string(o))), nil
}

func (only) List(name string) (found, others []string, err error) {
	return []string{name}, nil, nil
}

// ofJob: the error is a fault of the job, said with the file's name.
func ofJob(t *testing.T, err error) {
	var fault *Error
	require.ErrorAs(t, err, &fault)
	for line := range strings.SplitSeq(fault.Message, "\n") {
		require.NotContains(t, line, "screening.")
	}
	require.Contains(t, fault.Message, "job.yaml:")
}

// everyKey is a job with every key there is.
const everyKey = `%YAML 1.2
---
decision_date: 2026-11-25
books: [us-fl-state, us-federal@2021, ./county.yaml]
unverified: true
search_radius: 1000 ft
proposals:
  file: intake.geojson
  crs: EPSG:6438
  accuracy: 0.5 ft
  properties:
    id: APP_NO
    kind: {from: TYP, values: {1: sill, 2: breakwater}}
    width_ft: {from: W, unit: m}
    fill: {is: "no"}
layers:
  high_water: {file: [a, b], crs: EPSG:4326, surveyed: s, accuracy: 2 ft, datum_shift: 1 ft, datum: NAVD88, epoch: 1983-2001, date: 2026-05-12, max_age: 5 years, preset: tidal-shoreline}
  low_water: {file: c, only: {from: ATTRIBUTE, starts_with: [Mean], any_of: [x, "y"]}}
  shoreline: {file: d, max_age: 18 months}
  seagrass: {file: e, preset: ./own.yaml}
  wetlands: {file: f}
  channels: {file: g, properties: {reach: NAME}}
  riparian: {file: h}
  parcels: {file: i, key: parcel_id}
  areas: {aquatic_preserve: {file: j}, coral: {file: "-"}}
`
