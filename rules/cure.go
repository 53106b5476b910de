package rules

import (
	"fmt"
	"math"
	"strings"
)

// cure is the change that would make a failing result hold. Amounts are in
// feet, square feet and cubic yards, rounded so that doing what the sentence
// says is enough.
func (r *Result) cure() string {
	c, v := r.Criterion, r.Value
	switch {
	case r.Holds:
		return ""
	case v.Unknown != "":
		return v.Unknown
	case r.Outcome == Unknown:
		return fmt.Sprintf("find out whether the %s is %s", c.Measure.Title, c.LimitText())
	case c.Measure.Quantity == Names:
		return areaCure(c, v)
	case c.Measure.Quantity == Word:
		if c.Comparison == NoneOf {
			return "use none of: " + list(c.Words)
		}
		return "use one of: " + list(c.Words)
	case v.Bound != Exact:
		// How far it is beyond the limit is not known.
		return fmt.Sprintf("bring the %s to %s", c.Measure.Title, c.LimitText())
	}
	return r.change()
}

func areaCure(c *Criterion, v Value) string {
	switch {
	case c.Comparison == AnyOf:
		return "move into one of: " + list(c.Words)
	case c.Comparison == Is && plain(c.Words[0]) == inside:
		return "move into " + areaTitle(c.Measure.Name)
	case c.Comparison == Is:
		return "move out of " + areaTitle(c.Measure.Name)
	}
	var touched []string
	for _, w := range c.Words {
		for _, name := range v.Names {
			if plain(w) == plain(name) {
				touched = append(touched, w)
				break
			}
		}
	}
	return "move out of " + list(touched)
}

// changes are the plain cures: what to do to bring a measure down, and up.
var changes = map[string][2]string{
	"element_length":    {"shorten by %s", "lengthen by %s"},
	"overall_length":    {"shorten by %s", "lengthen by %s"},
	"longest_run":       {"shorten by %s", "lengthen by %s"},
	"bank_length":       {"shorten by %s", "lengthen by %s"},
	"mhw_farthest":      {"move %s landward", "move %s waterward"},
	"mhw_nearest":       {"move %s landward", "move %s waterward"},
	"mlw_farthest":      {"move %s landward", "move %s waterward"},
	"mlw_nearest":       {"move %s landward", "move %s waterward"},
	"crest_above_mhw":   {"lower the crest by %s", "raise the crest by %s"},
	"footprint_area":    {"reduce the footprint by %s", "enlarge the footprint by %s"},
	"fill_volume":       {"reduce the fill by %s", "increase the fill by %s"},
	"fill_per_length":   {"reduce the fill by %s", "increase the fill by %s"},
	"seagrass_overlap":  {"", "cover %s more of the seagrass"},
	"seagrass_nearest":  {"move %s nearer to the seagrass", "move %s away from the seagrass"},
	"channel_nearest":   {"move %s nearer to the channel", "move %s away from the channel"},
	"riparian_nearest":  {"move %s nearer to the riparian line", "move %s away from the riparian line"},
	"waterway_width":    {"choose a site where the waterway is %s narrower", "choose a site where the waterway is %s wider"},
	"waterway_share":    {"bring the waterward edge %s landward", "bring the waterward edge %s waterward"},
	"narrowest_opening": {"narrow the " + clearWidth + " opening by %s", "widen the " + clearWidth + " opening by %s"},
	"openings":          {"close %s", "add %s of at least " + clearWidth},
}

// clearWidth stands in a change for the width of an opening.
const clearWidth = "{width}"

// change brings a value down to its limit, or up to it. Where moving or
// narrowing alone is not enough, it says what is.
func (r *Result) change() string {
	c, v := r.Criterion, r.Value
	down := c.Comparison.capped()
	excess := math.Abs(v.Number - c.Limit)
	by, width := r.amount(excess), tenths(v.Number)
	least := func() string { return up(c.Limit, feet, 1, c.Comparison.strict()) }
	switch name := c.Measure.Name; {
	case name == "longest_run" && down:
		return r.runCure()
	case name == "seagrass_overlap" && down:
		return r.seagrassCure()
	case name == "openings":
		by, width = r.openings(excess), up(c.Ref.Opening, feet, 1, false)
	case name == "waterway_share" && v.Whole <= 0:
		return "take " + c.LimitText() + " of the waterway"
	case name == "waterway_share":
		by = up(excess*v.Whole, feet, 1, c.Comparison.strict())
	case (name == "mhw_farthest" || name == "mlw_farthest") && down && v.Room < excess:
		return "bring the waterward edge " + by + " landward (narrow it: moving alone would put it landward of mean high water)"
	case (name == "seagrass_nearest" || name == "channel_nearest") && !down && v.Number == 0:
		// On contact; how deep it reaches in is not in the distance.
		return fmt.Sprintf("move clear of the %s, at least %s from it", lookedFor[name], least())
	case name == "riparian_nearest" && !down && c.Limit > 0 && v.Room-excess < c.Limit:
		return fmt.Sprintf("shorten, to stay at least %s from the riparian lines on both sides", least())
	}
	text := changes[c.Measure.Name][1]
	if down {
		text = changes[c.Measure.Name][0]
	}
	return fmt.Sprintf(strings.ReplaceAll(text, clearWidth, width), by)
}

// runCure widens what is already open if that is enough, and otherwise asks for
// openings at the spacing the limit allows.
func (r *Result) runCure() string {
	c, v := r.Criterion, r.Value
	widened := v.Widened < c.Limit || v.Widened == c.Limit && !c.Comparison.strict()
	if len(v.Narrow) == 0 || !widened {
		return fmt.Sprintf("leave an opening of at least %s at least every %s",
			up(c.Ref.Opening, feet, 1, false), down(c.Limit, feet, c.Comparison.strict()))
	}
	var widths, amounts []string
	for _, clear := range v.Narrow {
		width := tenths(clear)
		if width == tenths(c.Ref.Opening) { // 4.99 ft is not "5.0 ft"
			width = feet.fixed(feet.FromSI(clear), 2, false)
		}
		widths = append(widths, width)
		amounts = append(amounts, up(c.Ref.Opening-clear, feet, 1, false))
	}
	noun := "opening"
	if len(widths) > 1 {
		noun = "openings"
	}
	return fmt.Sprintf("widen the %s %s by %s", and(widths), noun, and(amounts))
}

func (r *Result) seagrassCure() string {
	c, v := r.Criterion, r.Value
	cure := "clear the seagrass: " + sqft.fixed(sqft.FromSI(v.Number), 0, false) + " overlap"
	if c.Limit > 0 {
		cure += ", " + c.LimitText() + " allowed"
	}
	return cure
}
