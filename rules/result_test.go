package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// criterion builds one as the loader would.
func criterion(t *testing.T, measure string, c Comparison, limit string) *Criterion {
	t.Helper()
	m, ok := FindMeasure(measure)
	require.True(t, ok, measure)
	si, unit, err := parseQuantity(limit, m.Quantity)
	require.NoError(t, err)
	out := &Criterion{ID: "it", Demand: Demand{Input: Input{m, Ref{Measure: measure}}, Comparison: c, Limit: si, Unit: unit}}
	if len(m.Parameters) > 0 {
		out.Ref.Opening, out.Ref.Every = 5*foot, 100*foot
	}
	return out
}

func wordCriterion(t *testing.T, measure string, c Comparison, words ...string) *Criterion {
	t.Helper()
	m, ok := FindMeasure(measure)
	require.True(t, ok, measure)
	known := vocabulary{}
	known.add(append([]string{"limestone", "stone", "tyre", "breakwater"}, words...))
	return &Criterion{ID: "it", Demand: Demand{Input: Input{m, Ref{Measure: measure}}, Comparison: c, Words: words, Known: known}}
}

func metres(ft float64) *float64 {
	m := ft * foot
	return &m
}

// JCGM 106 style one-sided tolerance: accuracies, limit and distance in feet, with
// the outcomes worked by hand from d + w <= T and d - w > T.
func TestGuardedOutcomes(t *testing.T) {
	for _, tt := range []struct {
		line, footprint float64
		limit           string
		distance        float64
		outcome         Outcome
		holds           bool
	}{
		{3, 1, "10 ft", 8.5, Close, true},     // band 7.875 to 12.125
		{3, 1, "10 ft", 7.8, Meets, true},     // just below the band
		{3, 1, "10 ft", 12.2, Exceeds, false}, // just above the band
		{3, 1, "10 ft", 12.1, Close, false},
		{1, 1, "10 ft", 9.0, Meets, true}, // band starts at 9.050
		{1, 1, "10 ft", 9.1, Close, true},
		{10, 1, "30 ft", 22, Meets, true}, // band starts at 23.246
		{10, 1, "30 ft", 23.3, Close, true},
	} {
		c := criterion(t, "mhw_farthest", AtMost, tt.limit)
		r := judged(c, Value{Number: tt.distance * foot, Accuracy: stated(tt.line, tt.footprint)})
		require.Equal(t, tt.outcome.String(), r.Outcome.String(), "%+v", tt)
		require.Equal(t, tt.holds, r.Holds, "%+v", tt)
		require.InDelta(t, c.Limit-tt.distance*foot, r.Margin, 1e-12)
		require.Empty(t, r.Doubts)
	}
}

func TestEqualityAndStrictness(t *testing.T) {
	for _, tt := range []struct {
		comparison Comparison
		value      float64
		outcome    Outcome
		margin     float64
	}{
		{AtMost, 10, Meets, 0},
		{AtMost, 11, Exceeds, -1},
		{UnderLimit, 9, Meets, 1},
		{UnderLimit, 10, Exceeds, 0},
		{AtLeast, 10, Meets, 0},
		{AtLeast, 9, Exceeds, -1},
		{OverLimit, 11, Meets, 1},
		{OverLimit, 10, Exceeds, 0},
	} {
		r := judged(criterion(t, "footprint_area", tt.comparison, "10 sqm"), Value{Number: tt.value})
		require.Equal(t, tt.outcome, r.Outcome, "%+v", tt)
		require.Equal(t, tt.outcome == Meets, r.Holds, "%+v", tt)
		require.Equal(t, tt.margin, r.Margin, "%+v", tt)
		require.True(t, math.IsNaN(r.Tolerance), "an area has no tolerance in metres")
	}
}

// The boundary lengths of the rules: the limit itself is met but too near to
// call, a hundredth of a foot either side is told apart.
func TestBoundaryLengths(t *testing.T) {
	for _, tt := range []struct {
		measure    string
		comparison Comparison
		limit      string
		value      string
		outcome    Outcome
		holds      bool
	}{
		{"overall_length", AtMost, "500 ft", "499.99 ft", Meets, true}, // F.A.C. 62-330.051(12)(e)
		{"overall_length", AtMost, "500 ft", "500 ft", Close, true},
		{"overall_length", AtMost, "500 ft", "500.01 ft", Exceeds, false},
		{"mhw_farthest", AtMost, "10 ft", "10 ft", Close, true}, // F.A.C. 62-330.051(12)(e)
		{"mhw_farthest", AtMost, "10 ft", "10.01 ft", Exceeds, false},
		{"mlw_farthest", AtMost, "30 ft", "30 ft", Close, true}, // NWP 54 (a)
		{"mlw_farthest", AtMost, "30 ft", "30.01 ft", Exceeds, false},
		{"crest_above_mhw", AtMost, "0 ft", "0 ft", Close, true}, // common practice, no source
		{"crest_above_mhw", AtMost, "0 ft", "6 in", Exceeds, false},
		{"footprint_area", AtMost, "0.25 acre", "10890 sqft", Meets, true}, // F.A.C. 62-330.632
		{"footprint_area", AtMost, "0.25 acre", "10891 sqft", Exceeds, false},
		{"riparian_nearest", AtLeast, "25 ft", "25 ft", Close, true}, // F.A.C. 18-21.004(3)(d)
		{"riparian_nearest", AtLeast, "25 ft", "24.99 ft", Exceeds, false},
		{"riparian_nearest", AtLeast, "25 ft", "24.991 ft", Close, false},
	} {
		c := criterion(t, tt.measure, tt.comparison, tt.limit)
		si, _, err := parseQuantity(tt.value, c.Measure.Quantity)
		require.NoError(t, err)
		r := judged(c, Value{Number: si})
		require.Equal(t, tt.outcome.String(), r.Outcome.String(), "%s %s", tt.measure, tt.value)
		require.Equal(t, tt.holds, r.Holds, "%s %s", tt.measure, tt.value)
	}
}

