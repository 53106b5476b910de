package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Diff says in words what is otherwise in the new book, one sentence for each
// change, in the order of the page that [Book.Show] writes; none if nothing is.
// Paths, criteria and readings are the same if their ids are, notices if their
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
	d.paths(old.Paths, new.Paths)
	d.notices("", "notice", old.Notices, new.Notices)
	return d.sentences
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

func (d *differences) paths(old, new []*Path) {
	before, now := byID(old, pathID), byID(new, pathID)
	for _, p := range old {
		if now[p.ID] == nil {
			d.say("", "path %s (%s) is gone", p.ID, p.Title)
		}
	}
	moved := movedPaths(old, new)
	for i, p := range new {
		place := "first"
		if i > 0 {
			place = "after " + new[i-1].ID
		}
		if before[p.ID] == nil {
			d.say("", "path %s (%s) is new, %s, %s", p.ID, p.Title, place, criteriaText(p.Criteria))
			continue
		}
		if moved[p.ID] {
			d.say("", "path %s moved: it is now %s", p.ID, place)
		}
		d.path(before[p.ID], p)
	}
}

func pathID(p *Path) string           { return p.ID }
func criterionID(c *Criterion) string { return c.ID }
func readingID(r *Reading) string     { return r.ID }

func byID[T any](items []*T, id func(*T) string) map[string]*T {
	out := map[string]*T{}
	for _, item := range items {
		out[id(item)] = item
	}
	return out
}

func criteriaText(criteria []*Criterion) string {
	if len(criteria) == 0 {
		return "without criteria"
	}
	var ids []string
	for _, c := range criteria {
		ids = append(ids, c.ID)
	}
	return "with the criteria " + and(ids)
}

// movedPaths are the fewest paths that, taken out, leave the others in the same
// order in both: those not on the longest rising run of old places.
func movedPaths(old, new []*Path) map[string]bool {
	type run struct {
		id                  string
		place, length, from int
	}
	var runs []run
	moved := map[string]bool{}
	best := -1
	for _, p := range new {
		place := slices.IndexFunc(old, func(o *Path) bool { return o.ID == p.ID })
		if place < 0 {
			continue
		}
		r := run{p.ID, place, 1, -1}
		for i, earlier := range runs {
			if earlier.place < place && earlier.length >= r.length {
				r.length, r.from = earlier.length+1, i
			}
		}
		runs = append(runs, r)
		moved[p.ID] = true
		if best < 0 || r.length > runs[best].length {
			best = len(runs) - 1
		}
	}
	for ; best >= 0; best = runs[best].from {
		delete(moved, runs[best].id)
	}
	return moved
}

func (d *differences) path(old, new *Path) {
	d.text(new.ID, "the title", old.Title, new.Title)
	before, now := byID(old.Criteria, criterionID), byID(new.Criteria, criterionID)
	for _, c := range old.Criteria {
		if now[c.ID] == nil {
			d.say(new.ID+"/"+c.ID, "the criterion is gone; it was that %s", c.full())
		}
	}
	for _, c := range new.Criteria {
		at := new.ID + "/" + c.ID
		if before[c.ID] == nil {
			d.say(at, "the criterion is new: %s", c.full())
			continue
		}
		d.criterion(at, before[c.ID], c)
	}
	d.notices(new.ID, "condition", old.Conditions, new.Conditions)
	d.notices(new.ID, "notice", old.Notices, new.Notices)
}

func (d *differences) criterion(at string, old, new *Criterion) {
	d.demand(at, &old.Demand, &new.Demand)
	d.when(at, old.When, new.When)
	d.text(at, "scope", strconv.FormatBool(old.Scope), strconv.FormatBool(new.Scope))
	d.text(at, "the one who may waive it", cmp.Or(old.WaivableBy, "nobody"), cmp.Or(new.WaivableBy, "nobody"))
	d.wording(at, "the wording", old.Says, new.Says)
	d.text(at, "the reading that decides", old.Reading, new.Reading)
	d.readings(at, old.Readings, new.Readings)
	d.source(at, old.Cite, new.Cite, old.Evidence, new.Evidence)
	d.text(at, "the day it was looked at", dayText(old.Looked), dayText(new.Looked))
}

