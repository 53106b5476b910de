package screening

import (
	"fmt"

	"waterward/rules"
)

// unsure is a value with why nothing on its layer is firm: that features of it may lie
// anywhere, or that all of it lies elsewhere.
func (s *site) unsure(v rules.Value) rules.Value {
	l := s.layers.under(v)
	if l == nil || v.Unknown != "" {
		return v
	}
	if _, tidal := kinds[l.name]; tidal {
		v = coverage{lacks: l.incomplete}.doubted(v)
	}
	return doubting(v, l.doubt, 0)
}

// doubting is a value with one doubt more, if it says anything.
func doubting(v rules.Value, says string, within float64) rules.Value {
	if says != "" {
		v.Doubts = append(v.Doubts[:len(v.Doubts):len(v.Doubts)], rules.Doubt{Says: says, Within: within})
	}
	return v
}

// doubted is a value with why it cannot support a firm result: that the layer it
// rests on is older than a book or the job lets it be, of which the stricter counts, or
// else than is usual. What is not dated and of no stated age is old only near a limit.
func (s *site) doubted(v rules.Value, asked rules.Age) rules.Value {
	l := s.layers.under(v)
	if l == nil || v.Unknown != "" {
		return v
	}
	most, within := asked.Stricter(l.source.MaxAge), 0.0
	if most == (rules.Age{}) {
		if most = l.usualAge(); v.Date == "" {
			within = rules.UnstatedReach
		}
	}
	says := l.tooOld(most, v.Date, s.layers.day)
	if _, dated := l.source.Properties["date"]; dated && says != "" && v.Date == "" && v.Feature == "" {
		says = fmt.Sprintf("the features of %s state their own dates, and none is near; it may be no older than %s", l.title, most)
	}
	return doubting(v, says, within)
}

// rebuilt gives notice of areas near the site that were rebuilt.
func (s *site) rebuilt() {
	for _, l := range s.layers.all() {
		n, first := 0, ""
		for _, r := range l.repairs {
			if r.bound.Intersects(s.window) {
				if n++; n == 1 {
					first = r.label
				}
			}
		}
		if n > 0 {
			s.notice("%s of %s near here, not valid as drawn, rebuilt (first: %s); look there", number(n, "area"), l.title, first)
		}
	}
}
