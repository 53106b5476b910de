package rules

import "slices"

// holdsWith is sure that this path holds, if only by a waiver, wherever the
// other does: each of its criteria follows from one of the other's. A path with a
// limit that nobody has read is not known to hold anywhere.
func (p *Path) holdsWith(other *Path) bool {
	if len(p.Unread) > 0 {
		return false
	}
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

// sameInputs leaves ages aside: old data make a result less sure, never another.
func (c *Criterion) sameInputs(other *Criterion) bool {
	same := func(a, b Input) bool {
		a.Ref.MaxAge = b.Ref.MaxAge
		return a.Ref == b.Ref
	}
	return c.Pick == other.Pick && slices.EqualFunc(c.Inputs(), other.Inputs(), same)
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
	letters := plain(word)
	return slices.ContainsFunc(words, func(w string) bool { return plain(w) == letters })
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
