package job

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"go.yaml.in/yaml/v4"

	"waterward/geo/geojson"
)

// ProposalSources are where the proposals of a job come from, in the order in which they
// are read.
type ProposalSources []ProposalsSource

// ProposalsSource is files of proposals that are read alike.
type ProposalsSource struct {
	Files    FileList `yaml:"file"` // names of files, patterns of names, folders
	CRS      System   `yaml:"crs"`
	Accuracy Distance `yaml:"accuracy"`
	Preset   string   `yaml:"preset"`
	// Properties say where the files have what is read of a proposal.
	Properties Fields `yaml:"properties"`

	own Fields // of those, what the job says itself and no preset
}

// UnmarshalYAML reads the name of a file, a source, or a list of either.
func (l *ProposalSources) UnmarshalYAML(node *yaml.Node) error {
	if node.Kind != yaml.SequenceNode {
		node = &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{node}}
	}
	for _, one := range node.Content {
		var source ProposalsSource
		switch one.Kind {
		case yaml.ScalarNode:
			source.Files = FileList{one.Value}
		case yaml.MappingNode:
			if err := one.Load(&source, yaml.WithKnownFields()); err != nil {
				return err
			}
		default:
			return fmt.Errorf("proposals are the name of a file or folder, {file: ..., accuracy: ...}, or a list of those")
		}
		*l = append(*l, source)
	}
	return nil
}

// ProposalsFile is one file of proposals.
type ProposalsFile struct {
	Name string
	*ProposalsSource
}

// Expand lists the files that the sources name, those of a folder and those a pattern
// matches in the order of their names, and says which files of folders it leaves out.
func (l ProposalSources) Expand(files Files) (all []*ProposalsFile, left []string, err error) {
	seen := map[string]bool{}
	for i := range l {
		for _, name := range l[i].Files {
			found, others, err := files.List(name)
			if err != nil {
				return nil, nil, &Error{fmt.Sprintf("proposals: %v", err)}
			}
			left = append(left, others...)
			for _, file := range found {
				if seen[file] {
					return nil, nil, &Error{fmt.Sprintf("proposals: the file %s is named twice: name it once", file)}
				}
				seen[file] = true
				all = append(all, &ProposalsFile{file, &l[i]})
			}
		}
	}
	return all, left, nil
}

// LeftText tells of files of folders that were not read.
func LeftText(left []string) string {
	return fmt.Sprintf("proposals: not read, as their names do not end as those of GeoJSON files do: %s (%d)", Few(left), len(left))
}

// Own are the properties that the job itself says where to find, and no preset.
func (source *ProposalsSource) Own() Fields { return source.own }

// check reports what the sources lack.
func (l ProposalSources) check() error {
	if len(l) == 0 {
		return errors.New("no proposals: write proposals: {file: ...}, or give --proposals")
	}
	for i := range l {
		if len(l[i].Files) == 0 || slices.Contains(l[i].Files, "") {
			return errors.New("proposals: a source has no file: write proposals: {file: ...}, with the name of a file, of a folder, or a pattern such as applications/*.geojson")
		}
	}
	return nil
}

// names of the files as the job gives them.
func (l ProposalSources) names(into map[string]bool) {
	for i := range l {
		for _, name := range l[i].Files {
			into[name] = true
		}
	}
}

// HalfWidth is by how much a structure reaches beyond its drawing on either side, metres.
func (source *ProposalsSource) HalfWidth(f *geojson.Feature) float64 {
	width, _, _ := source.Properties.Number(f, "width_ft")
	diameter, _, _ := source.Properties.Number(f, "diameter_ft")
	return math.Max(0, math.Max(width, diameter)/2)
}
