package screening

// statedMeasures are what no layer answers: the proposal may state them.
var statedMeasures = []struct {
	measure, property string
	why               string // why no map answers it, before what to do
	within            span
}{
	{"fetch", "fetch_mi", "fetch is not measured from maps", positive},
	{"side_slope", "side_slope", "", positive},
	{"stone_size", "stone_size_ft", "", widths},
	{"fill_fines", "fill_fines_pct", "", shares},
	{"wetland_width", "wetland_width_ft", "", positive},
	{"mtl_landward_edge", "mtl_landward_edge_ft", "no mid-tide line is mapped", signed}, // which may lie landward
}

// statedWords are words of the proposal, by measure and property.
var statedWords = []struct{ measure, property string }{
	{"kind", "kind"}, {"material", "material"}, {"fill_proposed", "fill"},
}

// statedBy is the property that a measure rests on; empty if it is measured.
func statedBy(measure string) string {
	if property := statedAs(measure); property != "" {
		return property
	}
	return map[string]string{
		"crest_above_mhw": "crest_elev_ft", "crest_exposed": "crest_elev_ft", "bed_exposed": "bed_elev_ft",
		"crest_share_mhw": "bed_elev_ft", "crest_share_msl": "bed_elev_ft", "crest_above_wetland": "wetland_elev_ft", "fill_tide_ranges": "fill_elev_ft",
		"mhw_mean_depth": "bed_elev_ft", "mlw_greatest_depth": "bed_elev_ft", "fill_volume": "bed_elev_ft", "fill_below_mhw": "bed_elev_ft", "fill_below_htl": "high_tide_line_elev_ft", "fill_per_length": "bed_elev_ft",
	}[measure]
}

// statedAs is the property that is a measure as it stands; empty if none is.
func statedAs(measure string) string {
	for _, w := range statedWords {
		if w.measure == measure {
			return w.property
		}
	}
	for _, m := range statedMeasures {
		if m.measure == measure {
			return m.property
		}
	}
	return ""
}
