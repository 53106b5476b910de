package screening

import (
	"math"

	"waterward/rules"
)

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
