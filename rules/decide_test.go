package rules

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// ladder has an exemption, a permit with two waivable limits, and the residual path.
const ladder = `book: ladder
title: A book for tests
authority: test
jurisdiction: Nowhere
edition: "1"
in_force: {from: 2020-01-01, until: 2029-12-31}
status: in force
caution: For tests only.
paths:
  - id: exemption
    title: Exemption
    criteria:
      - {id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: practice}
      - {id: grass, measure: seagrass_nearest, at_least: 50 ft, evidence: practice}
    notices:
      - {says: Plant what grows here, evidence: practice}
  - id: general
    title: General permit
    criteria:
      - {id: reach, measure: mlw_farthest, at_most: 30 ft, waivable_by: the engineer, evidence: practice}
      - {id: length, measure: bank_length, at_most: 500 ft, waivable_by: the engineer, evidence: practice}
      - {id: material, measure: material, none_of: [tyre], evidence: practice}
    notices:
      - {says: Notify first, cite: Rule 9, evidence: memory}
  - id: individual
    title: Individual permit
    criteria: []
words: {material: [stone]}
`

func load(t require.TestingT, text string) *Book {
	book, err := Load("test.yaml", strings.NewReader(text))
	require.NoError(t, err)
	return book
}

// table is a set of facts by measure.
type table map[string]Value

func (f table) Measure(ref Ref) Value {
	if v, ok := f[ref.Measure]; ok {
		return v
	}
	return Value{Unknown: "no " + ref.Measure + " was given"}
}

func (f table) Doubts() []string { return nil }

func ids(results []*Result) []string {
	out := []string{}
	for _, r := range results {
		out = append(out, r.Path.ID+"/"+r.Criterion.ID)
	}
	return out
}

// Every row was worked by hand. Distances in feet; near is an accuracy with a
// tolerance of 2.13 ft.
func TestDecisionTable(t *testing.T) {
	book := load(t, ladder)
	near := stated(3, 1)
	unstated := []Accuracy{{Of: "the line", Line: math.NaN()}}
	at := func(ft float64, a []Accuracy) Value { return Value{Number: ft * foot, Accuracy: a, Room: math.NaN()} }
	unknown := Value{Unknown: "not mapped"}
	stone, tyre := Value{Word: "stone"}, Value{Word: "tyre"}
	for _, tt := range []struct {
		name                                string
		reach, grass, mlw, length, material Value
		path                                string
		certainty                           Certainty
		couldBe                             string
		waiver, blockedBy                   []string
	}{
		{"all inside", at(5, near), at(90, near), at(1, near), at(100, nil), stone,
			"exemption", Firm, "", nil, nil},
		{"inside by less than the tolerance", at(9, near), at(90, near), at(1, near), at(100, nil), stone,
			"exemption", CloseCall, "", nil, nil},
		{"outside by less than the tolerance", at(11, near), at(90, near), at(1, near), at(100, nil), stone,
			"general", CloseCall, "exemption", nil, []string{"exemption/reach"}},
		{"outside for sure", at(20, near), at(90, near), at(1, near), at(100, nil), stone,
			"general", Firm, "", nil, []string{"exemption/reach"}},
		{"close, but the path is closed by another criterion", at(11, near), at(20, near), at(1, near), at(100, nil), stone,
			"general", Firm, "", nil, []string{"exemption/reach", "exemption/grass"}},
		{"unknown on an easier path", at(5, near), unknown, at(1, near), at(100, nil), stone,
			"general", NeedsInformation, "exemption", nil, []string{"exemption/grass"}},
		{"unknown, but the path is closed for sure", at(20, near), unknown, at(1, near), at(100, nil), stone,
			"general", Firm, "", nil, []string{"exemption/reach", "exemption/grass"}},
		{"unknown on a harder path does not bear", at(5, near), at(90, near), unknown, unknown, unknown,
			"exemption", Firm, "", nil, nil},
		{"unstated inside", at(5, unstated), at(90, near), at(1, near), at(100, nil), stone,
			"exemption", NeedsInformation, "", nil, nil},
		{"unstated outside keeps the easier path open", at(20, unstated), at(90, near), at(1, near), at(100, nil), stone,
			"general", NeedsInformation, "exemption", nil, []string{"exemption/reach"}},
		{"unstated far outside cannot matter", at(120, unstated), at(90, near), at(1, near), at(100, nil), stone,
			"general", Firm, "", nil, []string{"exemption/reach"}},
		{"one waiver", at(20, near), at(90, near), at(40, near), at(100, nil), stone,
			"general", Firm, "", []string{"general/reach"}, []string{"general/reach", "exemption/reach"}},
		{"two waivers", at(20, near), at(90, near), at(40, near), at(600, nil), stone,
			"general", Firm, "", []string{"general/reach", "general/length"}, []string{"general/reach", "general/length", "exemption/reach"}},
		{"a close excess is waived on the measured side", at(20, near), at(90, near), at(31, near), at(100, nil), stone,
			"general", CloseCall, "general without waiver", []string{"general/reach"}, []string{"general/reach", "exemption/reach"}},
		{"an unstated excess is waived on the measured side", at(20, near), at(90, near), at(40, unstated), at(100, nil), stone,
			"general", NeedsInformation, "general without waiver", []string{"general/reach"}, []string{"general/reach", "exemption/reach"}},
		{"a waiver and an open easier path", at(11, near), at(90, near), at(40, near), at(100, nil), stone,
			"general", CloseCall, "exemption", []string{"general/reach"}, []string{"general/reach", "exemption/reach"}},
		{"a waiver cannot cover an unknown", at(20, near), at(90, near), at(40, near), unknown, stone,
			"individual", NeedsInformation, "general", nil, []string{"general/reach", "general/length", "exemption/reach"}},
		{"what nobody may waive closes the path", at(20, near), at(90, near), at(40, near), unknown, tyre,
			"individual", Firm, "", nil, []string{"general/reach", "general/length", "general/material", "exemption/reach"}},
		{"nothing known", unknown, unknown, unknown, unknown, unknown,
			"individual", NeedsInformation, "exemption", nil, []string{"general/reach", "general/length", "general/material", "exemption/reach", "exemption/grass"}},
		{"unknown outranks close", at(11, near), unknown, at(1, near), at(100, nil), stone,
			"general", NeedsInformation, "exemption", nil, []string{"exemption/reach", "exemption/grass"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			d := book.Decide(table{
				"mhw_farthest": tt.reach, "seagrass_nearest": tt.grass,
				"mlw_farthest": tt.mlw, "bank_length": tt.length, "material": tt.material,
			})
			require.Equal(t, tt.path, d.Path.ID)
			require.Equal(t, tt.certainty, d.Certainty)
			require.Equal(t, tt.couldBe, d.CouldBe)
			require.Equal(t, append([]string{}, tt.waiver...), ids(d.Waiver))
			require.Equal(t, append([]string{}, tt.blockedBy...), ids(d.BlockedBy))
			require.Len(t, d.Results, 5)
			for _, blocked := range d.BlockedBy {
				require.Equal(t, blocked.Outcome == Unknown, blocked.Change == "")
			}
		})
	}
}

