package envelope

import (
	"slices"

	"waterward/rules"
)

// Answer is what a front, or a parcel, comes to by one authority.
type Answer struct {
	Path      *rules.Path // the easiest on which a structure comes out; nil if that is not known
	Certainty rules.Certainty
	CouldBe   *rules.Path // the easiest path not known to be closed, if that is an easier one
	Longest   float64     // metres of the longest strip that fits on the path; 0 of the last
	Tightest  string      // the criterion nearest its limit, of the candidate on the path
	Blocker   string      // what keeps it off the easiest path; empty if nothing does
	Share     float64     // percent of the water within that path's reach that it takes
	Candidate *Candidate  // on the path; nil of the last
	rank      int         // of the path in the book
	open      bool        // whether a structure comes out on CouldBe is not known for want of data
}

// Joint is what a front, or a parcel, comes to by all authorities together.
type Joint struct {
	Beyond    []int           // the books beyond whose easiest path the best structure is
	Open      []int           // those of which it is not known whether it is
	Known     bool            // whether one that meets every easiest path is known to fit or not to
	Certainty rules.Certainty // of all decisions on the best structure
	Longest   float64         // metres of the longest strip in the water of the paths it keeps
	Blocker   string          // what keeps any structure off the easiest paths together; empty if nothing does
	Share     float64         // percent of the water within their reach that it takes
	Candidate *Candidate      // the best structure; nil if none was found
}

// Easiest reports whether one structure meets the easiest path of every authority.
func (j *Joint) Easiest() bool { return j.Candidate != nil && j.off() == 0 }

// off is on how many easiest paths the best structure is not known to come out.
func (j *Joint) off() int { return len(j.Beyond) + len(j.Open) }

// easier is the easier of the answers of two fronts.
func (a Answer) easier(b Answer, book *rules.Book) Answer {
	if b.before(&a) {
		a, b = b, a
	}
	// Of an easier path that the other front may have this one says nothing.
	if b.CouldBe != nil && (a.Path == nil || rankOf(book, b.CouldBe) < a.rank) {
		if a.CouldBe == nil || rankOf(book, b.CouldBe) < rankOf(book, a.CouldBe) {
			a.CouldBe = b.CouldBe
		}
		a.Certainty = rules.NeedsInformation
		if a.open = a.open || b.open; a.open && a.Candidate == nil {
			a.Path = nil
		}
	}
	return a
}

// before reports whether an answer is easier than another: an easier path, then a surer one,
// then a longer strip.
func (a *Answer) before(b *Answer) bool {
	switch {
	case a.rank != b.rank:
		return a.rank < b.rank
	case a.Certainty != b.Certainty:
		return unsureness(a.Certainty) < unsureness(b.Certainty)
	}
	return a.Longest > b.Longest
}

// better reports whether a joint answer is better than another.
func (j *Joint) better(than *Joint) bool {
	switch {
	case j.Candidate == nil || than.Candidate == nil:
		return than.Candidate == nil && j.Candidate != nil
	case j.off() != than.off():
		return j.off() < than.off()
	case j.Certainty != than.Certainty:
		return unsureness(j.Certainty) < unsureness(than.Certainty)
	}
	return j.Longest > than.Longest
}

func rankOf(b *rules.Book, p *rules.Path) int { return slices.Index(b.Paths, p) }

// surest is the surer of two certainties, of which one may be none.
func surest(a, b rules.Certainty) rules.Certainty {
	if a == "" || b != "" && unsureness(b) < unsureness(a) {
		return b
	}
	return a
}

// lessSure is the less sure of two certainties, of which one may be none.
func lessSure(a, b rules.Certainty) rules.Certainty {
	if a == "" || b != "" && unsureness(b) > unsureness(a) {
		return b
	}
	return a
}

func unsureness(c rules.Certainty) int {
	return slices.Index([]rules.Certainty{rules.Firm, rules.CloseCall, rules.NeedsInformation}, c)
}
