package job

import (
	"cmp"
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

// UsePresets fills in what presets say, and the search radius where none is
// stated; what the job itself says beats both.
func (j *Job) UsePresets(files Files) error {
	if !j.SearchRadius.Stated {
		j.SearchRadius = Distance{DefaultRadius, true}
	}
	var faults []error
	use := func(of, name string, own Fields, only *Only) (Fields, *Only) {
		if name == "" {
			return own, only
		}
		p, err := loadPreset(files, name)
		if err != nil {
			faults = append(faults, &Error{fmt.Sprintf("%s: preset %s: %v", of, name, err)})
			return own, only
		}
		fields := maps.Clone(p.Properties)
		if fields == nil {
			fields = Fields{}
		}
		maps.Copy(fields, own)
		return fields, cmp.Or(only, p.Only)
	}
	for i := range j.Proposals {
		source := &j.Proposals[i]
		source.own = source.Properties
		var only *Only
		source.Properties, only = use("proposals", source.Preset, source.own, nil)
		if only != nil {
			faults = append(faults, &Error{fmt.Sprintf("proposals: preset %s says which features belong to a layer (only), so it is none of proposals", source.Preset)})
		}
	}
	for name, source := range j.Layers.Each() {
		source.Properties, source.Only = use(name, source.Preset, source.Properties, source.Only)
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
