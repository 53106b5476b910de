package site

import (
	"math"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
)

// records has a record of every measure that a book can ask for, in the order of the
// tables. What a record says of places is what envelopes are made by; see DEVELOPERS.md
// for a new one.
var records = []Record{
	{Name: "element_length", Column: feet("element_length_ft"), placed: longerElements, Strip: ofTheWhole},
	{Name: "overall_length", Column: feet("overall_length_ft"), placed: longer, Strip: ofTheWhole},
	{Name: "project_length", Column: feet("project_length_ft"), placed: longer, Strip: ofTheWhole, project: true},
	{Name: "longest_run", Column: feet("longest_run_ft"), count: longestRun, Strip: ofRuns},
	{Name: "opening_spacing", Column: feet("opening_spacing_ft"), count: openingSpacing, Strip: ofSpacing},
	{Name: "narrowest_opening", Column: feet("narrowest_opening_ft"), placed: narrower, Placed: 2},
	{Name: "openings", Column: Column{"openings", 1, 0}, count: counting},
	{Name: "openings_lacking", Column: Column{"openings_lacking", 1, 0}, count: lacking, Strip: ofLacking},
	{Name: "longest_overlap", Column: feet("longest_overlap_ft"), Layer: "high_water", Shore: true, bank: true, placed: longer},
	{Name: "bank_length", Column: feet("bank_length_ft"), Layer: "high_water", Shore: true, bank: true, placed: longer, Strip: ofTheWhole},
	{Name: "project_bank_length", Column: feet("project_bank_length_ft"), Layer: "high_water", Shore: true, placed: longer, Strip: ofTheWhole, project: true},
	{Name: "mhw_farthest", Column: feet("mhw_farthest_ft"), Layer: "high_water", Shore: true,
		bank: true, off: (*geo.Bank).Farthest, toe: true, placed: outward, Placed: 1,
		place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: highTitle, Reach: true},
	{Name: "mhw_nearest", Column: feet("mhw_nearest_ft"), Layer: "high_water", Shore: true,
		bank: true, off: (*geo.Bank).Nearest, placed: inward,
		place: true, Whole: Least, Drawn: true, side: geo.WaterSide, Blame: highTitle, Reach: true},
	{Name: "mhw_landward_edge", Column: feet("mhw_landward_edge_ft"), Layer: "high_water", Shore: true,
		bank: true, off: (*geo.Bank).LandwardEdge, placed: inward,
		place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: highTitle, Reach: true},
	{Name: "mlw_farthest", Column: feet("mlw_farthest_ft"), Layer: "low_water", Shore: true,
		bank: true, off: (*geo.Bank).Farthest, toe: true, placed: outward,
		place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: lowTitle, Reach: true},
	{Name: "mlw_nearest", Column: feet("mlw_nearest_ft"), Layer: "low_water", Shore: true,
		bank: true, off: (*geo.Bank).Nearest, placed: inward,
		place: true, Whole: Least, Drawn: true, side: geo.WaterSide, Blame: lowTitle, Reach: true},
	{Name: "mlw_landward_edge", Column: feet("mlw_landward_edge_ft"), Layer: "low_water", Shore: true,
		bank: true, off: (*geo.Bank).LandwardEdge, placed: inward,
		place: true, Whole: Greatest, Drawn: true, side: geo.WaterSide, Blame: lowTitle, Reach: true},
	{Name: "crest_above_mhw", Column: feet("crest_above_mhw_ft"), Layer: "high_water", Shore: true, Property: "crest_elev_ft"},
	{Name: "crest_above_wetland", Column: feet("crest_above_wetland_ft"), Shore: true, Property: "wetland_elev_ft"},
	{Name: "crest_exposed", Column: percent("crest_exposed_pct"), Shore: true, Property: "crest_elev_ft", Tides: true},
	{Name: "bed_exposed", Column: percent("bed_exposed_pct"), Shore: true, Property: "bed_elev_ft", bed: true, Tides: true},
	{Name: "crest_share_mhw", Column: percent("crest_share_mhw_pct"), Shore: true, Property: "bed_elev_ft", bed: true, Tides: true},
	{Name: "crest_share_msl", Column: percent("crest_share_msl_pct"), Shore: true, Property: "bed_elev_ft", bed: true, Tides: true},
	{Name: "mhw_mean_depth", Column: feet("mhw_mean_depth_ft"), Layer: "high_water", Shore: true, Property: "bed_elev_ft", bed: true},
	{Name: "mlw_greatest_depth", Column: feet("mlw_greatest_depth_ft"), Layer: "low_water", Shore: true, Property: "bed_elev_ft", bed: true},
	{Name: "bed_expected", Column: feet("bed_expected_ft"), Layer: "high_water", Shore: true},
	{Name: "footprint_area", Column: squareFeet("footprint_sqft"), placed: widerFoot, Placed: 3, Strip: ofTheArea},
	{Name: "fill_volume", Column: cubicYards("fill_cuyd"), Shore: true, Property: "bed_elev_ft", bed: true},
	{Name: "fill_below_mhw", Column: cubicYards("fill_below_mhw_cuyd"), Shore: true, Property: "bed_elev_ft", bed: true},
	{Name: "fill_below_htl", Column: cubicYards("fill_below_htl_cuyd"), Shore: true, Property: "high_tide_line_elev_ft", bed: true},
	{Name: "fill_per_length", Column: Column{"fill_per_length_cuyd_ft", job.CubicYard / job.Foot, 4}, Layer: "high_water", Shore: true, Property: "bed_elev_ft", bed: true},
	{Name: "fill_tide_ranges", Column: Column{"fill_tide_ranges", 1, 2}, Shore: true, Property: "fill_elev_ft"},
	{Name: "seagrass_overlap", Column: squareFeet("seagrass_overlap_sqft"), Layer: "seagrass",
		placed: coversMore("seagrass_nearest"), place: true, Whole: Greatest, Blame: "seagrass"},
	{Name: "seagrass_nearest", Column: feet("seagrass_nearest_ft"), Layer: "seagrass",
		placed: nearer, place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "seagrass"},
	{Name: "wetland_overlap", Column: squareFeet("wetland_overlap_sqft"), Layer: "wetlands",
		placed: coversMore("wetland_nearest"), place: true, Whole: Greatest, Blame: "wetland"},
	{Name: "wetland_nearest", Column: feet("wetland_nearest_ft"), Layer: "wetlands",
		placed: nearer, place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "wetland"},
	{Name: "wetland_behind", Column: feet("wetland_behind_ft"), Layer: "wetlands", Shore: true,
		placed: nearer, place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "wetland"},
	{Name: "wetland_farthest", Column: feet("wetland_farthest_ft"), Layer: "wetlands", Shore: true,
		placed: outward, place: true, Whole: Greatest, Drawn: true, side: geo.BothSides, Blame: "wetland", Reach: true},
	{Name: "wetland_landward_edge", Column: feet("wetland_landward_edge_ft"), Layer: "wetlands", Shore: true,
		placed: inward, place: true, Whole: Greatest, Drawn: true, side: geo.BothSides, Blame: "wetland", Reach: true},
	{Name: "channel_nearest", Column: feet("channel_nearest_ft"), Layer: "channels",
		placed: nearer, place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "channel"},
	{Name: "riparian_nearest", Column: feet("riparian_nearest_ft"), Layer: "riparian",
		placed: inward, place: true, Whole: Least, Drawn: true, side: geo.BothSides, Blame: "neighbour"},
	{Name: "waterway_width", Column: feet("waterway_width_ft"), Layer: "high_water", Shore: true,
		place: true, Whole: Least, Blame: "narrow water"},
	{Name: "waterway_share", Column: Column{"waterway_share", 1, 4}, Layer: "high_water", Shore: true,
		placed: moreShare, needs: "mhw_farthest", place: true, Whole: Greatest, Blame: "narrow water"},

	{Name: "channel_reach", Column: Column{Name: "channel_reach"}, Layer: "channels", place: true, Blame: "channel"},
	{Name: "in_area", Column: Column{Name: "in_area"}, place: true, Whole: Greatest}, // a family: layer and blame are the area's

	stated("fetch", "fetch_mi", job.Positive, "fetch is not measured from maps"),
	stated("side_slope", "side_slope", job.Positive, ""),
	stated("stone_size", "stone_size_ft", job.Widths, ""),
	stated("fill_fines", "fill_fines_pct", job.Shares, ""),
	stated("wetland_width", "wetland_width_ft", job.Positive, ""),
	stated("mtl_landward_edge", "mtl_landward_edge_ft", job.Signed, "no mid-tide line is mapped"), // which may lie landward
	word("kind", "kind"),
	word("fill_proposed", "fill"),
	word("material", "material"),
}

