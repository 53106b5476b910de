package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParseAge(t *testing.T) {
	for text, months := range map[string]int{
		"5 years": 60, "1 year": 12, "18 months": 18, "1 month": 1, " 2  years ": 24, "999 years": 11988,
		"": 0, "5": 0, "years": 0, "0 years": 0, "05 years": 0, "-1 year": 0, "+1 year": 0, "1.5 years": 0, "1000 months": 0,
		"2 weeks": 0, "5years": 0, "5 Years": 0, "5 yearss": 0, "5 years old": 0,
	} {
		age, err := ParseAge(text)
		require.Equal(t, months, age.Months, text)
		require.Equal(t, months == 0, err != nil, text)
	}
	age, err := ParseAge(" 2  years ")
	require.NoError(t, err)
	require.Equal(t, "2 years", age.String())
}

func TestTheStricterAgeCounts(t *testing.T) {
	none, year, two := Age{}, Age{12, "1 year"}, Age{24, "2 years"}
	require.Equal(t, year, year.Stricter(two))
	require.Equal(t, year, two.Stricter(year))
	require.Equal(t, year, year.Stricter(none))
	require.Equal(t, year, none.Stricter(year))
	require.Equal(t, none, none.Stricter(none))
}

// aged are facts of which some rest on data so many months old.
type aged struct {
	table
	months map[string]int
}

func (f aged) Measure(ref Ref) Value {
	v := f.table.Measure(ref)
	if old := f.months[ref.Measure]; ref.MaxAge.Months > 0 && old > ref.MaxAge.Months {
		v.Doubts = []Doubt{{Says: ref.Measure + " is older than " + ref.MaxAge.String()}}
	}
	return v
}

const agedBook = `book: aged
title: A book for tests
authority: test
jurisdiction: Nowhere
edition: "1"
in_force: {from: null, until: null}
status: in force
caution: For tests only.
paths:
  - id: general
    title: General permit
    criteria:
      - id: stand-off
        greatest_of: [mhw_landward_edge, wetland_landward_edge, mtl_landward_edge]
        max_age: 2 years
        at_most: 5 ft
        when: {measure: waterway_width, at_least: 100 ft, max_age: 1 year}
        interpretation: the greatest
        interpretations:
          - {id: line, measure: mhw_landward_edge, at_most: 5 ft, says: from the line, evidence: practice}
        evidence: practice
  - {id: individual, title: Individual permit, criteria: []}
`

// Worked by hand, in feet and months. The stand-off counts where the water is at
// least 100 ft wide.
func TestEachInputIsJudgedByItsOwnAge(t *testing.T) {
	const (
		line  = "of 3, the reach of the landward edge from mean high water decides"
		marsh = "of 3, the reach of the landward edge from the wetland decides"
	)
	book := load(t, agedBook)
	for _, tt := range []struct {
		name               string
		mhw, wetland, wide float64
		months             map[string]int
		path               string
		certainty          Certainty
		couldBe, says      string
	}{
		{"all as new as asked", 4, 3, 200, map[string]int{"mhw_landward_edge": 24, "wetland_landward_edge": 24, "waterway_width": 12}, "general", Firm, "", line},
		{"the greater is too old", 4, 3, 200, map[string]int{"mhw_landward_edge": 25}, "general", NeedsInformation, "",
			"mhw_landward_edge is older than 2 years; " + line},
		{"the lesser is too old, and may be the greater", 4, 3, 200, map[string]int{"wetland_landward_edge": 25}, "general", NeedsInformation, "",
			"wetland_landward_edge is older than 2 years; " + marsh},
		{"the greater is too old, and may be less", 4, 7, 200, map[string]int{"wetland_landward_edge": 25}, "individual", NeedsInformation, "general",
			"wetland_landward_edge is older than 2 years; " + marsh},
		{"another is beyond whatever the old one is", 7, 3, 200, map[string]int{"wetland_landward_edge": 25}, "individual", Firm, "", line},
		{"another is beyond whatever the older and greater one is", 7, 9, 200, map[string]int{"wetland_landward_edge": 25}, "individual", Firm, "", line},
		{"it may not apply, by old data", 7, 3, 200, map[string]int{"waterway_width": 13}, "individual", NeedsInformation, "general",
			"it applies only where the width of the waterway is at least 100 ft, which is not sure: waterway_width is older than 1 year"},
		{"it may apply, by old data", 7, 3, 50, map[string]int{"waterway_width": 13}, "general", NeedsInformation, "",
			"it applies only where the width of the waterway is at least 100 ft, which is not sure: waterway_width is older than 1 year"},
		{"it does not apply, however old what it compares", 7, 3, 50, map[string]int{"wetland_landward_edge": 25}, "general", Firm, "",
			"it applies only where the width of the waterway is at least 100 ft"},
		{"met by new data, whether it applies or not", 4, 3, 50, map[string]int{"waterway_width": 13}, "general", Firm, "", line},
	} {
		t.Run(tt.name, func(t *testing.T) {
			ft := func(number float64) Value { return Value{Number: number * foot} }
			d := book.Decide(aged{table{
				"mhw_landward_edge": ft(tt.mhw), "wetland_landward_edge": ft(tt.wetland), "mtl_landward_edge": ft(1), "waterway_width": ft(tt.wide),
			}, tt.months})
			require.Equal(t, tt.path, d.Path.ID)
			require.Equal(t, tt.certainty, d.Certainty)
			require.Equal(t, tt.couldBe, d.CouldBe)
			require.Equal(t, tt.says, d.Results[0].Reason)
			require.NotContains(t, d.Results[0].Interpretations[0].Reason, "older than 2 years", "the interpretation asks for no age")
		})
	}
}

// An example gives measures and no layers, so nothing in it is too old.
func TestExamplesAreOfAnyAge(t *testing.T) {
	book := load(t, agedBook+"examples: [{given: {mhw_landward_edge: 4 ft, wetland_landward_edge: 3 ft, mtl_landward_edge: 1 ft, waterway_width: 200 ft}, path: general, certainty: firm}]\n")
	require.Empty(t, book.Check())
}

// A path whose limits are met by old data alone is the same path.
func TestAgesChangeHowSureAndNotWhich(t *testing.T) {
	const reach = "measure: mhw_farthest, at_most: 10 ft"
	require.NotEmpty(t, about(pathsBook(t, "", []string{reach}, []string{reach + ", max_age: 1 year"}).Warnings(), "never reached"))
	require.NotEmpty(t, about(pathsBook(t, "", []string{reach + ", max_age: 1 year"}, []string{reach}).Warnings(), "never reached"))
	require.NotEmpty(t, about(pathsBook(t, "", []string{reach + ", max_age: 1 year", "measure: mhw_farthest, at_least: 11 ft"}).Warnings(), "nothing meets both"))
	old, new := pathsBook(t, "", []string{reach + ", max_age: 1 year"}), pathsBook(t, "", []string{reach + ", max_age: 2 years"})
	require.False(t, SameRuling(old, new))
	same := pathsBook(t, "", []string{reach + ", max_age: 12 months"})
	require.True(t, SameRuling(old, same))
	require.Empty(t, Diff(old, same))
}
