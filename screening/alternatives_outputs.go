package screening

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"waterward/screening/job"
	"waterward/screening/out"
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
