package rules

import (
	"math"
	"slices"
)

// Certainty says how sure a decision is.
type Certainty string

// How sure a decision is.
const (
	Firm             Certainty = "firm"
	CloseCall        Certainty = "close call"
	NeedsInformation Certainty = "needs information"
)

func couldBe(b *Book, byPath [][]*Result, at place) string {
	best, ok := firstPlace(byPath, (*Result).couldHold, (*Result).surelyWaivable)
	switch {
	case !ok || !best.before(at):
		return ""
	case best.path == at.path:
		return b.Paths[at.path].ID + " without waiver"
	}
	return b.Paths[best.path].ID
}

// weighChoice looks at what bears on the choice: the results of the chosen path,
// and the unsure ones of every easier path that is not surely closed. lacks is what
// must be known for a firm decision.
func weighChoice(byPath [][]*Result, chosen int, doubts []string) (sure Certainty, lacks []string) {
	sure, lacks = Firm, slices.Clone(doubts)
	for i := 0; i <= chosen; i++ {
		// Never so of the chosen path, which holds.
		if surelyBlocked(byPath[i]) {
			continue
		}
		for _, r := range byPath[i] {
			if r.Outcome == Close {
				sure = CloseCall
			}
			lacks = union(lacks, r.Doubts)
		}
	}
	if len(lacks) > 0 {
		sure = NeedsInformation
	}
	return sure, lacks
}

func surelyBlocked(results []*Result) bool {
	for _, r := range results {
		if r.Outcome == Exceeds && r.sure() {
			return true
		}
	}
	return false
}

// tightest picks the least margin relative to its limit. A limit of 0 has no
// relative margin: the margin then counts in feet for a length, in SI otherwise.
// An area that is not to be touched and is not has no margin worth the name: it
// is 0 however far the area lies off, so it counts only when it fails.
func tightest(results []*Result) *Result {
	var least *Result
	smallest := math.Inf(1)
	for _, r := range results {
		if r.Value.Edge != nil && r.Holds && r.Measure.Quantity != Length {
			continue
		}
		scale := math.Abs(r.Demand.Limit)
		if scale == 0 {
			scale = 1
			if r.Measure.Quantity == Length {
				scale = feet.SI()
			}
		}
		// A margin of NaN, of words and names, compares false.
		if relative := r.Margin / scale; relative < smallest {
			least, smallest = r, relative
		}
	}
	return least
}

// evidenceOrder is from the strongest to the weakest.
var evidenceOrder = []Evidence{Read, Secondary, Practice, Memory, Unverified, Unread}

// restsOn is the weakest evidence among the criteria that decide: those of the chosen
// path and, of each easier path, the best known of what keeps the proposal off it.
// Empty if none decides.
func restsOn(byPath [][]*Result, chosen int) Evidence {
	weakest := -1
	for i := 0; i <= chosen; i++ {
		best, open := len(evidenceOrder), len(evidenceOrder) // of what fails, and of what is not known
		for _, r := range byPath[i] {
			rank := slices.Index(evidenceOrder, r.evidence())
			switch {
			case i == chosen && r.Outcome != NotApplicable:
				weakest = max(weakest, rank)
			case i < chosen && !r.Holds && r.Outcome != Unknown:
				best = min(best, rank)
			case i < chosen && !r.Holds:
				open = min(open, rank)
			}
		}
		if best == len(evidenceOrder) {
			best = open
		}
		if best < len(evidenceOrder) {
			weakest = max(weakest, best)
		}
	}
	if weakest < 0 {
		return ""
	}
	return evidenceOrder[weakest]
}

// evidence is how the text of what was judged is known.
func (r *Result) evidence() Evidence {
	if r.Interpretation != nil {
		return r.Interpretation.Evidence
	}
	return r.Criterion.Evidence
}
