package rules

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// knownFigure is a figure and how it is known. The section is where it is
// published; without one it is common practice and has no source.
type knownFigure struct {
	figure
	evidence Evidence
}

const (
	exemptionRule = "F.A.C. 62-330.051(12)(e)"
	habitatRule   = "F.A.C. 62-330.632"
	riprapRule    = "F.A.C. 62-330.431, from Pasco County code 114-39"
	setbackRule   = "F.A.C. 18-21.004(3)(d)"
	mirrorRule    = "F.A.C. 62-331.216"
	channelRule   = "Jacksonville District setback policy of 1998, from a press report"
	noSource      = ""
)

// The figures are typed here from notes on the sections named, not from the
// books. Those read are as published, those of secondary evidence as an account
// has them; practice and memory were held against no text.
var (
	floridaFigures = []knownFigure{
		{figure{"FL-EX-01", "exemption/length", "measure overall_length at most 500 ft", exemptionRule}, Practice},
		{figure{"FL-EX-01", "exemption/length/strict", "measure overall_length less than 500 ft", exemptionRule + ", from a published account"}, Secondary},
		{figure{"FL-EX-01", "exemption/length/bank", "measure bank_length at most 500 ft", exemptionRule}, Memory},
		{figure{"FL-EX-01", "exemption/length/elements", "measure element_length at most 500 ft", noSource}, Practice},
		{figure{"FL-EX-02", "exemption/reach", "measure mhw_farthest at most 10 ft", exemptionRule}, Secondary},
		{figure{"FL-EX-03", "exemption/openings", "measure longest_run at most 75 ft", noSource}, Practice},
		{figure{"FL-EX-03", "exemption/openings/close", "measure longest_run at most 20 ft", exemptionRule + ", from a published account"}, Unverified},
		{figure{"FL-EX-03", "exemption/openings/count", "measure openings_lacking at most 0", noSource}, Practice},
		{figure{"FL-EX-03", "exemption/openings/spacing", "measure opening_spacing at most 75 ft", noSource}, Practice},
		{figure{"FL-EX-04", "exemption/crest", "measure crest_above_mhw at most 0 ft", noSource}, Practice},
		{figure{"FL-EX-05", "exemption/seagrass", "measure seagrass_overlap at most 0 sq ft", exemptionRule}, Memory},
		{figure{"FL-GP632-01", "oyster-habitat/area", "measure footprint_area at most 0.25 acre", habitatRule}, Read},
		{figure{"FL-GP632-02", "oyster-habitat/survey", "measure seagrass_nearest at least 50 ft", habitatRule}, Read},
		{figure{"FL-GP431-01", "riprap/stone-least", "measure stone_size at least 1 ft", riprapRule}, Secondary},
		{figure{"FL-GP431-01", "riprap/stone-greatest", "measure stone_size at most 3 ft", riprapRule}, Secondary},
		{figure{"FL-GP431-02", "riprap/slope", "measure side_slope at least 2", riprapRule}, Secondary},
		{figure{"FL-GP431-03", "riprap/reach", "measure mhw_farthest at most 8 ft", riprapRule}, Secondary},
		{figure{"FL-GP431-04", "riprap/seagrass", "measure seagrass_overlap at most 0 sq ft", riprapRule}, Secondary},
		{figure{"FL-GP431-05", "riprap/wetland", "measure wetland_overlap at most 100 sq ft", riprapRule}, Secondary},
	}
	landsFigures = []knownFigure{
		{figure{"FL-SSL-01", "riparian-clear/setback", "measure riparian_nearest at least 25 ft", setbackRule}, Secondary},
	}
	// Printed but not applied; a mirror of the nationwide permit of 2017.
	mirrorFigures = []knownFigure{
		{figure{"N13-b", "bank-stabilization/length", "measure bank_length at most 500 ft", mirrorRule}, Read},
		{figure{"N13-b", "bank-stabilization/bulkhead", "measure bank_length at most 1,000 ft", mirrorRule}, Read},
		{figure{"N13-c", "bank-stabilization/fill", "measure fill_per_length at most 1 cu yd/ft", mirrorRule}, Read},
	}
	channelFigures = []knownFigure{
		{figure{"SAJ-07", "clear/general", "measure channel_nearest at least 100 ft", channelRule}, Secondary},
		{figure{"SAJ-07", "clear/south", "measure channel_nearest at least 30 ft", channelRule}, Secondary},
	}
)

