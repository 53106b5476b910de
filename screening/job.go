package screening

import (
	"errors"
	"fmt"
	"io"
	"iter"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"waterward/geo"
	"waterward/rules"
)

// Job says what to screen, against which layers, under which books.
type Job struct {
	DecisionDate Day             `yaml:"decision_date"`
	Books        []string        `yaml:"books"`
	Unverified   bool            `yaml:"unverified"` // show notices that rest on unverified figures
	SearchRadius Distance        `yaml:"search_radius"`
	Proposals    ProposalsSource `yaml:"proposals"`
	Layers       LayerSources    `yaml:"layers"`
}

// ProposalsSource is the file of proposals.
type ProposalsSource struct {
	File     string   `yaml:"file"`
	CRS      System   `yaml:"crs"`
	Accuracy Distance `yaml:"accuracy"`
	// Properties say where the file has what is read of a proposal.
	Properties Fields `yaml:"properties"`
}

// LayerSources are the mapped layers; only the high water line is required.
type LayerSources struct {
	HighWater *LayerSource           `yaml:"high_water"`
	LowWater  *LayerSource           `yaml:"low_water"`
	Shoreline *LayerSource           `yaml:"shoreline"`
	Seagrass  *LayerSource           `yaml:"seagrass"`
	Wetlands  *LayerSource           `yaml:"wetlands"`
	Channels  *LayerSource           `yaml:"channels"`
	Riparian  *LayerSource           `yaml:"riparian"`
	Parcels   *LayerSource           `yaml:"parcels"`
	Areas     map[string]LayerSource `yaml:"areas"`
}

// LayerSource is one mapped layer and what is stated of it.
type LayerSource struct {
	Files    FileList `yaml:"file"`
	CRS      System   `yaml:"crs"`      // of both files, whatever they say themselves
	Surveyed string   `yaml:"surveyed"` // areas inside which the layer is complete
	Accuracy Distance `yaml:"accuracy"` // horizontal, 95 %
	// DatumShift is a known or suspected shift between this layer's horizontal
	// datum and the proposals', added to how far distances may be off.
	DatumShift Distance `yaml:"datum_shift"`
	Datum      string   `yaml:"datum"` // of elevations
	Epoch      string   `yaml:"epoch"`
	Date       string   `yaml:"date"`
	Key        string   `yaml:"key"`        // the property that names a parcel
	MaxAge     Span     `yaml:"max_age"`    // older data support no firm result
	Preset     string   `yaml:"preset"`     // properties and only of a public schema
	Properties Fields   `yaml:"properties"` // where the file has what is read
	Only       *Only    `yaml:"only"`       // which features belong to the layer; nil: all
}

// FileList is the files of a layer: one name, or a list of them.
type FileList []string

// UnmarshalYAML reads one name or a list.
func (l *FileList) UnmarshalYAML(node *yaml.Node) error {
	if node.Kind == yaml.ScalarNode {
		*l = FileList{node.Value}
		return nil
	}
	if node.Kind != yaml.SequenceNode {
		return fmt.Errorf("file is the name of a file, or a list of them: [one, two]")
	}
	for _, item := range node.Content {
		*l = append(*l, item.Value)
	}
	return nil
}

func (s *LayerSource) names(into map[string]bool) {
	into[s.Surveyed] = true
	for _, name := range s.Files {
		into[name] = true
	}
}

// System is a stated coordinate system; its zero value is unstated.
type System struct{ *geo.CRS }

// ParseSystem reads the name of a coordinate system, such as EPSG:6438.
func ParseSystem(text string) (System, error) {
	crs, err := geo.ParseCRSName(text)
	return System{crs}, err
}

// UnmarshalYAML reads the coordinate system of a job file.
func (s *System) UnmarshalYAML(node *yaml.Node) error {
	var err error
	*s, err = ParseSystem(node.Value)
	return err
}

