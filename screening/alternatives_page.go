package screening

import (
	"io"
	"slices"
	"strconv"

	"waterward/rules"
	"waterward/screening/pages"
)

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
