package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Editions are the editions of one book that stand side by side, oldest first.
type Editions []*Book

// Gather sorts books into editions, in the order in which their names first
// appear. Two editions of one book in force on one day, of one name, or of
// different authorities are a *LoadError at the later one.
func Gather(books []*Book) ([]Editions, error) {
	var out []Editions
	form := &form{}
	place := map[string]int{}
	for _, b := range books {
		at, ok := place[b.Name]
		if !ok {
			at = len(out)
			place[b.Name] = at
			out = append(out, nil)
		}
		out[at] = append(out[at], b)
	}
	for _, e := range out {
		slices.SortStableFunc(e, func(a, b *Book) int { return a.From.Compare(b.From) })
		for i, b := range e {
			for _, earlier := range e[:i] {
				form.clash(earlier, b)
			}
		}
	}
	return out, form.failed()
}

// clash reports what keeps two editions, a the earlier, from standing side by
// side: at the later, or at the one that is not built in, which can be mended.
func (f *form) clash(a, b *Book) {
	here, other := b, a
	if b.builtIn && !a.builtIn {
		here, other = a, b
	}
	add := func(format string, args ...any) {
		p := here.period
		p.Message = fmt.Sprintf(format, args...)
		f.problems = append(f.problems, p)
	}
	switch {
	case a.Edition == b.Edition:
		add("edition %s of %s is there twice, also in %s: give each edition its own name", b.Edition, b.Name, other.period.place())
	case a.Authority != b.Authority:
		add("edition %s of %s decides for %q and edition %s for %q: editions of one book have one authority, so write that, or give this book a name of its own",
			here.Edition, here.Name, here.Authority, other.Edition, other.Authority)
	case a.Status != InForce || b.Status != InForce || !a.Until.IsZero() && b.From.After(a.Until):
	case other.builtIn:
		add("edition %s of %s overlaps the built-in edition %s (%s): keep clear of its days, or give this book a name of its own",
			here.Edition, here.Name, other.Edition, other.Period())
	default:
		add("editions %s and %s of %s overlap: end %s (%s) the day before %s begins",
			a.Edition, b.Edition, b.Name, a.Edition, a.period.place(), b.Edition)
	}
}

const dayLayout = "2006-01-02"

// dayOf takes the day's date in its own time zone, as dates of books are kept.
func dayOf(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}

// covers reports whether the book is in force on a day.
func (b *Book) covers(day time.Time) bool {
	return b.Status == InForce && !day.Before(b.From) && (b.Until.IsZero() || !day.After(b.Until))
}

// carries reports whether on a day work goes on under the book although it is
// no longer in force.
func (b *Book) carries(day time.Time) bool {
	return b.Status == InForce && b.Started != nil && day.After(b.Until) && !day.After(b.Started.Until)
}

// Applied reports whether any edition is of a status that can decide.
func (e Editions) Applied() bool {
	return slices.ContainsFunc(e, func(b *Book) bool { return b.Status == InForce })
}

// On returns the edition in force on a day, or an error that lists what there is.
func (e Editions) On(date time.Time) (*Book, error) {
	day := dayOf(date)
	for _, b := range e {
		if b.covers(day) {
			return b, nil
		}
	}
	var there []string
	for _, b := range e {
		there = append(there, b.Edition+" ("+b.Period()+")")
	}
	return nil, fmt.Errorf("book %s has no edition in force on %s; there is: %s", e[0].Name, day.Format(dayLayout), strings.Join(there, ", "))
}

// Period is when the book decides, in words.
func (b *Book) Period() string {
	text := "always"
	switch {
	case !b.From.IsZero() && !b.Until.IsZero():
		text = b.From.Format(dayLayout) + " to " + b.Until.Format(dayLayout)
	case !b.From.IsZero():
		text = "from " + b.From.Format(dayLayout)
	case !b.Until.IsZero():
		text = "to " + b.Until.Format(dayLayout)
	}
	if b.Started != nil {
		text += ", for work started by then to " + b.Started.Until.Format(dayLayout)
	}
	if b.Status != InForce {
		return string(b.Status) + ", " + text
	}
	return text
}

// Older returns the editions no longer in force on a day under which work
// started in their time still goes on, latest first.
func (e Editions) Older(date time.Time) []*Book {
	var out []*Book
	for _, b := range e {
		if b.carries(dayOf(date)) {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(a, b *Book) int { return cmp.Compare(b.Until.Unix(), a.Until.Unix()) })
	return out
}

// For returns the edition that decides on a day on work started, or under
// contract, on another (zero if not started): the one then in force if it still
// carries such work, else the one now in force.
func (e Editions) For(date, started time.Time) (*Book, error) {
	if !started.IsZero() {
		for _, b := range e.Older(date) {
			if b.covers(dayOf(started)) {
				return b, nil
			}
		}
	}
	return e.On(date)
}

// Named returns the edition of that name.
func (e Editions) Named(edition string) (*Book, error) {
	var there []string
	for _, b := range e {
		if b.Edition == edition {
			return b, nil
		}
		there = append(there, b.Edition)
	}
	return nil, fmt.Errorf("book %s has no edition %q: there is %s", e[0].Name, edition, list(there))
}
