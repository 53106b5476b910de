package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// knownFigure is a figure and how it is known. The section is where it is
// published; without one it is common practice and has no source.
type knownFigure struct {
	figure
	evidence Evidence
}

const (
	exemptionRule    = "F.A.C. 62-330.051(12)(e)"
	exemptionAccount = exemptionRule + ", from a published account"
	habitatRule      = "F.A.C. 62-330.632"
	riprapRule       = "F.A.C. 62-330.431, from Pasco County code 114-39"
	setbackRule      = "F.A.C. 18-21.004(3)(d)"
	mirrorRule       = "F.A.C. 62-331.216"
	channelRule      = "Jacksonville District setback policy of 1998, from a press report"
	noSource         = ""
)

// The figures are typed here from notes on the sections named, not from the
// books. Those read are as published, those of secondary evidence as an account
// has them; practice and memory were held against no text.
var (
	floridaFigures = []knownFigure{
		{figure{"FL-EX-01", "exemption/length", "measure bank_length at most 500 ft", exemptionRule}, Practice},
		{figure{"FL-EX-01", "exemption/length/strict", "measure bank_length less than 500 ft", exemptionAccount}, Secondary},
		{figure{"FL-EX-01", "exemption/length/structure", "measure overall_length at most 500 ft", noSource}, Practice},
		{figure{"FL-EX-01", "exemption/length/elements", "measure element_length at most 500 ft", noSource}, Practice},
		{figure{"FL-EX-02", "exemption/reach", "measure mhw_farthest at most 10 ft", exemptionAccount}, Secondary},
		{figure{"FL-EX-03", "exemption/openings", "measure longest_run at most 75 ft", noSource}, Practice},
		{figure{"FL-EX-03", "exemption/openings/close", "measure longest_run at most 20 ft", exemptionAccount}, Secondary},
		{figure{"FL-EX-03", "exemption/openings/count", "measure openings_lacking at most 0", noSource}, Practice},
		{figure{"FL-EX-03", "exemption/openings/spacing", "measure opening_spacing at most 75 ft", noSource}, Practice},
		{figure{"FL-EX-04", "exemption/crest", "measure crest_above_mhw at most 0 ft", noSource}, Practice},
		{figure{"FL-EX-05", "exemption/seagrass", "measure seagrass_overlap at most 0 sq ft", exemptionRule}, Memory},
		{figure{"FL-EX-05", "exemption/wetland", "measure wetland_overlap at most 0 sq ft", exemptionRule}, Memory},
		{figure{"FL-GP632-01", "oyster-habitat/area", "measure footprint_area at most 0.25 acre", habitatRule}, Read},
		{figure{"FL-GP632-02", "oyster-habitat/survey", "measure seagrass_nearest at least 50 ft", habitatRule}, Memory},
		{figure{"FL-GP431-01", "riprap/stone-least", "measure stone_size at least 1 ft", riprapRule}, Secondary},
		{figure{"FL-GP431-01", "riprap/stone-greatest", "measure stone_size at most 3 ft", riprapRule}, Secondary},
		{figure{"FL-GP431-02", "riprap/slope", "measure side_slope at least 2", riprapRule}, Secondary},
		{figure{"FL-GP431-03", "riprap/reach", "measure mhw_farthest at most 8 ft", riprapRule}, Secondary},
		{figure{"FL-GP431-03", "riprap/waterway", "measure waterway_share at most 1/3", "Pasco County code 114-39, beside F.A.C. 62-330.431"}, Secondary},
		{figure{"FL-GP431-04", "riprap/seagrass", "measure seagrass_overlap at most 0 sq ft", riprapRule}, Secondary},
		{figure{"FL-GP431-05", "riprap/wetland", "measure wetland_overlap at most 100 sq ft", riprapRule}, Secondary},
	}
	landsFigures = []knownFigure{
		{figure{"FL-SSL-01", "riparian-setback/setback", "measure riparian_nearest at least 25 ft", setbackRule + ", from published accounts"}, Secondary},
		{figure{"FL-SSL-04", "shore-protection/along", "measure mhw_nearest at most 3 ft", setbackRule}, Memory},
	}
	// Printed but not applied; a mirror of the nationwide permit of 2017.
	mirrorFigures = []knownFigure{
		{figure{"N13-b", "bank-stabilization/length", "measure bank_length at most 500 ft", mirrorRule}, Read},
		{figure{"N13-b", "bank-stabilization/bulkhead", "measure bank_length at most 1,000 ft", mirrorRule}, Read},
		{figure{"N13-c", "bank-stabilization/fill", "measure fill_per_length at most 1 cu yd/ft", mirrorRule}, Read},
		{figure{"N13-d", "bank-stabilization/seagrass", "measure seagrass_overlap at most 0 sq ft", mirrorRule + "(1)(a)4"}, Read},
		{figure{"N13-d", "bank-stabilization/wetland", "measure wetland_overlap at most 0 sq ft", mirrorRule + "(1)(a)4"}, Read},
	}
	channelFigures = []knownFigure{
		{figure{"SAJ-07", "clear/general", "measure channel_nearest at least 100 ft", channelRule}, Secondary},
		{figure{"SAJ-07", "clear/south", "measure channel_nearest at least 30 ft", channelRule}, Secondary},
	}
	// The distances of the revision were not read: these are ours.
	revisedChannelFigures = []knownFigure{
		{figure{"SAJ-07", "far/distance", "measure channel_nearest at least 500 ft", noSource}, Practice},
		{figure{"SAJ-07", "clear/outside", "measure channel_nearest more than 0 ft", noSource}, Practice},
	}
)

// nationwideFigures are those of one edition: register is where it is published,
// mirror what was read of permit 13 instead, if anything, and bank how it is known.
func nationwideFigures(register, mirror string, bank Evidence) []knownFigure {
	permit13 := func(letter string) string {
		text := "NWP 13 " + letter + ", " + register
		switch {
		case mirror != "" && letter == "(d)":
			return text + ", from " + mirror + "(1)(a)4, which mirrors it"
		case mirror != "":
			return text + ", from " + mirror + ", which mirrors it"
		}
		return text
	}
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
		{"us-federal", "2017", nationwideFigures("82 FR 1860", mirrorRule, Secondary)},
		{"us-federal", "2021", nationwideFigures("86 FR 73522", "", Memory)},
		{"us-federal", "2026", nationwideFigures("86 FR 73522, carried into 91 FR 768", "", Memory)},
		{"us-fl-404", "2020", mirrorFigures},
		{"us-channel-setback", "1998", channelFigures},
		{"us-channel-setback", "2013", revisedChannelFigures},
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
		"nwp-13/seagrass": true, "nwp-13/wetland": true, "riparian-setback/setback": true,
		"bank-stabilization/length": true, "bank-stabilization/fill": true,
		"bank-stabilization/seagrass": true, "bank-stabilization/wetland": true,
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
