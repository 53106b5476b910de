package pages

import (
	"fmt"
	"html/template"
	"io"
	"iter"
	"strings"

	"github.com/paulmach/orb"

	written "waterward/geo/text"
	"waterward/screening/drawing"
)

// Alternatives is the page on which the alternatives of projects stand side by side.
type Alternatives struct {
	Title, Day, Caution string
	Projects            []Comparison
	LeftOut             int // projects beyond those on the page
}

// Comparison is what is set side by side of one project.
type Comparison struct {
	Title   string
	Designs []Design // the one to begin with first
	Groups  []ComparedGroup
	LeftOut int // proposals beyond those compared
}

// Design is one proposal of an alternative.
type Design struct {
	ID, Alternative string
	Outcome         string // by all authorities together
	Beaten          string // the proposal that is better in everything
	Plan            *Plan  // nil without a result
	Section         *Section
}

// ComparedGroup is a table of what is compared.
type ComparedGroup struct {
	Title string
	Rows  []ComparedRow
	Same  []string // what is the same for all, by name
}

// ComparedRow is one thing compared, a cell for each design.
type ComparedRow struct {
	Name, Limit string
	Cells       []ComparedCell
}

// ComparedCell is what one design has, and what it differs by from the first.
type ComparedCell struct{ Value, Note string }

// How many designs stand side by side: drawn, and in tables.
const (
	mostBeside  = 2
	mostInTable = 4
)

// Of the paper, in hundredths of an inch: how wide and high drawings are. Sections are those
// of the sheets, made smaller.
const (
	besideWide     = 490.0
	besidePlanHigh = 340.0
)

// besideSheet is a sheet: some designs of a project, drawn or with what is compared of them.
type besideSheet struct {
	Title, Scale string
	Designs      []Design
	Plans        []template.HTML
	Sections     []template.HTML
	Groups       []ComparedGroup
	LeftOut      int
}

// Write writes the page.
func (a *Alternatives) Write(w io.Writer) error {
	a.Title = written.Visible(a.Title)
	var sheets []besideSheet
	for i := range a.Projects {
		sheets = append(sheets, a.Projects[i].sheets(len(sheets))...)
	}
	return write(w, "alternatives", template.FuncMap{"plural": plural, "plus": func(n int) int { return n + 1 }, "join": func(texts []string) string { return strings.Join(texts, "; ") }}, struct {
		*Alternatives
		Sheets []besideSheet
	}{a, sheets})
}

// sheets are those of a project, the drawings numbered after those of sheets before.
func (c *Comparison) sheets(before int) []besideSheet {
	c.visible()
	scale := 0.0
	for _, d := range c.Designs {
		if d.Plan != nil {
			own, _ := d.Plan.overview(besideWide, besidePlanHigh)
			scale = max(scale, own)
		}
	}
	var made []besideSheet
	for from, to := range chunks(len(c.Designs), mostInTable) {
		s := besideSheet{Title: c.Title, Designs: c.Designs[from:to], LeftOut: c.LeftOut}
		for _, g := range c.Groups {
			own := ComparedGroup{Title: g.Title, Same: g.Same}
			for _, r := range g.Rows {
				r.Cells = r.Cells[from:to]
				own.Rows = append(own.Rows, r)
			}
			s.Groups = append(s.Groups, own)
		}
		made = append(made, s)
	}
	for from, to := range chunks(len(c.Designs), mostBeside) {
		s := besideSheet{Title: c.Title, Designs: c.Designs[from:to]}
		if scale > 0 {
			s.Scale = fmt.Sprintf("1 in = %s ft", plain(scale))
		}
		for i, d := range s.Designs {
			number := (before+len(made))*mostBeside + i
			s.Plans = append(s.Plans, d.plan(scale, number))
			s.Sections = append(s.Sections, d.section(number))
		}
		made = append(made, s)
	}
	return made
}

// chunks are so many of some at a time.
func chunks(of, most int) iter.Seq2[int, int] {
	return func(yield func(from, to int) bool) {
		for from := 0; from < of; from += most {
			if !yield(from, min(from+most, of)) {
				return
			}
		}
	}
}

// plan is the plan of a design at a scale.
func (d *Design) plan(scale float64, number int) template.HTML {
	if d.Plan == nil {
		return ""
	}
	_, middle := d.Plan.overview(besideWide, besidePlanHigh)
	v := newView(0, 0, besideWide, besidePlanHigh, scale, middle)
	d.Plan.draw(v, func(l Length) bool {
		return (l.Tidal || l.Kind == Overall && l.From != l.To) && v.shown(l.From, l.To)
	})
	return boxed(v.Canvas, besideWide, besidePlanHigh, "Plan of "+d.ID, fmt.Sprintf("plan%d", number))
}

// section is the section of a design.
func (d *Design) section(number int) template.HTML {
	if d.Section == nil {
		return ""
	}
	own := *d.Section
	own.shrunk = true
	drawn, _ := own.draw(0, 0, sheetWide, sectionHigh)
	return boxed(drawn, sheetWide, sectionHigh, "Section of "+d.ID, fmt.Sprintf("section%d", number))
}

// boxed is a drawing of a size, in hundredths of an inch, made as wide as all stand.
func boxed(c *drawing.Canvas, wide, high float64, label, id string) template.HTML {
	page := drawing.NewCanvas(0, 0, wide, high)
	page.Add(c)
	page.Line([]orb.Point{{0, 0}, {wide, 0}, {wide, high}, {0, high}, {0, 0}}, drawing.Border)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]gin" height="%[2]gin" viewBox="0 0 %[5]g %[6]g" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif" role="img" aria-labelledby="%[3]s"><title id="%[3]s">%[4]s</title><path d="M0 0H%[5]gV%[6]gH0z" fill="#fff"/>`, besideWide/drawing.Inch, high*besideWide/wide/drawing.Inch, id, template.HTMLEscapeString(label), wide, high)
	b.WriteString(page.SVG())
	b.WriteString("</svg>")
	return template.HTML(b.String())
}

// visible writes out the hidden characters of texts.
func (c *Comparison) visible() {
	c.Title = written.Visible(c.Title)
	for i := range c.Designs {
		d := &c.Designs[i]
		d.ID, d.Alternative, d.Outcome, d.Beaten = written.Distinct(d.ID), written.Visible(d.Alternative), written.Visible(d.Outcome), written.Distinct(d.Beaten)
		if d.Plan != nil {
			s := Sheet{Plan: *d.Plan, Section: *d.Section}
			s.visible()
			d.Plan, d.Section = &s.Plan, &s.Section
		}
	}
	for i := range c.Groups {
		c.Groups[i].Same = allVisible(c.Groups[i].Same)
		for k := range c.Groups[i].Rows {
			r := &c.Groups[i].Rows[k]
			r.Name, r.Limit = written.Visible(r.Name), written.Visible(r.Limit)
			for n := range r.Cells {
				r.Cells[n] = ComparedCell{written.Visible(r.Cells[n].Value), written.Visible(r.Cells[n].Note)}
			}
		}
	}
}
