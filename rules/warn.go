package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Warnings says what is no error and yet may be a slip: paths never reached,
// criteria no value meets, limits without a citation, and limits that no example
// tries on both sides and at them. Each says what to add. It keeps silent where
// it is not sure, so no warnings do not make a book right.
func (b *Book) Warnings() []string {
	var out []string
	warn := func(at, format string, args ...any) {
		out = append(out, at+": "+fmt.Sprintf(format, args...))
	}
	if len(b.Examples) == 0 {
		warn("edition "+b.Edition, "there are no examples: add some inside, exactly at and beyond each limit")
	}
	untried := b.untried()
	for i, path := range b.Paths {
		for _, easier := range b.Paths[:i] {
			if easier.holdsWith(path) {
				warn(path.ID, "the path is never reached: wherever it holds, %s before it holds too; move it before %s, or change its limits", easier.ID, easier.ID)
				break
			}
		}
		for k, c := range path.Criteria {
			at := path.ID + "/" + c.ID
			if s := c.sides(); !s.inside && (!s.at || c.Comparison.strict()) {
				warn(at, "nothing meets it, since the %s is never less than 0: write another limit", c.Subject())
			}
			for _, o := range path.Criteria[:k] {
				if c.contradicts(o) {
					warn(at, "it asks that %s and %s/%s that %s%s, and nothing meets both: change one of the limits, or make two paths",
						&c.Demand, path.ID, o.ID, &o.Demand, c.where())
				}
			}
			if c.Cite == "" {
				warn(at, "the limit has no citation: add cite, the rule it stands in")
			}
			for _, r := range c.Readings {
				if r.Cite == "" {
					warn(at, "the limit of its reading %s has no citation: add cite, the rule it stands in", r.ID)
				}
			}
			if t := untried[c]; len(b.Examples) > 0 && t != (sides{}) {
				warn(at, "%s", c.missing(t))
			}
		}
	}
	return out
}

// where is the criterion's conditions behind a sentence.
func (c *Criterion) where() string {
	if len(c.When) == 0 {
		return ""
	}
	return ", where " + all(c.When)
}

// holdsWith is sure that this path holds, if only by a waiver, wherever the
// other does: each of its criteria follows from one of the other's.
func (p *Path) holdsWith(other *Path) bool {
	for _, c := range p.Criteria {
		if !slices.ContainsFunc(other.Criteria, func(o *Criterion) bool { return o.implies(c) }) {
			return false
		}
	}
	return true
}

// implies is sure that wherever this criterion holds or is waived, the other one
// holds or may be waived. The other may apply in fewer cases, but then this one
// must not be waived: whether a limit may be is not known where it is not known
// whether it applies, nor where a bound settles only one of two limits.
func (c *Criterion) implies(other *Criterion) bool {
	switch {
	case !c.sameInputs(other) || !c.Demand.implies(&other.Demand):
		return false
	case c.IfStated && !other.IfStated:
		return false
	case c.WaivableBy != "":
		return other.WaivableBy != "" && c.limitPhrase() == other.limitPhrase() && c.sameConditions(other)
	}
	return !slices.ContainsFunc(c.When, func(w *Demand) bool {
		return !slices.ContainsFunc(other.When, func(o *Demand) bool { return o.exact() == w.exact() })
	})
}

func (c *Criterion) sameInputs(other *Criterion) bool {
	same := func(a, b Input) bool { return a.Ref == b.Ref }
	return c.Pick == other.Pick && c.Ref == other.Ref && slices.EqualFunc(c.Others, other.Others, same)
}

func (c *Criterion) sameConditions(other *Criterion) bool {
	return whenPhrase(c.When).exact == whenPhrase(other.When).exact
}

