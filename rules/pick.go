package rules

import (
	"fmt"
	"slices"
)

// pick applies a demand to the greatest or the least of several inputs. It is
// judged as what it says of each: the greatest is at most 5 ft if all are, and
// at least 5 ft if one is. So every input's own accuracy counts, and one that is
// missing makes the answer unknown unless another settles it.
func pick(d *Demand, facts Facts) Result {
	all := (d.Pick == Greatest) == d.Comparison.capped() // else one is enough
	var results []Result
	for _, in := range d.Inputs() {
		results = append(results, applyTo(in, d, facts))
	}
	best := 0
	for i := range results {
		if rank(&results[i], all) < rank(&results[best], all) ||
			rank(&results[i], all) == rank(&results[best], all) && nearer(&results[i], &results[best], all) {
			best = i
		}
	}
	out := results[best]
	if !out.sure() { // what the others are not sure of could still turn it
		for i := range results {
			out.Doubts = union(out.Doubts, results[i].Doubts)
		}
	}
	out.Value.Detail = joined(out.Value.Detail, fmt.Sprintf("of %d, the %s decides", len(results), out.Measure.Title))
	return out
}

// rank orders results by which of them answers for all: where all must hold, a
// sure failure, then what is unknown, then what may fail; where one is enough,
// a sure success, then one on the measured side, then what is unknown.
func rank(r *Result, all bool) int {
	switch {
	case r.Outcome == Unknown && all:
		return 1
	case r.Outcome == Unknown:
		return 2
	case all && !r.Holds && r.sure(), !all && r.Holds && r.sure():
		return 0
	case all && !r.Holds:
		return 2
	case !all && r.Holds:
		return 1
	case !r.sure():
		return 3
	}
	return 4
}

// nearer prefers of equals what lies farther outside the limit where all must
// hold, and what lies farther inside where one is enough.
func nearer(r, than *Result, all bool) bool {
	if all {
		return r.Margin < than.Margin
	}
	return r.Margin > than.Margin
}

// union adds the words that are not there yet.
func union(words, more []string) []string {
	for _, w := range more {
		if !slices.Contains(words, w) {
			words = append(words[:len(words):len(words)], w)
		}
	}
	return words
}
