package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Structures that meet every limit of their path by every interpretation, so that what
// a row changes decides.
var (
	smallReef = table{
		"overall_length": lengthOf(120), "bank_length": lengthOf(118), "element_length": lengthOf(110), "mhw_farthest": lengthOf(8.5),
		"longest_run": lengthOf(18), "opening_spacing": lengthOf(23), "openings_lacking": {}, "crest_above_mhw": lengthOf(-1),
		"seagrass_overlap": {}, "wetland_overlap": {}, "in_area:shellfish_bed": {}, "in_area:coral": {},
		"kind": {Word: "breakwater"}, "material": {Word: "concrete"}, "fill_proposed": {Word: "no"},
		// Too large for oyster habitat, which beyond the exemption would else be open.
		"seagrass_nearest": lengthOf(200), "footprint_area": areaOf(12000),
	}
	// Too far out for the exemption.
	outerReef = given(smallReef, table{"mhw_farthest": lengthOf(60), "kind": {Word: "reef"}, "material": {Word: "oyster shell"}})
	lowSill   = table{
		"mlw_farthest": lengthOf(12), "project_bank_length": lengthOf(120), "project_length": lengthOf(120),
		"longest_run": lengthOf(60), "material": {Word: "rock"}, "kind": {Word: "sill"},
	}
	// Without a low water line, 500 ft of bank.
	upperSill = table{
		"project_bank_length": lengthOf(500), "project_length": lengthOf(500), "longest_run": lengthOf(60), "material": {Word: "rock"},
		"kind": {Word: "sill"}, "seagrass_overlap": {}, "wetland_overlap": {},
	}
	// At the toe of a wall.
	riprapToe = given(smallReef, table{
		"kind": {Word: "riprap"}, "mhw_farthest": lengthOf(6), "crest_above_mhw": lengthOf(2), "material": {Word: "rock"},
		"stone_size": lengthOf(2), "side_slope": {Number: 2.5}, "waterway_share": {Number: 0.05},
	})
	besideLine = table{"riparian_nearest": lengthOf(40), "kind": {Word: "breakwater"}, "in_area:aquatic_preserve": {}}
)

var touched = Value{Names: []string{"one"}}

func areaOf(squareFeet float64) Value { return Value{Number: squareFeet * sqft.SI()} }

// fillOf is a volume spread over 500 ft of bank.
func fillOf(cubicYards float64) Value {
	return Value{Number: cubicYards * cuyd.SI() / (500 * foot)}
}

