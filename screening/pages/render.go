package pages

import (
	"fmt"
	"html/template"
	"io"
	"strings"
)

// mostShown is how many rows a page has for readers without script.
const mostShown = 100

// TriagePage gathers the rows of a triage page and writes it.
type TriagePage struct {
	authorities []Authority
	columns     *columns
	tallies     tallies
	shown       []Row
}

// NewTriagePage starts the page of some authorities.
func NewTriagePage(authorities []Authority) *TriagePage {
	return &TriagePage{
		authorities: authorities, columns: newColumns(authorities),
		tallies: tallies{paths: map[[2]int]*PathCount{}, asks: map[string][]string{}, blockers: map[string][]string{}},
	}
}

// Add takes a row, in the order in which they will stand.
func (t *TriagePage) Add(r Row) {
	r = r.visible()
	t.columns.add(&r)
	t.tallies.add(t.authorities, &r)
	if len(t.shown) < mostShown {
		t.shown = append(t.shown, r)
	}
}

// triageData is what the template is given.
type triageData struct {
	Triage
	Tallies  *tallies
	Asks     []Often
	Blockers []Often
	Columns  *columns
	Shown    []Row
	Hidden   int // rows that only a reader with script sees
}

// Write writes the page.
func (t *TriagePage) Write(w io.Writer, about Triage) error {
	about = about.visible()
	about.Authorities = t.authorities
	for i := range t.columns.Authorities {
		t.columns.Authorities[i].Ranks = t.tallies.ranks(i, len(t.authorities[i].Paths))
	}
	functions := template.FuncMap{
		"plural": plural, "phrase": phrase, "certainties": certainties,
		"bar":       func(p *PathCount) template.HTML { return bar(p.By, t.tallies.Measured) },
		"rank":      func(authority, path int) int { return t.columns.Authorities[authority].Ranks[path] },
		"paths":     t.tallies.pathsOf,
		"authority": func(i int) string { return t.authorities[i].Name },
		"title":     func(i, path int) string { return t.authorities[i].Paths[path].Title },
	}
	return write(w, "triage", functions, triageData{
		Triage: about, Tallies: &t.tallies, Asks: often(t.tallies.asks), Blockers: often(t.tallies.blockers),
		Columns: t.columns, Shown: t.shown, Hidden: t.tallies.Rows - len(t.shown),
	})
}

func plural(n int, thing string) string {
	if n == 1 {
		return thing
	}
	return thing + "s"
}

// phrase is a rule as it came out, in one line.
func phrase(r Rule) string {
	if r.Value == "" {
		return r.Reason + "."
	}
	text := r.Value
	if r.Limit != "" {
		text += ", " + r.Limit
	}
	if r.Tolerance != "" {
		text += ", may be off " + r.Tolerance
	}
	return text + "; " + r.Evidence + "."
}

// certainties are a count by certainty, in words.
func certainties(p *PathCount) string {
	var parts []string
	for c, n := range p.By {
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, Certainty(c)))
		}
	}
	return strings.Join(parts, ", ")
}

// bar is a count as a drawing, of so many in all: firm solid, close calls half, the rest open.
func bar(by [3]int, whole int) template.HTML {
	var b strings.Builder
	x := 0
	for c, n := range by {
		if n == 0 {
			continue
		}
		at, wide := percent(x, whole), percent(n, whole)
		switch Certainty(c) {
		case Firm:
			fmt.Fprintf(&b, `<rect class="solid" x="%s" width="%s" height="6"/>`, at, wide)
		case CloseCall:
			fmt.Fprintf(&b, `<rect class="open" x="%s" width="%s" height="6"/><rect class="solid" x="%s" y="3" width="%s" height="3"/>`, at, wide, at, wide)
		default:
			fmt.Fprintf(&b, `<rect class="open" x="%s" width="%s" height="6"/>`, at, wide)
		}
		x += n
	}
	return template.HTML(b.String())
}
