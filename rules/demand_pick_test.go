package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func several(t require.TestingT, how Pick, comparison Comparison, limit string) *Demand {
	d := &Demand{Pick: how, Comparison: comparison}
	for _, name := range []string{"mhw_landward_edge", "wetland_landward_edge", "mtl_landward_edge"} {
		m, _ := FindMeasure(name)
		d.Others = append(d.Others, Input{m, Ref{Measure: name}})
	}
	d.Input, d.Others = d.Others[0], d.Others[1:]
	var err error
	d.Limit, d.Unit, err = parseQuantity(limit, Length)
	require.NoError(t, err)
	return d
}

// Worked by hand, in feet; near is an accuracy with a tolerance of 2.13 ft.
func TestTheGreatestAndTheLeast(t *testing.T) {
	near, unstated := stated(3, 1), []Accuracy{{Of: "the line", Line: math.NaN()}}
	ft := func(number float64) Value { return Value{Number: number * foot} }
	at := func(number float64, a []Accuracy) Value { return Value{Number: number * foot, Accuracy: a} }
	more := func(number float64) Value { return Value{Number: number * foot, Bound: MoreThan} }
	unknown := Value{Unknown: "no mid-tide line"}
	for _, tt := range []struct {
		name           string
		pick           Pick
		comparison     Comparison
		mhw, land, mtl Value
		decides        string
		outcome        Outcome
		holds          bool
		doubts         int
	}{
		{"the greatest is within", Greatest, AtMost, ft(1), ft(2), ft(1.5), "wetland_landward_edge", Meets, true, 0},
		{"the greatest is beyond", Greatest, AtMost, ft(3), ft(7), ft(6), "wetland_landward_edge", Exceeds, false, 0},
		{"the least is within", Least, AtMost, ft(3), ft(7), ft(6), "mhw_landward_edge", Meets, true, 0},
		{"the least is beyond", Least, AtMost, ft(8), ft(7), ft(6), "mtl_landward_edge", Exceeds, false, 0},
		{"the greatest is enough", Greatest, AtLeast, ft(3), ft(7), ft(6), "wetland_landward_edge", Meets, true, 0},
		{"the greatest is not enough", Greatest, AtLeast, ft(3), ft(2), ft(4), "mtl_landward_edge", Exceeds, false, 0},
		{"the least is enough", Least, AtLeast, ft(8), ft(7), ft(6), "mtl_landward_edge", Meets, true, 0},
		{"the least is not enough", Least, AtLeast, ft(8), ft(7), ft(4), "mtl_landward_edge", Exceeds, false, 0},
		{"of equals the first", Greatest, AtMost, ft(7), ft(7), ft(6), "mhw_landward_edge", Exceeds, false, 0},
		{"a missing one makes the greatest unknown", Greatest, AtMost, ft(3), ft(2), unknown, "mtl_landward_edge", Unknown, false, 1},
		{"a missing one makes the least unknown", Least, AtMost, unknown, ft(7), ft(6), "mhw_landward_edge", Unknown, false, 1},
		{"unless another is beyond", Greatest, AtMost, ft(3), ft(7), unknown, "wetland_landward_edge", Exceeds, false, 0},
		{"unless another is within", Least, AtMost, unknown, ft(3), ft(6), "wetland_landward_edge", Meets, true, 0},
		{"a missing one outranks a close excess", Greatest, AtMost, at(6, near), ft(2), unknown, "mtl_landward_edge", Unknown, false, 1},
		{"one is enough, though close, and the missing one bears on it", Least, AtMost, at(4, near), ft(9), unknown, "mhw_landward_edge", Close, true, 1},
		{"one that is not the greatest may be close", Greatest, AtMost, ft(4.5), at(4.4, near), ft(1), "wetland_landward_edge", Close, true, 0},
		{"one that is not the greatest may be of unstated accuracy", Greatest, AtMost, ft(4.5), at(4.4, unstated), ft(1), "wetland_landward_edge", Meets, true, 1},
		{"what is unstated elsewhere counts too", Greatest, AtMost, at(3.5, near), at(3.2, unstated), ft(1), "mhw_landward_edge", Close, true, 1},
		{"more than 6 is beyond", Greatest, AtMost, ft(3), ft(2), more(6), "mtl_landward_edge", Exceeds, false, 0},
		{"more than 2 settles nothing", Greatest, AtMost, ft(3), ft(2), more(2), "mtl_landward_edge", Unknown, false, 1},
		{"more than 6 is not the least", Least, AtMost, ft(3), ft(7), more(6), "mhw_landward_edge", Meets, true, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := apply(several(t, tt.pick, tt.comparison, "5 ft"), table{
				"mhw_landward_edge": tt.mhw, "wetland_landward_edge": tt.land, "mtl_landward_edge": tt.mtl,
			})
			require.Equal(t, tt.decides, r.Ref.Measure)
			require.Equal(t, tt.outcome.String(), r.Outcome.String())
			require.Equal(t, tt.holds, r.Holds)
			require.Len(t, r.Doubts, tt.doubts)
		})
	}
}