// The figures of each row are the rule's, its answer worked by hand: at most
// holds at the figure itself. A length at its limit cannot be told from it by
// measuring.
func TestBoundariesOfFloridaAndOfTheNationwidePermits(t *testing.T) {
	state, lands := editionOf(t, "us-fl-state", "2024"), editionOf(t, "us-fl-lands", "2019")
	for _, edition := range []string{"2017", "2021", "2026"} {
		federal := editionOf(t, "us-federal", edition)
		for _, tt := range []struct {
			rule      string
			book      *Book
			base      table
			measure   string
			value     Value
			path      string
			certainty Certainty
			waiver    []string
		}{
			{"FL-EX-01", state, smallReef, "bank_length", lengthOf(499.99), "exemption", Firm, nil},
			{"FL-EX-01", state, smallReef, "bank_length", lengthOf(500), "exemption", CloseCall, nil},
			{"FL-EX-01", state, smallReef, "bank_length", lengthOf(500.01), "individual", Firm, nil},
			{"FL-EX-01", state, smallReef, "overall_length", lengthOf(620), "exemption", Firm, nil},
			{"FL-EX-02", state, smallReef, "mhw_farthest", lengthOf(10), "exemption", CloseCall, nil},
			{"FL-EX-02", state, smallReef, "mhw_farthest", lengthOf(10.01), "individual", Firm, nil},
			{"FL-EX-04", state, smallReef, "crest_above_mhw", inchesOf(6), "individual", Firm, nil},
			{"FL-EX-04", state, smallReef, "crest_above_mhw", inchesOf(6.1), "individual", Firm, nil},
			{"FL-EX-03", state, smallReef, "longest_run", lengthOf(75), "exemption", CloseCall, nil},
			{"FL-EX-03", state, smallReef, "longest_run", lengthOf(75.01), "individual", Firm, nil},
			{"FL-EX-05", state, smallReef, "seagrass_overlap", areaOf(1), "individual", Firm, nil},
			{"FL-EX-05", state, smallReef, "wetland_overlap", areaOf(1), "individual", Firm, nil},
			{"FL-EX-05", state, smallReef, "in_area:shellfish_bed", touched, "individual", Firm, nil},
			{"FL-EX-05", state, smallReef, "in_area:coral", touched, "individual", Firm, nil},
			{"FL-EX-05", state, smallReef, "in_area:coral", Value{Unknown: "no coral is mapped"}, "individual", NeedsInformation, nil},
			// Inside its limits that were read, oyster habitat stays open for those that were not.
			{"FL-GP632-01", state, outerReef, "footprint_area", areaOf(10890), "individual", NeedsInformation, nil},
			{"FL-GP632-01", state, outerReef, "footprint_area", areaOf(10891), "individual", Firm, nil},
			{"FL-GP431-03", state, riprapToe, "mhw_farthest", lengthOf(8), "riprap", CloseCall, nil},
			{"FL-GP431-03", state, riprapToe, "mhw_farthest", lengthOf(8.01), "individual", Firm, nil},
			{"FL-GP431-03", state, riprapToe, "waterway_share", Value{Number: 1.0 / 3}, "riprap", Firm, nil},
			{"FL-GP431-03", state, riprapToe, "waterway_share", Value{Number: 0.334}, "individual", Firm, nil},
			{"FL-SSL-01", lands, besideLine, "riparian_nearest", lengthOf(25), "riparian-setback", CloseCall, nil},
			{"FL-SSL-01", lands, besideLine, "riparian_nearest", lengthOf(24.99), "riparian-setback", Firm, []string{"riparian-setback/setback"}},
			{"N54-a", federal, lowSill, "mlw_farthest", lengthOf(30), "nwp-54", CloseCall, nil},
			{"N54-a", federal, lowSill, "mlw_farthest", lengthOf(30.01), "nwp-54", Firm, []string{"nwp-54/reach"}},
			{"N54-b", federal, lowSill, "project_bank_length", lengthOf(499.99), "nwp-54", Firm, nil},
			{"N54-b", federal, lowSill, "project_bank_length", lengthOf(500), "nwp-54", CloseCall, nil},
			{"N54-b", federal, lowSill, "project_bank_length", lengthOf(500.01), "nwp-54", Firm, []string{"nwp-54/length"}},
			// Permit 13 is reached where permit 54 stays open.
			{"N13-c", federal, upperSill, "fill_per_length", fillOf(500), "nwp-13", NeedsInformation, nil},
			{"N13-c", federal, upperSill, "fill_per_length", fillOf(501), "nwp-13", NeedsInformation, []string{"nwp-13/fill"}},
		} {
			name := tt.rule + " " + tt.book.Edition + " " + tt.measure
			d := tt.book.Decide(given(tt.base, table{tt.measure: tt.value}))
			require.Equal(t, tt.path, d.Path.ID, name)
			require.Equal(t, tt.certainty, d.Certainty, name)
			require.Equal(t, append([]string{}, tt.waiver...), ids(d.Waiver), name)
		}
	}
}

// A crest 6 in above mean high water takes the stricter path, by a limit that
// nobody has read and that must not claim it.
func TestTheCrestOfTheExemptionWasNotRead(t *testing.T) {
	d := editionOf(t, "us-fl-state", "2024").Decide(given(smallReef, table{"crest_above_mhw": inchesOf(6)}))
	require.Contains(t, ids(d.BlockedBy), "exemption/crest")
	for _, r := range d.BlockedBy {
		if r.Criterion.ID == "crest" {
			require.NotEqual(t, Read, r.Criterion.Evidence)
		}
	}
}

