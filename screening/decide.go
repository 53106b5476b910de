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
	at := b.projects.standing[p.Of.Order] // nil if it stands alone
	defer at.screened()
	if p.Err != nil || p.Of.Aside != "" {
		return r
	}
	design := site.DesignOf(p.Of)
	project := b.projects.byName[design.Key()]
	var books []*rules.Book
	for _, e := range b.books.Editions {
		book, _ := e.For(b.books.Day, p.Started) // one is in force: inputs.LoadBooks has seen to it
		books = append(books, book)
	}
	var doubts []string
	var whole *site.Whole
	if at != nil {
		var others []*standing
		others, whole = b.others(at)
		doubts = b.adjoining(at).doubts
		for _, o := range others {
			r.others = append(r.others, other{o.measured().ID, b.choices(o, whole, books)})
		}
	}
	if whole != nil && len(r.others) == 0 { // too many to be compared
		doubts = append(doubts[:len(doubts):len(doubts)], whole.Unknown)
	}
	r.site = b.site(p, whole)
	for _, v := range p.Variants {
		r.variants = append(r.variants, b.site(v, whole))
	}
	r.site.Unsettled = slices.Concat(r.site.Unsettled, doubts, b.roster.doubts[p.Of.Order])
	if project != nil {
		for i, lost := range project.Lost {
			if i == mostNamed {
				r.site.Unsettled = append(r.site.Unsettled, fmt.Sprintf("%d more of the same %s cannot be measured: correct them", len(project.Lost)-i, project.Title))
				break
			}
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
	for i := range books {
		r.decisions = append(r.decisions, b.decide(r, i, books[i]))
	}
	r.limits = r.site.Setbacks(site.LimitLines(books))
	return r
}

// site measures a proposal as part of a structure, if it is part of one.
func (b *setup) site(p *site.Proposal, whole *site.Whole) *site.Site {
	project := b.projects.byName[site.DesignOf(p.Of).Key()]
	if project != nil {
		project.Measure(b.layers, b.radius)
	}
	s := site.New(p, b.layers, project, b.radius)
	s.Whole = whole
	return s
}

// decide has the edition of a book decide that the dates call for, and adds what must be
// seen. i is the place of the book among all.
func (b *setup) decide(r *result, i int, book *rules.Book) rules.Decision {
	editions := b.books.Editions[i]
	current, _ := editions.On(b.books.Day)
	facts := dated{r.site, whenStarted(b.books, r.p, editions)}
	d := book.Decide(facts)
	facts.lack(r.harder(i, d.Choice()))
	for _, v := range r.variants {
		of := book.Decide(v)
		switch {
		case of.Choice().Harder(d.Choice()):
			facts.lack([]string{comesOutAs(v.Proposal.ID, of.Choice())})
		case of.Certainty == rules.CloseCall && d.Certainty == rules.Firm:
			facts.lack([]string{fmt.Sprintf("by what %s states a limit of %s is too near to tell: state it better", v.Proposal.ID, of.Path.Title)})
		default:
			facts.lack(of.Lacks)
		}
	}
	if len(r.others)+len(r.variants) > 0 {
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

// lack adds what leaves them open, each once.
func (d *dated) lack(texts []string) {
	for _, text := range texts {
		if !slices.Contains(d.when, text) {
			d.when = append(d.when, text)
		}
	}
}

// harder says which of the others of the structure come to a harder path by a book, told by
// its place among all.
func (r *result) harder(book int, than rules.Choice) []string {
	var out []string
	unnamed := 0
	for _, o := range r.others {
		switch {
		case !o.choices[book].Harder(than):
		case len(out) < mostNamed:
			out = append(out, comesOutAs(o.id, o.choices[book]))
		default:
			unnamed++
		}
	}
	if unnamed > 0 {
		out = append(out, fmt.Sprintf("%d more, with which it is one structure, come out on harder paths: see to the whole", unnamed))
	}
	return out
}

func comesOutAs(id string, c rules.Choice) string {
	if len(c.Lacks) > 0 {
		return fmt.Sprintf("%s, with which it is one structure, comes out as %s for want of this: %s", id, choiceText(c), strings.Join(c.Lacks, "; "))
	}
	return fmt.Sprintf("%s, with which it is one structure, comes out as %s: see to the whole", id, choiceText(c))
}

// pathText is the path of a decision and whether it needs a waiver.
func pathText(d *rules.Decision) string { return choiceText(d.Choice()) }

func choiceText(c rules.Choice) string {
	if c.Waiver {
		return c.Path.ID + waived
	}
	return c.Path.ID
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
