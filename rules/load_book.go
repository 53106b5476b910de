package rules

import (
	"go.yaml.in/yaml/v4"
)

// book reads the whole document. Problems go to the form; the result is only
// good if there are none.
func (f *form) book(n *yaml.Node) *Book {
	s := f.section(n, "a book",
		[]string{"book", "title", "authority", "jurisdiction", "edition", "in_force", "status", "caution", "paths"},
		[]string{"examples"})
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
	f.paths(b, s)
	for _, item := range f.items(s, "examples") {
		b.Examples = append(b.Examples, f.example(b, item))
	}
	return b
}

func (f *form) period(b *Book, n *yaml.Node) {
	s := f.section(n, "in_force", []string{"from", "until"}, nil)
	b.From, b.Until = f.day(s, "from"), f.day(s, "until")
	if !b.From.IsZero() && !b.Until.IsZero() && b.Until.Before(b.From) {
		f.add(s.values["until"], "until is before from: write the last day in force, or null")
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
	s := f.section(n, "a path", []string{"id", "title", "criteria"}, []string{"notices"})
	p := &Path{ID: f.id(s, "id"), Title: f.text(s, "title")}
	seen := map[string]int{}
	for _, item := range f.items(s, "criteria") {
		c, cs := f.criterion(item)
		f.unique(seen, cs, c.ID, "criterion")
		p.Criteria = append(p.Criteria, c)
	}
	for _, item := range f.items(s, "notices") {
		ns := f.section(item, "a notice", []string{"says", "evidence"}, []string{"cite"})
		notice := Notice{Says: f.text(ns, "says")}
		notice.Cite, notice.Evidence = f.source(ns)
		p.Notices = append(p.Notices, notice)
	}
	return p, s
}

// source reads where a limit comes from. Only common practice has no place to cite.
func (f *form) source(s section) (cite string, evidence Evidence) {
	evidence = Evidence(f.choice(s, "evidence", string(Read), string(Secondary), string(Practice), string(Memory)))
	cite = f.text(s, "cite")
	if evidence != "" && evidence != Practice && s.values["cite"] == nil {
		f.add(s.at, `%s needs the key "cite" unless its evidence is practice`, s.title)
	}
	return cite, evidence
}

var comparisons = []string{
	string(AtMost), string(AtLeast), string(UnderLimit), string(OverLimit), string(Is), string(NoneOf), string(AnyOf),
}

func (f *form) criterion(n *yaml.Node) (*Criterion, section) {
	s := f.section(n, "a criterion", []string{"id", "measure", "evidence"},
		append([]string{"with", "waivable_by", "cite", "says", "looked"}, comparisons...))
	c := &Criterion{
		ID:         f.id(s, "id"),
		WaivableBy: f.text(s, "waivable_by"),
		Says:       f.text(s, "says"),
		Looked:     f.day(s, "looked"),
	}
	c.Cite, c.Evidence = f.source(s)
	name := f.text(s, "measure")
	measure, ok := FindMeasure(name)
	if name != "" && !ok {
		f.add(s.values["measure"], "unknown measure %q: %s", name, suggestMeasure(name))
	}
	comparison := f.onlyComparison(s)
	if !ok {
		return c, s
	}
	c.Measure, c.Ref = measure, Ref{Measure: measure.Name}
	f.opening(c, s)
	if comparison != "" {
		c.Comparison = Comparison(comparison)
		f.limit(c, s.values[comparison], s.keys[comparison])
	}
	return c, s
}

func suggestMeasure(name string) string {
	var known []string
	for _, m := range measures {
		if m.Name == areaFamily {
			known = append(known, areaFamily+":NAME")
			continue
		}
		known = append(known, m.Name)
	}
	return suggest(name, known)
}

func (f *form) onlyComparison(s section) string {
	found := ""
	for _, key := range comparisons {
		switch {
		case s.values[key] == nil:
		case found == "":
			found = key
		default:
			f.add(s.keys[key], "a criterion compares once, but this one has %q and %q: make it two criteria", found, key)
		}
	}
	if found == "" && s.at.Kind == yaml.MappingNode {
		f.add(s.at, "a criterion needs one comparison: %s", list(comparisons))
	}
	return found
}

// opening reads the width that counts as an opening.
func (f *form) opening(c *Criterion, s section) {
	n := s.values["with"]
	if c.Measure.Parameter == "" {
		if n != nil {
			f.add(s.keys["with"], "measure %s takes no parameter: leave %q out", c.Measure.Name, "with")
		}
		return
	}
	if n == nil {
		f.add(s.at, "measure %s needs the width that counts: with: {opening: 5 ft}", c.Measure.Name)
		return
	}
	with := f.section(n, "with", []string{c.Measure.Parameter}, nil)
	text := f.text(with, c.Measure.Parameter)
	if text == "" {
		return
	}
	width, _, err := parseQuantity(text, Length)
	switch {
	case err != nil:
		f.add(with.values[c.Measure.Parameter], "%v", err)
	case width <= 0:
		f.add(with.values[c.Measure.Parameter], "an opening that counts is wider than 0")
	}
	c.Ref.Opening = width
}

// limit reads what the measure is compared with.
func (f *form) limit(c *Criterion, n, key *yaml.Node) {
	byWord := c.Comparison == Is || c.Comparison == NoneOf || c.Comparison == AnyOf
	quantity := c.Measure.Quantity
	switch {
	case byWord && quantity.numeric():
		f.add(key, "measure %s is %s: compare it with at_most, at_least, less_than or more_than", c.Measure.Name, quantity.one())
	case !byWord && !quantity.numeric():
		f.add(key, "measure %s is no quantity: compare it with is, none_of or any_of", c.Measure.Name)
	case c.Comparison == NoneOf || c.Comparison == AnyOf:
		c.Words = f.words(n, key.Value)
	case n.Kind != yaml.ScalarNode || isNull(n) || plain(n.Value) == "":
		f.add(n, "%q takes one value", key.Value)
	case c.Comparison == Is:
		word := plain(n.Value)
		if quantity == Names && word != outside && word != inside {
			f.add(n, "an area is outside or inside; for names use none_of or any_of with a list")
		}
		c.Words = []string{word}
	default:
		var err error
		if c.Limit, c.Unit, err = parseQuantity(n.Value, quantity); err != nil {
			f.add(n, "%v", err)
		}
	}
}
