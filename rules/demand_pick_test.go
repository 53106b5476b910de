package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func pick(t require.TestingT, how Pick, comparison Comparison, limit string) *Demand {
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

// Worked by hand, in feet.
func TestTheGreatestAndTheLeast(t *testing.T) {
	ft := func(number float64) Value { return Value{Number: number * foot} }
	more := func(number float64) Value { return Value{Number: number * foot, Bound: MoreThan} }
	less := func(number float64) Value { return Value{Number: number * foot, Bound: LessThan} }
	unknown := Value{Unknown: "no mid-tide line"}
	for _, tt := range []struct {
		name           string
		pick           Pick
		mhw, land, mtl Value
		input          string
		want           Value
	}{
		{"greatest", Greatest, ft(3), ft(7), ft(5), "wetland_landward_edge", ft(7)},
		{"least", Least, ft(3), ft(7), ft(5), "mhw_landward_edge", ft(3)},
		{"of equals the first", Greatest, ft(7), ft(7), ft(5), "mhw_landward_edge", ft(7)},
		{"a missing one makes the greatest unknown", Greatest, ft(3), ft(7), unknown, "mtl_landward_edge", unknown},
		{"a missing one makes the least unknown", Least, unknown, ft(7), ft(5), "mhw_landward_edge", unknown},
		{"more than 6 may be the greatest", Greatest, ft(3), ft(7), more(6), "wetland_landward_edge", more(7)},
		{"more than 6 is not the least", Least, ft(3), ft(7), more(6), "mhw_landward_edge", ft(3)},
		{"more than 2 is the least", Least, ft(3), ft(7), more(2), "mtl_landward_edge", more(2)},
		{"less than 6 is not the greatest", Greatest, ft(3), ft(7), less(6), "wetland_landward_edge", ft(7)},
		{"less than 6 may be the least", Least, ft(3), ft(7), less(6), "mhw_landward_edge", less(3)},
		{"less than 9 is the greatest", Greatest, ft(3), ft(7), less(9), "mtl_landward_edge", less(9)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in, v := pick(t, tt.pick, AtMost, "5 ft").take(table{
				"mhw_landward_edge": tt.mhw, "wetland_landward_edge": tt.land, "mtl_landward_edge": tt.mtl,
			})
			require.Equal(t, tt.input, in.Ref.Measure)
			require.Equal(t, tt.want.Unknown, v.Unknown)
			if v.Unknown == "" {
				require.Equal(t, tt.want.Number, v.Number)
				require.Equal(t, tt.want.Bound, v.Bound)
				require.Contains(t, v.Detail, "is the "+in.Measure.Title)
			}
		})
	}
}

func TestDemandsInWords(t *testing.T) {
	require.Equal(t, "the greatest of the reach of the landward edge from mean high water, reach of the landward edge from the wetland and reach of the landward edge from the mid-tide line is at most 5 ft",
		pick(t, Greatest, AtMost, "5 ft").String())
	require.Equal(t, "it is outside aquatic preserve", wordCriterion(t, "in_area:aquatic_preserve", Is, "outside").Demand.String())
	require.Equal(t, "of harvest area it touches one of: Unit 1, Unit 2", wordCriterion(t, "in_area:harvest_area", AnyOf, "Unit 1", "Unit 2").Demand.String())
	require.Equal(t, "the material is none of: tyre", wordCriterion(t, "material", NoneOf, "tyre").Demand.String())
}

// Two readings of one wording: the book decides by the first and says when the
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
		require.Len(t, d.Results[0].Readings, 2)
		for _, r := range d.Rereads {
			out = append(out, r.String())
		}
		return out
	}
	require.Empty(t, says(ft(400), ft(390)))
	require.Equal(t, []string{"by another reading of general/length (less than 500 ft), the path would be general with a waiver"}, says(ft(500), ft(390)))
	require.Equal(t, []string{
		"by another reading of general/length (less than 500 ft), the path would be general with a waiver",
		"by another reading of general/length (along the bank), the path would be general with a waiver",
	}, says(ft(500), ft(501)))
	require.Equal(t, []string{"by another reading of general/length (along the bank), general needs no waiver"}, says(ft(600), ft(390)))
	require.Equal(t, []string{"by another reading of general/length (along the bank), the path may be another, which cannot be told: no line"},
		says(ft(400), Value{Unknown: "no line"}))
	d := book.Decide(facts(ft(500), ft(501)))
	require.Equal(t, "general", d.Path.ID, "another reading never decides")
	require.Empty(t, d.Waiver)
	require.Equal(t, []string{"close", "close", "waivable"},
		[]string{d.Results[0].Outcome.String(), d.Results[0].Readings[0].Outcome.String(), d.Results[0].Readings[1].Outcome.String()})
}
