package envelope

import (
	"waterward/rules"
	"waterward/screening/site"
)

// A criterion under a condition can hold at every place of a structure, each for itself,
// and fail for the whole: one end of it brings the condition about, the other then fails
// the criterion. Such places are not open together.

// company is, for one path, what places bring about for the rest of a structure.
type company struct {
	held    map[*rules.Demand]bool // conditions that hold at an open place
	waiting map[int][]pending      // by place in the zone's water
}

func newCompany() company { return company{map[*rules.Demand]bool{}, map[int][]pending{}} }

// pending is a criterion that does not apply to a place and would fail there if these
// conditions, brought about elsewhere, made it apply.
type pending struct {
	unless []*rules.Demand
	cause  string
}

// conditional are the criteria of a path whose conditions are matters of the place.
func (s *sited) conditional() []*rules.Criterion {
	var out []*rules.Criterion
	for _, c := range s.criteria {
		for _, when := range c.When {
			if _, ok := site.PlaceRecord(when.Ref.Measure); ok {
				out = append(out, c)
				break
			}
		}
	}
	return out
}

// meet notes what an open place brings about, and what can be brought about for it.
func (c company) meet(p *sited, cell int, facts spot) {
	for _, criterion := range p.conditional() {
		var unless []*rules.Demand
		alone := false
		for _, when := range criterion.When {
			of := *criterion
			of.Demand, of.When = *when, nil
			switch {
			case rules.Judge(p.path, &of, facts).Holds:
				c.held[when] = true
			case ofSome(when):
				unless = append(unless, when)
			default:
				alone = true // with this place the condition fails for any structure
			}
		}
		if alone || unless == nil {
			continue
		}
		of := *criterion
		of.When = nil
		if r := rules.Judge(p.path, &of, besides{facts}); !r.Holds {
			blamed, _ := site.PlaceRecord(unless[0].Ref.Measure)
			c.waiting[cell] = append(c.waiting[cell], pending{unless, besideOf + blamed.Blame})
		}
	}
}

// besideOf is the cause of a place that is not open to a structure which also stands
// elsewhere, before the name of what is there.
const besideOf = "unclear beside "

// apart are the cells that are not open together with others, with their causes.
func (c company) apart() map[int]string {
	out := map[int]string{}
	for cell, all := range c.waiting {
		for _, p := range all {
			held := true
			for _, when := range p.unless {
				held = held && c.held[when]
			}
			if held {
				out[cell] = p.cause
				break
			}
		}
	}
	return out
}

// ofSome reports whether a demand holds for a structure as soon as it does for one of
// the places it covers.
func ofSome(d *rules.Demand) bool {
	r, ok := site.PlaceRecord(d.Ref.Measure)
	switch {
	case !ok:
		return false
	case d.Measure.Quantity == rules.Names:
		return d.Comparison == rules.AnyOf || d.Comparison == rules.Is && d.Words[0] != "outside"
	case r.Whole == site.Least:
		return d.Comparison == rules.AtMost || d.Comparison == rules.UnderLimit
	case r.Whole == site.Greatest:
		return d.Comparison == rules.AtLeast || d.Comparison == rules.OverLimit
	}
	return true
}

// besides is a place as it counts in a structure that stands elsewhere too: of what has no
// wetland behind nothing is measured from one.
type besides struct{ spot }

// Measure answers as the place does.
func (b besides) Measure(ref rules.Ref) rules.Value {
	v := b.spot.Measure(ref)
	if r, _ := site.PlaceRecord(ref.Measure); r.Layer == "wetlands" && r.Shore && r.Whole == site.Greatest && v.Bound == rules.MoreThan {
		v.Number, v.Bound = -v.Number, rules.Exact
	}
	return v
}
