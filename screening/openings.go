package screening

import (
	"math"

	"waterward/rules"
)

// ofOpenings answers the measures that ask which openings count; false if the
// measure is none of them. An opening within the resolution of the width that
// counts may be read either way; the value then holds both numbers, and its edge
// says how far the opening is from that width.
func (s *site) ofOpenings(ref rules.Ref) (rules.Value, bool) {
	take, ok := map[string]func(rules.Ref, float64) float64{
		"longest_run":      func(ref rules.Ref, _ float64) float64 { return s.fp.LongestRun(ref.Opening) },
		"opening_spacing":  func(ref rules.Ref, _ float64) float64 { return s.fp.OpeningSpacing(ref.Opening) },
		"openings":         func(ref rules.Ref, _ float64) float64 { return s.counting(ref.Opening) },
		"openings_lacking": s.lacking,
	}[ref.Measure]
	if !ok {
		return rules.Value{}, false
	}
	if v, bad := s.incomplete(); bad && len(s.fp.Links) > 0 {
		return v, true
	}
	overall := s.fp.OverallLength()
	v := rules.Value{Number: take(ref, overall)}
	if ref.Measure == "longest_run" {
		v.Widened = s.fp.LongestRun(0)
		for _, l := range s.fp.Links {
			if l.Width < ref.Opening {
				v.Narrow = append(v.Narrow, l.Width)
			}
		}
	}
	narrower, wider := ref, ref
	narrower.Opening -= rules.Resolution
	wider.Opening += rules.Resolution
	if s.counting(narrower.Opening) != s.counting(wider.Opening) {
		v.Edge, v.Either = s.openingEdge(ref.Opening), []float64{take(narrower, overall), take(wider, overall)}
	}
	less, more := take(ref, overall-rules.Resolution), take(ref, overall+rules.Resolution)
	if ref.Every > 0 && less != more {
		edge := math.Abs(overall - ref.Every*math.Round(overall/ref.Every))
		v.Edge, v.Either = &edge, append(v.Either, less, more)
	}
	return v, true
}

// counting is how many openings are at least as wide as opening.
func (s *site) counting(opening float64) float64 {
	n := 0.0
	for _, l := range s.fp.Links {
		if l.Width >= opening {
			n++
		}
	}
	return n
}

// lacking is how many openings are missing from one for each full length asked
// of the overall length.
func (s *site) lacking(ref rules.Ref, overall float64) float64 {
	return math.Max(0, math.Floor(overall/ref.Every)-s.counting(ref.Opening))
}

// openingEdge is how far the opening nearest to the width that counts is from it.
func (s *site) openingEdge(opening float64) *float64 {
	edge := math.Inf(1)
	for _, l := range s.fp.Links {
		edge = math.Min(edge, math.Abs(l.Width-opening))
	}
	return &edge
}