func TestDemandsInWords(t *testing.T) {
	require.Equal(t, "the greatest of the reach of the landward edge from mean high water, reach of the landward edge from the wetland and reach of the landward edge from the mid-tide line is at most 5 ft",
		several(t, Greatest, AtMost, "5 ft").String())
	require.Equal(t, "it is outside aquatic preserve", wordCriterion(t, "in_area:aquatic_preserve", Is, "outside").Demand.String())
	require.Equal(t, "of harvest area it touches one of: Unit 1, Unit 2", wordCriterion(t, "in_area:harvest_area", AnyOf, "Unit 1", "Unit 2").Demand.String())
	require.Equal(t, "the material is none of: tyre", wordCriterion(t, "material", NoneOf, "tyre").Demand.String())
}

// Two interpretations of one wording: the book decides by the first and says when the
// other would lead elsewhere.
func TestReadings(t *testing.T) {
	book := load(t, whole)
	facts := func(overall, bank Value) table {
		return table{
			"overall_length": overall, "bank_length": bank, "fill_proposed": {Word: "yes"},
			"crest_above_mhw": {Number: -1}, "crest_above_wetland": {Number: -1}, "openings_lacking": {}, "material": {Word: "rock"},
		}
	}
	ft := func(number float64) Value { return Value{Number: number * foot} }
	says := func(overall, bank Value) []string {
		var out []string
		d := book.Decide(facts(overall, bank))
		require.Len(t, d.Results[0].Interpretations, 2)
		for _, r := range d.Rereads {
			out = append(out, r.String())
		}
		return out
	}
	require.Empty(t, says(ft(400), ft(390)))
	require.Equal(t, []string{"by another interpretation of general/length (less than 500 ft), the path would be general with a waiver"}, says(ft(500), ft(390)))
	require.Equal(t, []string{
		"by another interpretation of general/length (less than 500 ft), the path would be general with a waiver",
		"by another interpretation of general/length (along the bank), the path would be general with a waiver",
	}, says(ft(500), ft(501)))
	require.Equal(t, []string{"by another interpretation of general/length (along the bank), general needs no waiver"}, says(ft(600), ft(390)))
	require.Equal(t, []string{"by another interpretation of general/length (along the bank), the path may be another, which cannot be told: no line"},
		says(ft(400), Value{Unknown: "no line"}))
	d := book.Decide(facts(ft(500), ft(501)))
	require.Equal(t, "general", d.Path.ID, "another interpretation never decides")
	require.Empty(t, d.Waiver)
	require.Equal(t, []string{"close", "close", "waivable"},
		[]string{d.Results[0].Outcome.String(), d.Results[0].Interpretations[0].Outcome.String(), d.Results[0].Interpretations[1].Outcome.String()})
}
