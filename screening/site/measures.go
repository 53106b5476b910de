package site

import (
	"slices"
	"strings"

	"waterward/geo"
)

// Record is what is to be known of a measure to ask it of a place, and to draw
// where a place meets a limit of it.
type Record struct {
	Name  string
	Layer string // that it is taken from; empty: from none
	Shore bool   // it hangs on the home bank or the low water line along it, or is measured with what does
	place bool   // it is a matter of the place alone, whatever stands there
	Whole whole  // how that of a structure follows from those of its places
	Drawn bool   // its limits are lines at a distance from those of its layer
	side  geo.LimitSide
	Blame string // what it is that keeps a structure off a place
	Reach bool   // what fails it lies beyond a path's own reach, which is no loss
}

// whole says how the value of a structure follows from those of the places it covers.
type whole int

const (
	alike    whole = iota // it is the same for all of them, or not made of them
	Least                 // it is the least of them
	Greatest              // it is the greatest of them, or their sum
)

// records has a record of every measure that a book can ask for. What a record
// says of places is what envelopes are made by; see DEVELOPERS.md for a new one.
var records = []Record{
	{Name: "mhw_farthest", Layer: "high_water", Shore: true, place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: highTitle, Reach: true},
	{Name: "mhw_nearest", Layer: "high_water", Shore: true, place: true, Whole: Least, Drawn: true, side: geo.WaterSide, Blame: highTitle, Reach: true},
	{Name: "mhw_landward_edge", Layer: "high_water", Shore: true, place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: highTitle, Reach: true},
	{Name: "mlw_farthest", Layer: "low_water", Shore: true, place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: lowTitle, Reach: true},
	{Name: "mlw_nearest", Layer: "low_water", Shore: true, place: true, Whole: Least, Drawn: true, side: geo.WaterSide, Blame: lowTitle, Reach: true},
	{Name: "mlw_landward_edge", Layer: "low_water", Shore: true, place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: lowTitle, Reach: true},
	{Name: "seagrass_overlap", Layer: "seagrass", place: true, Whole: Greatest, Blame: "seagrass"},
	{Name: "seagrass_nearest", Layer: "seagrass", place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "seagrass"},
	{Name: "wetland_overlap", Layer: "wetlands", place: true, Whole: Greatest, Blame: "wetland"},
	{Name: "wetland_nearest", Layer: "wetlands", place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "wetland"},
	{Name: "wetland_behind", Layer: "wetlands", Shore: true, place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "wetland"},
	{Name: "wetland_farthest", Layer: "wetlands", Shore: true, place: true, Whole: Greatest, Drawn: true, side: geo.BothSides, Blame: "wetland", Reach: true},
	{Name: "wetland_landward_edge", Layer: "wetlands", Shore: true, place: true, Whole: Greatest, Drawn: true, side: geo.BothSides, Blame: "wetland", Reach: true},
	{Name: "channel_nearest", Layer: "channels", place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "channel"},
	{Name: "channel_reach", Layer: "channels", place: true, Blame: "channel"},
	{Name: "riparian_nearest", Layer: "riparian", place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "neighbour"},
	{Name: "waterway_width", Layer: "high_water", Shore: true, place: true, Whole: Least, Blame: "narrow water"},
	{Name: "waterway_share", Layer: "high_water", Shore: true, place: true, Whole: Greatest, Blame: "narrow water"},
	{Name: "in_area", place: true, Whole: Greatest}, // a family: layer and blame are the area's

	{Name: "element_length"},
	{Name: "overall_length"},
	{Name: "project_length"},
	{Name: "footprint_area"},
	{Name: "longest_run"},
	{Name: "opening_spacing"},
	{Name: "narrowest_opening"},
	{Name: "openings"},
	{Name: "openings_lacking"},
	{Name: "longest_overlap", Layer: "high_water", Shore: true},
	{Name: "bank_length", Layer: "high_water", Shore: true},
	{Name: "project_bank_length", Layer: "high_water", Shore: true},
	{Name: "mtl_landward_edge"},
	{Name: "crest_above_mhw", Layer: "high_water", Shore: true},
	{Name: "crest_above_wetland", Shore: true},
	{Name: "crest_exposed", Shore: true},
	{Name: "bed_exposed", Shore: true},
	{Name: "crest_share_mhw", Shore: true},
	{Name: "crest_share_msl", Shore: true},
	{Name: "mhw_mean_depth", Layer: "high_water", Shore: true},
	{Name: "mlw_greatest_depth", Layer: "low_water", Shore: true},
	{Name: "bed_expected", Layer: "high_water", Shore: true},
	{Name: "fill_volume", Shore: true},
	{Name: "fill_below_mhw", Shore: true},
	{Name: "fill_below_htl", Shore: true},
	{Name: "fill_per_length", Layer: "high_water", Shore: true},
	{Name: "fill_tide_ranges", Shore: true},
	{Name: "fill_fines"},
	{Name: "fill_proposed"},
	{Name: "side_slope"},
	{Name: "stone_size"},
	{Name: "wetland_width"},
	{Name: "fetch"},
	{Name: "material"},
	{Name: "kind"},
}

const (
	highTitle = "mean high water"
	lowTitle  = "mean low water"
)

// recordOf is the record of a measure; of a named area it has its layer and its name.
func recordOf(measure string) (Record, bool) {
	family, area, named := strings.Cut(measure, ":")
	at := slices.IndexFunc(records, func(r Record) bool { return r.Name == family })
	if at < 0 {
		return Record{}, false
	}
	r := records[at]
	if named {
		r.Name, r.Layer, r.Blame = measure, "areas."+area, area
	}
	return r, true
}

// PlaceRecord is the record of a measure that is a matter of the place alone; false of
// any other.
func PlaceRecord(measure string) (Record, bool) {
	r, ok := recordOf(measure)
	return r, ok && r.place
}

// drawnRecord is the record of a measure whose limits can be drawn; false of any other.
func drawnRecord(measure string) (Record, bool) {
	r, ok := recordOf(measure)
	return r, ok && r.Drawn
}

// Causes are what can keep a structure off a place that its path would reach, named areas
// left out.
func Causes() []string {
	var out []string
	for _, r := range records {
		if r.place && !r.Reach && r.Blame != "" && !slices.Contains(out, r.Blame) {
			out = append(out, r.Blame)
		}
	}
	return out
}

// SameLines reports whether the limits of two measures are drawn from the same lines: of
// wetlands those of the own shore are not those of all.
func (r Record) SameLines(o Record) bool {
	return r.Layer == o.Layer && r.side == o.side && r.Shore == o.Shore
}
