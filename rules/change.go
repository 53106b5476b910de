package rules

import (
	"fmt"
	"math"
	"strings"
)

// change is the change that would make a failing result hold; none is known of what
// is unknown, and none of what a path is not for. Amounts are in feet, square feet and cubic yards, rounded so that
// doing what the sentence says is enough.
func (r *Result) change() string {
	d, v := r.Demand, r.Value
	switch {
	case r.Holds, r.Outcome == Unknown, r.outOfScope():
		return ""
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

// wording is how a change of a measure is put in words: what brings it down and what up,
// with %s for the amount.
type wording struct {
	down, up string
	// instead is what to say where that is not enough, for so much beyond the limit;
	// empty where it is.
	instead func(r Result, excess float64) string
}

// What stands in a wording for the width of an opening, and for what is mapped that the
// measure leads to or covers.
const (
	clearWidth = "{width}"
	mapped     = "{of}"
)

// Wordings of several measures.
var (
	shorter            = &wording{down: "shorten by %s", up: "lengthen by %s"}
	shorterProject     = &wording{down: "shorten the project by %s", up: "lengthen the project by %s"}
	landward           = &wording{down: "move %s landward", up: "move %s waterward"}
	landwardOrNarrower = &wording{down: landward.down, up: landward.up, instead: narrower}
	lower              = &wording{down: "lower the crest by %s", up: "raise the crest by %s"}
	lowerOfDepth       = &wording{down: "lower the crest by %s of the depth", up: "raise the crest by %s of the depth"}
	shallower          = &wording{down: "choose a place %s shallower", up: "choose a place %s deeper"}
	lessFill           = &wording{down: "reduce the fill by %s", up: "increase the fill by %s"}
	clearing           = &wording{up: "cover %s more of the " + mapped, instead: clearOff}
	away               = &wording{down: "move %s nearer to the " + mapped, up: "move %s away from the " + mapped, instead: clearOf}
	awayFromNeighbours = &wording{down: away.down, up: away.up, instead: betweenNeighbours}
)

// numberChange brings a value down to its limit, or up to it.
func (r *Result) numberChange() string {
	excess := math.Abs(r.Value.Number - r.Demand.Limit)
	change := r.Measure.change
	if change.instead != nil {
		if text := change.instead(*r, excess); text != "" {
			return text
		}
	}
	by, width := r.amount(excess), tenths(r.Value.Number)
	if r.Measure.Quantity == Count {
		by, width = r.openings(excess), up(r.Ref.Opening, feet, 1, false)
	}
	text := change.up
	if r.Demand.Comparison.capped() {
		text = change.down
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, clearWidth, width), mapped, r.Measure.of)
	return fmt.Sprintf(text, by)
}

// narrower is what to do where moving alone would take a structure out of the water.
func narrower(r Result, excess float64) string {
	if !r.Demand.Comparison.capped() || !(r.Value.Room < excess) {
		return ""
	}
	return "bring the waterward edge " + r.amount(excess) + " landward (narrow it: moving alone would put it landward of mean high water)"
}

// lessWater is what to do about the share of the water's width that is taken.
func lessWater(r Result, excess float64) string {
	if r.Value.Whole <= 0 {
		return "take " + r.Demand.LimitText() + " of the waterway"
	}
	way := "waterward"
	if r.Demand.Comparison.capped() {
		way = "landward"
	}
	return "bring the waterward edge " + up(excess*r.Value.Whole, feet, 1, r.Demand.Comparison.strict()) + " " + way
}

// clearOf is what to do on contact: how deep it reaches in is not in the distance.
func clearOf(r Result, _ float64) string {
	if r.Demand.Comparison.capped() || r.Value.Number != 0 {
		return ""
	}
	return fmt.Sprintf("move clear of the %s, at least %s from it", r.Measure.of, r.least())
}

// betweenNeighbours is what to do where moving off one neighbour's line brings a structure
// too near to the other's.
func betweenNeighbours(r Result, excess float64) string {
	if d := r.Demand; d.Comparison.capped() || d.Limit <= 0 || !(r.Value.Room-excess < d.Limit) {
		return ""
	}
	return fmt.Sprintf("shorten, to stay at least %s from the riparian lines on both sides", r.least())
}

// least is the limit of a distance that must be kept.
func (r *Result) least() string { return up(r.Demand.Limit, feet, 1, r.Demand.Comparison.strict()) }

// openUp widens what is already open if that is enough, and otherwise asks for
// openings at the spacing the limit allows.
func openUp(r Result, _ float64) string {
	d, v := r.Demand, r.Value
	if !d.Comparison.capped() {
		return ""
	}
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

// clearOff is what to do with what is covered and may not be.
func clearOff(r Result, _ float64) string {
	d, v := r.Demand, r.Value
	if !d.Comparison.capped() {
		return ""
	}
	change := fmt.Sprintf("clear the %s: %s overlap", r.Measure.of, sqft.fixed(sqft.FromSI(v.Number), 0, false))
	if d.Limit > 0 {
		change += ", " + d.LimitText() + " allowed"
	}
	return change
}
