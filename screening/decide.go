package screening

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

// setup is what every proposal of a run is screened against.
type setup struct {
	*opened
	roster     *roster
	projects   projects
	radius     float64
	opening    float64 // metres, from which an opening counts
	unverified bool    // show notices that rest on unverified figures
}

// screen measures one proposal and has every book decide on it.
func (b *setup) screen(p *site.Proposal) *result {
	r := &result{p: p}
	if p.Err != nil || p.Of.Aside != "" {
		return r
	}
	design := site.DesignOf(p.Of)
	project := b.projects.byName[design.Key()]
	if project != nil {
		project.Measure(b.layers, b.radius)
	}
	near, doubts := b.adjoining(p)
	r.site = site.New(p, b.layers, project, b.radius)
	parts := b.parts(p, near)
	r.site.Together = site.Together(p, parts)
	for _, part := range append(parts, p.Variants...) {
		own := site.New(part, b.layers, project, b.radius)
		own.Together = r.site.Together
		r.parts = append(r.parts, own)
	}
	r.site.Unsettled = slices.Concat(r.site.Unsettled, doubts, b.roster.doubts[p.Of.Order])
	if project != nil {
		for _, lost := range project.Lost {
			if lost != p.ID {
				r.site.Unsettled = append(r.site.Unsettled, fmt.Sprintf("%s of the same %s cannot be measured: correct that one", lost, project.Title))
			}
		}
	}
	if n := b.projects.unread; n > 0 && design.Title() != "" {
		const lost = "proposals or files of them that cannot be read (%d) may belong to the same %s: correct them"
		r.site.Notice(lost, n, design.Title())
		r.site.DoubtProject(lost, n, design.Title())
	}
	if other := b.projects.claimed[design.Name()]; other != "" && other != p.ID {
		r.site.DoubtProject("a part of %s says that it is of the same %s, and another part of it does not: say whether it is", other, design.Title())
	}
	if b.projects.open[design.Name()] {
		r.site.DoubtProject("some proposals of %s name the alternative they are part of and others do not: say it of each", cmp.Or(design.Project, design.Site))
	}
	if others := b.projects.sites[rules.Plain(design.Site)]; design.Site != "" && len(others) > 1 {
		r.site.DoubtProject("proposals of one site, %s, are of %d projects: say whether they are one", design.Site, len(others))
	}
	r.notices = r.site.Notices
	if r.p.Err = r.site.Unplaceable(); r.p.Err != nil {
		return r
	}
	var books []*rules.Book
	for _, e := range b.books.Editions {
		d := b.decide(r, e)
		books = append(books, d.Book)
		r.decisions = append(r.decisions, d)
	}
	r.limits = r.site.Setbacks(site.LimitLines(books))
	return r
}

// decide has the edition of a book decide that the dates call for, and adds what
// must be seen.
func (b *setup) decide(r *result, editions rules.Editions) rules.Decision {
	// One is in force: inputs.LoadBooks has seen to it.
	book, _ := editions.For(b.books.Day, r.p.Started)
	current, _ := editions.On(b.books.Day)
	facts := dated{r.site, whenStarted(b.books, r.p, editions)}
	d := book.Decide(facts)
	for _, part := range r.parts {
		of := book.Decide(part)
		lacks := of.Lacks
		switch {
		case of.Harder(&d):
			lacks = []string{fmt.Sprintf("%s, with which it is one structure, comes out as %s: see to the whole", part.Proposal.ID, pathText(&of))}
		case part.Proposal.Of.Order != r.p.Of.Order: // which has a row of its own
			lacks = nil
		case of.Certainty == rules.CloseCall && d.Certainty == rules.Firm:
			lacks = []string{fmt.Sprintf("by what %s states a limit of %s is too near to tell: state it better", part.Proposal.ID, of.Path.Title)}
		}
		for _, text := range lacks {
			if !slices.Contains(facts.when, text) {
				facts.when = append(facts.when, text)
			}
		}
	}
	if len(r.parts) > 0 {
		d = book.Decide(facts)
	}
	say := func(format string, args ...any) {
		r.notices = append(r.notices, book.Authority+": "+fmt.Sprintf(format, args...))
	}
	if book != current {
		say("decided by edition %s, as work started on %s; it goes on so until %s", book.Edition, job.DayText(r.p.Started), job.DayText(book.Started.Until))
	} else if was, err := editions.On(r.p.Started); err == nil && was != book && !r.p.Started.IsZero() {
		say("work started on %s, when edition %s was in force; it no longer goes on under that one, so edition %s decides", job.DayText(r.p.Started), was.Edition, book.Edition)
	} else if r.p.Started.IsZero() {
		for _, older := range editions.Older(b.books.Day) {
			if was := older.Decide(r.site); pathText(&was) != pathText(&d) {
				say("for work started by %s edition %s decides, and by it the path is %s", job.DayText(older.Until), older.Edition, pathText(&was))
			}
		}
	}
	for _, reread := range d.Rereads {
		if b.shows(reread.Result.Interpretation.Evidence) {
			say("%s", reread)
		}
	}
	for _, n := range d.Notices {
		// What holds of all is said once of the run.
		if len(n.When) > 0 && b.shows(n.Evidence) {
			say("%s", n)
		}
	}
	if asks := b.unchecked(d.Unchecked, r.site); len(asks) > 0 {
		say("not checked, as nothing answers here: %s", strings.Join(asks, ", "))
	}
	return d
}

// dated are the facts of a site for a book of which several editions may decide.
type dated struct {
	*site.Site
	when []string // what leaves open which, and which path the whole of a structure falls under
}

func (d dated) Doubts() []string { return slices.Concat(d.Site.Doubts(), d.when) }

// pathText is the path of a decision and whether it needs a waiver.
func pathText(d *rules.Decision) string {
	if len(d.Waiver) > 0 {
		return d.Path.ID + waived
	}
	return d.Path.ID
}

// unchecked lists what notices ask about and nothing answers here. What no layer
// of the job could answer is said once of the run, not in every row.
func (b *setup) unchecked(notices []*rules.Notice, facts rules.Facts) []string {
	var out []string
	for _, n := range notices {
		for _, when := range n.When {
			text := when.Asks()
			open := b.shows(n.Evidence) && site.MissingLayer(b.layers, when) == "" && !when.Answered(facts)
			if open && !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return out
}

// shows reports whether what rests on such evidence is shown.
func (b *setup) shows(e rules.Evidence) bool { return e != rules.Unverified || b.unverified }

// unanswered lists the layers that notices of the books ask about and the job
// does not give.
func (b *setup) unanswered() []string {
	var out []string
	add := func(notices []*rules.Notice) {
		for _, n := range notices {
			for _, when := range n.When {
				name := site.MissingLayer(b.layers, when)
				if name != "" && b.shows(n.Evidence) && !slices.Contains(out, name) {
					out = append(out, name)
				}
			}
		}
	}
	for _, book := range b.books.Live() {
		add(book.Notices)
		for _, path := range book.Paths {
			add(path.Notices)
		}
	}
	slices.Sort(out)
	return out
}
