package screening

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/out"
)

var requestsHeader = []string{"id", "authorities", "request", "why", "then"}

// request is what must be asked for, and what hangs on it.
type request struct {
	text        string
	authorities []string // whose decisions lack it
	why         []string // the rules that cannot be told without it, by authority
	then        []string // what each decision would come to with it
	easier      int      // authorities that may come to an easier path with it
}

// requests are what the decisions lack, each once, first those that may open an easier path
// for the most authorities.
func (r *result) requests() []*request {
	var all []*request
	for i := range r.decisions {
		d := &r.decisions[i]
		for _, text := range d.Lacks {
			at := slices.IndexFunc(all, func(q *request) bool { return q.text == text })
			if at < 0 {
				at = len(all)
				all = append(all, &request{text: text})
			}
			all[at].add(d)
		}
	}
	slices.SortStableFunc(all, func(a, b *request) int {
		return cmp.Or(b.easier-a.easier, len(b.authorities)-len(a.authorities))
	})
	return all
}

// add takes note of a decision that lacks the answer.
func (q *request) add(d *rules.Decision) {
	q.authorities = append(q.authorities, d.Book.Authority)
	var says []string
	for i := range d.Results {
		if r := &d.Results[i]; slices.Contains(r.Doubts, q.text) && !slices.Contains(says, r.Criterion.Says) {
			says = append(says, r.Criterion.Says)
		}
	}
	if len(says) == 0 { // it is a doubt about the proposal as a whole
		says = []string{"all of its decision"}
	}
	q.why = append(q.why, d.Book.Authority+": "+strings.Join(says, "; "))
	this := "this"
	if len(d.Lacks) > 1 {
		this = "all that is asked"
	}
	if d.CouldBe == "" {
		q.then = append(q.then, fmt.Sprintf("%s: %s, firm if %s bears it out", d.Book.Authority, titleText(d), this))
		return
	}
	q.easier++
	easier := d.Path.Title // without the waiver that it needs now
	if at := slices.IndexFunc(d.Book.Paths, func(p *rules.Path) bool { return p.ID == d.CouldBe }); at >= 0 {
		easier = d.Book.Paths[at].Title
	}
	q.then = append(q.then, fmt.Sprintf("%s: %s if %s bears it out, else %s", d.Book.Authority, easier, this, titleText(d)))
}

// requestRows are the rows of requests.csv for one proposal.
func (r *result) requestRows() [][]string {
	var rows [][]string
	for _, q := range r.requests() {
		rows = append(rows, []string{
			out.ID(r.p.ID).Table, strings.Join(q.authorities, "; "), out.Text(q.text).Table,
			out.Text(strings.Join(q.why, " | ")).Table, out.Text(strings.Join(q.then, " | ")).Table,
		})
	}
	return rows
}
