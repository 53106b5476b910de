package rules

import "fmt"

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
			for _, r := range c.Interpretations {
				if r.Cite == "" {
					warn(at, "the limit of its interpretation %s has no citation: add cite, the rule it stands in", r.ID)
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