func TestWaivableOutcome(t *testing.T) {
	d := load(t, ladder).Decide(table{
		"mhw_farthest": {Number: 20 * foot}, "seagrass_nearest": {Number: 90 * foot}, "mlw_farthest": {Number: 40 * foot, Room: math.NaN()},
		"bank_length": {Number: 100 * foot}, "material": {Word: "stone"},
	})
	require.Equal(t, Waivable, d.Waiver[0].Outcome)
	require.Equal(t, "the engineer", d.Waiver[0].Criterion.WaivableBy)
	require.Equal(t, "move 10.0 ft landward", d.Waiver[0].Change)
	require.Len(t, d.Notices, 1)
	require.Equal(t, "Notify first (Rule 9, memory)", d.Notices[0].String())
}

func TestBinding(t *testing.T) {
	book := load(t, ladder)
	facts := table{"mhw_farthest": {Number: 8 * foot}, "seagrass_nearest": {Number: 55 * foot}}
	// Margins of 2 ft on 10 and of 5 ft on 50: the second is the less in proportion.
	require.Equal(t, "grass", book.Decide(facts).Tightest.Criterion.ID)
	require.Equal(t, "Plant what grows here (practice)", book.Decide(facts).Notices[0].String())
	require.Nil(t, book.Decide(table{}).Tightest, "the last path has no criteria")
}

func TestBindingOfATieIsTheFirstInTheBook(t *testing.T) {
	text := strings.Replace(ladder, "measure: seagrass_nearest, at_least: 50 ft", "measure: mlw_farthest, at_most: 10 ft", 1)
	d := load(t, text).Decide(table{"mhw_farthest": {Number: 2}, "mlw_farthest": {Number: 2}})
	require.Equal(t, "reach", d.Tightest.Criterion.ID)
}

func TestBindingCountsALimitOfZeroInFeet(t *testing.T) {
	text := strings.Replace(ladder, "measure: seagrass_nearest, at_least: 50 ft", "measure: crest_above_mhw, at_most: 0 ft", 1)
	book := load(t, text)
	// 0.5 ft below a limit of 0 counts 0.5; 4 ft of 10 counts 0.4.
	d := book.Decide(table{"mhw_farthest": {Number: 6 * foot}, "crest_above_mhw": {Number: -0.5 * foot}})
	require.Equal(t, "reach", d.Tightest.Criterion.ID)
	d = book.Decide(table{"mhw_farthest": {Number: 6 * foot}, "crest_above_mhw": {Number: -0.3 * foot}})
	require.Equal(t, "grass", d.Tightest.Criterion.ID)
}

func TestABookWithoutPathsDecidesNothing(t *testing.T) {
	d := (&Book{}).Decide(table{})
	require.Nil(t, d.Path)
	require.Equal(t, NeedsInformation, d.Certainty)
}

// Data in doubt, such as data too old, decide on the measured side and never
// firmly; where another criterion closes the path for sure they do not matter.
func TestDoubtIsNeverFirm(t *testing.T) {
	book := load(t, ladder)
	old := func(ft float64) Value {
		return Value{Number: ft * foot, Room: math.NaN(), Doubts: []Doubt{{Says: "seagrass is of 2011"}}}
	}
	facts := func(reach, grass Value) table {
		return table{"mhw_farthest": reach, "seagrass_nearest": grass, "mlw_farthest": {}, "bank_length": {}, "material": {Word: "stone"}}
	}
	for _, tt := range []struct {
		reach, grass  Value
		path          string
		certainty     Certainty
		couldBe, says string
	}{
		{Value{Number: 5 * foot}, old(90), "exemption", NeedsInformation, "", "seagrass is of 2011"},
		{Value{Number: 5 * foot}, old(20), "general", NeedsInformation, "exemption", "seagrass is of 2011"},
		{Value{Number: 20 * foot}, old(90), "general", Firm, "", "seagrass is of 2011"},
	} {
		d := book.Decide(facts(tt.reach, tt.grass))
		require.Equal(t, tt.path, d.Path.ID)
		require.Equal(t, tt.certainty, d.Certainty)
		require.Equal(t, tt.couldBe, d.CouldBe)
		require.Equal(t, tt.says, d.Results[1].Reason)
	}
}
