package screening

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
	"waterward/screening/pages"
	"waterward/screening/site"
)

// mostProjects is how many projects stand on the page of alternatives; the table has all.
const mostProjects = 100

// add notes a proposal, in the order in which they come.
func (a *alternatives) add(name, title string, c *compared) {
	p := a.projects[name]
	if p == nil {
		p = &comparison{title: title}
		a.projects[name] = p
		a.order = append(a.order, name)
	}
	if len(p.designs) == mostCompared {
		p.leftOut++
		return
	}
	if len(a.order) > mostProjects {
		c.plan, c.section = nil, nil
	}
	p.designs = append(p.designs, c)
}

// sinks are alternatives.csv and alternatives.html.
func (a *alternatives) sinks() []out.Sink[*result] {
	header := []string{"project", "kind", "authority", "path", "item", "unit", "limit"}
	for i := range a.most {
		for _, name := range []string{"id", "alternative", "value", "margin", "tolerance_ft", "result", "difference"} {
			header = append(header, fmt.Sprintf("%s_%d", name, i+1))
		}
	}
	table := &comparedTable{Table: out.Table[*result]{Name: "alternatives.csv", Header: header}, of: a}
	return []out.Sink[*result]{table, &out.Page[*result]{
		Name:   "alternatives.html",
		Take:   func(*result) func() { return func() {} },
		Render: a.render,
	}}
}

// comparedTable is alternatives.csv; it takes the results for the page too.
type comparedTable struct {
	out.Table[*result]
	of *alternatives
}

func (t *comparedTable) Prepare(r *result) func() {
	c := t.of.take(r)
	if c == nil {
		return func() {}
	}
	d := site.DesignOf(r.p.Of)
	name, title := d.Name(), site.Design{Project: d.Project, Site: d.Site}.Title()
	return func() { t.of.add(name, title, c) }
}

func (t *comparedTable) Finish() {
	for _, name := range t.of.order {
		p := t.of.projects[name]
		p.settle()
		for _, row := range t.of.rows(p) {
			cells := []string{out.Text(p.title).Table, row.kind, out.Text(row.authority).Table, row.path, row.item, row.unit, out.Text(row.limit).Table}
			for i, c := range row.cells {
				cells = append(cells, out.ID(p.designs[i].id).Table, out.Text(p.designs[i].alternative).Table, out.Harmless(c.value), c.margin, c.tolerance, c.result, c.difference)
			}
			t.Write(append(cells, make([]string, len(t.Header)-len(cells))...))
		}
	}
	t.Table.Finish()
}

// comparedRow is one thing compared.
type comparedRow struct {
	kind, authority, path, item, title, unit, limit string
	cells                                           []comparedCell // by design
}

type comparedCell struct{ value, margin, tolerance, result, difference string }

// rows are what is compared of a project: what it comes to, what the next easier paths need,
// the criteria, the measures.
func (a *alternatives) rows(p *comparison) []comparedRow {
	var made []comparedRow
	add := func(row comparedRow, cell func(*compared) comparedCell) {
		for _, d := range p.designs {
			var c comparedCell
			if d.by != nil {
				c = cell(d)
			}
			row.cells = append(row.cells, c)
		}
		made = append(made, row)
	}
	books := a.run.books.Current
	add(comparedRow{kind: "outcome"}, func(d *compared) comparedCell { return comparedCell{value: d.outcome} })
	for i, b := range books {
		add(comparedRow{kind: "path", authority: b.Authority, title: b.Authority}, func(d *compared) comparedCell {
			return comparedCell{value: d.by[i].title, result: string(d.by[i].certainty)}
		})
	}
	for i, b := range books {
		add(comparedRow{kind: "easier path", authority: b.Authority, title: b.Authority}, func(d *compared) comparedCell { return comparedCell{value: d.by[i].next} })
	}
	for _, key := range p.keys() {
		row := comparedRow{kind: "criterion", authority: key[0], path: key[1], item: key[2], title: key[0] + ", " + key[1] + ": " + key[2]}
		for _, d := range p.designs {
			if of := d.criterion(key); of != nil {
				row.unit, row.limit = of.unit, of.limit
				break
			}
		}
		add(row, func(d *compared) comparedCell {
			of := d.criterion(key)
			if of == nil {
				return comparedCell{}
			}
			return comparedCell{value: of.value, margin: of.margin, tolerance: of.tolerance, result: of.result}
		})
	}
	for k, c := range a.columns {
		if !slices.ContainsFunc(p.designs, func(d *compared) bool { return d.by != nil && d.measures[k].text != "" }) {
			continue
		}
		first := p.designs[0]
		add(comparedRow{kind: "measure", item: c.name, title: c.name}, func(d *compared) comparedCell {
			cell := comparedCell{value: d.measures[k].text}
			if m := d.measures[k]; m.tolerance > 0 {
				cell.tolerance = job.Fixed(m.tolerance, 2)
			}
			if d != first && first.by != nil {
				cell.difference = differenceText(first.measures[k], d.measures[k])
			}
			return cell
		})
	}
	return made
}

