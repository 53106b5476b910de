package screening

import (
	"cmp"
	"math"
	"slices"

	"waterward/rules"
	"waterward/screening/pages"
	"waterward/screening/site"
)

// alternatives gathers the proposals of projects with several alternatives, to compare them.
type alternatives struct {
	run      *run
	columns  []column               // the measures compared
	compared map[string]bool        // projects of two alternatives or more, by name
	most     int                    // of any of them, proposals that are compared
	projects map[string]*comparison // by name
	order    []string               // of the projects, as they came
}

// mostCompared is how many proposals of a project are compared, so that a page can be read.
const mostCompared = 12

// comparison is what is set side by side of one project.
type comparison struct {
	title   string
	designs []*compared
	leftOut int // beyond mostCompared
}

// compared is one proposal, as it is set beside others.
type compared struct {
	id, alternative string
	failed          string // why there is no result
	outcome         string // by all authorities together
	by              []comparedDecision
	criteria        []comparedCriterion
	measures        []comparedMeasure // by column
	plan            *pages.Plan       // nil without a result
	section         *pages.Section
	beaten          string // the proposal that is better in everything
}

// comparedDecision is what one authority's book comes to.
type comparedDecision struct {
	title, next string // the path; what blocks the easier ones and what would change it
	rank        int
	off         bool // an easier path is for such a structure
	certainty   rules.Certainty
}

// comparedCriterion is a criterion as criteria.csv has it, with its margin over its tolerance.
type comparedCriterion struct {
	key                                           [3]string // authority, path, criterion
	limit, unit, value, margin, tolerance, result string
	over                                          float64 // margin less tolerance in metres; NaN of what is no length
	on                                            bool    // the path taken asks for it
	excluded                                      bool    // its path is for other kinds of structures
}

// comparedMeasure is a measure as measures.csv has it.
type comparedMeasure struct {
	text      string
	tolerance float64 // in its unit
}

// newAlternatives finds the projects that are compared; nil if there is none.
func newAlternatives(r *run, measures []column) *alternatives {
	a := &alternatives{run: r, compared: map[string]bool{}, projects: map[string]*comparison{}}
	designs, count := map[string]map[string]bool{}, map[string]int{}
	for _, e := range r.roster.entries {
		name := e.design.Name()
		if name == "" || e.design.Alternative == "" || r.roster.aside(e) {
			continue
		}
		if designs[name] == nil {
			designs[name] = map[string]bool{}
		}
		designs[name][e.design.Key()] = true
		if count[name]++; len(designs[name]) > 1 {
			a.compared[name] = true
		}
	}
	for name := range a.compared {
		a.most = max(a.most, min(count[name], mostCompared))
	}
	if a.most == 0 {
		return nil
	}
	for _, c := range measures {
		if !slices.Contains([]string{"id", "notices"}, c.name) {
			a.columns = append(a.columns, c)
		}
	}
	return a
}

// take notes what of a result is compared; nil if nothing is.
func (a *alternatives) take(r *result) *compared {
	d := site.DesignOf(r.p.Of)
	if d.Alternative == "" || !a.compared[d.Name()] || r.p.Of.Aside != "" {
		return nil
	}
	made := &compared{id: r.p.ID, alternative: d.Alternative, outcome: r.outcome()}
	if r.decisions == nil {
		made.failed = cmp.Or(errorColumn.cell(r).Table, noResult)
		return made
	}
	excluded := r.excluded()
	for i := range r.decisions {
		of := &r.decisions[i]
		made.by = append(made.by, comparedDecision{titleText(of), nextText(of), slices.Index(of.Book.Paths, of.Path), offEasiest(of) || len(of.Waiver) > 0, of.Certainty})
		for k := range of.Results {
			c := criterionCompared(of, &of.Results[k])
			c.excluded = excluded[of.Results[k].Path]
			made.criteria = append(made.criteria, c)
		}
	}
	for _, c := range a.columns {
		made.measures = append(made.measures, comparedMeasure{c.cell(r).Table, toleranceOf(r.site, c.name)})
	}
	p := planOf(r)
	drawn, section := p.draw(), sectionOf(p)
	drawn.Corner = nil // which would keep the whole site
	made.plan, made.section = &drawn, &section
	return made
}

