package site

import (
	"math"

	"waterward/rules"
	"waterward/screening/job"
)

// Stated sets the measures that are what the proposal says of itself.
func (s *Site) Stated() {
	for _, w := range job.StatedWords {
		if text := s.Proposal.Words[w.Property]; text != "" {
			s.Values[w.Measure] = rules.Value{Word: text}
		} else {
			s.Values[w.Measure] = Unknown("the proposal does not state its %s", w.Property)
		}
	}
	for i, m := range job.Stated {
		if v := s.Proposal.StatedValues[i]; !math.IsNaN(v) {
			s.Values[m.Measure] = rules.Value{Number: v}
			continue
		}
		why := "the proposal states no " + m.Property
		if m.Why != "" {
			why = m.Why + " and " + why
		}
		s.Values[m.Measure] = Unknown("%s", why)
	}
}
