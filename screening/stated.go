package screening

import (
	"math"

	"waterward/rules"
)

// statedMeasures are what no layer answers: the proposal may state them.
var statedMeasures = []struct {
	measure, property string
	why               string // why no map answers it, before what to do
	within            span
}{
	{"fetch", "fetch_mi", "fetch is not measured from maps", positive},
	{"side_slope", "side_slope", "", positive},
	{"stone_size", "stone_size_ft", "", widths},
	{"fill_fines", "fill_fines_pct", "", shares},
	{"wetland_width", "wetland_width_ft", "", positive},
	{"mtl_landward_edge", "mtl_landward_edge_ft", "no mid-tide line is mapped", signed}, // which may lie landward
}

// mile is the international mile in metres, exact: 5,280 ft.
const mile = 5280 * foot

// statedWords are words of the proposal, by measure and property.
var statedWords = []struct{ measure, property string }{
	{"kind", "kind"}, {"material", "material"}, {"fill_proposed", "fill"},
}

// stated sets the measures that are what the proposal says of itself.
func (s *site) stated() {
	for _, w := range statedWords {
		if text := s.p.words[w.property]; text != "" {
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