// nextText is what keeps a decision off the easier paths, with what would change it.
func nextText(d *rules.Decision) string {
	text := ""
	for _, r := range d.BlockedBy {
		if text != "" {
			text += "; "
		}
		text += r.Path.Title + ", " + r.Criterion.ID
		if r.Change != "" {
			text += ": " + r.Change
		}
	}
	return text
}

func criterionCompared(d *rules.Decision, r *rules.Result) comparedCriterion {
	row := criterionRow("", d.Book, r)
	cell := func(name string) string { return row[slices.Index(criteriaHeader, name)] }
	made := comparedCriterion{
		key:   [3]string{d.Book.Authority, r.Path.ID, r.Criterion.ID},
		limit: r.Demand.LimitText(), unit: cell("unit"), value: cell("value"), margin: cell("margin"), tolerance: cell("tolerance_ft"), result: cell("result"),
		over: math.NaN(), on: r.Path == d.Path,
	}
	if r.Measure.Quantity == rules.Length && !math.IsNaN(r.Margin) {
		made.over = r.Margin
		if !math.IsNaN(r.Tolerance) {
			made.over -= r.Tolerance
		}
	}
	return made
}

// before says whether a proposal goes before another: fewer authorities beyond their
// easiest path, surer, and then with more margin over tolerance where it has least.
func (c *compared) before(o *compared) int {
	return cmp.Or(
		cmp.Compare(c.beyond(), o.beyond()),
		cmp.Compare(c.ranks(), o.ranks()),
		cmp.Compare(c.unsureness(), o.unsureness()),
		cmp.Compare(o.least(), c.least()))
}

// beyond is for how many authorities it is not on the easiest path for such a structure; more
// than any of what has no result.
func (c *compared) beyond() int {
	if c.by == nil {
		return math.MaxInt
	}
	n := 0
	for _, d := range c.by {
		if d.off {
			n++
		}
	}
	return n
}

// ranks is the place of the hardest of its paths in its book.
func (c *compared) ranks() int {
	most := 0
	for _, d := range c.by {
		most = max(most, d.rank)
	}
	return most
}

func (c *compared) unsureness() int {
	most := 0
	for _, d := range c.by {
		most = max(most, slices.Index(certainties, d.certainty))
	}
	return most
}

// least is the least margin over tolerance of any length that a path taken asks for.
func (c *compared) least() float64 {
	least := math.Inf(1)
	for _, of := range c.criteria {
		if of.on && !math.IsNaN(of.over) {
			least = math.Min(least, of.over)
		}
	}
	return least
}

// beats reports whether a proposal is better than another in something and worse in nothing:
// in the path and the certainty of each authority, and in the margin over tolerance of each
// criterion of the paths that both take.
func (c *compared) beats(o *compared) bool {
	if c.by == nil || o.by == nil { // of nothing it is not known what is better
		return false
	}
	better := false
	differs := func(of int) bool { // negative: better
		better = better || of < 0
		return of > 0
	}
	for i := range c.by {
		mine, its := &c.by[i], &o.by[i]
		if differs(cmp.Compare(mine.rank, its.rank)) || mine.rank == its.rank && differs(cmp.Compare(slices.Index(certainties, mine.certainty), slices.Index(certainties, its.certainty))) {
			return false
		}
	}
	for _, mine := range c.criteria {
		its := o.criterion(mine.key)
		if its == nil || !mine.on || !its.on || math.IsNaN(mine.over) || math.IsNaN(its.over) {
			continue
		}
		if math.Abs(mine.over-its.over) > rules.Resolution && differs(cmp.Compare(its.over, mine.over)) {
			return false
		}
	}
	return better
}

func (c *compared) criterion(key [3]string) *comparedCriterion {
	i := slices.IndexFunc(c.criteria, func(of comparedCriterion) bool { return of.key == key })
	if i < 0 {
		return nil
	}
	return &c.criteria[i]
}

// settle puts the proposals of a project in order and marks what another beats.
func (p *comparison) settle() {
	slices.SortStableFunc(p.designs, func(a, b *compared) int { return a.before(b) })
	for _, d := range p.designs {
		for _, other := range p.designs {
			if other != d && d.beaten == "" && other.beats(d) {
				d.beaten = other.id
			}
		}
	}
}