// nationwideFigures are those of one edition: register is where it is published,
// bank what is known of permit 13.
func nationwideFigures(register, bankSource string, bank Evidence) []knownFigure {
	permit13 := func(letter string) string { return "NWP 13 " + letter + ", " + register + bankSource }
	return []knownFigure{
		{figure{"N54-a", "nwp-54/reach", "measure mlw_farthest at most 30 ft", "NWP 54 (a), " + register}, Practice},
		{figure{"N54-b", "nwp-54/length", "measure project_bank_length at most 500 ft", "NWP 54 (b) and general condition 15, " + register}, Memory},
		{figure{"N54-b", "nwp-54/length/structure", "measure project_length at most 500 ft", noSource}, Practice},
		{figure{"N13-b", "nwp-13/length", "measure project_bank_length at most 500 ft", permit13("(b) and general condition 15")}, bank},
		{figure{"N13-b", "nwp-13/length/structure", "measure project_length at most 500 ft", noSource}, Practice},
		{figure{"N13-b", "nwp-13/bulkhead", "measure project_bank_length at most 1,000 ft", permit13("(b)")}, bank},
		{figure{"N13-c", "nwp-13/fill", "measure fill_per_length at most 1 cu yd/ft", permit13("(c)")}, bank},
		{figure{"N13-d", "nwp-13/seagrass", "measure seagrass_overlap at most 0 sq ft", permit13("(d)")}, bank},
		{figure{"N13-d", "nwp-13/wetland", "measure wetland_overlap at most 0 sq ft", permit13("(d)")}, bank},
	}
}

func TestLimitsOfFloridaAndOfTheNationwidePermits(t *testing.T) {
	for _, tt := range []struct {
		book, edition string
		figures       []knownFigure
	}{
		{"us-fl-state", "2024", floridaFigures},
		{"us-fl-lands", "2019", landsFigures},
		{"us-federal", "2017", nationwideFigures("82 FR 1860", ", from "+mirrorRule+", which mirrors it", Secondary)},
		{"us-federal", "2021", nationwideFigures("86 FR 73522", "", Memory)},
		{"us-federal", "2026", nationwideFigures("86 FR 73522, carried into 91 FR 768", "", Memory)},
		{"us-fl-404", "2020", mirrorFigures},
		{"us-channel-setback", "1998", channelFigures},
		{"us-channel-setback", "2013", nil},
	} {
		demands, sources := demandsOf(editionOf(t, tt.book, tt.edition))
		for _, f := range tt.figures {
			where := f.rule + " " + tt.book + " " + tt.edition + " " + f.demand
			require.Contains(t, demands, f.demand, where)
			d := demands[f.demand]
			require.Equal(t, f.asks, asks(d), where)
			require.Equal(t, f.section+", "+string(f.evidence), sources[f.demand], where)
			if d.Ref.Opening > 0 { // the 5 ft and 75 ft of FL-EX-03
				require.InDelta(t, 5*foot, d.Ref.Opening, 1e-12, where)
			}
			if d.Ref.Every > 0 {
				require.InDelta(t, 75*foot, d.Ref.Every, 1e-12, where)
			}
			delete(demands, f.demand)
		}
		require.Empty(t, demands, "%s %s has figures that no row here holds against the rule", tt.book, tt.edition)
	}
}

