package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawCriteria draws criteria on one subject, so that they often meet.
func drawCriteria(subject []string) *rapid.Generator[[]string] {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) string {
		return rapid.SampledFrom(subject).Draw(t, "demand") +
			rapid.SampledFrom([]string{"", "", "", ", when: {measure: mlw_farthest, at_most: 10 ft}", ", when: {measure: kind, is: a}",
				", when: [{measure: kind, is: a}, {measure: mlw_farthest, at_most: 10 ft}]"}).Draw(t, "when") +
			rapid.SampledFrom([]string{"", "", ", waivable_by: us"}).Draw(t, "waiver")
	}), 1, 3)
}

var subjects = [][]string{
	{"measure: mhw_farthest, at_most: 9 ft", "measure: mhw_farthest, at_most: 10 ft", "measure: mhw_farthest, less_than: 10 ft",
		"measure: mhw_farthest, at_least: 10 ft", "measure: mhw_farthest, more_than: 9 ft"},
	{"greatest_of: [mhw_farthest, mlw_farthest], at_most: 9 ft", "greatest_of: [mhw_farthest, mlw_farthest], less_than: 10 ft",
		"least_of: [mhw_farthest, mlw_farthest], at_most: 9 ft", "least_of: [mhw_farthest, mlw_farthest], at_least: 10 ft"},
	{"measure: openings, with: {opening: 5 ft}, more_than: 1", "measure: openings, with: {opening: 5 ft}, less_than: 2",
		"measure: openings, with: {opening: 5 ft}, at_least: 2", "measure: openings, with: {opening: 5 ft}, at_most: 3"},
	{"measure: kind, is: a", "measure: kind, any_of: [a, b]", "measure: kind, any_of: [b, c]", "measure: kind, none_of: [a]", "measure: kind, none_of: [b, a]",
		"measure: kind, is: a, if_stated: true", "measure: kind, none_of: [c], if_stated: true"},
	{"measure: in_area:x, is: inside", "measure: in_area:x, is: outside", "measure: in_area:x, any_of: [a]", "measure: in_area:x, any_of: [a, b]",
		"measure: in_area:x, any_of: [b, c]", "measure: in_area:x, none_of: [a]", "measure: in_area:x, none_of: [a, b]"},
}

func drawCornerFacts(t *rapid.T) table {
	facts := table{}
	for _, name := range []string{"mhw_farthest", "mlw_farthest", "openings", "kind", "in_area:x"} {
		if rapid.IntRange(0, 5).Draw(t, name+" known") == 0 {
			continue
		}
		v := Value{}
		switch name {
		case "kind":
			v.Word = rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, name)
		case "in_area:x":
			v.Names = rapid.SampledFrom([][]string{nil, {"a"}, {"b"}, {"a", "b"}, {"c"}}).Draw(t, name)
			if rapid.Bool().Draw(t, "edge") {
				v.Edge, v.Accuracy = metres(0.5), stated(3, 1)
			}
		case "openings":
			v.Number = float64(rapid.IntRange(0, 3).Draw(t, name))
		default:
			v.Number = rapid.SampledFrom([]float64{8, 8.99, 9, 9.995, 10, 10.005, 11}).Draw(t, name) * foot
			v.Bound = rapid.SampledFrom([]Bound{Exact, Exact, MoreThan, LessThan}).Draw(t, name+" bound")
			v.Accuracy = accuracies.Draw(t, name+" accuracy")
		}
		facts[name] = v
	}
	return facts
}

// Whatever the facts, no decision is a path said to be out of reach, and nothing
// meets two criteria said to contradict each other.
func TestWarningsAreSure(t *testing.T) {
	unreached, contradictory := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		criteria := drawCriteria(rapid.SampledFrom(subjects).Draw(t, "subject"))
		book := pathsBook(t, "", criteria.Draw(t, "first"), criteria.Draw(t, "second"))
		warnings := book.Warnings()
		never := len(about(warnings, "never reached")) > 0
		if never {
			unreached++
		}
		for range 200 {
			d := book.Decide(drawCornerFacts(t))
			require.False(t, never && d.Path.ID == "p2", "%v", warnings)
		}
		for _, path := range book.Paths {
			for i, c := range path.Criteria {
				for _, o := range path.Criteria[:i] {
					if !c.contradicts(o) {
						continue
					}
					contradictory++
					for range 200 {
						facts := drawCornerFacts(t)
						a, b := apply(&c.Demand, facts), apply(&o.Demand, facts)
						require.False(t, a.Holds && b.Holds, "%v", warnings)
					}
				}
			}
		}
	})
	require.Positive(t, unreached)
	require.Positive(t, contradictory)
}
