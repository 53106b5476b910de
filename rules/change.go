package rules

import (
	"fmt"
	"math"
	"strings"
)

// change is the change that would make a failing result hold; none is known of what
// is unknown. Amounts are in feet, square feet and cubic yards, rounded so that
// doing what the sentence says is enough.
func (r *Result) change() string {
	d, v := r.Demand, r.Value
	switch {
	case r.Holds, r.Outcome == Unknown:
		return ""
	case r.outOfScope():
		return "the path is for other things"
	case r.Measure.Quantity == Names:
		return r.areaChange()
	case r.Measure.Quantity == Word:
		if d.Comparison == NoneOf {
			return "use none of: " + list(d.Words)
		}
		return "use one of: " + list(d.Words)
	case v.Bound != Exact:
		// How far it is beyond the limit is not known.
		return fmt.Sprintf("bring the %s to %s", r.Measure.Title, d.LimitText())
	}
	return r.numberChange()
}

func (r *Result) areaChange() string {
	d, v := r.Demand, r.Value
	switch {
	case d.Comparison == AnyOf:
		return "move into one of: " + list(d.Words)
	case d.Comparison == Is && plain(d.Words[0]) == inside:
		return "move into " + areaTitle(r.Measure.Name)
	case d.Comparison == Is:
		return "move out of " + areaTitle(r.Measure.Name)
	}
	var touched []string
	for _, w := range d.Words {
		for _, name := range v.Names {
			if plain(w) == plain(name) {
				touched = append(touched, w)
				break
			}
		}
	}
	return "move out of " + list(touched)
}

// changes are the plain changes: what to do to bring a measure down, and up.
var changes = map[string][2]string{
	"element_length":        shorter,
	"overall_length":        shorter,
	"project_length":        shorterProject,
	"longest_run":           shorter,
	"opening_spacing":       {"", "set the openings %s farther apart"},
	"bank_length":           shorter,
	"project_bank_length":   shorterProject,
	"longest_overlap":       {"overlap the elements %s less", "overlap the elements %s more"},
	"mhw_farthest":          landward,
	"mhw_nearest":           landward,
	"mhw_landward_edge":     landward,
	"mlw_farthest":          landward,
	"mlw_nearest":           landward,
	"mlw_landward_edge":     landward,
	"mtl_landward_edge":     landward,
	"wetland_farthest":      landward,
	"wetland_landward_edge": landward,
	"crest_above_mhw":       lower,
	"crest_above_wetland":   lower,
	"crest_exposed":         {"lower the crest until it is out of the water %s of the time less", "raise the crest until it is out of the water %s of the time more"},
	"bed_exposed":           {"choose a place that is out of the water %s of the time less", "choose a place that is out of the water %s of the time more"},
	"crest_share_mhw":       {"lower the crest by %s of the depth", "raise the crest by %s of the depth"},
	"crest_share_msl":       {"lower the crest by %s of the depth", "raise the crest by %s of the depth"},
	"mhw_mean_depth":        shallower,
	"mlw_greatest_depth":    shallower,
	"bed_expected":          {"choose a place where the bed lies %s lower", "choose a place where the bed lies %s higher"},
	"footprint_area":        {"reduce the footprint by %s", "enlarge the footprint by %s"},
	"fill_volume":           lessFill,
	"fill_below_mhw":        lessFill,
	"fill_below_htl":        lessFill,
	"fill_per_length":       lessFill,
	"fill_tide_ranges":      {"lower the fill by %s mean tide ranges", "raise the fill by %s mean tide ranges"},
	"fill_fines":            {"use fill with %s less fines", "use fill with %s more fines"},
	"side_slope":            {"steepen the side slope by %s to 1", "flatten the side slope by %s to 1"},
	"stone_size":            {"use stone %s smaller", "use stone %s larger"},
	"seagrass_overlap":      {"", "cover %s more of the seagrass"},
	"seagrass_nearest":      {"move %s nearer to the seagrass", "move %s away from the seagrass"},
	"wetland_overlap":       {"", "cover %s more of the wetland"},
	"wetland_nearest":       {"move %s nearer to the wetland", "move %s away from the wetland"},
	"wetland_behind":        {"move %s nearer to the wetland", "move %s away from the wetland"},
	"wetland_width":         {"narrow the wetland by %s", "widen the wetland by %s"},
	"channel_nearest":       {"move %s nearer to the channel", "move %s away from the channel"},
	"riparian_nearest":      {"move %s nearer to the riparian line", "move %s away from the riparian line"},
	"waterway_width":        {"choose a site where the waterway is %s narrower", "choose a site where the waterway is %s wider"},
	"waterway_share":        {"bring the waterward edge %s landward", "bring the waterward edge %s waterward"},
	"fetch":                 {"choose a site with %s less fetch", "choose a site with %s more fetch"},
	"narrowest_opening":     {"narrow the " + clearWidth + " opening by %s", "widen the " + clearWidth + " opening by %s"},
	"openings":              {"close %s", "add %s of at least " + clearWidth},
	"openings_lacking":      {"add %s of at least " + clearWidth, "close %s"},
}

