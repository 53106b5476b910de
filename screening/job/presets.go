package job

import (
	"embed"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"waterward/rules"
)

//go:embed presets/*.yaml
var presets embed.FS

// preset maps the properties of one public schema to what the tool reads.
type preset struct {
	About      string `yaml:"about"`
	Properties Fields `yaml:"properties"`
	Only       *Only  `yaml:"only"`
}

// presetNames returns the names of the built-in presets, sorted.
func presetNames() []string {
	// The directory is embedded, so reading it cannot fail.
	files, _ := presets.ReadDir("presets")
	var out []string
	for _, f := range files {
		out = append(out, strings.TrimSuffix(f.Name(), ".yaml"))
	}
	return out
}

// UsePresets fills in what the layers' presets say, and the search radius where none is
// stated; what the job itself says beats both.
func (j *Job) UsePresets(files Files) error {
	if !j.SearchRadius.Stated {
		j.SearchRadius = Distance{DefaultRadius, true}
	}
	var faults []error
	for name, source := range j.Layers.Each() {
		if source.Preset == "" {
			continue
		}
		p, err := loadPreset(files, source.Preset)
		if err != nil {
			faults = append(faults, &Error{fmt.Sprintf("%s: preset %s: %v", name, source.Preset, err)})
			continue
		}
		fields := maps.Clone(p.Properties)
		if fields == nil {
			fields = Fields{}
		}
		maps.Copy(fields, source.Properties)
		source.Properties = fields
		if source.Only == nil {
			source.Only = p.Only
		}
	}
	return JoinErrors(faults)
}

// loadPreset reads a built-in preset, or one of the job's own by its file.
func loadPreset(files Files, name string) (*preset, error) {
	var in io.ReadCloser
	var err error
	switch {
	case rules.IsFile(name):
		in, err = files.Open(name)
	case slices.Contains(presetNames(), name):
		in, err = presets.Open("presets/" + name + ".yaml")
	default:
		err = fmt.Errorf("there is none of that name; built in are %s", strings.Join(presetNames(), ", "))
	}
	if err != nil {
		return nil, err
	}
	defer in.Close()
	p := &preset{}
	if err := loadYAML(name, in, p); err != nil {
		return nil, err
	}
	if p.Properties == nil && p.Only == nil {
		return nil, errors.New("it says neither properties nor only")
	}
	return p, nil
}
