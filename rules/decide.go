package rules

import "slices"

// Decision is what one book says about one proposal.
type Decision struct {
	Book      *Book
	Path      *Path // the first path that holds on the measured side
	Certainty Certainty
	Lacks     []string // what a firm decision lacks, a sentence each
	// RestsOn is the weakest evidence among the criteria that decide; empty if none does.
	RestsOn Evidence
	// CouldBe is the path that would hold if everything open fell the right
	// way, "ID without waiver" if that is the same path; empty if no easier.
	CouldBe   string
	Waiver    []*Result // what must be waived for the path to hold
	Tightest  *Result   // the quantity nearest its limit on the path; nil without one
	BlockedBy []*Result // what does not hold on the easier paths, nearest path first
	Results   []Result  // every path and criterion in book order
	Notices   []*Notice // of the book and of the path, those that apply here
	Unchecked []*Notice // those of which that cannot be told
	Rereads   []Reread  // other interpretations under which the decision would differ
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
	criteria := 0
	for _, path := range b.Paths {
		criteria += len(path.Criteria) + len(path.Unread)
	}
	// Its room must not change once anything points into it.
	d.Results = make([]Result, 0, criteria)
	for _, path := range b.Paths {
		for _, c := range path.Criteria {
			d.Results = append(d.Results, judge(path, c, facts))
		}
		for _, u := range path.Unread {
			d.Results = append(d.Results, u.unknown(path))
		}
	}
	byPath := make([][]*Result, len(b.Paths))
	next := 0
	for i, path := range b.Paths {
		for range len(path.Criteria) + len(path.Unread) {
			byPath[i] = append(byPath[i], &d.Results[next])
			next++
		}
	}
	at, ok := measuredPlace(byPath)
	if !ok {
		d.Certainty = NeedsInformation
		return d
	}
	d.Path = b.Paths[at.path]
	if at.waiver {
		d.Waiver = failing(byPath[at.path])
	}
	d.CouldBe = couldBe(b, byPath, at)
	d.Certainty, d.Lacks = weighChoice(byPath, at.path, facts.Doubts())
	d.RestsOn = restsOn(byPath, at.path)
	d.Tightest = tightest(byPath[at.path])
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

// Choice is what a decision comes to, without all that it was weighed from.
type Choice struct {
	Book   *Book
	Path   *Path // nil if none holds
	Waiver bool  // whether something must be waived for it
	// Lacks are the requests of a decision that could be an easier path with their answers.
	Lacks []string
}

// Choice is what the decision comes to.
func (d *Decision) Choice() Choice {
	c := Choice{Book: d.Book, Path: d.Path, Waiver: len(d.Waiver) > 0}
	if d.CouldBe != "" {
		c.Lacks = d.Lacks
	}
	return c
}

// Harder reports whether a choice by the same book is a more demanding place than another,
// or needs a waiver where that does not.
func (c Choice) Harder(than Choice) bool {
	at := func(c Choice) place { return place{slices.Index(c.Book.Paths, c.Path), c.Waiver} }
	return c.Path != nil && than.Path != nil && at(than).before(at(c))
}
