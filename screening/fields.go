package screening

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"waterward/geo"
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
	for i := 0; i+1 < len(node.Content); i += 2 {
		key, value := node.Content[i].Value, node.Content[i+1]
		switch key {
		case "from":
			f.From = value.Value
		case "is":
			f.Is = value.Value
		case "unit":
			f.Unit = value.Value
		case "values":
			f.Values = map[string]string{}
			for k := 0; k+1 < len(value.Content); k += 2 {
				f.Values[strings.TrimSpace(value.Content[k].Value)] = value.Content[k+1].Value
			}
		default:
			return fmt.Errorf("unknown key %q: a property is found by from, is, unit and values", key)
		}
	}
	if (f.From == "") == (f.Is == "") {
		return fmt.Errorf("a property is found in one of the file's (from), or is the same for all features (is)")
	}
	return nil
}

// layerProperties are what is read of the features of layers.
var layerProperties = []string{"id", "name", "parcel_id", "reach", "side", "date", "accuracy_ft", "elevation_ft", "width_ft"}

// proposalProperties are what is read of proposals.
func proposalProperties() []string {
	out := []string{
		"id", "kind", "material", "datum", "project", "site", "started", "fill",
		"width_ft", "diameter_ft", "crest_elev_ft", "crest_width_ft", "bed_elev_ft", "wetland_elev_ft", "fill_elev_ft", "accuracy_ft",
	}
	for _, m := range statedMeasures {
		out = append(out, m.property)
	}
	return out
}

// lengthUnits are the units of lengths in the names of properties, by suffix.
var lengthUnits = map[string]float64{"_ft": foot, "_mi": mile}

// perUnit is the SI value of one unit of a property, by its name.
func perUnit(name string) float64 {
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
		takesUnit := strings.HasSuffix(name, "_ft") || strings.HasSuffix(name, "_mi")
		switch {
		case !slices.Contains(known, name):
			wrong = append(wrong, fmt.Sprintf("%s: nothing reads a property %s; properties are %s", layer, name, strings.Join(known, ", ")))
		case field.Unit != "" && !takesUnit:
			wrong = append(wrong, fmt.Sprintf("%s: %s is no length, so it has no unit", layer, name))
		case field.Unit != "" && !isLength:
			wrong = append(wrong, fmt.Sprintf("%s: %s: %q is no unit of length; write ft, in, yd, mile or m", layer, name, field.Unit))
		}
	}
	return wrong
}

// text returns a property as text. A value that the job gives no meaning is an
// error, as it may mean anything.
func (fs Fields) text(f *geo.Feature, name string) (string, error) {
	field, mapped := fs[name]
	switch {
	case !mapped:
		return f.Text(name), nil
	case field.Is != "":
		return field.Is, nil
	}
	text := f.Text(spelled(f, field.From))
	if field.Values == nil || strings.TrimSpace(text) == "" {
		return text, nil
	}
	meaning, ok := field.Values[strings.TrimSpace(text)]
	if !ok {
		return "", fmt.Errorf("%s is %.40q, for which the job gives no meaning", field.From, text)
	}
	return meaning, nil
}

// numbers returns a property that is a number, or a list of them, in SI; none if
// it is absent or empty.
func (fs Fields) numbers(f *geo.Feature, name string) ([]float64, error) {
	field, mapped := fs[name]
	from, unit := name, perUnit(name)
	if mapped {
		from = spelled(f, field.From)
		if u, ok := rules.FindUnit(field.Unit, rules.Length); ok && field.Unit != "" {
			unit = u.SI()
		}
	}
	var found []float64
	var err error
	if mapped && (field.Is != "" || field.Values != nil) {
		var text string
		if text, err = fs.text(f, name); err == nil {
			found, err = geo.ParseNumbers(name, text)
		}
	} else {
		found, err = f.Numbers(from)
	}
	if err != nil {
		return nil, err
	}
	for i := range found {
		found[i] *= unit
	}
	return found, nil
}

// number is numbers of a property that is one number.
func (fs Fields) number(f *geo.Feature, name string) (value float64, ok bool, err error) {
	all, err := fs.numbers(f, name)
	switch {
	case err != nil || len(all) == 0:
		return 0, false, err
	case len(all) > 1:
		return 0, false, fmt.Errorf("%s is a list where one number is expected", name)
	}
	return all[0], true, nil
}

// spelled returns how the feature spells a property: databases change the case of
// names.
func spelled(f *geo.Feature, name string) string {
	for _, spelling := range []string{name, strings.ToLower(name), strings.ToUpper(name)} {
		if f.Property(spelling) != nil {
			return spelling
		}
	}
	return name
}

// identify gives a feature the id that the job finds in another property.
func (fs Fields) identify(f *geo.Feature) {
	if _, mapped := fs["id"]; !mapped {
		return
	}
	if id, err := fs.text(f, "id"); err == nil {
		f.ID = strings.TrimSpace(id)
	}
}

// Only says which features of a file belong to a layer.
type Only struct {
	From       string   `yaml:"from"`
	AnyOf      []string `yaml:"any_of"`
	StartsWith []string `yaml:"starts_with"`
}

// keeps reports whether a feature belongs to the layer. Values are compared as
// words are, by lower case.
func (o *Only) keeps(f *geo.Feature) bool {
	if o == nil || !f.Readable() { // what cannot be read may belong to it
		return true
	}
	text := strings.ToLower(strings.TrimSpace(f.Text(spelled(f, o.From))))
	for _, word := range o.AnyOf {
		if text == strings.ToLower(strings.TrimSpace(word)) {
			return true
		}
	}
	for _, start := range o.StartsWith {
		if strings.HasPrefix(text, strings.ToLower(strings.TrimSpace(start))) {
			return true
		}
	}
	return false
}
