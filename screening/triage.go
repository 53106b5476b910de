package screening

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
	"waterward/screening/pages"
)

// triage is the page that opens first, index.html: what every proposal comes to, and why.
type triage struct {
	*pages.TriagePage
	authorities []pages.Authority
	unverified  bool
}

// newTriage starts the page of the authorities whose books are used.
func (b *run) newTriage() *triage {
	t := &triage{unverified: b.unverified}
	for _, current := range b.books.Current {
		a := pages.Authority{Name: current.Authority, Title: current.Title}
		for _, book := range b.books.Live() { // every edition that may decide
			if book.Authority != current.Authority {
				continue
			}
			for _, path := range book.Paths {
				for _, p := range []pages.Path{{ID: path.ID, Title: path.Title}, {ID: path.ID + waived, Title: path.Title + withWaiver}} {
					mayWaive := slices.ContainsFunc(path.Criteria, func(c *rules.Criterion) bool { return c.WaivableBy != "" })
					known := slices.ContainsFunc(a.Paths, func(q pages.Path) bool { return q.ID == p.ID })
					if !known && (mayWaive || p.ID == path.ID) {
						a.Paths = append(a.Paths, p)
					}
				}
			}
		}
		t.authorities = append(t.authorities, a)
	}
	t.TriagePage = pages.NewTriagePage(t.authorities)
	return t
}

// sink takes the results of a run for the page.
func (t *triage) sink(about func() pages.Triage) *out.Page[*result] {
	return &out.Page[*result]{
		Name: "index.html",
		Take: func(r *result) func() {
			row := t.row(r)
			return func() {
				row.Sheet = r.sheet
				t.Add(row)
			}
		},
		Render: func(w io.Writer) error { return t.Write(w, about()) },
	}
}

// row is what the page shows of a result.
func (t *triage) row(r *result) pages.Row {
	row := pages.Row{ID: r.p.ID, Kind: r.p.Words["kind"], File: r.p.Of.From.Name, Aside: r.p.Of.Aside, Notices: r.notices}
	if r.p.Err != nil {
		row.Error = r.p.Err.Error()
	}
	if r.p.Of.Geometry != nil {
		at := r.p.Of.Bound().Center()
		row.Place = fmt.Sprintf("%.6f, %.6f", at[0], at[1])
	}
	if r.site != nil {
		row.Parcels = strings.Join(r.site.Parcels, "; ")
	}
	for _, c := range r.changes {
		row.Changes = append(row.Changes, c.text())
	}
	for _, q := range r.requests() {
		row.Requests = append(row.Requests, pages.Request{Text: q.text, Authorities: strings.Join(q.authorities, ", "), Then: strings.Join(q.then, "; ")})
	}
	for i := range r.decisions {
		d := &r.decisions[i]
		made := pages.Decision{
			Path:    slices.IndexFunc(t.authorities[i].Paths, func(p pages.Path) bool { return p.ID == pathText(d) }),
			RestsOn: restsOnText[d.RestsOn], CouldBe: d.CouldBe, Rules: rulesOf(d), Open: t.open(d), Unchecked: conditionsOf(d),
		}
		switch d.Certainty {
		case rules.CloseCall:
			made.Certainty = pages.CloseCall
		case rules.NeedsInformation:
			made.Certainty = pages.NeedsInformation
		}
		row.Decisions = append(row.Decisions, made)
		for k := range d.Results {
			if text := measuredTo(r, &d.Results[k]); text != "" && !slices.Contains(row.Data, text) {
				row.Data = append(row.Data, text)
			}
		}
	}
	return row
}