// Each wording with several meanings is decided by one and told by the others.
// Worked by hand; + is a waiver.
func TestReadingsOfFloridaAndOfTheNationwidePermits(t *testing.T) {
	state, lands, federal := editionOf(t, "us-fl-state", "2024"), editionOf(t, "us-fl-lands", "2019"), editionOf(t, "us-federal", "2026")
	for _, tt := range []struct {
		name  string
		book  *Book
		facts table
		path  string
		want  map[string]string
	}{
		{"nothing hangs on an interpretation", state, smallReef, "exemption", map[string]string{}},
		{"500 ft is not less than 500 ft", state, given(smallReef, table{"bank_length": lengthOf(500)}), "exemption",
			map[string]string{"exemption/length/strict": "individual"}},
		{"520 ft of bank, of which less is built on", state, given(smallReef, table{"bank_length": lengthOf(520)}), "individual",
			map[string]string{"exemption/length/structure": "exemption", "exemption/length/elements": "exemption"}},
		{"510 ft of structure on less bank", state, given(smallReef, table{"overall_length": lengthOf(510)}), "exemption",
			map[string]string{"exemption/length/structure": "individual"}},
		{"a run of 21 ft", state, given(smallReef, table{"longest_run": lengthOf(21)}), "exemption",
			map[string]string{"exemption/openings/close": "individual"}},
		{"one opening too few", state, given(smallReef, table{"openings_lacking": {Number: 1}}), "exemption",
			map[string]string{"exemption/openings/count": "individual"}},
		{"openings 76 ft apart", state, given(smallReef, table{"opening_spacing": lengthOf(76)}), "exemption",
			map[string]string{"exemption/openings/spacing": "individual"}},
		{"a breakwater within the setback", lands, given(besideLine, table{"riparian_nearest": lengthOf(10)}), "riparian-setback+",
			map[string]string{"riparian-setback/setback/shore-protection": "riparian-setback"}},
		{"a dock within the setback", lands, given(besideLine, table{"riparian_nearest": lengthOf(10), "kind": {Word: "dock"}}), "board-review",
			map[string]string{}},
		{"a pier 180 ft clear", lands, given(besideLine, table{"riparian_nearest": lengthOf(180), "kind": {Word: "pier"}}), "board-review",
			map[string]string{}},
		{"a project of 520 ft on less bank", federal, given(lowSill, table{"project_length": lengthOf(520)}), "nwp-54",
			map[string]string{"nwp-54/length/structure": "nwp-54+"}},
		{"a project of 120 ft on 520 ft of bank", federal, given(lowSill, table{"project_bank_length": lengthOf(520)}), "nwp-54+",
			map[string]string{"nwp-54/length/structure": "nwp-54"}},
	} {
		plus := func(path *Path, waiver bool) string {
			if waiver {
				return path.ID + "+"
			}
			return path.ID
		}
		d := tt.book.Decide(tt.facts)
		require.Equal(t, tt.path, plus(d.Path, len(d.Waiver) > 0), tt.name)
		told := map[string]string{}
		for _, r := range d.Rereads {
			told[r.Result.Path.ID+"/"+r.Result.Criterion.ID+"/"+r.Result.Interpretation.ID] = plus(r.Path, r.Waiver)
		}
		require.Equal(t, tt.want, told, tt.name)
	}
}

// Before 2012 the permit for banks said less than 500 ft (from an older notice),
// since then no more than 500 ft, and may be waived; all editions here are later.
func TestTheNationwidePermitsAreNotStrict(t *testing.T) {
	editions, err := BuiltIn("us-federal")
	require.NoError(t, err)
	for _, book := range editions {
		demands, _ := demandsOf(book)
		for _, id := range []string{"nwp-54/length", "nwp-13/length"} {
			require.Equal(t, AtMost, demands[id].Comparison, "%s %s", book.Edition, id)
		}
	}
}
