package screening

import (
	"cmp"
	"fmt"
	"slices"

	"waterward/screening/job"
	"waterward/screening/site"
)

// unfamiliar is a word of a property that no rule book knows.
type unfamiliar struct {
	property, from, word string
}

// words counts the proposals that state such a word.
type words map[unfamiliar]int

func (w words) add(r *result) {
	seen := map[unfamiliar]bool{}
	for _, d := range r.decisions {
		for _, res := range d.Results {
			name := site.RecordOf(res.Measure.Name).Property
			if word := res.Unfamiliar(); word != "" && name != "" {
				seen[unfamiliar{name, cmp.Or(r.p.Of.From.Properties[name].From, name), word}] = true
			}
		}
	}
	for u := range seen {
		w[u]++
	}
}

// told says of each how the job can give it a meaning.
func (w words) told() []string {
	var lines []string
	for u, n := range w {
		lines = append(lines, fmt.Sprintf("proposals: the %s %.40q (%s) is a word that the rule books do not know: where it means one that they know, say so in the job: properties: {%s: {from: %s, values: {%q: ...}}}",
			u.property, u.word, job.Count(n, "proposal"), u.property, u.from, u.word))
	}
	slices.Sort(lines)
	return lines[:min(len(lines), mostWords)]
}

// mostWords is how many such words a run names.
const mostWords = 10
