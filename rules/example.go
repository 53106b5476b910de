package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Example is a case worked by hand, kept in the book and run by [Book.Check].
// What it does not say about the decision it does not check.
type Example struct {
	Line      int
	Given     map[string]Value // by measure, of any age; any width of opening gets the same value
	Path      string
	Certainty Certainty // empty: not checked
	CouldBe   *string   // nil: not checked
	Waiver    *[]string // ids of criteria in book order; nil: not checked
}

// Measure makes an example a set of facts; what it does not give is unknown.
func (e *Example) Measure(ref Ref) Value {
	if v, ok := e.Given[ref.Measure]; ok {
		return v
	}
	return Value{Unknown: fmt.Sprintf("the example does not give %s", ref.Measure)}
}

// Doubts of an example are none: what it gives is taken for sure.
func (e *Example) Doubts() []string { return nil }

const (
	unknownWord   = "unknown"
	withoutWaiver = " without waiver"
)

func (f *form) example(b *Book, n *yaml.Node) *Example {
	s := f.section(n, "an example", []string{"given", "path"}, []string{"certainty", "could_be", "waiver"})
	e := &Example{
		Line:      n.Line,
		Given:     map[string]Value{},
		Path:      f.text(s, "path"),
		Certainty: Certainty(f.choice(s, "certainty", string(Firm), string(CloseCall), string(NeedsInformation))),
	}
	if given := s.values["given"]; given != nil {
		f.given(e, given)
	}
	path := f.pathNamed(b, s, "path", e.Path)
	if n := s.values["could_be"]; n != nil {
		text := ""
		if n.Value != "" && !isNull(n) || n.Kind != yaml.ScalarNode {
			text = f.text(s, "could_be")
			f.pathNamed(b, s, "could_be", strings.TrimSuffix(text, withoutWaiver))
		}
		e.CouldBe = &text
	}
	if s.values["waiver"] != nil {
		waived := f.waived(path, f.items(s, "waiver"))
		e.Waiver = &waived
	}
	return e
}

func (f *form) pathNamed(b *Book, s section, key, id string) *Path {
	if id == "" {
		return nil
	}
	var known []string
	for _, p := range b.Paths {
		if p.ID == id {
			return p
		}
		known = append(known, p.ID)
	}
	f.add(s.values[key], "the book has no path %q: %s", id, suggest(id, known))
	return nil
}

func (f *form) waived(path *Path, items []*yaml.Node) []string {
	waived := []string{}
	for _, item := range items {
		waived = append(waived, item.Value)
		if path == nil {
			continue
		}
		at := slices.IndexFunc(path.Criteria, func(c *Criterion) bool { return c.ID == item.Value })
		switch {
		case at < 0:
			f.add(item, "path %s has no criterion %q", path.ID, item.Value)
		case path.Criteria[at].WaivableBy == "":
			f.add(item, "criterion %q cannot be waived: nobody is named in waivable_by", item.Value)
		}
	}
	return waived
}

func (f *form) given(e *Example, n *yaml.Node) {
	if n.Kind != yaml.MappingNode {
		f.add(n, `"given" is written as measures with values: {mhw_farthest: 10 ft}`)
		return
	}
	for _, p := range f.pairs(n) {
		measure, ok := FindMeasure(p.key.Value)
		if !ok {
			f.unknownMeasure(p.key, p.key.Value)
			continue
		}
		e.Given[measure.Name] = f.givenValue(measure, p.value)
	}
}

func (f *form) givenValue(m Measure, n *yaml.Node) Value {
	v := Value{Room: math.NaN()}
	if m.Quantity == Names && n.Kind == yaml.SequenceNode {
		v.Names = f.words(n, m.Name)
		return v
	}
	if n.Kind != yaml.ScalarNode || isNull(n) || plain(n.Value) == "" {
		f.add(n, "%s takes one value, or the word unknown", m.Name)
		return v
	}
	word := plain(n.Value)
	switch {
	case word == unknownWord:
		v.Unknown = fmt.Sprintf("the example gives %s as unknown", m.Name)
	case m.Quantity == Word:
		v.Word = strings.TrimSpace(n.Value)
	case m.Quantity == Names:
		switch word {
		case inside:
			v.Names = []string{areaTitle(m.Name)}
		case outside:
		default:
			f.add(n, "an area is given as outside, inside or a list of names")
		}
	default:
		var err error
		if v.Number, _, err = parseQuantity(n.Value, m.Quantity); err != nil {
			f.add(n, "%v", err)
		}
	}
	return v
}

// Check runs the book's examples and returns one message for each that fails.
func (b *Book) Check() []string {
	var failures []string
	for i, e := range b.Examples {
		wrong := e.wrong(b.Decide(e))
		if len(wrong) > 0 {
			failures = append(failures, fmt.Sprintf("example %d (line %d): %s", i+1, e.Line, strings.Join(wrong, "; ")))
		}
	}
	return failures
}

// wrong compares a decision with what the example expects of it.
func (e *Example) wrong(d Decision) []string {
	var wrong []string
	got := ""
	if d.Path != nil {
		got = d.Path.ID
	}
	if got != e.Path {
		wrong = append(wrong, fmt.Sprintf("expected path %s, got %s, %s", e.Path, got, e.decider(d)))
	}
	if e.Certainty != "" && d.Certainty != e.Certainty {
		wrong = append(wrong, fmt.Sprintf("expected certainty %q, got %q", e.Certainty, d.Certainty))
	}
	if e.CouldBe != nil && d.CouldBe != *e.CouldBe {
		wrong = append(wrong, fmt.Sprintf("expected could_be %q, got %q", *e.CouldBe, d.CouldBe))
	}
	if e.Waiver != nil {
		waived := []string{}
		for _, r := range d.Waiver {
			waived = append(waived, r.Criterion.ID)
		}
		if !slices.Equal(waived, *e.Waiver) {
			wrong = append(wrong, fmt.Sprintf("expected waiver [%s], got [%s]", list(*e.Waiver), list(waived)))
		}
	}
	return wrong
}

// decider names the criterion that kept the proposal off the expected path, or,
// where that path was passed by, the tightest on the easier path.
func (e *Example) decider(d Decision) string {
	r := d.Tightest
	for _, blocked := range d.BlockedBy {
		if blocked.Path.ID == e.Path {
			r = blocked
			break
		}
	}
	if r == nil {
		return "with no criterion that decided it"
	}
	value := r.Value.Unknown
	switch {
	case value != "":
	case r.Measure.Quantity == Word:
		value = r.Value.Word
	case r.Measure.Quantity == Names:
		value = "touching [" + list(r.Value.Names) + "]"
	default:
		value = r.Demand.Unit.Format(r.Value.Number)
	}
	return fmt.Sprintf("decided by %s/%s (%s: %s; limit: %s)",
		r.Path.ID, r.Criterion.ID, r.Measure.Name, value, r.Demand.LimitText())
}
