package envelope

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"waterward/rules"
	"waterward/screening/site"
)

// total is what one question comes to before all fronts of a holding.
type total struct {
	of                     question
	path                   *sited  // of one authority; nil of all together
	pools                  []*pool // by front; nil where it was not asked
	drawn                  bool    // its water is drawn
	area, unknown, band    float64 // square metres
	taken                  map[string]float64
	open, longest, deepest float64         // metres: of frontage, its longest piece, out from the shore
	length                 float64         // metres, of the longest structure that fits
	certainty              rules.Certainty // of the candidate; empty if none is on the path
	candidate              *Candidate
}

// Totals are what every question that was asked comes to: all authorities together, then each
// path in the order of the books.
func (e *Search) Totals(r *Result) []total {
	var out []total
	take := func(q question, path *sited, drawn bool) {
		t := total{of: q, path: path, pools: make([]*pool, len(r.Fronts)), drawn: drawn, taken: map[string]float64{}}
		asked := false
		for i, f := range r.Fronts {
			for _, p := range f.pools {
				if slices.Equal(p.of, q) {
					t.add(p)
					t.pools[i], asked = p, true
					break
				}
			}
		}
		if asked {
			out = append(out, t)
		}
	}
	take(e.together, nil, true)
	for i, p := range e.easiest {
		if p == nil {
			continue
		}
		take(question{p}, p, true)
		for _, p := range e.later[i] {
			take(question{p}, p, e.all)
		}
	}
	for i := range out {
		out[i].answered(e, r)
	}
	return out
}

func (t *total) add(p *pool) {
	t.area, t.unknown, t.band = t.area+p.area, t.unknown+p.unknown, t.band+p.band
	for cause, shape := range p.taken {
		t.taken[cause] += shape
	}
	t.open += p.fit.open
	t.longest, t.deepest, t.length = math.Max(t.longest, p.fit.longest), math.Max(t.deepest, p.fit.deepest), math.Max(t.length, p.longest)
}

// answered notes the candidate that comes out on the path.
func (t *total) answered(e *Search, r *Result) {
	if t.path == nil {
		if r.Joint.Easiest() {
			t.candidate, t.certainty = r.Joint.Candidate, r.Joint.Certainty
		}
		return
	}
	c := r.By[t.path.of].Candidate
	for i := 0; i < len(t.pools) && (c == nil || !c.takes(t.path)); i++ {
		if p := t.pools[i]; p != nil && p.tried != nil {
			c = p.tried.Candidate
		}
	}
	if c != nil && c.takes(t.path) {
		t.candidate, t.certainty = c, c.Decisions[t.path.of].Certainty
	}
}

// sure is how sure the outcome is.
func (t *total) sure(e *Search) rules.Certainty {
	if t.candidate != nil {
		return t.certainty
	}
	if t.outcome(e) == "no data" {
		return rules.NeedsInformation
	}
	var least rules.Certainty
	for _, p := range t.pools {
		if p != nil {
			least = lessSure(least, p.closing())
		}
	}
	return least
}

// outcome is what the question comes to in a word or two.
func (t *total) outcome(e *Search) string {
	switch {
	case t.candidate != nil:
		return "fits"
	case t.unknown >= e.room():
		return "no data"
	case t.length < e.Settings.Least.Metres:
		return "no room"
	}
	return "does not come out"
}

func (t *total) name() string {
	if t.path == nil {
		return "joint"
	}
	return t.path.book.Authority + " " + t.path.path.ID
}

// size is the area of a state.
func (t *total) size(of state) float64 {
	if of == open {
		return t.area
	}
	return t.unknown
}

// key tells the water of one state of several totals of a holding apart: those of one parting
// of its water are the same if the same cells are.
func (t *total) key(of state) string {
	var b strings.Builder
	for _, p := range t.pools {
		if p == nil {
			continue
		}
		b.WriteString(strconv.Itoa(p.zone.number))
		for _, s := range p.states {
			if s == of {
				b.WriteByte('x')
			} else {
				b.WriteByte('-')
			}
		}
	}
	return b.String()
}

// share is a share of the band in percent.
func (t *total) share(shape float64) float64 {
	if t.band == 0 {
		return 0
	}
	return 100 * shape / t.band
}

// blank is how much of the band is not known for want of any one thing.
func (t *total) blank() float64 {
	most := 0.0
	for cause, shape := range t.taken {
		if wantOf(cause) != "" {
			most = math.Max(most, shape)
		}
	}
	return most
}

// unmapped are the things for want of which some of the band is not known.
func (t *total) unmapped() []string {
	var things []string
	for cause := range t.taken {
		if thing := wantOf(cause); thing != "" {
			things = append(things, thing)
		}
	}
	slices.Sort(things)
	return things
}

// wantOf is what is not known, of a cause that is a want of it; empty of others.
func wantOf(cause string) string {
	if thing, missing := strings.CutPrefix(cause, noDataOn); missing {
		return thing
	}
	if strings.HasPrefix(cause, besideOf) {
		return cause
	}
	return ""
}

// takers are the causes that can take water from a path's band, named areas included.
func (e *Search) takers() []string {
	causes := slices.Clone(namedCauses)
	for _, l := range e.Layers.Areas {
		causes = append(causes, strings.TrimPrefix(l.Name, "areas."))
	}
	return causes
}

// namedCauses are the causes that are no named area.
var namedCauses = site.Causes()