// What may be waived, and what never: N54-a, -b, N13-b, -c, -d and the
// neighbour's setback yield, a bulkhead's 1,000 ft and Florida's limits do not.
func TestWaivableLimitsOfFloridaAndOfTheNationwidePermits(t *testing.T) {
	waivable := map[string]bool{
		"nwp-54/reach": true, "nwp-54/length": true, "nwp-13/length": true, "nwp-13/fill": true,
		"nwp-13/seagrass": true, "nwp-13/wetland": true, "riparian-clear/setback": true,
		"bank-stabilization/length": true, "bank-stabilization/fill": true,
	}
	for _, name := range []string{"us-fl-state", "us-fl-lands", "us-federal", "us-fl-404", "us-channel-setback"} {
		editions, err := BuiltIn(name)
		require.NoError(t, err)
		for _, b := range editions {
			for _, path := range b.Paths {
				for _, c := range path.Criteria {
					id := path.ID + "/" + c.ID
					require.Equal(t, waivable[id], c.WaivableBy != "", "%s %s %s", name, b.Edition, id)
					require.NotEqual(t, "fetch", c.Measure.Name, "a fetch is shown and never fails (N54-i)")
				}
			}
		}
	}
}

// Structures that meet every limit of their path by every reading, so that what
// a row changes decides.
var (
	smallReef = table{
		"overall_length": lengthOf(120), "bank_length": lengthOf(118), "element_length": lengthOf(110), "mhw_farthest": lengthOf(8.5),
		"longest_run": lengthOf(18), "opening_spacing": lengthOf(23), "openings_lacking": {}, "crest_above_mhw": lengthOf(-1),
		"seagrass_overlap": {}, "seagrass_nearest": lengthOf(200), "footprint_area": areaOf(900), "material": {Word: "concrete"},
	}
	// Too far out for the exemption.
	outerReef = given(smallReef, table{"mhw_farthest": lengthOf(60), "material": {Word: "oyster shell"}})
	lowSill   = table{
		"mlw_farthest": lengthOf(12), "project_bank_length": lengthOf(120), "project_length": lengthOf(120),
		"longest_run": lengthOf(60), "material": {Word: "rock"}, "kind": {Word: "sill"},
	}
	// Without a low water line, 500 ft of bank.
	upperSill = table{
		"project_bank_length": lengthOf(500), "project_length": lengthOf(500), "longest_run": lengthOf(60), "material": {Word: "rock"},
		"kind": {Word: "sill"}, "seagrass_overlap": {}, "wetland_overlap": {},
	}
	// At the toe of a wall, its crest too high for the exemption.
	riprapToe = given(smallReef, table{
		"kind": {Word: "riprap"}, "mhw_farthest": lengthOf(6), "crest_above_mhw": lengthOf(2), "material": {Word: "rock"},
		"stone_size": lengthOf(2), "side_slope": {Number: 2.5}, "wetland_overlap": {},
	})
	besideLine = table{"riparian_nearest": lengthOf(40), "kind": {Word: "breakwater"}}
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
			rule     string
			book     *Book
			base     table
			measure  string
			value    Value
			path     string
			standing Standing
			waiver   []string
		}{
			{"FL-EX-01", state, smallReef, "overall_length", lengthOf(499.99), "exemption", Firm, nil},
			{"FL-EX-01", state, smallReef, "overall_length", lengthOf(500), "exemption", CloseCall, nil},
			{"FL-EX-01", state, smallReef, "overall_length", lengthOf(500.01), "individual", Firm, nil},
			{"FL-EX-02", state, smallReef, "mhw_farthest", lengthOf(10), "exemption", CloseCall, nil},
			{"FL-EX-02", state, smallReef, "mhw_farthest", lengthOf(10.01), "individual", Firm, nil},
			{"FL-EX-04", state, smallReef, "crest_above_mhw", inchesOf(6), "individual", Firm, nil},
			{"FL-EX-04", state, smallReef, "crest_above_mhw", inchesOf(6.1), "individual", Firm, nil},
			{"FL-GP632-01", state, outerReef, "footprint_area", areaOf(10890), "oyster-habitat", Firm, nil},
			{"FL-GP632-01", state, outerReef, "footprint_area", areaOf(10891), "individual", Firm, nil},
			{"FL-SSL-01", lands, besideLine, "riparian_nearest", lengthOf(25), "riparian-clear", CloseCall, nil},
			{"FL-SSL-01", lands, besideLine, "riparian_nearest", lengthOf(24.99), "riparian-clear", Firm, []string{"riparian-clear/setback"}},
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
			require.Equal(t, tt.standing, d.Standing, name)
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
		{"nothing hangs on a reading", state, smallReef, "exemption", map[string]string{}},
		{"500 ft is not less than 500 ft", state, given(smallReef, table{"overall_length": lengthOf(500)}), "exemption",
			map[string]string{"exemption/length/strict": "individual"}},
		{"520 ft, less without openings and along the bank", state, given(smallReef, table{"overall_length": lengthOf(520)}), "individual",
			map[string]string{"exemption/length/bank": "exemption", "exemption/length/elements": "exemption"}},
		{"510 ft of bank", state, given(smallReef, table{"bank_length": lengthOf(510)}), "exemption",
			map[string]string{"exemption/length/bank": "individual"}},
		{"a run of 21 ft", state, given(smallReef, table{"longest_run": lengthOf(21)}), "exemption",
			map[string]string{"exemption/openings/close": "individual"}},
		{"one opening too few", state, given(smallReef, table{"openings_lacking": {Number: 1}}), "exemption",
			map[string]string{"exemption/openings/count": "individual"}},
		{"openings 76 ft apart", state, given(smallReef, table{"opening_spacing": lengthOf(76)}), "exemption",
			map[string]string{"exemption/openings/spacing": "individual"}},
		{"a breakwater within the setback", lands, given(besideLine, table{"riparian_nearest": lengthOf(10)}), "riparian-clear+",
			map[string]string{"riparian-clear/setback/shore-protection": "riparian-clear"}},
		{"a dock within the setback", lands, table{"riparian_nearest": lengthOf(10), "kind": {Word: "dock"}}, "riparian-clear+",
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
			told[r.Result.Path.ID+"/"+r.Result.Criterion.ID+"/"+r.Result.Reading.ID] = plus(r.Path, r.Waiver)
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

// saying counts the notices with a text in them.
func saying(notices []*Notice, text string) int {
	count := 0
	for _, n := range notices {
		if strings.Contains(n.Says, text) {
			count++
		}
	}
	return count
}

// Notices beyond a figure are not shown at it; where it cannot be told they are
// not checked. N54-PCN, N54-AC, N13-PCN, GC 18, N27 and SAJ-04, worked by hand.
func TestNoticesOfTheNationwidePermits(t *testing.T) {
	for _, edition := range []string{"2017", "2021", "2026"} {
		federal := editionOf(t, "us-federal", edition)
		for _, tt := range []struct {
			name      string
			facts     table
			text      string
			shown     int
			unchecked int
		}{
			{"notification, always", lowSill, "Pre-construction notification", 1, 0},
			{"500 ft of bank", given(lowSill, table{"project_bank_length": lengthOf(500)}), "other agencies", 0, 0},
			{"500.01 ft of bank", given(lowSill, table{"project_bank_length": lengthOf(500.01)}), "other agencies", 1, 0},
			{"30 ft from low water", given(lowSill, table{"mlw_farthest": lengthOf(30)}), "other agencies", 0, 0},
			{"both beyond", given(lowSill, table{"mlw_farthest": lengthOf(30.01), "project_bank_length": lengthOf(500.01)}), "other agencies", 2, 0},
			{"1 cu yd a foot on bare bottom", given(upperSill, table{"fill_per_length": fillOf(500)}), "Pre-construction notification", 0, 0},
			{"500.01 ft, without a low water line", given(upperSill, table{"fill_per_length": fillOf(500), "project_bank_length": lengthOf(500.01)}),
				"Pre-construction notification", 1, 0},
			{"more, on grass and wetland", given(upperSill, table{"fill_per_length": fillOf(501), "seagrass_overlap": areaOf(1), "wetland_overlap": areaOf(1)}),
				"Pre-construction notification", 3, 0},
			{"habitat not mapped", lowSill, "critical habitat", 0, 1},
			{"outside habitat", given(lowSill, table{"in_area:critical_habitat": {}}), "critical habitat", 0, 0},
			{"in habitat", given(lowSill, table{"in_area:critical_habitat": touched}), "critical habitat", 1, 0},
			{"rock", lowSill, "Nationwide permit 27", 0, 0},
			{"shell", given(lowSill, table{"material": {Word: "Oyster shell"}}), "Nationwide permit 27", 1, 0},
			{"a run of 75 ft", given(lowSill, table{"longest_run": lengthOf(75)}), "fisheries opinion", 0, 0},
			{"a run of 75.01 ft", given(lowSill, table{"longest_run": lengthOf(75.01)}), "fisheries opinion", 1, 0},
		} {
			d := federal.Decide(tt.facts)
			require.Equal(t, tt.shown, saying(d.Notices, tt.text), "%s %s", edition, tt.name)
			require.Equal(t, tt.unchecked, saying(d.Unchecked, tt.text), "%s %s", edition, tt.name)
		}
	}
}

// FL-SSL-05, FL-AP-01, FL-AP-02, FL-WQ-03, FL-GP431-03, FL-EX-05 and SAJ-07, worked
// by hand.
func TestNoticesOfFlorida(t *testing.T) {
	state, lands := editionOf(t, "us-fl-state", "2024"), editionOf(t, "us-fl-lands", "2019")
	channel := editionOf(t, "us-channel-setback", "2013")
	inPreserve := given(besideLine, table{"in_area:aquatic_preserve": touched})
	for _, tt := range []struct {
		name      string
		book      *Book
		facts     table
		text      string
		shown     int
		unchecked int
	}{
		{"100 ft from the channel", channel, table{"channel_nearest": lengthOf(100)}, "1998", 0, 0},
		{"99.99 ft from the channel", channel, table{"channel_nearest": lengthOf(99.99)}, "1998", 1, 0},
		{"25 ft from the line", lands, given(besideLine, table{"riparian_nearest": lengthOf(25)}), "Curable", 0, 0},
		{"24.99 ft from the line", lands, given(besideLine, table{"riparian_nearest": lengthOf(24.99)}), "Curable", 1, 0},
		{"in a preserve, fill not stated", lands, inPreserve, "aquatic preserve", 1, 1},
		{"in a preserve, without fill", lands, given(inPreserve, table{"fill_proposed": {Word: "no"}}), "aquatic preserve", 1, 0},
		{"in a preserve, with fill", lands, given(inPreserve, table{"fill_proposed": {Word: "yes"}}), "aquatic preserve", 2, 0},
		{"outside preserves, with fill", lands, given(inPreserve, table{"in_area:aquatic_preserve": {}, "fill_proposed": {Word: "yes"}}), "aquatic preserve", 0, 0},
		{"in a harvest area", lands, given(besideLine, table{"in_area:shellfish_harvest_area": touched}), "two maps", 1, 0},
		{"on marsh", state, given(smallReef, table{"wetland_overlap": areaOf(1)}), "Marsh", 1, 0},
		{"beside marsh", state, given(smallReef, table{"wetland_overlap": {}}), "Marsh", 0, 0},
		{"a third of the water", state, given(riprapToe, table{"waterway_share": {Number: 1.0 / 3}}), "county", 0, 0},
		{"more than a third of the water", state, given(riprapToe, table{"waterway_share": {Number: 0.334}}), "county", 1, 0},
	} {
		d := tt.book.Decide(tt.facts)
		require.Equal(t, tt.shown, saying(d.Notices, tt.text), tt.name)
		require.Equal(t, tt.unchecked, saying(d.Unchecked, tt.text), tt.name)
	}
}

// Figures too doubtful for a limit are kept, but only as such.
func TestDoubtfulFiguresOfFloridaRestOnNothing(t *testing.T) {
	for _, tt := range []struct{ rule, book, edition, text string }{
		{"FL-EX-05", "us-fl-state", "2024", "3 ft clear"},
		{"FL-GP600s", "us-fl-state", "2024", ".600"},
		{"FL-SSL-07", "us-fl-lands", "2019", "10 ft waterward"},
		{"FL-SSL-08", "us-fl-lands", "2019", "consent by rule"},
		{"SAJ-07", "us-channel-setback", "2013", "62.5 ft in some reaches"},
	} {
		book := editionOf(t, tt.book, tt.edition)
		notices := book.Notices
		for _, path := range book.Paths {
			notices = append(notices, path.Notices...)
		}
		found := 0
		for _, n := range notices {
			if strings.Contains(n.Says, tt.text) {
				require.Equal(t, Unverified, n.Evidence, tt.rule)
				found++
			}
		}
		require.Equal(t, 1, found, tt.rule)
	}
}

// The days are those of 82 FR 1860, 86 FR 73522 and 91 FR 768 with the year of
// 33 CFR 330.6(b), of the end of the state's 404 program, and of the notice that
// revised the setbacks. The last days of started work, but for 2027-03-14, and
// 2013-10-01 and 2020-12-22 are from memory; of 1998 only the year is known.
func TestEditionsOfFloridaAndOfTheNationwidePermits(t *testing.T) {
	for _, tt := range []struct{ book, day, started, want string }{
		{"us-federal", "2017-03-18", "", ""},
		{"us-federal", "2017-03-19", "", "2017"},
		{"us-federal", "2022-02-24", "", "2017"},
		{"us-federal", "2022-02-25", "", "2021"},
		{"us-federal", "2022-02-25", "2022-02-24", "2017"},
		{"us-federal", "2023-03-18", "2022-02-24", "2017"},
		{"us-federal", "2023-03-19", "2022-02-24", "2021"},
		// For a year two editions are live.
		{"us-federal", "2026-03-15", "", "2026"},
		{"us-federal", "2026-03-15", "2026-03-14", "2021"},
		{"us-federal", "2027-03-14", "2026-03-14", "2021"},
		{"us-federal", "2027-03-15", "2026-03-14", "2026"},
		{"us-federal", "2031-03-16", "", ""},
		{"us-federal", "2031-03-16", "2031-03-15", "2026"},
		{"us-federal", "2032-03-16", "2031-03-15", ""},
		{"us-fl-state", "2013-09-30", "", ""},
		{"us-fl-state", "2013-10-01", "", "2024"},
		{"us-fl-state", "2026-11-25", "", "2024"},
		{"us-fl-lands", "2019-03-20", "", ""},
		{"us-fl-lands", "2019-03-21", "", "2019"},
		{"us-channel-setback", "1997-12-31", "", ""},
		{"us-channel-setback", "1998-01-01", "", "1998"},
		{"us-channel-setback", "2013-12-17", "", "1998"},
		{"us-channel-setback", "2013-12-18", "", "2013"},
		{"us-channel-setback", "2026-11-25", "", "2013"},
		// Printed, but never decides.
		{"us-fl-404", "2023-01-01", "", ""},
		{"us-fl-404", "2024-02-15", "", ""},
	} {
		editions, err := BuiltIn(tt.book)
		require.NoError(t, err)
		var started time.Time
		if tt.started != "" {
			started = date(t, tt.started)
		}
		book, err := editions.For(date(t, tt.day), started)
		if tt.want == "" {
			require.Error(t, err, "%+v", tt)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, tt.want, book.Edition, "%+v", tt)
	}
	mirror := editionOf(t, "us-fl-404", "2020")
	require.Equal(t, "inoperative, 2020-12-22 to 2024-02-14", mirror.Period())
	require.False(t, Editions{mirror}.Applied())
}
