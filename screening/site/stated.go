package site

import (
	"math"

	"waterward/rules"
)

// Stated sets the measures that are what the proposal says of itself.
func (s *Site) Stated() {
	for _, r := range statedWords {
		if text := s.Proposal.Words[r.Property]; text != "" {
			s.Values[r.Name] = rules.Value{Word: text}
		} else {
			s.Values[r.Name] = Unknown("the proposal does not state its %s", r.Property)
		}
	}
	for i, r := range StatedNumbers {
		if v := s.Proposal.StatedValues[i]; !math.IsNaN(v) {
			s.Values[r.Name] = rules.Value{Number: v}
			continue
		}
		why := "the proposal states no " + r.Property
		if r.why != "" {
			why = r.why + " and " + why
		}
		s.Values[r.Name] = Unknown("%s", why)
	}
}
