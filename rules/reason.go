package rules

import (
	"fmt"
	"math"
	"strings"
)

// reason is the one sentence beside a result: why it is unknown, how near it
// is, what the value rests on.
func (r *Result) reason() string {
	if r.Value.Unknown != "" {
		return r.Value.Unknown
	}
	var parts []string
	if r.Value.Bound != Exact && r.Measure.Quantity.numeric() {
		parts = append(parts, r.boundText())
	}
	if r.Outcome == Unknown {
		open := "which does not settle whether it is " + r.Demand.LimitText()
		if r.Value.Bound == MoreThan {
			open += ": have it looked for farther off"
		}
		parts = append(parts, open)
		return joined(strings.Join(parts, ", "), r.Value.Detail)
	}
	if r.Outcome == Close {
		parts = append(parts, r.closeText())
	}
	parts = append(parts, r.Doubts...)
	if r.Value.Detail != "" {
		parts = append(parts, r.Value.Detail)
	}
	return strings.Join(parts, "; ")
}

// boundText says what is known of a value that is only bounded. Of a distance
// to something not found, that is that there is none so near.
func (r *Result) boundText() string {
	number := r.Demand.Unit.Format(r.Value.Number)
	switch {
	case r.Value.Bound == LessThan:
		return "less than " + number
	case r.Measure.of != "" && r.Measure.Quantity == Length:
		return "none within " + number
	}
	return "more than " + number
}

func (r *Result) closeText() string {
	unit := feet
	// A hundredth of a mile would hide what matters here.
	if own := r.Demand.Unit; own.Quantity == Length && own.SI() <= 1 && r.Measure.Quantity == Length {
		unit = own
	}
	distance, _ := r.deciding()
	if !(distance < r.Tolerance) {
		return fmt.Sprintf("within %s of the limit, nearer than it can be measured", unit.Format(Resolution))
	}
	near := "at the limit"
	if shown := unit.noLess(distance); distance > 0 {
		near = fmt.Sprintf("within %s of the limit", shown)
		if distance != math.Abs(r.Margin) {
			near = fmt.Sprintf("a shift of %s would change it", shown)
		}
	}
	what := "positions"
	if r.Value.Accuracy[0].OfHeights {
		what = "heights"
	}
	return fmt.Sprintf("%s, and the %s are good to %s", near, what, unit.noLess(r.Tolerance))
}

func list(words []string) string { return strings.Join(words, ", ") }

// joined adds a remark to another.
func joined(text, more string) string {
	if text == "" || more == "" {
		return text + more
	}
	return text + "; " + more
}
