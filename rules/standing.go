package rules

import (
	"math"
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

// standing looks at what bears on the choice: the results of the chosen path,
// and the unsure ones of every easier path that is not surely closed.
func standing(byPath [][]*Result, chosen int) Standing {
	s := Firm
	for i := 0; i <= chosen; i++ {
		// Never so of the chosen path, which holds.
		if surelyBlocked(byPath[i]) {
			continue
		}
		for _, r := range byPath[i] {
			switch {
			case r.Outcome == Unknown || r.Open || len(r.Unstated) > 0 || r.Value.Doubt != "" && r.Outcome != NotApplicable:
				return NeedsInformation
			case r.Outcome == Close:
				s = CloseCall
			}
		}
	}
	return s
}

func surelyBlocked(results []*Result) bool {
	for _, r := range results {
		if r.Outcome == Exceeds && r.sure() {
			return true
		}
	}
	return false
}

// binding picks the least margin relative to its limit. A limit of 0 has no
// relative margin: the margin then counts in feet for a length, in SI otherwise.
// An area that is not to be touched and is not has no margin worth the name: it
// is 0 however far the area lies off, so it binds only when it fails.
func binding(results []*Result) *Result {
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
