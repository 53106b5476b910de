package envelope

import (
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/site"
)

// Lack is what keeps the joint outcome of a front from being known, or from being firm.
type Lack struct {
	Layer  string // by name: of it nothing is known there, or nothing sure
	None   bool   // nothing is known
	Close  bool   // what is known is too near a limit for how exact it is
	Across bool   // it is the shore across the water that is not mapped
	Beside string // the place is unclear beside this: only a drawn structure tells
	Unread string // title of a path of which nobody has read a limit
}

// Taken is how much of the water before a front, within reach of all the easiest paths
// together, each cause takes, in percent; what is not known is no cause.
func (e *Search) Taken(f *Outcome) map[string]float64 {
	made := map[string]float64{}
	p := e.whole(f)
	if p == nil || p.band == 0 {
		return made
	}
	for cause, area := range p.taken {
		if wantOf(cause) == "" {
			made[cause] = 100 * area / p.band
		}
	}
	return made
}

// whole is the water in which all the easiest paths hold; nil if it was not looked at.
func (e *Search) whole(f *Outcome) *pool {
	for _, p := range f.pools {
		if slices.Equal(p.of, e.together) {
			return p
		}
	}
	return nil
}

// Lacks are what keeps the joint outcome of a front from being known, or else from being
// firm, each once.
func (e *Search) Lacks(f *Outcome) []Lack {
	var made []Lack
	add := func(l Lack) {
		if !slices.Contains(made, l) {
			made = append(made, l)
		}
	}
	j := &f.Joint
	if j.Certainty == rules.Firm {
		return nil
	}
	if p := e.whole(f); p != nil && !j.Easiest() {
		p.lacks(add)
	}
	if j.Candidate == nil || !j.Known && made != nil {
		return made
	}
	for i := range j.Candidate.Decisions {
		lacking(&j.Candidate.Decisions[i], add)
	}
	return made
}

// lacks are the wants of the places that are neither open nor blocked.
func (p *pool) lacks(add func(Lack)) {
	layers := map[string]string{}
	for _, s := range p.of {
		for _, c := range s.criteria {
			for _, d := range append([]*rules.Demand{&c.Demand}, c.When...) {
				for _, in := range d.Inputs() {
					if of, ok := site.PlaceRecord(in.Ref.Measure); ok {
						layers[of.Blame] = of.Layer
					}
				}
			}
		}
	}
	for n := range p.states {
		if p.states[n] != unclear {
			continue
		}
		for _, s := range p.of {
			for _, cause := range p.zone.says[s][n].causes {
				thing, missing := strings.CutPrefix(cause, noDataOn)
				switch beside, is := strings.CutPrefix(cause, besideOf); {
				case is:
					add(Lack{Beside: beside})
				case missing && layers[thing] == "":
					add(Lack{Across: true})
				case missing:
					add(Lack{Layer: layers[thing], None: true})
				}
			}
		}
	}
}

// lacking are the wants of a decision that is not firm.
func lacking(d *rules.Decision, add func(Lack)) {
	for i := range d.Results {
		r := &d.Results[i]
		bears := slices.ContainsFunc(r.Doubts, func(text string) bool { return slices.Contains(d.Lacks, text) })
		near := d.Certainty == rules.CloseCall && r.Outcome == rules.Close && (r.Path == d.Path || slices.Contains(d.BlockedBy, r))
		if !bears && !near {
			continue
		}
		switch layer := site.RecordOf(r.Measure.Name).Layer; {
		case r.Criterion.Evidence == rules.Unread:
			add(Lack{Unread: r.Path.Title})
		case layer != "":
			add(Lack{Layer: layer, None: bears && r.Outcome == rules.Unknown, Close: !bears})
		}
	}
}
