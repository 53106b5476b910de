package screening

import (
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
)

// measureColumn is a measure as the summary shows it.
type measureColumn struct {
	name     string
	measure  string
	perUnit  float64 // SI units in one unit of the column
	decimals int
}

var measureColumns = []measureColumn{
	{"element_length_ft", "element_length", job.Foot, 2},
	{"overall_length_ft", "overall_length", job.Foot, 2},
	{"project_length_ft", "project_length", job.Foot, 2},
	{"longest_run_ft", "longest_run", job.Foot, 2},
	{"opening_spacing_ft", "opening_spacing", job.Foot, 2},
	{"narrowest_opening_ft", "narrowest_opening", job.Foot, 2},
	{"openings", "openings", 1, 0},
	{"openings_lacking", "openings_lacking", 1, 0},
	{"longest_overlap_ft", "longest_overlap", job.Foot, 2},
	{"bank_length_ft", "bank_length", job.Foot, 2},
	{"project_bank_length_ft", "project_bank_length", job.Foot, 2},
	{"mhw_farthest_ft", "mhw_farthest", job.Foot, 2},
	{"mhw_nearest_ft", "mhw_nearest", job.Foot, 2},
	{"mhw_landward_edge_ft", "mhw_landward_edge", job.Foot, 2},
	{"mlw_farthest_ft", "mlw_farthest", job.Foot, 2},
	{"mlw_nearest_ft", "mlw_nearest", job.Foot, 2},
	{"mlw_landward_edge_ft", "mlw_landward_edge", job.Foot, 2},
	{"crest_above_mhw_ft", "crest_above_mhw", job.Foot, 2},
	{"crest_above_wetland_ft", "crest_above_wetland", job.Foot, 2},
	{"crest_exposed_pct", "crest_exposed", 0.01, 1},
	{"bed_exposed_pct", "bed_exposed", 0.01, 1},
	{"crest_share_mhw_pct", "crest_share_mhw", 0.01, 1},
	{"crest_share_msl_pct", "crest_share_msl", 0.01, 1},
	{"mhw_mean_depth_ft", "mhw_mean_depth", job.Foot, 2},
	{"mlw_greatest_depth_ft", "mlw_greatest_depth", job.Foot, 2},
	{"bed_expected_ft", "bed_expected", job.Foot, 2},
	{"footprint_sqft", "footprint_area", job.SquareFoot, 1},
	{"fill_cuyd", "fill_volume", job.CubicYard, 2},
	{"fill_below_mhw_cuyd", "fill_below_mhw", job.CubicYard, 2},
	{"fill_below_htl_cuyd", "fill_below_htl", job.CubicYard, 2},
	{"fill_per_length_cuyd_ft", "fill_per_length", job.CubicYard / job.Foot, 4},
	{"fill_tide_ranges", "fill_tide_ranges", 1, 2},
	{"seagrass_overlap_sqft", "seagrass_overlap", job.SquareFoot, 1},
	{"seagrass_nearest_ft", "seagrass_nearest", job.Foot, 2},
	{"wetland_overlap_sqft", "wetland_overlap", job.SquareFoot, 1},
	{"wetland_nearest_ft", "wetland_nearest", job.Foot, 2},
	{"wetland_behind_ft", "wetland_behind", job.Foot, 2},
	{"wetland_farthest_ft", "wetland_farthest", job.Foot, 2},
	{"wetland_landward_edge_ft", "wetland_landward_edge", job.Foot, 2},
	{"channel_nearest_ft", "channel_nearest", job.Foot, 2},
	{"riparian_nearest_ft", "riparian_nearest", job.Foot, 2},
	{"waterway_width_ft", "waterway_width", job.Foot, 2},
	{"waterway_share", "waterway_share", 1, 4},
}

// measureCell shows an exact value; what is unknown or only bounded is empty.
func measureCell(v rules.Value, c measureColumn) out.Cell {
	if v.Unknown != "" || v.Bound != rules.Exact {
		return out.Text("")
	}
	return out.Number(v.Number/c.perUnit, c.decimals)
}

// areaCell shows what of a named area is touched: its names, or "outside".
func areaCell(v rules.Value) out.Cell {
	switch {
	case v.Unknown != "":
		return out.Text("")
	case len(v.Names) == 0:
		return out.Text("outside")
	}
	return out.Text(strings.Join(v.Names, "; "))
}
