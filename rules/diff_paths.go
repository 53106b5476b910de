package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

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

func pathID(p *Path) string                     { return p.ID }
func criterionID(c *Criterion) string           { return c.ID }
func interpretationID(r *Interpretation) string { return r.ID }
func unreadID(u *UnreadLimit) string            { return u.ID }

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
	var cited []*Criterion // those with another citation
	for _, c := range new.Criteria {
		at := new.ID + "/" + c.ID
		was := before[c.ID]
		if was == nil {
			d.say(at, "the criterion is new: %s", c.full())
			continue
		}
		d.criterion(at, was, c)
		if was.Cite != c.Cite {
			cited = append(cited, c)
		}
	}
	if len(cited) > 1 { // a new edition cites other pages for all of them
		d.say(new.ID, "the citation of %d criteria changed", len(cited))
	} else if len(cited) == 1 {
		d.text(new.ID+"/"+cited[0].ID, "the citation", before[cited[0].ID].Cite, cited[0].Cite)
	}
	d.unread(new.ID, old.Unread, new.Unread)
	d.notices(new.ID, "condition", old.Conditions, new.Conditions)
	d.notices(new.ID, "notice", old.Notices, new.Notices)
}

func (d *differences) unread(at string, old, new []*UnreadLimit) {
	before, now := byID(old, unreadID), byID(new, unreadID)
	for _, u := range old {
		if now[u.ID] == nil {
			d.say(at+"/"+u.ID, "the unread limit is gone; it was on %s", u.Says)
		}
	}
	for _, u := range new {
		was := before[u.ID]
		if was == nil {
			d.say(at+"/"+u.ID, "the unread limit is new: on %s", u.Says)
			continue
		}
		d.wording(at+"/"+u.ID, "the wording", was.Says, u.Says)
		d.text(at+"/"+u.ID, "the citation", was.Cite, u.Cite)
	}
}

func (d *differences) criterion(at string, old, new *Criterion) {
	d.demand(at, &old.Demand, &new.Demand)
	d.when(at, old.When, new.When)
	d.text(at, "if stated", strconv.FormatBool(old.IfStated), strconv.FormatBool(new.IfStated))
	d.text(at, "scope", strconv.FormatBool(old.Scope), strconv.FormatBool(new.Scope))
	d.text(at, "the one who may waive it", cmp.Or(old.WaivableBy, "nobody"), cmp.Or(new.WaivableBy, "nobody"))
	d.wording(at, "the wording", old.Says, new.Says)
	d.text(at, "the interpretation that decides", old.Interpretation, new.Interpretation)
	d.interpretations(at, old.Interpretations, new.Interpretations)
	d.text(at, "the evidence", string(old.Evidence), string(new.Evidence))
	d.text(at, "the day it was looked at", dayText(old.Looked), dayText(new.Looked))
}

func (d *differences) interpretations(at string, old, new []*Interpretation) {
	before, now := byID(old, interpretationID), byID(new, interpretationID)
	for _, r := range old {
		if now[r.ID] == nil {
			d.say(at, "the interpretation %s is gone; it was that %s", r.ID, r.full())
		}
	}
	for _, r := range new {
		was := before[r.ID]
		if was == nil {
			d.say(at, "the interpretation %s is new: %s", r.ID, r.full())
			continue
		}
		place := at + ", interpretation " + r.ID
		d.demand(place, &was.Demand, &r.Demand)
		d.wording(place, "the wording", was.Says, r.Says)
		d.text(place, "the citation", was.Cite, r.Cite)
		d.text(place, "the evidence", string(was.Evidence), string(r.Evidence))
	}
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
