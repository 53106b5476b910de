package rules

import "fmt"

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
	if c.Comparison.capped() {
		return r.lowerCure()
	}
	return r.raiseCure()
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

// lowerCure is for a value that must come down.
func (r *Result) lowerCure() string {
	c, v := r.Criterion, r.Value
	excess := v.Number - c.Limit
	by := r.amount(excess)
	switch c.Measure.Name {
	case "mhw_farthest", "mlw_farthest":
		if v.Room < excess {
			return "bring the waterward edge " + by + " landward (narrow it: moving alone would put it landward of mean high water)"
		}
		return "move " + by + " landward"
	case "mhw_nearest", "mlw_nearest":
		return "move " + by + " landward"
	case "longest_run":
		return r.runCure()
	case "narrowest_opening":
		return fmt.Sprintf("narrow the %s opening by %s", tenths(v.Number), by)
	case "openings":
		return "close " + r.openings(excess)
	case "crest_above_mhw":
		return "lower the crest by " + by
	case "seagrass_nearest", "channel_nearest", "riparian_nearest":
		return fmt.Sprintf("move %s nearer to the %s", by, lookedFor[c.Measure.Name])
	case "seagrass_overlap":
		return r.seagrassCure()
	case "footprint_area":
		return "reduce the footprint by " + by
	case "fill_volume", "fill_per_length":
		return "reduce the fill by " + by
	case "waterway_width":
		return "choose a site where the waterway is " + by + " narrower"
	case "waterway_share":
		if v.Whole > 0 {
			return fmt.Sprintf("bring the waterward edge %s landward", up(excess*v.Whole, feet, 1, c.Comparison.strict()))
		}
		return "take " + c.LimitText() + " of the waterway"
	}
	return "shorten by " + by
}

// raiseCure is for a value that must go up.
func (r *Result) raiseCure() string {
	c, v := r.Criterion, r.Value
	excess := c.Limit - v.Number
	by := r.amount(excess)
	switch c.Measure.Name {
	case "mhw_farthest", "mlw_farthest", "mhw_nearest", "mlw_nearest":
		return "move " + by + " waterward"
	case "narrowest_opening":
		return fmt.Sprintf("widen the %s opening by %s", tenths(v.Number), by)
	case "openings":
		return fmt.Sprintf("add %s of at least %s",
			r.openings(excess), up(c.Ref.Opening, feet, 1, false))
	case "crest_above_mhw":
		return "raise the crest by " + by
	case "seagrass_nearest", "channel_nearest":
		if v.Number == 0 { // on contact; how deep it reaches in is not in the distance
			return fmt.Sprintf("move clear of the %s, at least %s from it", lookedFor[c.Measure.Name], up(c.Limit, feet, 1, c.Comparison.strict()))
		}
		return fmt.Sprintf("move %s away from the %s", by, lookedFor[c.Measure.Name])
	case "riparian_nearest":
		if v.Room-excess < c.Limit { // there is a line on the other side too
			return fmt.Sprintf("shorten, to stay at least %s from the riparian lines on both sides", up(c.Limit, feet, 1, c.Comparison.strict()))
		}
		return fmt.Sprintf("move %s away from the riparian line", by)
	case "seagrass_overlap":
		return "cover " + by + " more of the seagrass"
	case "footprint_area":
		return "enlarge the footprint by " + by
	case "fill_volume", "fill_per_length":
		return "increase the fill by " + by
	case "waterway_width":
		return "choose a site where the waterway is " + by + " wider"
	case "waterway_share":
		if v.Whole > 0 {
			return fmt.Sprintf("bring the waterward edge %s waterward", up(excess*v.Whole, feet, 1, c.Comparison.strict()))
		}
		return "take " + c.LimitText() + " of the waterway"
	}
	return "lengthen by " + by
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
