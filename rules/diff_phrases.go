package rules

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// phrase is a thing in words, and exactly, for where the words of two things are
// the same and the things are not: 10 ft and 10.001 ft.
type phrase struct{ words, exact string }

// compare fills the format with the two phrases if they differ.
func (d *differences) compare(at, format string, old, new phrase) {
	if old.exact == new.exact {
		return
	}
	if old.words == new.words {
		old.words, new.words = old.exact, new.exact
	}
	d.say(at, format, old.words, new.words)
}

func (d *differences) demand(at string, old, new *Demand) {
	d.compare(at, "the measure was the %s and is now the %s", old.subjectPhrase(), new.subjectPhrase())
	limit := "the limit was %s and is now %s"
	if old.Measure.Quantity == new.Measure.Quantity && old.Comparison == new.Comparison && old.Limit == new.Limit && old.Unit.Name != new.Unit.Name {
		limit += ", which is the same"
	}
	d.compare(at, limit, old.limitPhrase(), new.limitPhrase())
	d.compare(at, "the width from which an opening counts was %s and is now %s", widthPhrase(old.Ref.Opening), widthPhrase(new.Ref.Opening))
	d.compare(at, "the length for which an opening is due was %s and is now %s", widthPhrase(old.Ref.Every), widthPhrase(new.Ref.Every))
	d.compare(at, "the greatest age of its data was %s and is now %s", agePhrase(old.Ref.MaxAge), agePhrase(new.Ref.MaxAge))
}

func (d *Demand) subjectPhrase() phrase {
	exact := d.Ref.Measure
	for _, in := range d.Others {
		exact += " and " + in.Ref.Measure
	}
	if len(d.Others) > 0 {
		exact = string(d.Pick) + " " + exact
	}
	return phrase{d.Subject(), exact}
}

func (d *Demand) limitPhrase() phrase {
	exact := strings.TrimSpace(fmt.Sprintf("%s %s %s", d.Comparison, cmp.Or(d.Fraction, digits(d.Unit.FromSI(d.Limit))), d.Unit.Name))
	if len(d.Words) > 0 {
		exact = fmt.Sprintf("%s %q", d.Comparison, slices.Sorted(slices.Values(d.Words)))
	}
	return phrase{d.LimitText(), exact}
}

// exact is all of a demand in one line.
func (d *Demand) exact() string {
	opening, every, age := widthPhrase(d.Ref.Opening), widthPhrase(d.Ref.Every), agePhrase(d.Ref.MaxAge)
	return strings.Join([]string{d.subjectPhrase().exact, opening.exact, every.exact, age.exact, d.limitPhrase().exact}, " ")
}

// words says which words a book lists that the other does not know.
func (d *differences) words(old, new *Book) {
	before, now := old.vocabularies(), new.vocabularies()
	for _, measure := range slices.Sorted(maps.Keys(now)) {
		if gone := now[measure].lacks(old.Words[measure]); len(gone) > 0 {
			d.say("", "words for %s that it knows no more: %s", measure, list(gone))
		}
		if more := before[measure].lacks(new.Words[measure]); len(more) > 0 {
			d.say("", "words for %s that it knows now: %s", measure, list(more))
		}
	}
}

// widthPhrase is a parameter, 0 where there is none.
func widthPhrase(metres float64) phrase {
	if metres == 0 {
		return phrase{"none", ""}
	}
	return phrase{feet.Format(metres), digits(feet.FromSI(metres)) + " ft"}
}

// agePhrase is the same for 1 year and 12 months.
func agePhrase(a Age) phrase {
	if a.Months == 0 {
		return phrase{"none", ""}
	}
	return phrase{a.String(), strconv.Itoa(a.Months) + " months"}
}

// digits writes a number with all the digits that survive a change of unit.
func digits(x float64) string { return strconv.FormatFloat(x, 'g', 15, 64) }

func (d *differences) when(at string, old, new []*Demand) {
	d.compare(at, "it applied %s and applies now %s", whenPhrase(old), whenPhrase(new))
}

func whenPhrase(when []*Demand) phrase {
	if len(when) == 0 {
		return phrase{"always", ""}
	}
	var exact []string
	for _, d := range when {
		exact = append(exact, d.exact())
	}
	slices.Sort(exact)
	return phrase{"only where " + all(when), "only where " + strings.Join(exact, " and ")}
}
