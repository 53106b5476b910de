package rules

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

var (
	comparisons = []string{
		string(AtMost), string(AtLeast), string(UnderLimit), string(OverLimit), string(Is), string(NoneOf), string(AnyOf),
	}
	picks      = []string{string(Single), string(Greatest), string(Least)}
	demandKeys = slices.Concat(picks, []string{"with", "max_age"}, comparisons)
)

// when reads the conditions under "when": one, or a list of which all must hold.
func (f *form) when(s section) []*Demand {
	n := s.values["when"]
	if n == nil {
		return nil
	}
	items := []*yaml.Node{n}
	if n.Kind == yaml.SequenceNode {
		if items = n.Content; len(items) == 0 {
			f.add(n, `"when" is empty: write a condition or leave the key out`)
		}
	}
	var out []*Demand
	for _, item := range items {
		d := f.demand(f.section(item, "a condition under when", nil, demandKeys))
		out = append(out, &d)
	}
	return out
}

// demand reads what is compared and with what, from the keys of a section.
func (f *form) demand(s section) Demand {
	var d Demand
	pick, n := f.only(s, picks, "names what it compares")
	comparison, limit := f.only(s, comparisons, "compares once")
	d.Pick = Pick(pick)
	var inputs []Input
	switch {
	case n == nil:
	case d.Pick == Single:
		if name := f.text(s, pick); name != "" {
			inputs = append(inputs, f.input(n, name)...)
		}
	case n.Kind != yaml.SequenceNode || len(n.Content) < 2:
		f.add(n, "%q is a list of two measures or more", pick)
	default:
		for _, item := range n.Content {
			for _, in := range f.input(item, item.Value) {
				inputs = append(inputs, in)
				f.alike(item, in, inputs[0])
			}
		}
	}
	if len(inputs) == 0 {
		return d
	}
	f.age(inputs, s)
	d.Input, d.Others = inputs[0], inputs[1:]
	f.parameters(&d, s)
	if comparison != "" {
		d.Comparison = Comparison(comparison)
		f.limit(&d, limit, s.keys[comparison])
	}
	return d
}

// input finds a measure; none if it is not known.
func (f *form) input(n *yaml.Node, name string) []Input {
	m, ok := FindMeasure(name)
	if !ok {
		f.unknownMeasure(n, name)
		return nil
	}
	return []Input{{m, Ref{Measure: m.Name}}}
}

// alike refuses an input beside the first if the greatest of them would mean
// nothing.
func (f *form) alike(n *yaml.Node, in, first Input) {
	name, quantity := in.Measure.Name, in.Measure.Quantity
	switch {
	case !quantity.numeric():
		f.add(n, "measure %s is no quantity: the greatest or least is taken of quantities", name)
	case len(in.Measure.Parameters) > 0:
		f.add(n, "measure %s takes a parameter and stands alone: write measure: %s", name, name)
	case quantity != first.Measure.Quantity:
		f.add(n, "measure %s is %s and %s is %s: compare like with like",
			first.Measure.Name, first.Measure.Quantity.one(), name, quantity.one())
	}
}

func (f *form) unknownMeasure(n *yaml.Node, name string) {
	if family, area, ok := strings.Cut(name, ":"); ok && family == areaFamily && area != "" {
		f.add(n, "no job can give an area the name %q: write it with lower-case letters, digits and _", area)
		return
	}
	f.add(n, "unknown measure %q: %s", name, suggestMeasure(name))
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

// only returns the one key of a family that a section has.
func (f *form) only(s section, family []string, does string) (string, *yaml.Node) {
	found := ""
	for _, key := range family {
		switch {
		case s.values[key] == nil:
		case found == "":
			found = key
		default:
			f.add(s.keys[key], "%s %s, but this one has %q and %q: make it two", s.title, does, found, key)
		}
	}
	if found == "" && s.at.Kind == yaml.MappingNode {
		f.add(s.at, "%s %s: it needs one of %s", s.title, does, list(family))
	}
	return found, s.values[found]
}

// parameters reads what the measure needs to be told beside its name.
func (f *form) parameters(d *Demand, s section) {
	n := s.values["with"]
	needed := d.Measure.Parameters
	if len(needed) == 0 {
		if n != nil {
			f.add(s.keys["with"], "measure %s takes no parameter: leave %q out", d.Measure.Name, "with")
		}
		return
	}
	if n == nil {
		f.add(s.at, "measure %s needs to be told more: with: {%s}", d.Measure.Name, strings.Join(needed, ": 5 ft, ")+": 5 ft")
		return
	}
	with := f.section(n, "with", needed, nil)
	d.Ref.Opening = f.width(with, OpeningParameter)
	d.Ref.Every = f.width(with, EveryParameter)
}

// width reads a parameter, 0 if it is not there.
func (f *form) width(with section, key string) float64 {
	text := f.text(with, key)
	if text == "" {
		return 0
	}
	width, _, err := parseQuantity(text, Length)
	switch {
	case err != nil:
		f.add(with.values[key], "%v", err)
	case width <= 0:
		f.add(with.values[key], "%q is a length of more than 0", key)
	}
	return width
}

// age reads how old the layers behind the inputs may be. An input that rests on
// none beside one that does is of any age.
func (f *form) age(inputs []Input, s section) {
	text := f.text(s, "max_age")
	if text == "" {
		return
	}
	age, err := ParseAge(text)
	if err != nil {
		f.add(s.values["max_age"], "%v", err)
	}
	if !slices.ContainsFunc(inputs, func(in Input) bool { return in.Measure.Dated }) {
		f.add(s.keys["max_age"], "measure %s has no layer's date to judge: leave %q out", inputs[0].Measure.Name, "max_age")
	}
	for i := range inputs {
		inputs[i].Ref.MaxAge = age
	}
}

// oneOfFew refuses a word that the measure can never be.
func (f *form) oneOfFew(d *Demand, n *yaml.Node) {
	for _, word := range d.Words {
		if few := d.Measure.Words; len(few) > 0 && !slices.Contains(few, plain(word)) {
			f.add(n, "measure %s is never %q: it is %s", d.Measure.Name, word, strings.Join(few, " or "))
		}
	}
}

// limit reads what the measure is compared with.
func (f *form) limit(d *Demand, n, key *yaml.Node) {
	byWord := d.Comparison == Is || d.Comparison == NoneOf || d.Comparison == AnyOf
	quantity := d.Measure.Quantity
	switch {
	case byWord && quantity.numeric():
		f.add(key, "measure %s is %s: compare it with at_most, at_least, less_than or more_than", d.Measure.Name, quantity.one())
	case !byWord && !quantity.numeric():
		f.add(key, "measure %s is no quantity: compare it with is, none_of or any_of", d.Measure.Name)
	case d.Comparison == NoneOf || d.Comparison == AnyOf:
		d.Words = f.words(n, key.Value)
		f.oneOfFew(d, n)
	case n.Kind != yaml.ScalarNode || isNull(n) || plain(n.Value) == "":
		f.add(n, "%q takes one value", key.Value)
	case d.Comparison == Is:
		word := plain(n.Value)
		if quantity == Names && word != outside && word != inside {
			f.add(n, "an area is outside or inside; for names use none_of or any_of with a list")
		}
		d.Words = []string{word}
		f.oneOfFew(d, n)
	default:
		var err error
		if d.Limit, d.Unit, err = parseQuantity(n.Value, quantity); err != nil {
			f.add(n, "%v", err)
		}
		if strings.Contains(n.Value, "/") && quantity == Ratio {
			d.Fraction = strings.TrimSpace(n.Value)
		}
	}
}
