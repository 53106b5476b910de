package rules

import (
	"fmt"
	"math"
	"strings"
)

// Input is one measure as a demand asks for it.
type Input struct {
	Measure Measure
	Ref     Ref
}

// Demand compares a measure, or the greatest or least of several, with a limit.
type Demand struct {
	Input              // the first
	Others     []Input // the further ones of greatest_of and least_of
	Pick       Pick
	Comparison Comparison
	Limit      float64    // SI; for the four comparisons with a quantity
	Unit       Unit       // the limit's own unit
	Fraction   string     // the limit as the book writes it, if that is a fraction
	Words      []string   // for is, none_of and any_of; one word for is
	Known      vocabulary // of a word; of any other the book cannot tell whether it fits
}

// Pick says which of several inputs counts, by the word books use.
type Pick string

// The ways to pick an input.
const (
	Single   Pick = "measure"
	Greatest Pick = "greatest_of"
	Least    Pick = "least_of"
)

// Comparison is how a demand compares a measure, by the word books use.
type Comparison string

// The comparisons.
const (
	AtMost     Comparison = "at_most"
	AtLeast    Comparison = "at_least"
	UnderLimit Comparison = "less_than"
	OverLimit  Comparison = "more_than"
	Is         Comparison = "is"
	NoneOf     Comparison = "none_of"
	AnyOf      Comparison = "any_of"
)

// Words a demand on an area compares with.
const (
	outside = "outside"
	inside  = "inside"
)

// capped says that the value must not be greater than the limit.
func (c Comparison) capped() bool { return c == AtMost || c == UnderLimit }

// strict says that a value equal to the limit fails.
func (c Comparison) strict() bool { return c == UnderLimit || c == OverLimit }

// Inputs are all inputs in the order of the book.
func (d *Demand) Inputs() []Input { return append([]Input{d.Input}, d.Others...) }

// Subject is what the demand is on, in words, to follow "the".
func (d *Demand) Subject() string {
	if d.Pick != Greatest && d.Pick != Least {
		return d.Measure.Title
	}
	var titles []string
	for _, in := range d.Inputs() {
		titles = append(titles, in.Measure.Title)
	}
	if d.Pick == Least {
		return "least of the " + and(titles)
	}
	return "greatest of the " + and(titles)
}

// Asks names briefly what the demand needs to know.
func (d *Demand) Asks() string {
	if d.Measure.Quantity == Names {
		return areaTitle(d.Measure.Name)
	}
	return d.Subject()
}

// LimitText is what is demanded, in words: "at most 10 ft".
func (d *Demand) LimitText() string {
	limit := d.Fraction
	if limit == "" {
		limit = d.Unit.Format(d.Limit)
	}
	switch d.Comparison {
	case AtMost:
		return "at most " + limit
	case AtLeast:
		return "at least " + limit
	case UnderLimit:
		return "less than " + limit
	case OverLimit:
		return "more than " + limit
	case NoneOf:
		return "none of: " + list(d.Words)
	case AnyOf:
		return "one of: " + list(d.Words)
	}
	return list(d.Words)
}

// String is the demand as a sentence without its verb's subject: "the fetch is
// at most 1 mile".
func (d *Demand) String() string {
	if d.Measure.Quantity == Names {
		area := areaTitle(d.Measure.Name)
		if d.Comparison == Is {
			return "it is " + list(d.Words) + " " + area
		}
		return "of " + area + " it touches " + d.LimitText()
	}
	return "the " + d.Subject() + " is " + d.LimitText()
}

// value asks for one input and catches values that say nothing without
// admitting it.
func (d *Demand) value(facts Facts, in Input) Value {
	v := facts.Measure(in.Ref)
	switch {
	case v.Unknown != "":
	case in.Measure.Quantity.numeric() && (math.IsNaN(v.Number) || math.IsInf(v.Number, 0)):
		v.Unknown = fmt.Sprintf("the %s did not come out as a number", in.Measure.Title)
	case in.Measure.Quantity == Word && strings.TrimSpace(v.Word) == "":
		v.Unknown = fmt.Sprintf("the %s is not stated", in.Measure.Title)
	}
	return v
}

// unfamiliar reports that a value is a word of which the book cannot tell what it is.
func (d *Demand) unfamiliar(v Value) bool {
	return d.Measure.Quantity == Word && v.Unknown == "" && d.Known.find(v.Word) == ""
}