// implies is sure that what meets this demand meets the other, on the same inputs.
func (d *Demand) implies(other *Demand) bool {
	if d.Measure.Quantity.numeric() {
		tighter := d.Limit > other.Limit
		if d.Comparison.capped() {
			tighter = d.Limit < other.Limit
		}
		equal := d.Limit == other.Limit && (d.Comparison.strict() || !other.Comparison.strict())
		return d.Comparison.capped() == other.Comparison.capped() && (tighter || equal)
	}
	mine, its := d.kind(), other.kind()
	switch {
	case mine == its && mine == NoneOf:
		return within(other.Words, d.Words)
	case mine == its:
		return within(d.Words, other.Words)
	case d.Measure.Quantity == Names: // a footprint may touch several, so one does not rule out another
		return d.isOutside() && its == NoneOf || mine == AnyOf && its == Is && !other.isOutside()
	}
	return mine == AnyOf && its == NoneOf && !overlap(d.Words, other.Words)
}

// kind takes a single word as a list of one; of areas is has a meaning of its own.
func (d *Demand) kind() Comparison {
	if d.Comparison == Is && d.Measure.Quantity == Word {
		return AnyOf
	}
	return d.Comparison
}

func (d *Demand) isOutside() bool { return d.Comparison == Is && holds(d.Words, outside) }

func within(words, in []string) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !holds(in, w) })
}

func overlap(a, b []string) bool {
	return slices.ContainsFunc(a, func(w string) bool { return holds(b, w) })
}

func holds(words []string, word string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return plain(w) == plain(word) })
}

// contradicts is sure that nothing meets both criteria. Under other conditions
// they may be meant for other cases.
func (c *Criterion) contradicts(other *Criterion) bool {
	return c.sameInputs(other) && c.sameConditions(other) && (c.excludes(&other.Demand) || other.excludes(&c.Demand))
}

// excludes is sure that no value meets both demands, on the same inputs; it need
// not see it from either side.
func (d *Demand) excludes(other *Demand) bool {
	if d.Measure.Quantity.numeric() {
		if !d.Comparison.capped() || other.Comparison.capped() {
			return false
		}
		most, least := d.Limit, other.Limit
		strict := d.Comparison.strict() || other.Comparison.strict()
		if d.Measure.Quantity == Count { // more than 2 is at least 3
			most, least, strict = lastCount(d), lastCount(other), false
		}
		return least > most || least == most && strict
	}
	mine, its := d.kind(), other.kind()
	switch {
	case its == NoneOf && mine == AnyOf:
		return within(d.Words, other.Words)
	case d.Measure.Quantity == Names:
		return d.isOutside() && (its == AnyOf || its == Is && !other.isOutside())
	}
	return mine == AnyOf && its == AnyOf && !overlap(d.Words, other.Words)
}

// lastCount is the count nearest to the limit that meets the demand.
func lastCount(d *Demand) float64 {
	switch d.Comparison {
	case UnderLimit:
		return d.Limit - 1
	case OverLimit:
		return d.Limit + 1
	}
	return d.Limit
}

// belowZero are the measures that may be less than 0: what is signed from a
// line, and heights and depths from a level.
var belowZero = []string{
	"mhw_farthest", "mhw_nearest", "mhw_landward_edge", "mlw_farthest", "mlw_nearest", "mlw_landward_edge",
	"mtl_landward_edge", "wetland_farthest", "wetland_landward_edge", "crest_above_mhw", "crest_above_wetland",
	"mhw_mean_depth", "mlw_greatest_depth", "fill_tide_ranges", "riparian_nearest",
}

// sides are the places a value can have to a limit.
type sides struct{ inside, at, beyond bool }

// sides says where values can lie. Words, which have no limit, meet or fail.
func (d *Demand) sides() sides {
	if !d.Measure.Quantity.numeric() {
		return sides{inside: true, beyond: true}
	}
	mayBeBelow := func(in Input) bool { return slices.Contains(belowZero, in.Measure.Name) }
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
			if !r.Criterion.applies(e) {
				continue
			}
			word := r.Outcome != Unknown && r.Outcome != NotApplicable && !r.Measure.Quantity.numeric()
			left := out[r.Criterion]
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