// Distance is a stated length in metres; its zero value is unstated.
type Distance struct {
	Metres float64
	Stated bool
}

// OrNaN returns the length in metres, NaN if unstated.
func (d Distance) OrNaN() float64 {
	if !d.Stated {
		return math.NaN()
	}
	return d.Metres
}

// ParseDistance reads a length such as "2 ft" or "0.6 m".
func ParseDistance(text string) (Distance, error) {
	number, name, _ := strings.Cut(strings.TrimSpace(text), " ")
	value, err := strconv.ParseFloat(number, 64)
	unit, ok := rules.FindUnit(strings.TrimSpace(name), rules.Length)
	if err != nil || !ok || value < 0 || math.IsInf(value, 0) || math.IsNaN(value) {
		return Distance{}, fmt.Errorf(`%q is not a length; write a number and its unit, such as "2 ft" or "0.6 m"`, text)
	}
	return Distance{Metres: value * unit.SI(), Stated: true}, nil
}

// UnmarshalYAML reads the length of a job file.
func (d *Distance) UnmarshalYAML(node *yaml.Node) error {
	var err error
	*d, err = ParseDistance(node.Value)
	return err
}

// Day is a calendar day; its zero value is unstated.
type Day struct{ time.Time }

// ParseDay reads a day such as 2026-11-25.
func ParseDay(text string) (Day, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Day{}, fmt.Errorf("%q is not a date; write it as 2026-11-25", text)
	}
	return Day{t}, nil
}

// UnmarshalYAML reads the day of a job file.
func (d *Day) UnmarshalYAML(node *yaml.Node) error {
	var err error
	*d, err = ParseDay(node.Value)
	return err
}

// maxJob is the largest job file read, in bytes.
const maxJob = 1 << 20

// LoadJob reads a job file strictly: what it does not know is an error. name is
// only for messages.
func LoadJob(name string, r io.Reader) (*Job, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxJob+1))
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	if len(text) > maxJob {
		return nil, fmt.Errorf("%s: larger than a job file can be; is it a layer?", name)
	}
	job := &Job{}
	if err := yaml.Load(text, job, yaml.WithKnownFields()); err != nil && !errors.Is(err, io.EOF) {
		return nil, jobError(name, err)
	}
	return job, nil
}

// unknownField is what the reader of YAML says of a key it has no place for.
var unknownField = regexp.MustCompile(`^field (\S+) not found in type \S+$`)

// jobError gives every fault of a job file its line and column.
func jobError(name string, err error) error {
	var all *yaml.LoadErrors
	if !errors.As(err, &all) {
		var one *yaml.LoadError
		if !errors.As(err, &one) {
			return fmt.Errorf("%s: %w", name, err)
		}
		return fmt.Errorf("%s:%d:%d: not valid YAML: %s", name, max(one.Mark.Line, 1), max(one.Mark.Column, 1), one.Message)
	}
	var lines []string
	for _, e := range all.Errors {
		text := unknownField.ReplaceAllString(fmt.Sprint(e.Message), `unknown key "$1"`)
		if strings.HasSuffix(text, "into []string") {
			text = "this is a list: write it as [one, two]"
		}
		lines = append(lines, fmt.Sprintf("%s:%d:%d: %s", name, e.Mark.Line, e.Mark.Column, text))
	}
	return errors.New(strings.Join(lines, "\n"))
}

// defaultRadius is how far round a proposal layers are searched, in metres
// (1,000 ft).
const defaultRadius = 304.8