func (d *differences) readings(at string, old, new []*Reading) {
	before, now := byID(old, readingID), byID(new, readingID)
	for _, r := range old {
		if now[r.ID] == nil {
			d.say(at, "the reading %s is gone; it was that %s", r.ID, r.full())
		}
	}
	for _, r := range new {
		was := before[r.ID]
		if was == nil {
			d.say(at, "the reading %s is new: %s", r.ID, r.full())
			continue
		}
		place := at + ", reading " + r.ID
		d.demand(place, &was.Demand, &r.Demand)
		d.wording(place, "the wording", was.Says, r.Says)
		d.source(place, was.Cite, r.Cite, was.Evidence, r.Evidence)
	}
}

func (d *differences) source(at, oldCite, newCite string, old, new Evidence) {
	d.text(at, "the citation", oldCite, newCite)
	d.text(at, "the evidence", string(old), string(new))
}

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
	exact := fmt.Sprintf("%s %s %s", d.Comparison, digits(d.Unit.FromSI(d.Limit)), d.Unit.Name)
	if len(d.Words) > 0 {
		exact = fmt.Sprintf("%s %q", d.Comparison, slices.Sorted(slices.Values(d.Words)))
	}
	return phrase{d.LimitText(), exact}
}

// widthPhrase is a parameter, 0 where there is none.
func widthPhrase(metres float64) phrase {
	if metres == 0 {
		return phrase{"none", ""}
	}
	return phrase{feet.Format(metres), digits(feet.FromSI(metres)) + " ft"}
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
		opening, every := widthPhrase(d.Ref.Opening), widthPhrase(d.Ref.Every)
		exact = append(exact, strings.Join([]string{d.subjectPhrase().exact, opening.exact, every.exact, d.limitPhrase().exact}, " "))
	}
	slices.Sort(exact)
	return phrase{"only where " + all(when), "only where " + strings.Join(exact, " and ")}
}

// notices pairs notices of the same words, the wholly equal ones first, since
// words may come twice with other conditions.
func (d *differences) notices(at, noun string, old, new []*Notice) {
	was := make([]*Notice, len(new)) // what each new one was
	left := slices.Clone(old)
	pair := func(same func(a, b *Notice) bool) {
		for i, n := range new {
			k := slices.IndexFunc(left, func(o *Notice) bool { return o.Says == n.Says && same(o, n) })
			if was[i] == nil && k >= 0 {
				was[i] = left[k]
				left = slices.Delete(left, k, k+1)
			}
		}
	}
	pair(func(a, b *Notice) bool {
		return a.Cite == b.Cite && a.Evidence == b.Evidence && whenPhrase(a.When).exact == whenPhrase(b.When).exact
	})
	pair(func(a, b *Notice) bool { return true })
	for _, n := range left {
		d.say(at, "the %s is gone: %s", noun, n.Says)
	}
	var cited []int // new ones of the same words and another citation
	place := func(n *Notice) string {
		return strings.TrimPrefix(fmt.Sprintf("%s, %s %q", at, noun, n.Says), ", ")
	}
	for i, n := range new {
		if was[i] == nil {
			d.say(at, "the %s is new: %s", noun, n.Says)
			continue
		}
		d.when(place(n), was[i].When, n.When)
		d.text(place(n), "the evidence", string(was[i].Evidence), string(n.Evidence))
		if was[i].Cite != n.Cite {
			cited = append(cited, i)
		}
	}
	// A new edition cites other pages for all of them, which is one change.
	if len(cited) > 1 {
		d.say(at, "the citation of %d %ss changed", len(cited), noun)
		return
	}
	for _, i := range cited {
		d.text(place(new[i]), "the citation", was[i].Cite, new[i].Cite)
	}
}
