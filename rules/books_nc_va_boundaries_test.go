package rules

import (
	"maps"
	"testing"

	"github.com/stretchr/testify/require"
)

// given is a set of facts with some of them changed.
func given(facts, changes table) table {
	out := maps.Clone(facts)
	maps.Copy(out, changes)
	return out
}

func lengthOf(ft float64) Value { return Value{Number: ft * foot} }
func inchesOf(in float64) Value { return Value{Number: in * foot / 12} }

// Three sills that meet every limit of their path.
var (
	rockSill = table{
		"kind": {Word: "sill"}, "material": {Word: "rock"}, "fill_proposed": {Word: "yes"},
		"wetland_behind": {Number: 1000 * foot, Bound: MoreThan}, "mhw_landward_edge": lengthOf(20),
		"crest_above_mhw": inchesOf(3), "overall_length": lengthOf(120), "longest_run": lengthOf(90),
		"in_area:ocean_hazard_area": {},
	}
	vinylSill = table{
		"kind": {Word: "sill"}, "material": {Word: "vinyl"},
		"wetland_behind": {Number: 1000 * foot, Bound: MoreThan}, "mhw_farthest": lengthOf(12),
		"waterway_share": {Number: 0.05}, "mhw_mean_depth": lengthOf(2), "overall_length": lengthOf(120),
		"longest_run": lengthOf(90), "longest_overlap": lengthOf(0), "crest_above_mhw": inchesOf(3),
		"riparian_nearest": lengthOf(40),
	}
	groupTwoSill = table{
		"kind": {Word: "sill"}, "material": {Word: "rock"}, "fetch": lengthOf(5280),
		"mlw_greatest_depth": lengthOf(1), "mlw_landward_edge": lengthOf(10), "wetland_width": lengthOf(12),
	}
)

// The figures of each row are the rule's, its answer worked by hand. A length
// at its limit is inside and cannot be told from it by measuring.
func TestBoundariesOfCarolinaAndVirginia(t *testing.T) {
	carolina, virginia := editionOf(t, "us-nc-state", "pre-2019"), editionOf(t, "us-va-state", "2017")
	noFill := given(rockSill, table{"fill_proposed": {Word: "no"}})
	besideWetland := given(rockSill, table{"wetland_behind": lengthOf(4), "crest_above_wetland": inchesOf(3)})
	for _, tt := range []struct {
		rule      string
		book      *Book
		base      table
		measure   string
		value     Value
		path      string
		certainty Certainty
		waiver    bool
		failing   string
	}{
		{"NC27-g", carolina, rockSill, "overall_length", lengthOf(499.99), "marsh-sill", Firm, false, ""},
		{"NC27-g", carolina, rockSill, "overall_length", lengthOf(500), "marsh-sill", CloseCall, false, ""},
		{"NC27-g", carolina, rockSill, "overall_length", lengthOf(500.01), "individual", Firm, false, "marsh-sill/length"},
		{"NC27-d", carolina, rockSill, "mhw_landward_edge", lengthOf(30), "marsh-sill", CloseCall, false, ""},
		{"NC27-d", carolina, rockSill, "mhw_landward_edge", lengthOf(30.01), "individual", Firm, false, "marsh-sill/stand-off-fill"},
		{"NC27-c2", carolina, noFill, "mhw_landward_edge", lengthOf(30), "marsh-sill", CloseCall, false, ""},
		{"NC27-c2", carolina, noFill, "mhw_landward_edge", lengthOf(30.01), "individual", Firm, false, "marsh-sill/stand-off-bare"},
		{"NC27-f", carolina, rockSill, "crest_above_mhw", inchesOf(6), "marsh-sill", CloseCall, false, ""},
		// 0.1 in is less than the 0.01 ft to which lengths are told apart.
		{"NC27-f", carolina, rockSill, "crest_above_mhw", inchesOf(6.1), "individual", CloseCall, false, "marsh-sill/height"},
		{"NC27-f", carolina, rockSill, "crest_above_mhw", inchesOf(6.2), "individual", Firm, false, "marsh-sill/height"},
		{"NC27-f", carolina, besideWetland, "crest_above_wetland", inchesOf(6), "marsh-sill", CloseCall, false, ""},
		{"NC27-f", carolina, besideWetland, "crest_above_wetland", inchesOf(6.2), "individual", Firm, false, "marsh-sill/height-wetland"},
		{"NC21-g", carolina, vinylSill, "riparian_nearest", lengthOf(15), "sheet-pile-sill", CloseCall, false, ""},
		{"NC21-g", carolina, vinylSill, "riparian_nearest", lengthOf(14.99), "sheet-pile-sill", Firm, true, "sheet-pile-sill/setback"},
		// Inside its limits that were read, group 2 stays open for those that were not.
		{"VA2-2b", virginia, groupTwoSill, "mlw_landward_edge", lengthOf(30), "individual", NeedsInformation, false, "group-2/rest"},
		{"VA2-2b", virginia, groupTwoSill, "mlw_landward_edge", lengthOf(30.01), "individual", Firm, false, "group-2/stand-off"},
		{"VA2-1", virginia, groupTwoSill, "fetch", lengthOf(1.5 * 5280), "individual", NeedsInformation, false, "group-2/rest"},
		{"VA2-1", virginia, groupTwoSill, "fetch", lengthOf(1.51 * 5280), "individual", Firm, false, "group-2/fetch"},
	} {
		name := tt.rule + " " + tt.book.Paths[0].ID + " " + feet.Format(tt.value.Number)
		d := tt.book.Decide(given(tt.base, table{tt.measure: tt.value}))
		require.Equal(t, tt.path, d.Path.ID, name)
		require.Equal(t, tt.certainty, d.Certainty, name)
		require.Equal(t, tt.waiver, len(d.Waiver) > 0, name)
		if tt.failing != "" {
			require.Contains(t, ids(d.BlockedBy), tt.failing, name)
		}
	}
}

