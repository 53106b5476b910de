package screening

import (
	"slices"
	"strings"

	"waterward/geo"
)

// measureRecord is what is to be known of a measure to ask it of a place, and to draw
// where a place meets a limit of it.
type measureRecord struct {
	name  string
	layer string // that it is taken from; empty: from none
	shore bool   // it hangs on the home bank or the low water line along it, or is measured with what does
	place bool   // it is a matter of the place alone, whatever stands there
	whole whole  // how that of a structure follows from those of its places
	drawn bool   // its limits are lines at a distance from those of its layer
	side  geo.LimitSide
	blame string // what it is that keeps a structure off a place
	reach bool   // what fails it lies beyond a path's own reach, which is no loss
}

// whole says how the value of a structure follows from those of the places it covers.
type whole int

const (
	alike    whole = iota // it is the same for all of them, or not made of them
	least                 // it is the least of them
	greatest              // it is the greatest of them, or their sum
)

// measureRecords has a record of every measure that a book can ask for. What a record
// says of places is what envelopes are made by; see DEVELOPERS.md for a new one.
var measureRecords = []measureRecord{
	{name: "mhw_farthest", layer: "high_water", shore: true, place: true, whole: greatest, drawn: true, side: geo.WaterSide, blame: highTitle, reach: true},
	{name: "mhw_nearest", layer: "high_water", shore: true, place: true, whole: least, drawn: true, side: geo.WaterSide, blame: highTitle, reach: true},
	{name: "mhw_landward_edge", layer: "high_water", shore: true, place: true, whole: greatest, drawn: true, side: geo.WaterSide, blame: highTitle, reach: true},
	{name: "mlw_farthest", layer: "low_water", shore: true, place: true, whole: greatest, drawn: true, side: geo.WaterSide, blame: lowTitle, reach: true},
	{name: "mlw_nearest", layer: "low_water", shore: true, place: true, whole: least, drawn: true, side: geo.WaterSide, blame: lowTitle, reach: true},
	{name: "mlw_landward_edge", layer: "low_water", shore: true, place: true, whole: greatest, drawn: true, side: geo.WaterSide, blame: lowTitle, reach: true},
	{name: "seagrass_overlap", layer: "seagrass", place: true, whole: greatest, blame: "seagrass"},
	{name: "seagrass_nearest", layer: "seagrass", place: true, whole: least, drawn: true, side: geo.BothSides, blame: "seagrass"},
	{name: "wetland_overlap", layer: "wetlands", place: true, whole: greatest, blame: "wetland"},
	{name: "wetland_nearest", layer: "wetlands", place: true, whole: least, drawn: true, side: geo.BothSides, blame: "wetland"},
	{name: "wetland_behind", layer: "wetlands", shore: true, place: true, whole: least, drawn: true, side: geo.BothSides, blame: "wetland"},
	{name: "wetland_farthest", layer: "wetlands", shore: true, place: true, whole: greatest, drawn: true, side: geo.BothSides, blame: "wetland", reach: true},
	{name: "wetland_landward_edge", layer: "wetlands", shore: true, place: true, whole: greatest, drawn: true, side: geo.BothSides, blame: "wetland", reach: true},
	{name: "channel_nearest", layer: "channels", place: true, whole: least, drawn: true, side: geo.BothSides, blame: "channel"},
	{name: "channel_reach", layer: "channels", place: true, blame: "channel"},
	{name: "riparian_nearest", layer: "riparian", place: true, whole: least, drawn: true, side: geo.BothSides, blame: "neighbour"},
	{name: "waterway_width", layer: "high_water", shore: true, place: true, whole: least, blame: "narrow water"},
	{name: "waterway_share", layer: "high_water", shore: true, place: true, whole: greatest, blame: "narrow water"},
	{name: "in_area", place: true, whole: greatest}, // a family: layer and blame are the area's

	{name: "element_length"},
	{name: "overall_length"},
	{name: "project_length"},
	{name: "footprint_area"},
	{name: "longest_run"},
	{name: "opening_spacing"},
	{name: "narrowest_opening"},
	{name: "openings"},
	{name: "openings_lacking"},
	{name: "longest_overlap", layer: "high_water", shore: true},
	{name: "bank_length", layer: "high_water", shore: true},
	{name: "project_bank_length", layer: "high_water", shore: true},
	{name: "mtl_landward_edge"},
	{name: "crest_above_mhw", layer: "high_water", shore: true},
	{name: "crest_above_wetland", shore: true},
	{name: "crest_exposed", shore: true},
	{name: "bed_exposed", shore: true},
	{name: "crest_share_mhw", shore: true},
	{name: "crest_share_msl", shore: true},
	{name: "mhw_mean_depth", layer: "high_water", shore: true},
	{name: "mlw_greatest_depth", layer: "low_water", shore: true},
	{name: "bed_expected", layer: "low_water", shore: true},
	{name: "fill_volume", shore: true},
	{name: "fill_below_mhw", shore: true},
	{name: "fill_below_htl", shore: true},
	{name: "fill_per_length", layer: "high_water", shore: true},
	{name: "fill_tide_ranges", shore: true},
	{name: "fill_fines"},
	{name: "fill_proposed"},
	{name: "side_slope"},
	{name: "stone_size"},
	{name: "wetland_width"},
	{name: "fetch"},
	{name: "material"},
	{name: "kind"},
}

const (
	highTitle = "mean high water"
	lowTitle  = "mean low water"
)

// recordOf is the record of a measure; of a named area it has its layer and its name.
func recordOf(measure string) (measureRecord, bool) {
	family, area, named := strings.Cut(measure, ":")
	at := slices.IndexFunc(measureRecords, func(r measureRecord) bool { return r.name == family })
	if at < 0 {
		return measureRecord{}, false
	}
	r := measureRecords[at]
	if named {
		r.name, r.layer, r.blame = measure, "areas."+area, area
	}
	return r, true
}

// placeRecord is the record of a measure that is a matter of the place alone; false of
// any other.
func placeRecord(measure string) (measureRecord, bool) {
	r, ok := recordOf(measure)
	return r, ok && r.place
}

// drawnRecord is the record of a measure whose limits can be drawn; false of any other.
func drawnRecord(measure string) (measureRecord, bool) {
	r, ok := recordOf(measure)
	return r, ok && r.drawn
}

// causes are what can keep a structure off a place that its path would reach, named areas
// left out.
func causes() []string {
	var out []string
	for _, r := range measureRecords {
		if r.place && !r.reach && r.blame != "" && !slices.Contains(out, r.blame) {
			out = append(out, r.blame)
		}
	}
	return out
}

// sameLines reports whether the limits of two measures are drawn from the same lines: of
// wetlands those of the own shore are not those of all.
func (r measureRecord) sameLines(o measureRecord) bool {
	return r.layer == o.layer && r.side == o.side && r.shore == o.shore
}
