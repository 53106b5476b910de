package screening

import (
	"slices"
	"strings"

	"waterward/screening/out"
)

var requestsHeader = []string{"id", "authorities", "request"}

// request is what must be asked for, and the authorities whose decisions hang on it.
type request struct {
	text        string
	authorities []string
}

// requests are what the decisions lack, each once, in the order of the decisions.
func (r *result) requests() []request {
	var all []request
	for _, d := range r.decisions {
		for _, text := range d.Lacks {
			at := slices.IndexFunc(all, func(q request) bool { return q.text == text })
			if at < 0 {
				at = len(all)
				all = append(all, request{text: text})
			}
			all[at].authorities = append(all[at].authorities, d.Book.Authority)
		}
	}
	return all
}

// requestRows are the rows of requests.csv for one proposal.
func (r *result) requestRows() [][]string {
	var rows [][]string
	for _, q := range r.requests() {
		rows = append(rows, []string{out.ID(r.p.ID).Table, strings.Join(q.authorities, "; "), out.Text(q.text).Table})
	}
	return rows
}
