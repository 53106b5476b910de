package site

import (
	"fmt"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// unsure is a value with why nothing on its layer is firm: that features of it may lie
// anywhere, or that all of it lies elsewhere.
func (s *Site) unsure(v rules.Value) rules.Value {
	l := s.Layers.Under(v)
	if l == nil || v.Unknown != "" {
		return v
	}
	if _, tidal := layers.TidalKinds[l.Name]; tidal {
		v = coverage{lacks: l.Incomplete}.Doubted(v)
	}
	return Doubting(v, l.Doubt, 0)
}

// Doubting is a value with one doubt more, if it says anything.
func Doubting(v rules.Value, says string, within float64) rules.Value {
	if says != "" {
		v.Doubts = append(v.Doubts[:len(v.Doubts):len(v.Doubts)], rules.Doubt{Says: says, Within: within})
	}
	return v
}

// doubted is a value with why it cannot support a firm result: that the layer it
// rests on is older than a book or the job lets it be, of which the stricter counts, or
// else than is usual. What is not dated and of no stated age is old only near a limit.
func (s *Site) doubted(v rules.Value, asked rules.Age) rules.Value {
	l := s.Layers.Under(v)
	if l == nil || v.Unknown != "" {
		return v
	}
	most, within := asked.Stricter(l.Source.MaxAge), 0.0
	if most == (rules.Age{}) {
		if most = l.UsualAge(); v.Date == "" {
			within = rules.UnstatedReach
		}
	}
	says := l.TooOld(most, v.Date, s.Layers.Day)
	if _, dated := l.Source.Properties["date"]; dated && says != "" && v.Date == "" && v.Feature == "" {
		says = fmt.Sprintf("the features of %s state their own dates, and none is near; it may be no older than %s", l.Title, most)
	}
	return Doubting(v, says, within)
}

// rebuilt gives notice of areas near the site that were rebuilt.
func (s *Site) rebuilt() {
	for _, l := range s.Layers.All() {
		n, first := 0, ""
		for _, r := range l.Repairs {
			if r.Bound.Intersects(s.Window) {
				if n++; n == 1 {
					first = r.Label
				}
			}
		}
		if n > 0 {
			s.Notice("%s of %s near here, not valid as drawn, rebuilt (first: %s); look there", job.Count(n, "area"), l.Title, first)
		}
	}
}
