package rules

import (
	"slices"

	"go.yaml.in/yaml/v4"
)

// book reads the whole document. Problems go to the form; the result is only
// good if there are none.
func (f *form) book(n *yaml.Node) *Book {
	s := f.section(n, "a book",
		[]string{"book", "title", "authority", "jurisdiction", "edition", "in_force", "status", "caution", "paths"},
		[]string{"work_started", "words", "notices", "examples"})
	b := &Book{
		Name:         f.id(s, "book"),
		Title:        f.text(s, "title"),
		Authority:    f.text(s, "authority"),
		Jurisdiction: f.text(s, "jurisdiction"),
		Edition:      f.text(s, "edition"),
		Status:       Status(f.choice(s, "status", string(InForce), string(Pending), string(Inoperative))),
		Caution:      f.text(s, "caution"),
	}
	if b.Authority != "" && !wordForm.MatchString(b.Authority) {
		f.add(s.values["authority"], "%q cannot begin the name of a column: write a lower-case word", b.Authority)
	}
	if period := s.values["in_force"]; period != nil {
		f.period(b, period)
	}
	if started := s.values["work_started"]; started != nil {
		f.carried(b, started)
	}
	if words := s.values["words"]; words != nil {
		f.known(b, words)
	}
	f.paths(b, s)
	b.Notices = f.notices(s, "notices", true)
	b.familiarise()
	for _, item := range f.items(s, "examples") {
		b.Examples = append(b.Examples, f.example(b, item))
	}
	return b
}

func (f *form) period(b *Book, n *yaml.Node) {
	s := f.section(n, "in_force", []string{"from", "until"}, nil)
	b.period = Problem{File: f.file, Line: n.Line, Column: n.Column}
	b.From, b.Until = f.day(s, "from"), f.day(s, "until")
	if !b.From.IsZero() && !b.Until.IsZero() && b.Until.Before(b.From) {
		f.add(s.values["until"], "until is before from: write the last day in force, or null")
	}
}

// carried reads how long work goes on under the book after its last day.
func (f *form) carried(b *Book, n *yaml.Node) {
	s := f.section(n, "work_started", []string{"until", "evidence"}, []string{"cite"})
	b.Started = &Carried{Until: f.day(s, "until")}
	b.Started.Cite, b.Started.Evidence = f.source(s)
	f.verified(s, b.Started.Evidence)
	switch {
	case s.values["until"] == nil:
	case b.Started.Until.IsZero():
		f.add(s.values["until"], "work_started needs the last day to which such work goes on")
	case b.Until.IsZero():
		f.add(n, "work_started says what holds after the book's last day, but in_force has none: give in_force its until")
	case !b.Started.Until.After(b.Until):
		f.add(s.values["until"], "work started under the book goes on past its last day, %s: give a later day", b.Until.Format(dayLayout))
	}
}

// known reads the words that the book knows beside those it compares with.
func (f *form) known(b *Book, n *yaml.Node) {
	var measured []string
	for _, m := range measures {
		if m.Quantity == Word && len(m.Words) == 0 {
			measured = append(measured, m.Name)
		}
	}
	s := f.section(n, "words", nil, measured)
	b.Words = map[string][]string{}
	for name, list := range s.values {
		b.Words[name] = f.words(list, name)
	}
}

func (f *form) paths(b *Book, s section) {
	items := f.items(s, "paths")
	if n := s.values["paths"]; n != nil && n.Kind == yaml.SequenceNode && len(items) == 0 {
		f.add(n, "a book needs at least one path: the last, without criteria, always holds")
	}
	seen := map[string]int{}
	for i, item := range items {
		path, ps := f.path(item)
		f.unique(seen, ps, path.ID, "path")
		last := i == len(items)-1
		switch criteria := ps.values["criteria"]; {
		case criteria == nil || criteria.Kind != yaml.SequenceNode:
		case last && ps.values["unread"] != nil:
			f.add(ps.keys["unread"], "the last path always holds, so nothing of it can be unread: take it out")
		case last && len(criteria.Content) > 0:
			f.add(criteria, "the last path has criteria: end the book with a path that has none (criteria: []) and always holds")
		case !last && len(criteria.Content) == 0:
			f.add(criteria, "a path without criteria always holds, so the paths after it are never reached: put it last")
		}
		b.Paths = append(b.Paths, path)
	}
}

// unique reports an id that came before in the same list.
func (f *form) unique(seen map[string]int, s section, id, what string) {
	if id == "" {
		return
	}
	if line, ok := seen[id]; ok {
		f.add(s.values["id"], "%s %q is already in line %d: give each its own id", what, id, line)
		return
	}
	seen[id] = s.values["id"].Line
}

