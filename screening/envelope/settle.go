package envelope

import (
	"cmp"
	"slices"

	"waterward/rules"
)

// settle answers for a front, by each authority and by all together.
func (e *Search) settle(f *Outcome, name string) error {
	all := e.together
	first := slices.Clone([]*sited(all))
	if e.all {
		for _, more := range e.later {
			first = append(first, more...)
		}
	}
	if err := e.part(f, first); err != nil {
		return err
	}
	together := e.tried(f, all, name+" joint")
	if e.all {
		for _, p := range slices.Concat(e.later...) {
			e.tried(f, question{p}, name+" "+p.book.Authority+" "+p.path.ID)
		}
	}
	shared, of := together, all
	if shared.Candidate == nil {
		shared, of = e.sharing(f, all, name+" joint")
	}
	for i, b := range e.Books {
		a, err := e.answer(f, i, shared.Candidate, name+" "+b.Authority)
		if err != nil {
			return err
		}
		f.By = append(f.By, a)
	}
	f.Joint = e.best(f, all, together, shared, of)
	return nil
}

// answer is what a front comes to by one authority. A structure that meets easiest paths of
// several answers for it too, unless one drawn for this path alone may be surer.
func (e *Search) answer(f *Outcome, of int, joint *Candidate, name string) (Answer, error) {
	b := e.Books[of]
	last := len(b.Paths) - 1
	out := Answer{Path: b.Paths[last], Certainty: rules.Firm, rank: last} // the certainty: that easier paths are closed
	easiest := e.easiest[of]
	if easiest == nil {
		return out, nil
	}
	if joint != nil && !joint.takes(easiest) {
		joint = nil
	}
	if e.look(f, &out, easiest, joint, name) {
		return out, nil
	}
	later := e.later[of]
	if out.CouldBe != nil { // one that cannot come out adds nothing
		later = slices.DeleteFunc(slices.Clone(later), (*sited).unread)
	}
	if len(later) > 0 && !e.all { // the water is parted anew, for all that is left
		if err := e.part(f, later); err != nil {
			return out, err
		}
	}
	for _, p := range later {
		if e.look(f, &out, p, nil, name) {
			return out, nil
		}
	}
	if out.open {
		out.Path, out.Certainty = nil, rules.NeedsInformation
	}
	return out, nil
}

// look looks for a structure on one path, beside one that was found to come out on it, if
// any was. It reports whether there is one, and notes it, or else what keeps it off.
func (e *Search) look(f *Outcome, out *Answer, p *sited, found *Candidate, name string) bool {
	water, c := e.pool(f, question{p}), found
	var got attempt
	if c == nil || c.Decisions[p.of].Certainty == rules.CloseCall {
		got = e.tried(f, question{p}, name+" "+p.path.ID)
		if c == nil || got.Candidate != nil && got.Decisions[p.of].Certainty == rules.Firm {
			c = got.Candidate
		}
	}
	if c == nil {
		open := got.open || water.unknown >= e.room()
		if out.CouldBe == nil && (open || water.closing() == rules.NeedsInformation) {
			out.CouldBe = p.path
		}
		out.open = out.open || open
		if out.Blocker == "" {
			out.Blocker, out.Share = water.blocker(got.why, !open)
		}
		out.Certainty = lessSure(out.Certainty, water.closing())
		return false
	}
	d := &c.Decisions[p.of]
	out.Path, out.Candidate, out.rank, out.Longest = p.path, c, rankOf(e.Books[p.of], p.path), water.longest
	if out.Longest < e.Settings.Least.Metres { // not known to be open, and yet it came out there
		out.Longest = c.Length
	}
	if out.Certainty = lessSure(out.Certainty, d.Certainty); out.CouldBe != nil {
		out.Certainty = rules.NeedsInformation
	}
	if d.Tightest != nil {
		out.Tightest = d.Tightest.Criterion.ID
	}
	return true
}

// sharing looks for a structure that meets the easiest paths of as many authorities as may be,
// but not of all, and returns which. Sets of paths are tried together, the largest first, of
// those as large the one first that leaves the most room.
func (e *Search) sharing(f *Outcome, all question, name string) (attempt, question) {
	able := slices.DeleteFunc(slices.Clone(all), func(p *sited) bool { return e.pool(f, question{p}).longest < e.Settings.Least.Metres })
	for size := min(len(able), len(all)-1); size > 1; size-- {
		var pools []*pool
		for _, q := range subsets(able, size) {
			pools = append(pools, e.pool(f, q))
		}
		slices.SortStableFunc(pools, func(a, b *pool) int { return cmp.Compare(b.longest, a.longest) })
		for _, p := range pools {
			if got := e.tried(f, p.of, name); got.Candidate != nil {
				return got, p.of
			}
		}
	}
	return attempt{}, nil
}

// best is the structure that leaves the fewest authorities beyond their easiest path, and of
// those the longest: one for all together, one that some share, or one drawn for one alone.
func (e *Search) best(f *Outcome, all question, together, shared attempt, of question) Joint {
	whole := e.pool(f, all)
	out := Joint{Known: true}
	take := func(c *Candidate, longest float64) Joint {
		out.Candidate, out.Longest = c, longest
		for i, p := range e.easiest {
			switch {
			case p == nil || c.takes(p):
			case c.Decisions[i].CouldBe == p.path.ID:
				out.Open = append(out.Open, i)
			default:
				out.Beyond = append(out.Beyond, i)
			}
			out.Certainty = lessSure(out.Certainty, c.Decisions[i].Certainty)
		}
		if out.Longest < e.Settings.Least.Metres {
			out.Longest = c.Length
		}
		if out.off() == 0 { // whatever is not known of the places
			out.Known, out.Blocker, out.Share = true, "", 0
		}
		return out
	}
	if together.Candidate != nil {
		return take(together.Candidate, whole.longest)
	}
	out.Known = !together.open && whole.unknown < e.room()
	out.Blocker, out.Share = whole.blocker(together.why, out.Known)
	closed := whole.closing()
	finish := func(j Joint) Joint {
		if j.Easiest() {
			return j
		}
		if j.Certainty = lessSure(j.Certainty, closed); !j.Known {
			j.Certainty = rules.NeedsInformation
		}
		return j
	}
	if shared.Candidate != nil {
		return finish(take(shared.Candidate, e.pool(f, of).longest))
	}
	// One authority's, or none's: what was drawn for each alone.
	var alone *Answer
	for i := range f.By {
		a := &f.By[i]
		if a.Candidate == nil {
			continue
		}
		if alone == nil || e.kept(a.Candidate) > e.kept(alone.Candidate) || e.kept(a.Candidate) == e.kept(alone.Candidate) && a.Candidate.Length > alone.Candidate.Length+fitStep {
			alone = a
		}
	}
	if alone == nil {
		return finish(out)
	}
	return finish(take(alone.Candidate, alone.Longest))
}

// kept is on how many easiest paths a candidate comes out.
func (e *Search) kept(c *Candidate) int {
	n := 0
	for _, p := range e.easiest {
		if p != nil && c.takes(p) {
			n++
		}
	}
	return n
}

// room is the area, in square metres, of the least structure worth building.
func (e *Search) room() float64 { return e.Settings.Least.Metres * e.Settings.Width.Metres }

// subsets are all choices of so many.
func subsets(of question, size int) []question {
	if size == 0 {
		return []question{nil}
	}
	var out []question
	for i := range of[:max(0, len(of)-size+1)] {
		for _, rest := range subsets(of[i+1:], size-1) {
			out = append(out, append(question{of[i]}, rest...))
		}
	}
	return out
}
