package rules

import "math"

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
	Notices   []string
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
			d.Results = append(d.Results, judge(path, c, facts.Measure(c.Ref)))
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
	at, ok := firstPlace(byPath, (*Result).measuredHolds, (*Result).mayBeWaived)
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
		d.BlockedBy = append(d.BlockedBy, failing(byPath[i])...)
	}
	for _, n := range d.Path.Notices {
		d.Notices = append(d.Notices, n.String())
	}
	return d
}

func (r *Result) measuredHolds() bool { return r.Holds }

// mayBeWaived admits a close excess too: it is measured, and waivable.
func (r *Result) mayBeWaived() bool {
	return r.Outcome != Unknown && r.Criterion.WaivableBy != ""
}

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
		if r.Value.Edge != nil && r.Holds && r.Criterion.Measure.Quantity != Length {
			continue
		}
		scale := math.Abs(r.Criterion.Limit)
		if scale == 0 {
			scale = 1
			if r.Criterion.Measure.Quantity == Length {
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