func (f *form) path(n *yaml.Node) (*Path, section) {
	s := f.section(n, "a path", []string{"id", "title", "criteria"}, []string{"unread", "conditions", "notices"})
	p := &Path{ID: f.id(s, "id"), Title: f.text(s, "title")}
	seen := map[string]int{}
	for _, item := range f.items(s, "criteria") {
		c, cs := f.criterion(item)
		f.unique(seen, cs, c.ID, "criterion")
		p.Criteria = append(p.Criteria, c)
	}
	for _, item := range f.items(s, "unread") {
		us := f.section(item, "an unread limit", []string{"id", "says", "cite"}, nil)
		u := &UnreadLimit{ID: f.id(us, "id"), Says: f.text(us, "says"), Cite: f.text(us, "cite")}
		f.unique(seen, us, u.ID, "criterion")
		p.Unread = append(p.Unread, u)
	}
	p.Conditions = f.notices(s, "conditions", false)
	p.Notices = f.notices(s, "notices", true)
	return p, s
}

// notices reads a list of them; conditions of a path have no when.
func (f *form) notices(s section, key string, conditional bool) []*Notice {
	title, optional := "a condition", []string{"cite"}
	if conditional {
		title, optional = "a notice", []string{"cite", "when"}
	}
	var out []*Notice
	for _, item := range f.items(s, key) {
		ns := f.section(item, title, []string{"says", "evidence"}, optional)
		n := &Notice{Says: f.text(ns, "says"), When: f.when(ns)}
		n.Cite, n.Evidence = f.source(ns)
		if slices.ContainsFunc(n.When, func(d *Demand) bool { return d.Ref.MaxAge.Months > 0 }) {
			f.add(ns.keys["when"], "a notice is shown on data of any age: leave %q out", "max_age")
		}
		if !conditional {
			f.verified(ns, n.Evidence)
		}
		out = append(out, n)
	}
	return out
}

// verified refuses what rests on a figure too doubtful for it.
func (f *form) verified(s section, e Evidence) {
	if e == Unverified {
		f.add(s.values["evidence"], "%s cannot rest on an unverified figure: make it a notice", s.title)
	}
}

// source reads where a limit comes from. Only common practice has no place to cite.
func (f *form) source(s section) (cite string, evidence Evidence) {
	evidence = Evidence(f.choice(s, "evidence", evidences...))
	cite = f.text(s, "cite")
	if evidence != "" && evidence != Practice && s.values["cite"] == nil {
		f.add(s.at, `%s needs the key "cite" unless its evidence is practice`, s.title)
	}
	return cite, evidence
}

var evidences = []string{string(Read), string(Secondary), string(Practice), string(Memory), string(Unverified)}

// criterionKeys are the keys a criterion may have beside those of its demand.
var criterionKeys = []string{"when", "scope", "if_stated", "interpretation", "interpretations", "waivable_by", "cite", "says", "looked"}

func (f *form) criterion(n *yaml.Node) (*Criterion, section) {
	s := f.section(n, "a criterion", []string{"id", "evidence"}, slices.Concat(demandKeys, criterionKeys))
	c := &Criterion{
		Demand:         f.demand(s),
		ID:             f.id(s, "id"),
		When:           f.when(s),
		Scope:          f.choice(s, "scope", "true", "false") == "true",
		IfStated:       f.choice(s, "if_stated", "true", "false") == "true",
		Interpretation: f.text(s, "interpretation"),
		WaivableBy:     f.text(s, "waivable_by"),
		Says:           f.text(s, "says"),
		Looked:         f.day(s, "looked"),
	}
	if c.IfStated && c.Measure.Name != "" && !c.Measure.Stated {
		f.add(s.keys["if_stated"], "measure %s is not a word that a proposal states: leave %q out", c.Measure.Name, "if_stated")
	}
	c.Cite, c.Evidence = f.source(s)
	f.verified(s, c.Evidence)
	seen := map[string]int{}
	for _, item := range f.items(s, "interpretations") {
		rs := f.section(item, "an interpretation", []string{"id", "says", "evidence"}, append([]string{"cite"}, demandKeys...))
		r := &Interpretation{Demand: f.demand(rs), ID: f.id(rs, "id"), Says: f.text(rs, "says")}
		r.Cite, r.Evidence = f.source(rs)
		f.unique(seen, rs, r.ID, "interpretation")
		c.Interpretations = append(c.Interpretations, r)
	}
	if len(c.Interpretations) > 0 && s.values["interpretation"] == nil {
		f.add(s.keys["interpretations"], `where a wording has several interpretations, the one that decides is named: interpretation: "what it takes the words to mean"`)
	}
	return c, s
}
