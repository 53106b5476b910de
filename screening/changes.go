package screening

import (
	"maps"
	"math"
	"slices"
	"strconv"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
	"waterward/screening/site"
)

var changesHeader = []string{"id", "what", "authority", "before", "after"}

// difference is one thing that is otherwise than in an earlier run.
type difference struct{ id, what, authority, before, after string }

func (c difference) row() []string {
	return []string{out.Text(c.id).Table, c.what, c.authority, out.Text(c.before).Table, out.Text(c.after).Table}
}

// text is the change as a person reads it.
func (c difference) text() string {
	what := c.what
	if c.authority != "" {
		what = c.authority + ": " + what
	}
	switch {
	case c.before == "":
		return what + ": now " + c.after
	case c.after == "":
		return what + ": was " + c.before
	}
	return what + ": was " + c.before + ", now " + c.after
}

// changes are what is otherwise of a proposal than in the earlier run: in its version, its
// result, its paths, its measures by more than they may be off, and what is asked for. None
// for a feature that is not decided by itself.
func (e *earlier) changes(r *result, measures, summary []column) []difference {
	id := out.ID(r.p.ID).Table
	before := e.summary[id]
	if r.p.Of.Aside != "" {
		return nil
	}
	if before == nil {
		return []difference{{id: r.p.ID, what: "proposal", after: "new"}}
	}
	var made []difference
	add := func(what, authority, was, is string) {
		if was != is {
			made = append(made, difference{r.p.ID, what, authority, was, is})
		}
	}
	now := map[string]string{}
	for _, c := range summary {
		now[c.name] = c.cell(r).Table
	}
	add("version", "", before["version"], now["version"])
	if !slices.Contains(e.errors[id], now["error"]) {
		add("without a result", "", before["error"], now["error"])
	}
	for _, d := range r.decisions {
		a := d.Book.Authority
		add("path", a, before[a+"_title"], now[a+"_title"])
		add("certainty", a, before[a+"_certainty"], now[a+"_certainty"])
	}
	for _, c := range measures {
		was, is := e.measures[id][c.name], c.cell(r).Table
		if was != is && r.site != nil && c.name != "notices" && !withinTolerance(r.site, c.name, was, is) {
			add(c.name, "", was, is)
		}
	}
	var asked []string
	for _, q := range r.requests() {
		asked = append(asked, out.Text(q.text).Table)
	}
	for _, text := range e.requests[id] {
		if !slices.Contains(asked, text) {
			add("no longer asked", "", text, "")
		}
	}
	for _, text := range asked {
		if !slices.Contains(e.requests[id], text) {
			add("asked", "", "", text)
		}
	}
	return made
}

// roundedTo is by how much a cell that is written to hundredths may differ and be the same.
const roundedTo = 0.011

// withinTolerance reports whether two values of a measure differ by no more than it may be
// off, or than they are rounded to.
func withinTolerance(s *site.Site, name, was, is string) bool {
	a, err := strconv.ParseFloat(was, 64)
	b, other := strconv.ParseFloat(is, 64)
	if err != nil || other != nil {
		return false
	}
	return math.Abs(a-b) <= max(roundedTo, toleranceOf(s, name))
}

// toleranceOf is how far off a measure may be, in feet, by the name of its column; 0 of what
// is no length or states no accuracy.
func toleranceOf(s *site.Site, name string) float64 {
	off := 0.0
	for _, r := range site.Shown {
		m, _ := rules.FindMeasure(r.Name)
		if r.Column.Name != name || m.Quantity != rules.Length {
			continue
		}
		for _, accuracy := range s.Values[r.Name].Accuracy {
			if tolerance, _ := accuracy.Tolerance(); !math.IsNaN(tolerance) {
				off = max(off, tolerance/job.Foot)
			}
		}
	}
	return off
}

// changesTable is changes.csv: the changes of the proposals, then those of what all are
// decided by, and the proposals that are there no more.
type changesTable struct {
	out.Table[*result]
	run  *run
	seen map[string]bool
}

func newChangesTable(r *run) *changesTable {
	return &changesTable{Table: out.Table[*result]{Name: "changes.csv", Header: changesHeader, Of: (*result).changeRows}, run: r, seen: map[string]bool{}}
}

func (r *result) changeRows() (rows [][]string) {
	for _, c := range r.changes {
		rows = append(rows, c.row())
	}
	return rows
}

func (t *changesTable) Prepare(r *result) func() {
	put := t.Table.Prepare(r)
	return func() {
		t.seen[out.ID(r.p.ID).Table] = true
		put()
	}
}

func (t *changesTable) Finish() {
	for _, id := range slices.Sorted(maps.Keys(t.run.since.summary)) {
		if !t.seen[id] {
			t.Write([]string{id, "proposal", "", "there", "gone"})
		}
	}
	for _, c := range t.run.since.common(t.run.opened, t.run.books.Live(), t.run.settings(), nil) {
		t.Write(c.row())
	}
	t.Table.Finish()
}