// Check reports what a job lacks, all at once.
func (j *Job) Check() error {
	var lacks []string
	if j.DecisionDate.IsZero() {
		lacks = append(lacks, "decision_date is missing: write decision_date: 2026-11-25, or give --decision-date")
	}
	if len(j.Books) == 0 {
		lacks = append(lacks, "no rule books: write books: [...], or give --book; built in are "+strings.Join(rules.BuiltInNames(), ", "))
	}
	if j.Proposals.File == "" {
		lacks = append(lacks, "no proposals: write proposals: {file: ...}, or give --proposals")
	}
	if j.Layers.HighWater == nil || len(j.Layers.HighWater.Files) == 0 {
		lacks = append(lacks, "no high water line: write layers: {high_water: {file: ...}}, or give --high-water")
	}
	for name, source := range j.Layers.named() {
		if source != nil && (len(source.Files) == 0 || slices.Contains(source.Files, "")) {
			lacks = append(lacks, fmt.Sprintf("layer %s has no file", name))
		}
	}
	lacks = append(lacks, j.Proposals.Properties.check("proposals", proposalProperties())...)
	for name, source := range j.Layers.each() {
		lacks = append(lacks, source.Properties.check(name, layerProperties)...)
		if o := source.Only; o != nil && (o.From == "" || len(o.AnyOf)+len(o.StartsWith) == 0) {
			lacks = append(lacks, fmt.Sprintf("%s: only says which features belong to the layer: {from: PROPERTY, any_of: [...]} or starts_with", name))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(j.Layers.Areas)) {
		if !plainName(name) {
			lacks = append(lacks, fmt.Sprintf("area %q: name it with lower-case letters, digits and _, as it becomes part of a column name", name))
		}
	}
	if high, low := j.Layers.HighWater, j.Layers.LowWater; high != nil && low != nil &&
		high.Epoch != "" && low.Epoch != "" && high.Epoch != low.Epoch {
		lacks = append(lacks, fmt.Sprintf("high_water is of the tidal epoch %s and low_water of %s; lines of two epochs cannot be set against each other", high.Epoch, low.Epoch))
	}
	if len(lacks) > 0 {
		return errors.New(strings.Join(lacks, "\n"))
	}
	if !j.SearchRadius.Stated {
		j.SearchRadius = Distance{defaultRadius, true}
	}
	return nil
}

func plainName(name string) bool {
	for _, c := range name {
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '_') {
			return false
		}
	}
	return name != ""
}

// Source returns the layer of that name, nil if the job does not give it.
func (s *LayerSources) Source(name string) *LayerSource {
	if area, ok := strings.CutPrefix(name, "areas."); ok {
		if source, ok := s.Areas[area]; ok {
			return &source
		}
		return nil
	}
	for known, source := range s.named() {
		if known == name {
			return source
		}
	}
	return nil
}

// SetCRS says in which system the layer, or the proposals, of that name are.
func (j *Job) SetCRS(name string, crs System) error {
	name = strings.ReplaceAll(name, "-", "_")
	if name == "proposals" {
		j.Proposals.CRS = crs
		return nil
	}
	source := j.Layers.Source(name)
	if source == nil {
		return fmt.Errorf("the job gives no layer %s", name)
	}
	source.CRS = crs
	if area, ok := strings.CutPrefix(name, "areas."); ok {
		j.Layers.Areas[area] = *source
	}
	return nil
}

// each yields every layer given, named areas as areas.NAME.
func (s *LayerSources) each() iter.Seq2[string, *LayerSource] {
	return func(yield func(string, *LayerSource) bool) {
		for name, source := range s.named() {
			if source != nil && !yield(name, source) {
				return
			}
		}
		for _, name := range slices.Sorted(maps.Keys(s.Areas)) {
			source := s.Areas[name]
			if !yield("areas."+name, &source) {
				return
			}
			s.Areas[name] = source
		}
	}
}

// FileNames returns every name of a file the job gives, for those who open files.
func (j *Job) FileNames() map[string]bool {
	out := map[string]bool{j.Proposals.File: true}
	for _, b := range j.Books {
		out[b] = true
	}
	for _, s := range j.Layers.named() {
		if s != nil {
			s.names(out)
		}
	}
	for _, s := range j.Layers.Areas {
		s.names(out)
	}
	return out
}
