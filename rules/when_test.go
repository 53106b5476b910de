package rules

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// conditional has a limit that applies only in front of wetlands, and only where
// no fill is proposed.
const conditional = `book: conditional
title: A book for tests
authority: test
jurisdiction: Nowhere
edition: "1"
in_force: {from: null, until: null}
status: in force
caution: For tests only.
notices:
  - {says: Wetlands are near, when: {measure: wetland_nearest, at_most: 30 ft}, evidence: practice}
  - {says: Fill is proposed by wetlands, when: [{measure: wetland_nearest, at_most: 30 ft}, {measure: fill_proposed, is: "yes"}], evidence: practice}
paths:
  - id: general
    title: General permit
    criteria:
      - id: reach
        measure: mhw_landward_edge
        at_most: 5 ft
        when: [{measure: wetland_nearest, at_most: 30 ft}, {measure: fill_proposed, is: "no"}]
        evidence: practice
  - {id: individual, title: Individual permit, criteria: []}
`

// Worked by hand. Distances in feet; near is an accuracy with a tolerance of 2.13 ft.
func TestWhen(t *testing.T) {
	book := load(t, conditional)
	near, unstated := stated(3, 1), []Accuracy{{Of: "the line", Line: math.NaN()}}
	at := func(ft float64, a []Accuracy) Value { return Value{Number: ft * foot, Accuracy: a} }
	unknown := Value{Unknown: "not mapped"}
	none, some := Value{Word: "no"}, Value{Word: "Yes"}
	for _, tt := range []struct {
		name                string
		reach, wetland      Value
		fill                Value
		outcome             Outcome
		holds               bool
		certainty           Certainty
		reason              string
		notices, notChecked int
	}{
		{"applies and is met", at(4, nil), at(10, near), none, Meets, true, Firm, "", 1, 0},
		{"applies and is exceeded", at(6, nil), at(10, near), none, Exceeds, false, Firm, "", 1, 0},
		{"does not apply", at(6, nil), at(90, near), none, NotApplicable, true, Firm,
			"it applies only where the distance to wetlands is at most 30 ft", 0, 0},
		{"does not apply by a word", at(6, nil), at(10, near), some, NotApplicable, true, Firm,
			"it applies only where the fill proposed is no", 2, 0},
		{"does not apply, whatever it would be", unknown, at(90, near), none, NotApplicable, true, Firm,
			"it applies only where the distance to wetlands is at most 30 ft", 0, 0},
		{"one condition fails, so the other may be unknown", at(6, nil), unknown, some, NotApplicable, true, Firm,
			"it applies only where the fill proposed is no", 0, 2},
		{"met, whether it applies or not", at(4, nil), unknown, none, Meets, true, Firm, "", 0, 1},
		{"exceeded, if it applies", at(6, nil), unknown, none, Unknown, false, NeedsInformation,
			"it applies only where the distance to wetlands is at most 30 ft, which is not sure: not mapped", 0, 1},
		{"a near condition is close", at(6, nil), at(29, near), none, Close, false, CloseCall,
			"it applies only where the distance to wetlands is at most 30 ft, which is not sure: within 1 ft of the limit, and the positions are good to 2.13 ft", 1, 0},
		{"a near condition on the other side is close", at(6, nil), at(31, near), none, Close, true, CloseCall,
			"it applies only where the distance to wetlands is at most 30 ft, which is not sure: within 1 ft of the limit, and the positions are good to 2.13 ft", 0, 0},
		{"a near condition does not matter where it is met", at(4, nil), at(29, near), none, Meets, true, Firm, "", 1, 0},
		{"a condition of unstated accuracy", at(6, nil), at(29, unstated), none, Close, false, NeedsInformation,
			"it applies only where the distance to wetlands is at most 30 ft, which is not sure: the accuracy of the line is not stated", 1, 0},
		{"close stays close whether it applies or not", at(4.995, nil), at(29, near), none, Close, true, CloseCall,
			"within 0.01 ft of the limit, nearer than it can be measured", 1, 0},
		{"close and perhaps not applicable hangs on what is unknown", at(4.995, nil), unknown, none, Close, true, NeedsInformation,
			"within 0.01 ft of the limit, nearer than it can be measured; not mapped", 0, 1},
		{"unknown stays unknown under a near condition", unknown, at(29, near), none, Unknown, false, NeedsInformation, "not mapped", 1, 0},
		{"near on the other side of it holds, but what is unknown bears on it", unknown, at(31, near), none, Close, true, NeedsInformation,
			"it applies only where the distance to wetlands is at most 30 ft, which is not sure: within 1 ft of the limit, and the positions are good to 2.13 ft", 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			d := book.Decide(table{"mhw_landward_edge": tt.reach, "wetland_nearest": tt.wetland, "fill_proposed": tt.fill})
			r := d.Results[0]
			require.Equal(t, tt.outcome.String(), r.Outcome.String())
			require.Equal(t, tt.holds, r.Holds)
			require.Equal(t, tt.certainty, d.Certainty)
			require.Equal(t, tt.reason, r.Reason)
			require.Equal(t, tt.holds, d.Path.ID == "general")
			require.Equal(t, tt.holds || tt.outcome == Unknown, r.Change == "")
			require.Len(t, d.Notices, tt.notices)
			require.Len(t, d.Unchecked, tt.notChecked)
			if tt.outcome == NotApplicable {
				require.Nil(t, d.Tightest, "what does not apply is never the tightest")
			}
		})
	}
}

// The order of conditions does not matter.
func TestTheOrderOfConditionsDoesNotMatter(t *testing.T) {
	first := "{measure: wetland_nearest, at_most: 30 ft}"
	second := `{measure: fill_proposed, is: "no"}`
	turned := load(t, strings.Replace(conditional, "when: ["+first+", "+second+"]", "when: ["+second+", "+first+"]", 1))
	book := load(t, conditional)
	values := []Value{{Unknown: "not mapped"}, {Number: 29 * foot, Accuracy: stated(3, 1)}, {Number: 31 * foot, Accuracy: stated(3, 1)}, {Number: 90 * foot}, {Number: 1}}
	for _, wetland := range values {
		for _, reach := range values {
			for _, fill := range []Value{{Unknown: "not stated"}, {Word: "no"}, {Word: "yes"}} {
				facts := table{"mhw_landward_edge": reach, "wetland_nearest": wetland, "fill_proposed": fill}
				a, b := book.Decide(facts), turned.Decide(facts)
				require.Equal(t, a.Results[0].Outcome, b.Results[0].Outcome)
				require.Equal(t, a.Path.ID, b.Path.ID)
				require.Equal(t, a.Certainty, b.Certainty)
			}
		}
	}
}