// rulesOf are the criteria that decide: what keeps the proposal off the easier paths, the
// tightest of the path taken, and all others of that path which apply. What is first is what
// a row shows: a measured excess before anything that is only not known.
func rulesOf(d *rules.Decision) []pages.Rule {
	var all []*rules.Result
	add := func(some ...*rules.Result) {
		for _, r := range some {
			if r != nil && r.Outcome != rules.NotApplicable && !slices.Contains(all, r) {
				all = append(all, r)
			}
		}
	}
	blockers := slices.Clone(d.BlockedBy)
	slices.SortStableFunc(blockers, func(a, b *rules.Result) int { return unsettled(a) - unsettled(b) })
	add(blockers...)
	add(d.Tightest)
	for i := range d.Results {
		if d.Results[i].Path == d.Path {
			add(&d.Results[i])
		}
	}
	var made []pages.Rule
	for _, r := range all {
		rule := pages.Rule{
			Path: r.Path.Title, Says: r.Criterion.Says, Value: valueText(r), Result: r.Outcome.String(), Reason: r.Reason, Change: r.Change,
			Evidence: restsOnText[r.Criterion.Evidence], Cite: r.Criterion.Cite, On: r.Path == d.Path,
		}
		if r.Demand.Comparison != "" { // a limit that nobody has read has none
			rule.Limit = r.Demand.LimitText()
		}
		if !math.IsNaN(r.Tolerance) && r.Tolerance > 0 {
			rule.Tolerance = job.FeetText(r.Tolerance)
		}
		made = append(made, rule)
	}
	return made
}

// unsettled puts what was measured before what is not known.
func unsettled(r *rules.Result) int {
	if r.Outcome == rules.Unknown {
		return 1
	}
	return 0
}

// valueText is a value as a person reads it; empty if it is unknown.
func valueText(r *rules.Result) string {
	v := r.Value
	if v.Unknown != "" {
		return ""
	}
	switch r.Measure.Quantity {
	case rules.Word:
		return v.Word
	case rules.Names:
		if len(v.Names) == 0 {
			return "outside"
		}
		return strings.Join(v.Names, ", ")
	}
	text := r.Demand.Unit.Format(v.Number)
	switch v.Bound {
	case rules.MoreThan:
		return "more than " + text
	case rules.LessThan:
		return "less than " + text
	}
	return text
}

// open is what a decision leaves unsettled: other interpretations under which it would
// differ.
func (t *triage) open(d *rules.Decision) []string {
	var made []string
	for _, other := range d.Rereads {
		if other.Result.Interpretation.Evidence != rules.Unverified || t.unverified {
			made = append(made, other.String())
		}
	}
	return made
}

// conditionsOf are what the path demands that no map shows.
func conditionsOf(d *rules.Decision) []string {
	var made []string
	for _, c := range d.Path.Conditions {
		made = append(made, c.String())
	}
	return made
}

// measuredTo is what a result rests on: the layer, its feature and of when it is.
func measuredTo(r *result, of *rules.Result) string {
	v := of.Value
	if v.Layer == "" || v.Feature == "" {
		return ""
	}
	text := layers.KindOfLayer(v.Layer).Title + " (" + v.Feature + ")"
	if v.Date != "" {
		return text + " of " + v.Date
	}
	return text + ", not dated"
}

// about is what the page says of the run.
func (r *run) about() pages.Triage {
	made := pages.Triage{
		Title: titleOf(r.job), Day: r.job.DecisionDate.Format("2 January 2006"), Caution: caution,
		Evidence: evidenceText(r.report.Unread, r.report.Limits),
		Notices:  r.report.Notices,
		Warnings: slices.Concat(r.report.Warnings, r.report.Doubts, r.report.Idle, r.report.Datums),
	}
	made.Sources = sourcesOf(r.inputs())
	return made
}

// evidenceText says how many of the limits used nobody has read in the rule itself.
func evidenceText(unread, limits int) string {
	return fmt.Sprintf("%d of the %d limits used rest on accounts, practice or memory and not on the rule's own text.", unread, limits)
}

// titleOf is what pages and files are headed with.
func titleOf(j *job.Job) string { return cmp.Or(j.Title, "Screened proposals") }

// sourcesOf are the inputs, as pages tell of them.
func sourcesOf(read []*inputs.Record) []pages.Source {
	var made []pages.Source
	for _, in := range read {
		made = append(made, pages.Source{Role: in.Role, File: in.File, Date: in.Date, Datum: in.Datum, Features: in.Features, SHA256: in.SHA256})
	}
	return made
}
