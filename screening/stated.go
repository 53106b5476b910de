package screening

import (
	"math"
	"strings"

	"waterward/rules"
)

// statedMeasures are what no layer answers: the proposal may state them.
var statedMeasures = []struct {
	measure, property string
	perUnit           float64 // SI units in one unit of the property
	why               string  // why no map answers it, before what to do
}{
	{"fetch", "fetch_mi", mile, "fetch is not measured from maps"},
	{"side_slope", "side_slope", 1, ""},
	{"stone_size", "stone_size_ft", foot, ""},
	{"fill_fines", "fill_fines_pct", 0.01, ""},
	{"wetland_width", "wetland_width_ft", foot, ""},
	{"mtl_landward_edge", "mtl_landward_edge_ft", foot, "no mid-tide line is mapped"},
}

// mile is the international mile in metres, exact: 5,280 ft.
const mile = 5280 * foot

// statedWords are words of the proposal, by measure and property.
var statedWords = []struct{ measure, property string }{
	{"kind", "kind"}, {"material", "material"}, {"fill_proposed", "fill"},
}

// word reads a property as a word; true and false count as yes and no.
func (p *proposal) word(property string) string {
	raw := string(p.feature.Property(property))
	switch raw {
	case "true":
		return "yes"
	case "false":
		return "no"
	}
	text := strings.TrimSpace(p.feature.Text(property))
	if lower := strings.ToLower(text); lower == "yes" || lower == "no" {
		return lower
	}
	return text
}

// stated sets the measures that are what the proposal says of itself.
func (s *site) stated() {
	for _, w := range statedWords {
		if text := s.p.word(w.property); text != "" {
			s.values[w.measure] = rules.Value{Word: text}
		} else {
			s.values[w.measure] = unknown("the proposal does not state its %s", w.property)
		}
	}
	for i, m := range statedMeasures {
		if v := s.p.statedValues[i]; !math.IsNaN(v) {
			s.values[m.measure] = rules.Value{Number: v}
			continue
		}
		why := "the proposal states no " + m.property
		if m.why != "" {
			why = m.why + " and " + why
		}
		s.values[m.measure] = unknown("%s", why)
	}
}