func TestBoundedValues(t *testing.T) {
	for _, tt := range []struct {
		comparison Comparison
		bound      Bound
		value      float64 // ft, against 100 ft
		outcome    Outcome
	}{
		{AtLeast, MoreThan, 100, Meets},
		{AtLeast, MoreThan, 99, Unknown},
		{OverLimit, MoreThan, 100, Meets},
		{OverLimit, MoreThan, 99, Unknown},
		{AtMost, MoreThan, 100, Exceeds},
		{AtMost, MoreThan, 99, Unknown},
		{UnderLimit, MoreThan, 100, Exceeds},
		{UnderLimit, MoreThan, 99, Unknown},
		{AtMost, LessThan, 100, Meets},
		{AtMost, LessThan, 101, Unknown},
		{UnderLimit, LessThan, 100, Meets},
		{UnderLimit, LessThan, 101, Unknown},
		{AtLeast, LessThan, 100, Exceeds},
		{AtLeast, LessThan, 101, Unknown},
		{OverLimit, LessThan, 100, Exceeds},
		{OverLimit, LessThan, 101, Unknown},
	} {
		c := criterion(t, "seagrass_nearest", tt.comparison, "100 ft")
		r := judged(c, Value{Number: tt.value * foot, Bound: tt.bound})
		require.Equal(t, tt.outcome.String(), r.Outcome.String(), "%+v", tt)
		require.Equal(t, tt.outcome == Meets, r.Holds, "%+v", tt)
		require.Equal(t, tt.outcome == Unknown, math.IsNaN(r.Margin), "%+v", tt)
	}
}

func TestABoundIsCloseOnlyWithinTheGuard(t *testing.T) {
	c := criterion(t, "seagrass_nearest", AtLeast, "100 ft")
	near := judged(c, Value{Number: 102 * foot, Bound: MoreThan, Accuracy: stated(3, 1)})
	require.Equal(t, Close, near.Outcome)
	far := judged(c, Value{Number: 103 * foot, Bound: MoreThan, Accuracy: stated(3, 1)})
	require.Equal(t, Meets, far.Outcome)
	exact := judged(c, Value{Number: 100 * foot, Bound: MoreThan})
	require.Equal(t, Meets, exact.Outcome, "the resolution does not blur a bound")
}

func TestWordsAndNames(t *testing.T) {
	for _, tt := range []struct {
		criterion *Criterion
		value     Value
		outcome   Outcome
	}{
		{wordCriterion(t, "material", AnyOf, "oyster shell", "shell"), Value{Word: " Oyster Shell "}, Meets},
		{wordCriterion(t, "material", AnyOf, "oyster shell", "shell"), Value{Word: "limestone"}, Exceeds},
		{wordCriterion(t, "material", NoneOf, "Asphalt"), Value{Word: "asphalt"}, Exceeds},
		{wordCriterion(t, "material", NoneOf, "asphalt"), Value{Word: "stone"}, Meets},
		{wordCriterion(t, "kind", Is, "sill"), Value{Word: "Sill"}, Meets},
		{wordCriterion(t, "kind", Is, "sill"), Value{Word: "breakwater"}, Exceeds},
		{wordCriterion(t, "kind", Is, "sill"), Value{}, Unknown},
		{wordCriterion(t, "kind", Is, "sill"), Value{Word: "sill", Unknown: "two kinds are given"}, Unknown},
		{wordCriterion(t, "in_area:x", Is, "outside"), Value{}, Meets},
		{wordCriterion(t, "in_area:x", Is, "outside"), Value{Names: []string{"Unit 3"}}, Exceeds},
		{wordCriterion(t, "in_area:x", Is, "inside"), Value{Names: []string{"Unit 3"}}, Meets},
		{wordCriterion(t, "in_area:x", Is, "inside"), Value{}, Exceeds},
		{wordCriterion(t, "in_area:x", NoneOf, "unit 3"), Value{Names: []string{"Unit 2", "Unit 3"}}, Exceeds},
		{wordCriterion(t, "in_area:x", NoneOf, "unit 3"), Value{}, Meets},
		{wordCriterion(t, "in_area:x", AnyOf, "unit 3"), Value{Names: []string{"Unit 2", "Unit 3"}}, Meets},
		{wordCriterion(t, "in_area:x", AnyOf, "unit 3"), Value{}, Exceeds},
	} {
		r := judged(tt.criterion, tt.value)
		require.Equal(t, tt.outcome.String(), r.Outcome.String(), "%s %v with %+v", tt.criterion.Measure.Name, tt.criterion.LimitText(), tt.value)
		require.True(t, math.IsNaN(r.Margin))
	}
}
