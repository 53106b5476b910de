package job

import (
	"bytes"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"waterward/geo/geojson"
	"waterward/rules"
)

// Fields say, by the names the tool reads, under which names a file has its
// properties, in which unit, and what its values mean.
type Fields map[string]Field

// Field is where one property is found in a file.
type Field struct {
	From   string            // the file's property
	Is     string            // or one value for every feature
	Unit   string            // of a length, if not that of the name
	Values map[string]string // what each of the file's values means; nil: what it says
}

// UnmarshalYAML reads "HOR_ACC", or {from: HOR_ACC, unit: m, values: {...}}.
func (f *Field) UnmarshalYAML(node *yaml.Node) error {
	if node.Kind == yaml.ScalarNode {
		f.From = node.Value
		return nil
	}
	if node.Kind != yaml.MappingNode {
		return fmt.Errorf("write the file's property, or {from: ..., unit: ..., values: {...}}")
	}
	type field Field // which has no method to read it
	if err := node.Load((*field)(f), yaml.WithKnownFields()); err != nil {
		return err
	}
	for _, value := range slices.Sorted(maps.Keys(f.Values)) {
		if plain := strings.TrimSpace(value); plain != value {
			if _, twice := f.Values[plain]; twice {
				return fmt.Errorf("values has %q twice", plain)
			}
			f.Values[plain] = f.Values[value]
			delete(f.Values, value)
		}
	}
	if (f.From == "") == (f.Is == "") {
		return fmt.Errorf("a property is found in one of the file's (from), or is the same for all features (is)")
	}
	return nil
}

// layerProperties are what is read of the features of layers.
var layerProperties = []string{"id", "name", "parcel_id", "reach", "side", "date", "accuracy_ft", "elevation_ft", "elevation_accuracy_ft", "width_ft"}

// proposalProperties are what is read of proposals.
var proposalProperties = []string{
	"id", "version", "part", "kind", "material", "datum", "station", "project", "site", "alternative", "started", "fill",
	"width_ft", "diameter_ft", "crest_elev_ft", "crest_width_ft", "bed_elev_ft", "wetland_elev_ft", "fill_elev_ft", "high_tide_line_elev_ft", "unit_length_ft", "void_pct", "settlement_ft", "accuracy_ft", "elevation_accuracy_ft",
	"fetch_mi", "side_slope", "stone_size_ft", "fill_fines_pct", "wetland_width_ft", "mtl_landward_edge_ft",
}

// ProposalProperties are what is read of proposals.
func ProposalProperties() []string { return slices.Clone(proposalProperties) }

// lengthUnits are the units of lengths in the names of properties, by suffix.
var lengthUnits = map[string]float64{"_ft": Foot, "_mi": Mile}

// PerUnit is the SI value of one unit of a property, by its name.
func PerUnit(name string) float64 {
	for suffix, si := range lengthUnits {
		if strings.HasSuffix(name, suffix) {
			return si
		}
	}
	if strings.HasSuffix(name, "_pct") {
		return 0.01
	}
	return 1
}

// check reports what cannot be of a layer that reads the properties known.
func (fs Fields) check(layer string, known []string) []string {
	var wrong []string
	for _, name := range slices.Sorted(maps.Keys(fs)) {
		field := fs[name]
		_, isLength := rules.FindUnit(field.Unit, rules.Length)
		switch {
		case !slices.Contains(known, name):
			wrong = append(wrong, fmt.Sprintf("%s: nothing reads a property %s; properties are %s", layer, name, strings.Join(known, ", ")))
		case field.From == "" && field.Is == "":
			wrong = append(wrong, fmt.Sprintf("%s: %s stands there with nothing; write the file's property, or take it out", layer, name))
		case field.Unit != "" && !takesUnit(name):
			wrong = append(wrong, fmt.Sprintf("%s: %s is no length, so it has no unit", layer, name))
		case field.Unit != "" && !isLength:
			wrong = append(wrong, fmt.Sprintf("%s: %s: %q is no unit of length; write ft, in, yd, mile or m", layer, name, field.Unit))
		}
	}
	return wrong
}

// Text returns a property as text. A value that the job gives no meaning is an
// error, as it may mean anything.
func (fs Fields) Text(f *geojson.Feature, name string) (text string, err error) {
	field, mapped := fs[name]
	from := name
	switch {
	case field.Is != "":
		return field.Is, nil
	case mapped:
		from = field.From
	}
	if from, err = spelledOnce(f, from); err != nil {
		return "", err
	}
	text = f.Text(from)
	if len(text) > geojson.LongestText {
		return "", fmt.Errorf("%s is %d bytes long, where a name or a word is expected", from, len(text))
	}
	if field.Values == nil || strings.TrimSpace(text) == "" {
		return text, nil
	}
	meaning, ok := field.meaning(text)
	if !ok {
		return "", fmt.Errorf("%s is %.40q, for which the job gives no meaning", field.From, text)
	}
	return meaning, nil
}

