package job

// Stated are what no layer answers: the proposal may state them.
var Stated = []struct {
	Measure, Property string
	Why               string // why no map answers it, before what to do
	Within            Span
}{
	{"fetch", "fetch_mi", "fetch is not measured from maps", Positive},
	{"side_slope", "side_slope", "", Positive},
	{"stone_size", "stone_size_ft", "", Widths},
	{"fill_fines", "fill_fines_pct", "", Shares},
	{"wetland_width", "wetland_width_ft", "", Positive},
	{"mtl_landward_edge", "mtl_landward_edge_ft", "no mid-tide line is mapped", signed}, // which may lie landward
}

// StatedWords are words of the proposal, by measure and property.
var StatedWords = []struct{ Measure, Property string }{
	{"kind", "kind"}, {"material", "material"}, {"fill_proposed", "fill"},
}

// StatedBy is the property that a measure rests on; empty if it is measured.
func StatedBy(measure string) string {
	if property := StatedAs(measure); property != "" {
		return property
	}
	return map[string]string{
		"crest_above_mhw": "crest_elev_ft", "crest_exposed": "crest_elev_ft", "bed_exposed": "bed_elev_ft",
		"crest_share_mhw": "bed_elev_ft", "crest_share_msl": "bed_elev_ft", "crest_above_wetland": "wetland_elev_ft", "fill_tide_ranges": "fill_elev_ft",
		"mhw_mean_depth": "bed_elev_ft", "mlw_greatest_depth": "bed_elev_ft", "fill_volume": "bed_elev_ft", "fill_below_mhw": "bed_elev_ft", "fill_below_htl": "high_tide_line_elev_ft", "fill_per_length": "bed_elev_ft",
	}[measure]
}

// StatedAs is the property that is a measure as it stands; empty if none is.
func StatedAs(measure string) string {
	for _, w := range StatedWords {
		if w.Measure == measure {
			return w.Property
		}
	}
	for _, m := range Stated {
		if m.Measure == measure {
			return m.Property
		}
	}
	return ""
}
