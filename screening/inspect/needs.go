package inspect

import (
	"fmt"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/site"
)

// Need is something a job does not have, and the criteria that hang on it.
type Need struct {
	What     string   `json:"what"`
	Get      string   `json:"get"`
	Criteria []string `json:"criteria"`
}

// asker finds out what the books ask and the job does not answer.
type asker struct {
	layers  *layers.Set
	shelf   *inputs.BookSet
	radius  float64
	given   *job.LayerSources
	levels  bool                      // water levels are given
	stated  map[string]bool           // properties that a proposal states
	applies map[*rules.Criterion]bool // criteria that apply to a proposal, by what it states
}

// hear notes what a proposal states, and which criteria apply to it.
func (a *asker) hear(p *site.Proposal) {
	for _, name := range job.ProposalProperties() {
		if text, err := p.Of.Text(name); err != nil || strings.TrimSpace(text) != "" {
			a.stated[name] = true
		}
	}
	if p.Err != nil {
		return
	}
	s := site.Bare(p, a.layers, a.radius)
	s.Stated()
	s.Lengths()
	for _, book := range a.shelf.Current {
		for _, r := range book.Decide(s).Results {
			if r.Outcome != rules.NotApplicable || len(r.Doubts) > 0 {
				a.applies[r.Criterion] = true
			}
		}
	}
}

// needs are what the criteria ask that the job has not, and how many criteria there are.
func (a *asker) needs() (all int, out []Need) {
	add := func(criterion string, need Need) {
		at := slices.IndexFunc(out, func(n Need) bool { return n.What == need.What })
		if at < 0 {
			at = len(out)
			out = append(out, need)
		}
		if n := &out[at]; !slices.Contains(n.Criteria, criterion) {
			n.Criteria = append(n.Criteria, criterion)
		}
	}
	for _, book := range a.shelf.Current {
		for _, path := range book.Paths {
			for _, u := range path.Unread {
				add(strings.Join([]string{book.Name, path.ID, u.ID}, "/"), Need{What: "the text of " + u.Cite, Get: "nobody here has read it: show by it that its limits are kept"})
			}
			for _, c := range path.Criteria {
				all++
				if len(a.applies) > 0 && !a.applies[c] {
					continue
				}
				for _, need := range a.of(c) {
					add(strings.Join([]string{book.Name, path.ID, c.ID}, "/"), need)
				}
			}
		}
	}
	return all, out
}

// of is what a criterion, with its conditions, asks that the job has not: layers,
// recent ones, and what no proposal states.
func (a *asker) of(c *rules.Criterion) []Need {
	var out []Need
	for _, d := range append([]*rules.Demand{&c.Demand}, c.When...) {
		for _, in := range d.Inputs() {
			r := site.RecordOf(in.Ref.Measure)
			if r.Layer != "" {
				out = append(out, a.ofLayer(r.Layer, in.Ref.MaxAge)...)
			}
			if r.Tides && !a.levels {
				out = append(out, Need{What: "levels", Get: "give a tide station with its datums and constituents, or a record"})
			}
			if r.Property != "" && !a.stated[r.Property] {
				out = append(out, Need{What: "the property " + r.Property, Get: "no proposal states it: ask the applicants"})
			}
		}
	}
	return out
}

// ofLayer is the need for a layer, or for a newer one if a book asks for that.
func (a *asker) ofLayer(name string, most rules.Age) []Need {
	l := a.layers.Under(rules.Value{Layer: name})
	switch {
	case l == nil && a.given.Source(name) != nil:
		return []Need{{What: "layers." + name, Get: "as it is given nothing of it can be used"}}
	case l == nil:
		return []Need{{What: "layers." + name, Get: "give the layer, with its surveyed area"}}
	}
	old := 0
	for _, it := range l.Items {
		if l.TooOld(most, it.Date, a.layers.Day) != "" {
			old++
		}
	}
	if old == 0 {
		return nil
	}
	return []Need{{
		What: fmt.Sprintf("layers.%s no older than %s", name, most),
		Get:  fmt.Sprintf("%d of %s are older, or of no date that can be read", old, job.Count(len(l.Items), "feature")),
	}}
}