// meaning is what the job says that a value of the file means: one written the same, or
// else the same number, or the same word in another spelling. Where two such mean different
// things, neither does.
func (f Field) meaning(text string) (string, bool) {
	text = strings.TrimSpace(text)
	if meaning, ok := f.Values[text]; ok {
		return meaning, true
	}
	found := map[string]bool{}
	for value, meaning := range f.Values {
		if HasWord([]string{value}, OneWord(text)) {
			found[meaning] = true
		}
	}
	for meaning := range found {
		return meaning, len(found) == 1
	}
	return "", false
}

// NoData is what files write for an accuracy that nobody knows.
var NoData = regexp.MustCompile(`(?i)^(n/?a|<?null>?|none|nan|unknown|-99+(\.0*)?)$`)

// Numbers returns a property that is a number, or a list of them, in SI; none if
// it is absent or empty. A length may bring its unit: "4.31 m". No accuracy is 0:
// where one is, it has not been filled in.
func (fs Fields) Numbers(f *geojson.Feature, name string) ([]float64, error) {
	field, mapped := fs[name]
	from, unit := name, PerUnit(name)
	if mapped {
		from = field.From
		if u, ok := rules.FindUnit(field.Unit, rules.Length); ok && field.Unit != "" {
			unit = u.SI()
		}
	}
	from, err := spelledOnce(f, from)
	if err != nil {
		return nil, err
	}
	var found []float64
	if plain := field.Is == "" && field.Values == nil; plain && bytes.HasPrefix(f.Property(from), []byte("[")) {
		found, err = f.Numbers(from)
	} else {
		if !plain {
			from = name
		}
		var text string
		if text, err = fs.Text(f, name); err != nil {
			return nil, err
		}
		text = strings.TrimSpace(text)
		if isAccuracy(name) && NoData.MatchString(text) {
			return nil, nil
		}
		if number, u, ok := withUnit(text); ok && takesUnit(name) {
			text, unit = number, u.SI()
		}
		found, err = geojson.ParseNumbers(from, text)
	}
	if err != nil {
		return nil, err
	}
	for i := range found {
		found[i] *= unit
	}
	if isAccuracy(name) {
		found = slices.DeleteFunc(found, func(v float64) bool { return v == 0 || isNoData(v/unit) })
	}
	return found, nil
}

func isAccuracy(name string) bool {
	return name == "accuracy_ft" || name == "elevation_accuracy_ft"
}

// takesUnit reports whether a property is a length.
func takesUnit(name string) bool {
	return strings.HasSuffix(name, "_ft") || strings.HasSuffix(name, "_mi")
}

// withUnit parts a number from the unit of length behind it.
func withUnit(text string) (number string, unit rules.Unit, ok bool) {
	end := strings.LastIndexAny(text, "0123456789.") + 1
	unit, ok = rules.FindUnit(strings.ToLower(strings.TrimSpace(text[end:])), rules.Length)
	return text[:end], unit, ok
}

// Number is numbers of a property that is one number.
func (fs Fields) Number(f *geojson.Feature, name string) (value float64, ok bool, err error) {
	all, err := fs.Numbers(f, name)
	switch {
	case err != nil || len(all) == 0:
		return 0, false, err
	case len(all) > 1:
		return 0, false, fmt.Errorf("%s is a list where one number is expected", name)
	}
	return all[0], true, nil
}

// Spelled returns how the feature spells a property: databases change the case of
// names.
func Spelled(f *geojson.Feature, name string) string {
	for _, m := range f.Properties() {
		if len(m.Key) == len(name) && strings.EqualFold(m.Key, name) {
			return m.Key
		}
	}
	return name
}

// spelledOnce is how the feature spells a property; an error if two spellings of it say
// different things.
func spelledOnce(f *geojson.Feature, name string) (string, error) {
	found := Spelled(f, name)
	for _, m := range f.Properties() {
		if m.Key != found && len(m.Key) == len(name) && strings.EqualFold(m.Key, name) && f.Text(found) != f.Text(m.Key) {
			return "", fmt.Errorf("%s is %.40q and %s is %.40q, of which only one can be meant", found, f.Text(found), m.Key, f.Text(m.Key))
		}
	}
	return found, nil
}

// Identify gives a feature the id that the job finds in another property.
func (fs Fields) Identify(f *geojson.Feature) {
	if _, mapped := fs["id"]; !mapped {
		return
	}
	if id, err := fs.Text(f, "id"); err == nil {
		f.ID = strings.TrimSpace(id)
	}
}
