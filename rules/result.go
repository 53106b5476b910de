package rules

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Outcome is how a value stands to a criterion.
type Outcome int

const (
	Meets Outcome = iota
	Close         // within the tolerance of the limit, on either side
	Exceeds
	Waivable // exceeds, but somebody may waive it
	Unknown
	NotApplicable // the criterion speaks of other cases; it holds
)

var outcomeNames = [...]string{"meets", "close", "exceeds", "waivable", "unknown", "not applicable"}

func (o Outcome) String() string {
	if o < 0 || int(o) >= len(outcomeNames) {
		return "no outcome"
	}
	return outcomeNames[o]
}

// Result is one criterion applied to one proposal.
type Result struct {
	Path            *Path
	Criterion       *Criterion
	Interpretation  *Interpretation // nil for the interpretation that decides
	Input                           // what was compared: of several inputs the one that counted
	Demand          *Demand         // with what
	Value           Value
	Outcome         Outcome
	Holds           bool     // on the measured side; false for Unknown
	Margin          float64  // SI, + inside, - outside the limit; NaN for words, names and unknowns
	Tolerance       float64  // metres; NaN where none applies or nothing is stated
	Doubts          []string // what must be known for it to be sure, a sentence each; of an unknown at least one
	Reason          string   // one sentence, or empty where there is nothing to explain
	Change          string   // the change that would make it hold; empty if it holds or that is unknown
	Interpretations []Result // by the criterion's other interpretations, in book order
}

// sure says that no better mapping could change the answer.
func (r *Result) sure() bool {
	return r.Outcome != Close && len(r.Doubts) == 0
}

// judge applies one criterion to one proposal, by every interpretation.
func judge(path *Path, c *Criterion, facts Facts) Result {
	r := judgeInterpretation(path, c, nil, facts)
	for _, interpretation := range c.Interpretations {
		r.Interpretations = append(r.Interpretations, judgeInterpretation(path, c, interpretation, facts))
	}
	return r
}

func judgeInterpretation(path *Path, c *Criterion, interpretation *Interpretation, facts Facts) Result {
	demand := &c.Demand
	if interpretation != nil {
		demand = &interpretation.Demand
	}
	r := apply(demand, facts)
	r.Path, r.Criterion, r.Interpretation = path, c, interpretation
	if r.Outcome == Exceeds && c.WaivableBy != "" {
		r.Outcome = Waivable
	}
	if c.IfStated && r.Outcome == Unknown && r.Value.Word == "" {
		why := r.Value.Unknown
		r.settle(NotApplicable, true, why)
		r.doubt(why)
	}
	r.restrict(facts)
	r.Change = r.change()
	if r.Reason == "" {
		r.Reason = r.reason()
	}
	return r
}

// apply compares what a demand asks for with its limit.
func apply(d *Demand, facts Facts) Result {
	if len(d.Others) > 0 {
		return pick(d, facts)
	}
	return applyTo(d.Input, d, facts)
}

// applyTo compares one input of a demand with its limit.
func applyTo(in Input, d *Demand, facts Facts) Result {
	r := Result{Input: in, Demand: d, Value: d.value(facts, in), Margin: math.NaN(), Tolerance: math.NaN()}
	if d.unfamiliar(r.Value) {
		r.Value.Unknown = fmt.Sprintf("the %s %.40q is none of the words of the rule book: name it by one of %s",
			r.Measure.Title, r.Value.Word, list(slices.Sorted(maps.Values(d.Known))))
	}
	known := r.Value.Unknown == ""
	if known {
		if r.Measure.Quantity.numeric() {
			r.Margin, r.Holds, known = compare(d, r.Value)
		} else {
			r.Holds = fits(d, r.Value)
		}
	}
	switch {
	case !known:
		r.Outcome = Unknown
	case r.Holds:
		r.Outcome = Meets
	default:
		r.Outcome = Exceeds
	}
	if known {
		r.weigh()
	} else {
		r.doubt(r.reason())
	}
	return r
}

// compare measures a number against the limit. Raw SI numbers are compared,
// never rounded ones. A bounded value may leave the answer open.
func compare(c *Demand, v Value) (margin float64, holds, known bool) {
	margin = v.Number - c.Limit
	if c.Comparison.capped() {
		margin = c.Limit - v.Number
	}
	if v.Bound == Exact {
		return margin, margin > 0 || margin == 0 && !c.Comparison.strict(), true
	}
	// The true value lies strictly beyond the bound, so a bound that just
	// reaches the limit settles even a strict comparison.
	holds = c.Comparison.capped() == (v.Bound == LessThan)
	if holds && margin >= 0 || !holds && margin <= 0 {
		return margin, holds, true
	}
	return math.NaN(), false, false
}

// Unfamiliar is the word that a proposal states and the book does not know; empty if there
// is none.
func (r *Result) Unfamiliar() string {
	if r.Measure.Quantity != Word || r.Value.Unknown == "" {
		return ""
	}
	return r.Value.Word
}

// fits compares words and names, by their letters and digits alone.
func fits(c *Demand, v Value) bool {
	given := v.Names
	if c.Measure.Quantity == Word {
		given = []string{cmp.Or(c.Known.find(v.Word), v.Word)}
	} else if c.Comparison == Is {
		return (len(v.Names) > 0) == (len(c.Words) > 0 && plain(c.Words[0]) == inside)
	}
	return overlap(given, c.Words) == (c.Comparison != NoneOf)
}

// SameWord reports whether two words, or names, are the same but for what spellings
// differ in: case, blanks and marks.
func SameWord(a, b string) bool { return plain(a) == plain(b) }

// Plain is what same words share.
func Plain(word string) string { return plain(word) }

// plain is a word without what spellings differ in: case, blanks and marks, and how its
// characters are made up (Unicode Standard Annex 15).
func plain(word string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, norm.NFKC.String(word))
}