// keys are the criteria that any design was judged by, in the order of the books.
func (p *comparison) keys() [][3]string {
	var made [][3]string
	for _, d := range p.designs {
		for _, c := range d.criteria {
			if !slices.Contains(made, c.key) {
				made = append(made, c.key)
			}
		}
	}
	return made
}

// differenceText is by how much a measure differs from that of the first design; what lies
// within how far off either may be, or is rounded, is no difference.
func differenceText(first, other comparedMeasure) string {
	a, err := strconv.ParseFloat(first.text, 64)
	b, wrong := strconv.ParseFloat(other.text, 64)
	switch {
	case first.text == other.text:
		return "no difference"
	case err != nil || wrong != nil:
		return ""
	case math.Abs(b-a) <= max(roundedTo, first.tolerance, other.tolerance):
		return "no difference"
	}
	return fmt.Sprintf("%+g", math.Round((b-a)*1e6)/1e6)
}

// groupTitles are what the kinds of rows are headed by on the page.
var groupTitles = []struct{ kind, title string }{
	{"path", "Path and certainty"}, {"easier path", "What keeps it off an easier path, and a change that would help"},
	{"criterion", "Criteria: value, margin to the limit, how far it may be off"}, {"measure", "Measures, and their difference to the first design"},
}

// render writes the page.
func (a *alternatives) render(w io.Writer) error {
	page := &pages.Alternatives{Title: titleOf(a.run.job), Day: a.run.job.DecisionDate.Format("2 January 2006"), Caution: caution}
	for i, name := range a.order {
		if i == mostProjects {
			page.LeftOut = len(a.order) - mostProjects
			break
		}
		page.Projects = append(page.Projects, a.page(a.projects[name]))
	}
	return page.Write(w)
}

func (a *alternatives) page(p *comparison) pages.Comparison {
	made := pages.Comparison{Title: p.title, LeftOut: p.leftOut}
	for _, d := range p.designs {
		outcome := d.outcome
		if d.failed != "" {
			outcome += ": " + d.failed
		}
		made.Designs = append(made.Designs, pages.Design{ID: d.id, Alternative: d.alternative, Outcome: outcome, Beaten: d.beaten, Plan: d.plan, Section: d.section})
	}
	rows := a.rows(p)
	for _, g := range groupTitles {
		group := pages.ComparedGroup{Title: g.title}
		for _, row := range rows {
			if row.kind != g.kind || row.kind == "criterion" && !p.bearing(row) {
				continue
			}
			if row.same() { // named only: a page is to show what differs
				group.Same = append(group.Same, row.title)
				continue
			}
			shown := pages.ComparedRow{Name: row.title, Limit: row.limit}
			for _, c := range row.cells {
				shown.Cells = append(shown.Cells, c.shown(row.unit))
			}
			group.Rows = append(group.Rows, shown)
		}
		made.Groups = append(made.Groups, group)
	}
	return made
}

// same reports whether a row says the same of all designs that have a result, within how far
// off it may be, and nothing that any of them fails.
func (r *comparedRow) same() bool {
	if r.kind == "path" {
		return false
	}
	return !slices.ContainsFunc(r.cells, func(c comparedCell) bool {
		switch {
		case c == comparedCell{}:
			return false
		case r.kind == "measure":
			return c.difference != "" && c.difference != "no difference" || c.difference == "" && c.value != r.cells[0].value
		}
		return differenceText(r.cells[0].measure(), c.measure()) != "no difference" || c.result != r.cells[0].result || c.result == rules.Exceeds.String()
	})
}

// measure is the value of a criterion, to be compared as measures are.
func (c comparedCell) measure() comparedMeasure {
	tolerance, _ := strconv.ParseFloat(c.tolerance, 64) // none: 0
	return comparedMeasure{c.value, tolerance}
}

// bearing reports whether a criterion says something of any design: its path is for such a
// structure, and it applies.
func (p *comparison) bearing(row comparedRow) bool {
	return slices.ContainsFunc(p.designs, func(d *compared) bool {
		of := d.criterion([3]string{row.authority, row.path, row.item})
		return of != nil && !of.excluded && of.result != rules.NotApplicable.String()
	})
}

// shown is a cell as the page has it.
func (c comparedCell) shown(unit string) pages.ComparedCell {
	made := pages.ComparedCell{Value: c.value}
	note := func(text string) {
		if made.Note != "" {
			made.Note += "; "
		}
		made.Note += text
	}
	if made.Value != "" && unit != "" {
		made.Value += " " + unit
	}
	if c.result != "" {
		note(c.result)
	}
	if c.margin != "" {
		note("margin " + c.margin)
	}
	if c.tolerance != "" && c.tolerance != "0.00" {
		note("may be off " + c.tolerance + " ft")
	}
	if c.difference != "" {
		note(c.difference)
	}
	return made
}
