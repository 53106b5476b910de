package site

import (
	"math"

	"waterward/geo"
	"waterward/rules"
)

// structure is what stands there as one: the footprint, with the proposals of its project
// that adjoin it.
func (s *Site) structure() *geo.Footprint {
	if s.Whole != nil && s.Whole.Footprint != nil {
		return s.Whole.Footprint
	}
	return s.Footprint
}

// ofOpenings answers the measures that ask which openings count; false if the measure is
// none of them. What they would be if positions were a little off goes along with them:
// an opening may then count, or no longer.
func (s *Site) ofOpenings(ref rules.Ref) (rules.Value, bool) {
	fp := s.structure()
	count := RecordOf(ref.Measure).count
	if count == nil {
		return rules.Value{}, false
	}
	if s.Whole != nil && s.Whole.Unknown != "" {
		return Unknown("%s", s.Whole.Unknown), true
	}
	take := func(ref rules.Ref, overall float64) float64 { return count(fp, ref, overall) }
	if v, bad := s.incomplete(); bad && len(fp.Links) > 0 {
		return v, true
	}
	overall := fp.OverallLength()
	v := rules.Value{Number: take(ref, overall)}
	if ref.Measure == "longest_run" {
		v.Widened = fp.LongestRun(0)
		for _, l := range fp.Links {
			if l.Width < ref.Opening {
				v.Narrow = append(v.Narrow, l.Width)
			}
		}
	}
	v.Accuracy = s.ofLengths()
	for _, l := range fp.Links {
		shift := math.Abs(l.Width - ref.Opening)
		if shift > rules.UnstatedReach {
			continue
		}
		narrower, wider := ref, ref
		narrower.Opening -= shift + nudge
		wider.Opening += shift + nudge
		for _, other := range []rules.Ref{narrower, wider} {
			v.Also = append(v.Also, rules.Also{Number: take(other, overall), Shift: math.Max(shift, nudge)})
		}
	}
	if ref.Every > 0 {
		edge := math.Abs(overall - ref.Every*math.Round(overall/ref.Every))
		for _, by := range []float64{-edge - nudge, edge + nudge} {
			v.Also = append(v.Also, rules.Also{Number: take(ref, overall+by), Shift: math.Max(edge, nudge)})
		}
	}
	return s.placedRuns(v, ref, take), true
}

// nudge is how far, in metres, a width is taken past that of an opening to see what
// would come of it: more than rounding, less than anybody measures.
const nudge = 1e-6

// ofLengths is the accuracy of a length or a clear width of the structure: both its ends
// are as good as the drawing is.
func (s *Site) ofLengths() []rules.Accuracy {
	return []rules.Accuracy{{Of: "the proposal", Line: s.Proposal.Accuracy, Footprint: s.Proposal.Accuracy, Bias: 2 * s.Proposal.Of.Coarseness()}}
}

func longestRun(fp *geo.Footprint, ref rules.Ref, _ float64) float64 {
	return fp.LongestRun(ref.Opening)
}

func openingSpacing(fp *geo.Footprint, ref rules.Ref, _ float64) float64 {
	return fp.OpeningSpacing(ref.Opening)
}

// counting is how many openings are wide enough to count.
func counting(fp *geo.Footprint, ref rules.Ref, _ float64) float64 {
	return float64(len(fp.Links) - fp.Narrower(ref.Opening))
}

// lacking is how many openings are missing from one for each full length asked
// of the overall length.
func lacking(fp *geo.Footprint, ref rules.Ref, overall float64) float64 {
	return math.Max(0, math.Floor(overall/ref.Every)-counting(fp, ref, overall))
}