// What brings down, and up, a measure of one sort.
var (
	shorter        = [2]string{"shorten by %s", "lengthen by %s"}
	shorterProject = [2]string{"shorten the project by %s", "lengthen the project by %s"}
	landward       = [2]string{"move %s landward", "move %s waterward"}
	lower          = [2]string{"lower the crest by %s", "raise the crest by %s"}
	shallower      = [2]string{"choose a place %s shallower", "choose a place %s deeper"}
	lessFill       = [2]string{"reduce the fill by %s", "increase the fill by %s"}
)

// clearWidth stands in a change for the width of an opening.
const clearWidth = "{width}"

// numberChange brings a value down to its limit, or up to it. Where moving or
// narrowing alone is not enough, it says what is.
func (r *Result) numberChange() string {
	d, v := r.Demand, r.Value
	down := d.Comparison.capped()
	excess := math.Abs(v.Number - d.Limit)
	by, width := r.amount(excess), tenths(v.Number)
	least := func() string { return up(d.Limit, feet, 1, d.Comparison.strict()) }
	switch name := r.Measure.Name; {
	case (name == "longest_run" || name == "opening_spacing") && down:
		return r.runChange()
	case (name == "seagrass_overlap" || name == "wetland_overlap") && down:
		return r.overlapChange()
	case name == "openings", name == "openings_lacking":
		by, width = r.openings(excess), up(r.Ref.Opening, feet, 1, false)
	case name == "waterway_share" && v.Whole <= 0:
		return "take " + d.LimitText() + " of the waterway"
	case name == "waterway_share":
		by = up(excess*v.Whole, feet, 1, d.Comparison.strict())
	case (name == "mhw_farthest" || name == "mlw_farthest") && down && v.Room < excess:
		return "bring the waterward edge " + by + " landward (narrow it: moving alone would put it landward of mean high water)"
	case lookedFor[name] != "" && name != "riparian_nearest" && !down && v.Number == 0:
		// On contact; how deep it reaches in is not in the distance.
		return fmt.Sprintf("move clear of the %s, at least %s from it", lookedFor[name], least())
	case name == "riparian_nearest" && !down && d.Limit > 0 && v.Room-excess < d.Limit:
		return fmt.Sprintf("shorten, to stay at least %s from the riparian lines on both sides", least())
	}
	text := changes[r.Measure.Name][1]
	if down {
		text = changes[r.Measure.Name][0]
	}
	return fmt.Sprintf(strings.ReplaceAll(text, clearWidth, width), by)
}

// runChange widens what is already open if that is enough, and otherwise asks for
// openings at the spacing the limit allows.
func (r *Result) runChange() string {
	d, v := r.Demand, r.Value
	widened := v.Widened < d.Limit || v.Widened == d.Limit && !d.Comparison.strict()
	if len(v.Narrow) == 0 || !widened {
		return fmt.Sprintf("leave an opening of at least %s at least every %s",
			up(r.Ref.Opening, feet, 1, false), down(d.Limit, feet, d.Comparison.strict()))
	}
	var widths, amounts []string
	for _, clear := range v.Narrow {
		width := tenths(clear)
		if width == tenths(r.Ref.Opening) { // 4.99 ft is not "5.0 ft"
			width = feet.fixed(feet.FromSI(clear), 2, false)
		}
		widths = append(widths, width)
		amounts = append(amounts, up(r.Ref.Opening-clear, feet, 1, false))
	}
	noun := "opening"
	if len(widths) > 1 {
		noun = "openings"
	}
	return fmt.Sprintf("widen the %s %s by %s", and(widths), noun, and(amounts))
}

func (r *Result) overlapChange() string {
	d, v := r.Demand, r.Value
	change := fmt.Sprintf("clear the %s: %s overlap", covered[r.Measure.Name], sqft.fixed(sqft.FromSI(v.Number), 0, false))
	if d.Limit > 0 {
		change += ", " + d.LimitText() + " allowed"
	}
	return change
}

// covered names what a footprint is not to cover.
var covered = map[string]string{"seagrass_overlap": "seagrass", "wetland_overlap": "wetland"}
