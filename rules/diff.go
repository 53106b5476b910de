package rules

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Diff says in words what is otherwise in the new book, one sentence for each
// change, in the order of the page that [Book.Show] writes; none if nothing is.
// Paths, criteria and interpretations are the same if their ids are, notices if their
// words are. Examples, which rule nothing, and the order of anything but paths,
// which means nothing, are not compared.
func Diff(old, new *Book) []string {
	var d differences
	d.text("", "the book", old.Name, new.Name)
	d.text("", "the edition", old.Edition, new.Edition)
	d.text("", "the title", old.Title, new.Title)
	d.text("", "the authority", old.Authority, new.Authority)
	d.text("", "the jurisdiction", old.Jurisdiction, new.Jurisdiction)
	d.text("", "the first day in force", dayText(old.From), dayText(new.From))
	d.text("", "the last day in force", dayText(old.Until), dayText(new.Until))
	d.compare("", "the last day for work started under it was %s and is now %s", old.Started.phrase(), new.Started.phrase())
	d.text("", "the status", string(old.Status), string(new.Status))
	d.wording("", "the wording of the caution", old.Caution, new.Caution)
	d.words(old, new)
	d.paths(old.Paths, new.Paths)
	d.notices("", "notice", old.Notices, new.Notices)
	return d.sentences
}

// SameRuling reports whether two books decide alike: whether all their paths,
// limits, conditions of limits and waivers, and the words they know, are the same.
func SameRuling(a, b *Book) bool { return slices.Equal(a.ruling(), b.ruling()) }

// ruling is what of a book decides: its paths and their demands, exactly, and the
// words of which it can tell whether they fit.
func (b *Book) ruling() []string {
	var out []string
	for _, path := range b.Paths {
		out = append(out, path.ID)
		for _, c := range path.Criteria {
			out = append(out, c.ID, c.Demand.exact(), whenPhrase(c.When).exact, c.WaivableBy, strconv.FormatBool(c.IfStated))
		}
		for _, u := range path.Unread {
			out = append(out, u.ID)
		}
	}
	known := b.vocabularies()
	for _, measure := range slices.Sorted(maps.Keys(known)) {
		out = append(append(out, measure), slices.Sorted(maps.Keys(known[measure]))...)
	}
	return out
}

type differences struct{ sentences []string }

// say adds a sentence about a place in the book, or about the book itself.
func (d *differences) say(at, format string, args ...any) {
	sentence := fmt.Sprintf(format, args...)
	if at != "" {
		sentence = at + ": " + sentence
	}
	d.sentences = append(d.sentences, sentence)
}

func (d *differences) text(at, noun, old, new string) {
	if old != new {
		d.say(at, "%s was %s and is now %s", noun, quoted(old), quoted(new))
	}
}

// quoted sets off several words from those of the sentence.
func quoted(text string) string {
	if strings.Contains(text, " ") {
		return strconv.Quote(text)
	}
	return cmp.Or(text, "none")
}

// wording compares texts too long to be told in a sentence.
func (d *differences) wording(at, noun, old, new string) {
	if old != new {
		d.say(at, "%s changed", noun)
	}
}

func dayText(day time.Time) string {
	if day.IsZero() {
		return ""
	}
	return day.Format(dayLayout)
}

func (c *Carried) phrase() phrase {
	text := "none"
	if c != nil {
		text = dayText(c.Until) + " (" + sourceText(c.Cite, c.Evidence) + ")"
	}
	return phrase{text, text}
}