const (
	highTitle = "mean high water"
	lowTitle  = "mean low water"
)

func feet(name string) Column       { return Column{name, job.Foot, 2} }
func squareFeet(name string) Column { return Column{name, job.SquareFoot, 1} }
func cubicYards(name string) Column { return Column{name, job.CubicYard, 2} }
func percent(name string) Column    { return Column{name, 0.01, 1} }

// stated is the record of a number that a proposal states, whose column is the property.
func stated(measure, property string, within job.Span, why string) Record {
	return Record{Name: measure, Column: Column{property, job.PerUnit(property), 2}, Property: property, Stated: true, Within: within, why: why}
}

// word is the record of a word that a proposal states.
func word(measure, property string) Record {
	return Record{Name: measure, Column: Column{Name: property}, Property: property, Stated: true}
}

// Strip is what a limit on a measure leaves of a strip along the shore, in metres.
type Strip struct {
	Most    float64 // greatest length of all of it, openings included
	Element float64 // greatest length of an element
	Opening float64 // least width of the openings between elements
}

func ofTheWhole(limit, _ float64, _ rules.Ref) Strip {
	return Strip{Most: limit, Element: math.Inf(1)}
}

func ofTheArea(limit, width float64, _ rules.Ref) Strip {
	return ofTheWhole(limit/width, width, rules.Ref{})
}

func ofRuns(limit, _ float64, ref rules.Ref) Strip {
	return Strip{Most: math.Inf(1), Element: limit, Opening: ref.Opening}
}

func ofSpacing(limit, width float64, ref rules.Ref) Strip {
	return ofRuns(limit-ref.Opening, width, ref)
}

func ofLacking(_, width float64, ref rules.Ref) Strip {
	return ofRuns(ref.Every-ref.Opening, width, ref)
}
