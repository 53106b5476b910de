package rules

import (
	"fmt"
	"time"
)

// Book is one authority's rules in one edition.
type Book struct {
	Name         string // as jobs refer to it
	Title        string
	Authority    string // a lower-case word; the prefix of the authority's columns
	Jurisdiction string
	Edition      string
	From, Until  time.Time // days, both inclusive; zero means open
	Status       Status
	Caution      string
	Paths        []*Path // from least to most demanding; the last has no criteria
	Examples     []*Example
}

// Status says whether a book's rules are applied.
type Status string

const (
	InForce     Status = "in force"
	Pending     Status = "pending"
	Inoperative Status = "inoperative" // printed, but not applied
)

// Evidence says how the text of a limit is known.
type Evidence string

const (
	Read      Evidence = "read"      // in the published rule
	Secondary Evidence = "secondary" // in someone's account of the rule
	Practice  Evidence = "practice"  // common practice, without a source
	Memory    Evidence = "memory"    // remembered, not looked up
)

// Path is one way for a proposal to be approved.
type Path struct {
	ID       string
	Title    string
	Criteria []*Criterion
	Notices  []Notice // shown when the path is the decision
}

// Notice is what does not change the path but must be seen.
type Notice struct {
	Says     string
	Cite     string
	Evidence Evidence
}

// String is the notice with its source, in one line.
func (n Notice) String() string {
	if n.Cite == "" {
		return fmt.Sprintf("%s (%s)", n.Says, n.Evidence)
	}
	return fmt.Sprintf("%s (%s, %s)", n.Says, n.Cite, n.Evidence)
}

// Comparison is how a criterion compares a measure, by the word books use.
type Comparison string

const (
	AtMost     Comparison = "at_most"
	AtLeast    Comparison = "at_least"
	UnderLimit Comparison = "less_than"
	OverLimit  Comparison = "more_than"
	Is         Comparison = "is"
	NoneOf     Comparison = "none_of"
	AnyOf      Comparison = "any_of"
)

// Words a criterion on an area compares with.
const (
	outside = "outside"
	inside  = "inside"
)

// capped says that the value must not be greater than the limit.
func (c Comparison) capped() bool { return c == AtMost || c == UnderLimit }

// strict says that a value equal to the limit fails.
func (c Comparison) strict() bool { return c == UnderLimit || c == OverLimit }

// Criterion is one condition of a path.
type Criterion struct {
	ID         string
	Measure    Measure
	Ref        Ref
	Comparison Comparison
	Limit      float64  // SI; for the four comparisons with a quantity
	Unit       Unit     // the limit's own unit
	Words      []string // for is, none_of and any_of; one word for is
	WaivableBy string   // who may waive it; empty if nobody
	Cite       string
	Evidence   Evidence
	Says       string
	Looked     time.Time // when the text was last looked at; zero if not said
}

// LimitText is what the criterion demands, in words: "at most 10 ft".
func (c *Criterion) LimitText() string {
	switch c.Comparison {
	case AtMost:
		return "at most " + c.Unit.Format(c.Limit)
	case AtLeast:
		return "at least " + c.Unit.Format(c.Limit)
	case UnderLimit:
		return "less than " + c.Unit.Format(c.Limit)
	case OverLimit:
		return "more than " + c.Unit.Format(c.Limit)
	case NoneOf:
		return "none of: " + list(c.Words)
	case AnyOf:
		return "one of: " + list(c.Words)
	}
	return list(c.Words)
}

const dayLayout = "2006-01-02"

// Covers returns nil if the book is in force on that day, and otherwise an error
// that says what there is. Only the day's date counts, in its own time zone.
func (b *Book) Covers(day time.Time) error {
	date := time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, time.UTC)
	edition := fmt.Sprintf("book %s, edition %s, is", b.Name, b.Edition)
	switch {
	case b.Status != InForce:
		return fmt.Errorf("%s %s and decides nothing", edition, b.Status)
	case !b.From.IsZero() && date.Before(b.From):
		return fmt.Errorf("%s in force only from %s, after %s", edition, b.From.Format(dayLayout), date.Format(dayLayout))
	case !b.Until.IsZero() && date.After(b.Until):
		return fmt.Errorf("%s in force only until %s, before %s", edition, b.Until.Format(dayLayout), date.Format(dayLayout))
	}
	return nil
}