// The same words, different geometry: a sill 8 ft wide whose landward edge lies
// 28 ft off mean high water is inside Carolina's 30 ft to that edge (NC27-d) and,
// with 28 + 8 = 36 ft to its outer edge, beyond Florida's 10 ft. Worked by hand.
func TestLandwardAndOuterEdgeAreNotTheSame(t *testing.T) {
	facts := given(rockSill, table{"mhw_landward_edge": lengthOf(28), "mhw_farthest": lengthOf(28 + 8)})
	require.Equal(t, "marsh-sill", editionOf(t, "us-nc-state", "pre-2019").Decide(facts).Path.ID)

	editions, err := BuiltIn("us-fl-state")
	require.NoError(t, err)
	florida, err := editions.On(date(t, "2026-11-25"))
	require.NoError(t, err)
	d := florida.Decide(facts)
	require.NotEqual(t, "exemption", d.Path.ID)
	require.Contains(t, ids(d.BlockedBy), "exemption/reach")
	for _, r := range d.Results {
		if r.Path.ID == "exemption" && r.Criterion.ID == "reach" {
			require.Equal(t, Exceeds, r.Outcome)
			require.InDelta(t, (10-36)*foot, r.Margin, 1e-9)
		}
	}
}

// Each wording that can be read in two ways, read in the other. Worked by hand.
func TestOtherReadingsAreReported(t *testing.T) {
	carolina := editionOf(t, "us-nc-state", "pre-2019")
	besideWetland := given(rockSill, table{"wetland_behind": lengthOf(4), "crest_above_wetland": inchesOf(3)})
	for _, tt := range []struct {
		name           string
		book           *Book
		facts          table
		interpretation string
		path           string
	}{
		{"3 in over high water, 9 in over the wetland", carolina,
			given(besideWetland, table{"crest_above_wetland": inchesOf(9)}), "higher-level", "marsh-sill"},
		{"9 in over high water, 3 in over the wetland", carolina,
			given(besideWetland, table{"crest_above_mhw": inchesOf(9)}), "higher-level", "marsh-sill"},
		{"4 ft off the wetland, 7 ft off mid-tide", carolina,
			given(besideWetland, table{"fill_proposed": {Word: "no"}, "wetland_landward_edge": lengthOf(4), "mtl_landward_edge": lengthOf(7)}),
			"farther-line", "marsh-sill"},
		{"24 ft off high water, 14 ft off the wetland", carolina,
			given(vinylSill, table{"wetland_behind": lengthOf(13), "mhw_farthest": lengthOf(24), "wetland_farthest": lengthOf(14)}),
			"either-line", "sheet-pile-sill"},
		{"520 ft of which 20 ft are openings", carolina,
			given(rockSill, table{"overall_length": lengthOf(520), "element_length": lengthOf(500)}), "elements", "marsh-sill"},
		{"150 ft with its one opening 20 ft from an end", carolina,
			given(rockSill, table{"overall_length": lengthOf(150), "longest_run": lengthOf(125), "openings_lacking": {Number: 0}}),
			"number", "marsh-sill"},
		{"a breakwater", carolina, given(rockSill, table{"kind": {Word: "breakwater"}}), "breakwater", "marsh-sill"},
	} {
		d := tt.book.Decide(tt.facts)
		require.Equal(t, "individual", d.Path.ID, tt.name)
		found := ""
		for _, r := range d.Rereads {
			if r.Result.Interpretation.ID == tt.interpretation && r.Path != nil {
				found = r.Path.ID
			}
		}
		require.Equal(t, tt.path, found, tt.name)
	}
}

// The older figures stood to 2019-01-17 at least, by accounts; 2015-09-01 and 2017-11-01 are published.
func TestEditionsOfCarolinaAndVirginia(t *testing.T) {
	for _, tt := range []struct{ book, day, edition string }{
		{"us-nc-state", "1990-01-01", "pre-2019"},
		{"us-nc-state", "2019-01-17", "pre-2019"},
		{"us-nc-state", "2019-01-18", "2019"},
		{"us-va-state", "2015-08-31", ""},
		{"us-va-state", "2015-09-01", "2015"},
		{"us-va-state", "2017-10-31", "2015"},
		{"us-va-state", "2017-11-01", "2017"},
	} {
		editions, err := BuiltIn(tt.book)
		require.NoError(t, err)
		book, err := editions.On(date(t, tt.day))
		if tt.edition == "" {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, tt.edition, book.Edition, "%s on %s", tt.book, tt.day)
	}
}

// Nobody has read the amended permit for marsh sills: the later edition says so, and
// what may fall under it is not sure to need an individual permit.
func TestCarolinaSaysThatTheMarshSillPermitIsUnread(t *testing.T) {
	for _, tt := range []struct {
		facts     table
		path      string
		certainty Certainty
		couldBe   string
		said      int
	}{
		{rockSill, "individual", NeedsInformation, "marsh-sill", 1},
		{vinylSill, "sheet-pile-sill", Firm, "", 1},
		{given(rockSill, table{"kind": {Word: "breakwater"}}), "individual", Firm, "", 0},
	} {
		d := editionOf(t, "us-nc-state", "2019").Decide(tt.facts)
		require.Equal(t, tt.path, d.Path.ID)
		require.Equal(t, tt.certainty, d.Certainty)
		require.Equal(t, tt.couldBe, d.CouldBe)
		require.Equal(t, tt.said, saying(d.Notices, "marsh sills"))
	}
}
