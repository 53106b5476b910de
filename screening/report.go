package screening

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
)

// Report is what a run tells the person who started it.
type Report struct {
	Compared  int // projects whose alternatives are set side by side
	Proposals int
	Unusable  int      // proposals that are rows with a reason instead of a result
	Aside     int      // features that are earlier versions, or parts decided with others
	Changed   int      // proposals that came out otherwise than in an earlier run, or are new
	Outcomes  []string // how many proposals came out on which path and how surely, a line an authority
	Requests  []string // what must be asked for most often, the most frequent first
	Defects   int      // features of layers that could not be used
	Repairs   []string // areas of layers that were not valid and have been rebuilt
	NoLayer   []string // layers that notices of the books ask about and the job does not give
	Datums    []string // layers on another horizontal datum than the proposals
	Warnings  []string // what of the inputs is no fault and may still mislead
	Doubts    []string // what of the layers, set against one another, may mislead
	Limits    int      // of all books that decided
	Unread    int      // limits that rest on text nobody has read
	Idle      []string // books asked for that never decide, and why
	Notices   []string // what must be seen of every proposal on a path, said once
	Messages  []string // each fault found in the inputs, in order
}

// outcome is what a proposal comes to by one authority.
type outcome struct {
	authority, title string
	certainty        rules.Certainty
}

// count adds up what the decisions of a run come to.
type count struct {
	outcomes map[outcome]int
	requests map[string]int
}

func (c *count) add(r *result) {
	for i := range r.decisions {
		d := &r.decisions[i]
		c.outcomes[outcome{d.Book.Authority, titleText(d), d.Certainty}]++
	}
	for _, q := range r.requests() {
		c.requests[q.text]++
	}
}

// byAuthority is a line for each authority: the paths of its books from the least demanding,
// and of each how many proposals came out on it, by certainty.
func (c *count) byAuthority(books []*rules.Book) []string {
	var lines []string
	titles, order := map[string][]string{}, []string{}
	for _, b := range books {
		if titles[b.Authority] == nil {
			order = append(order, b.Authority)
		}
		for _, path := range b.Paths {
			if !slices.Contains(titles[b.Authority], path.Title) { // as another edition has it
				titles[b.Authority] = append(titles[b.Authority], path.Title)
			}
		}
	}
	for _, authority := range order {
		var parts []string
		for _, path := range titles[authority] {
			for _, title := range []string{path, path + withWaiver} {
				all, by := 0, []string{}
				for _, certainty := range []rules.Certainty{rules.Firm, rules.CloseCall, rules.NeedsInformation} {
					if n := c.outcomes[outcome{authority, title, certainty}]; n > 0 {
						all += n
						by = append(by, fmt.Sprintf("%d %s", n, certainty))
					}
				}
				if all > 0 {
					parts = append(parts, fmt.Sprintf("%s %d (%s)", title, all, strings.Join(by, ", ")))
				}
			}
		}
		if len(parts) > 0 {
			lines = append(lines, authority+": "+strings.Join(parts, "; "))
		}
	}
	return lines
}

// mostAsked is how many requests a report names.
const mostAsked = 3

// often are the requests that most proposals need, with how many do.
func (c *count) often() []string {
	var texts []string
	for text := range c.requests {
		texts = append(texts, text)
	}
	slices.SortFunc(texts, func(a, b string) int { return cmp.Or(c.requests[b]-c.requests[a], cmp.Compare(a, b)) })
	var lines []string
	for _, text := range texts[:min(mostAsked, len(texts))] {
		lines = append(lines, fmt.Sprintf("to ask for %s: %s", job.Count(c.requests[text], "proposal"), text))
	}
	return lines
}
