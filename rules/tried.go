package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// sides are the places a value can have to a limit.
type sides struct{ inside, at, beyond bool }

// sides says where values can lie. Words, which have no limit, meet or fail.
func (d *Demand) sides() sides {
	if !d.Measure.Quantity.numeric() {
		return sides{inside: true, beyond: true}
	}
	mayBeBelow := func(in Input) bool { return in.Measure.signed }
	least := 0.0
	if slices.ContainsFunc(d.Inputs(), mayBeBelow) {
		least = math.Inf(-1)
	}
	if d.Comparison.capped() {
		return sides{d.Limit > least, d.Limit >= least, true}
	}
	return sides{true, d.Limit >= least, d.Limit > least}
}

// untried gives for each criterion the sides of its limit on which no example
// lies, by the margins of the decisions on them.
func (b *Book) untried() map[*Criterion]sides {
	out := map[*Criterion]sides{}
	for _, path := range b.Paths {
		for _, c := range path.Criteria {
			out[c] = c.sides()
		}
	}
	for _, e := range b.Examples {
		for _, r := range b.Decide(e).Results {
			left, tried := out[r.Criterion] // a limit that nobody has read cannot be
			if !tried || !r.Criterion.applies(e) {
				continue
			}
			word := r.Outcome != Unknown && r.Outcome != NotApplicable && !r.Measure.Quantity.numeric()
			left.inside = left.inside && !(r.Margin > 0 || word && r.Holds)
			left.at = left.at && r.Margin != 0
			left.beyond = left.beyond && !(r.Margin < 0 || word && !r.Holds)
			out[r.Criterion] = left
		}
	}
	return out
}

// applies says that the criterion speaks of the case.
func (c *Criterion) applies(facts Facts) bool {
	for _, when := range c.When {
		if w := apply(when, facts); !w.Holds {
			return false
		}
	}
	return true
}

// missing says which examples to add.
func (c *Criterion) missing(from sides) string {
	if !c.Measure.Quantity.numeric() {
		switch {
		case from.inside && from.beyond:
			return fmt.Sprintf("no example meets or fails what it asks, that %s%s: add one of each", &c.Demand, c.where())
		case from.inside:
			return fmt.Sprintf("no example meets what it asks, that %s%s: add one that does", &c.Demand, c.where())
		}
		return fmt.Sprintf("no example fails what it asks, that %s%s: add one that does", &c.Demand, c.where())
	}
	limit := c.Unit.Format(c.Limit)
	less, more := "less than "+limit, "more than "+limit
	if !c.Comparison.capped() {
		less, more = more, less
	}
	var places, values []string
	for _, s := range []struct {
		missing      bool
		place, value string
	}{
		{from.inside, "inside", less}, {from.at, "exactly at", "exactly the limit"}, {from.beyond, "beyond", more},
	} {
		if s.missing {
			places, values = append(places, s.place), append(values, s.value)
		}
	}
	return fmt.Sprintf("no example lies %s its limit, %s: add one in which the %s is %s%s",
		strings.Join(places, " or "), c.LimitText(), c.Subject(), strings.Join(values, ", and one in which it is "), c.where())
}
