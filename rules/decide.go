package rules

import (
	"fmt"
	"math"
	"slices"
)

// Standing says how sure a decision is.
type Standing string

const (
	Firm             Standing = "firm"
	CloseCall        Standing = "close call"
	NeedsInformation Standing = "needs information"
)

// Decision is what one book says about one proposal.
type Decision struct {
	Book     *Book
	Path     *Path // the first path that holds on the measured side
	Standing Standing
	// CouldBe is the path that would hold if everything open fell the right
	// way, "ID without waiver" if that is the same path; empty if no easier.
	CouldBe   string
	Waiver    []*Result // what must be waived for the path to hold
	Binding   *Result   // the quantity nearest its limit on the path; nil without one
	BlockedBy []*Result // what does not hold on the easier paths, nearest path first
	Results   []Result  // every path and criterion in book order
	Notices   []*Notice // of the book and of the path, those that apply here
	Unchecked []*Notice // those of which that cannot be told
	Rereads   []Reread  // other readings under which the decision would differ
}

// Reread is what a decision would be by another reading of one criterion.
type Reread struct {
	Result *Result // by that reading
	Path   *Path   // nil if that cannot be told
	Waiver bool    // the path would hold only by a waiver
	same   bool    // it is the path decided, and only the waiver differs
}

// place is a position in the order of easiness: each path, then the same path
// with waivers.
type place struct {
	path   int
	waiver bool
}

func (p place) before(q place) bool {
	return p.path < q.path || p.path == q.path && !p.waiver && q.waiver
}

// Decide applies the book to one proposal's facts.
func (b *Book) Decide(facts Facts) Decision {
	d := Decision{Book: b}
	for _, path := range b.Paths {
		for _, c := range path.Criteria {
			d.Results = append(d.Results, judge(path, c, facts))
		}
	}
	// Results must have its final length before anything points into it.
	byPath := make([][]*Result, len(b.Paths))
	next := 0
	for i, path := range b.Paths {
		for range path.Criteria {
			byPath[i] = append(byPath[i], &d.Results[next])
			next++
		}
	}
	at, ok := measuredPlace(byPath)
	if !ok {
		d.Standing = NeedsInformation
		return d
	}
	d.Path = b.Paths[at.path]
	if at.waiver {
		d.Waiver = failing(byPath[at.path])
	}
	d.CouldBe = couldBe(b, byPath, at)
	d.Standing = standing(byPath, at.path)
	d.Binding = binding(byPath[at.path])
	d.BlockedBy = append(d.BlockedBy, d.Waiver...)
	for i := at.path - 1; i >= 0; i-- {
		if !slices.ContainsFunc(byPath[i], (*Result).outOfScope) {
			d.BlockedBy = append(d.BlockedBy, failing(byPath[i])...)
		}
	}
	d.Rereads = rereads(b, byPath, at)
	for _, n := range slices.Concat(b.Notices, d.Path.Notices) {
		switch shown, unknown := n.shown(facts); {
		case shown:
			d.Notices = append(d.Notices, n)
		case unknown:
			d.Unchecked = append(d.Unchecked, n)
		}
	}
	return d
}

// rereads decides again for every other reading of every criterion, one at a time.
func rereads(b *Book, byPath [][]*Result, at place) []Reread {
	var out []Reread
	for _, results := range byPath {
		for i, decided := range results {
			for k := range decided.Readings {
				other := &decided.Readings[k]
				results[i] = other
				if p, _ := measuredPlace(byPath); p != at {
					r := Reread{Result: other, Path: b.Paths[p.path], Waiver: p.waiver, same: p.path == at.path}
					if other.Outcome == Unknown {
						r.Path, r.Waiver = nil, false
					}
					out = append(out, r)
				}
			}
			results[i] = decided
		}
	}
	return out
}

// String says it in one sentence.
func (r Reread) String() string {
	criterion := r.Result.Path.ID + "/" + r.Result.Criterion.ID
	text := fmt.Sprintf("by another reading of %s (%s), ", criterion, r.Result.Reading.Says)
	switch {
	case r.Path == nil:
		return text + "the path may be another, which cannot be told: " + r.Result.Reason
	case r.Waiver:
		return text + "the path would be " + r.Path.ID + " with a waiver"
	case r.same:
		return text + r.Path.ID + " needs no waiver"
	}
	return text + "the path would be " + r.Path.ID
}

func measuredPlace(byPath [][]*Result) (place, bool) {
	return firstPlace(byPath, (*Result).measuredHolds, (*Result).mayBeWaived)
}

func (r *Result) measuredHolds() bool { return r.Holds }

// mayBeWaived admits a close excess too: it is measured, and waivable.
func (r *Result) mayBeWaived() bool {
	return r.Outcome != Unknown && r.Criterion.WaivableBy != ""
}

// outOfScope says that the path is for other things.
func (r *Result) outOfScope() bool { return r.Criterion.Scope && r.Outcome == Exceeds && r.sure() }

// couldHold says that nothing known for sure stands against it.
func (r *Result) couldHold() bool { return r.Holds || !r.sure() }

func (r *Result) surelyWaivable() bool { return r.Outcome == Waivable }

// firstPlace finds the easiest place where every result holds or, in the place
// after it, may be waived.
func firstPlace(byPath [][]*Result, holds, waivable func(*Result) bool) (place, bool) {
	for i, results := range byPath {
		all, waiver := true, false
		for _, r := range results {
			switch {
			case holds(r):
			case waivable(r):
				waiver = true
			default:
				all = false
			}
		}
		if all {
			return place{i, waiver}, true
		}
	}
	return place{}, false
}

func failing(results []*Result) []*Result {
	var out []*Result
	for _, r := range results {
		if !r.Holds {
			out = append(out, r)
		}
	}
	return out
}

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
			case r.Outcome == Unknown || len(r.Unstated) > 0:
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
