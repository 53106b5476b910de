package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// order is the place of a decision, easiest first.
func order(b *Book, d Decision) int {
	for i, p := range b.Paths {
		if p == d.Path {
			if len(d.Waiver) > 0 {
				return 2*i + 1
			}
			return 2 * i
		}
	}
	return math.MaxInt
}

var accuracies = rapid.Custom(func(t *rapid.T) []Accuracy {
	part := rapid.OneOf(rapid.Float64Range(0, 20), rapid.Just(math.NaN()))
	if rapid.Bool().Draw(t, "own length") {
		return nil
	}
	return []Accuracy{{Of: "the line", Line: part.Draw(t, "line"), Footprint: part.Draw(t, "footprint")}}
})

func drawFacts(t *rapid.T) table {
	length := func(name string, around float64) Value {
		if rapid.IntRange(0, 5).Draw(t, name+" known") == 0 {
			return Value{Unknown: "not mapped"}
		}
		return Value{
			Number:   rapid.Float64Range(around-20, around+20).Draw(t, name) * foot,
			Accuracy: accuracies.Draw(t, name+" accuracy"),
			Bound:    rapid.SampledFrom([]Bound{Exact, Exact, Exact, MoreThan, LessThan}).Draw(t, name+" bound"),
		}
	}
	return table{
		"mhw_farthest": length("reach", 10), "seagrass_nearest": length("grass", 50),
		"mlw_farthest": length("mlw", 30), "bank_length": length("length", 500),
		"material": {Word: rapid.SampledFrom([]string{"", "stone", "tyre"}).Draw(t, "material")},
	}
}

// Making a measured excess smaller never worsens the path.
func TestLessExcessNeverWorsens(t *testing.T) {
	book := load(t, ladder)
	rapid.Check(t, func(t *rapid.T) {
		facts := drawFacts(t)
		before := order(book, book.Decide(facts))
		measure := rapid.SampledFrom([]string{"mhw_farthest", "mlw_farthest", "bank_length", "seagrass_nearest"}).Draw(t, "measure")
		v := facts[measure]
		if v.Bound != Exact {
			t.Skip("a bound is no measured excess")
		}
		by := rapid.Float64Range(0, 30).Draw(t, "by") * foot
		if measure == "seagrass_nearest" {
			by = -by
		}
		v.Number -= by
		facts[measure] = v
		require.LessOrEqual(t, order(book, book.Decide(facts)), before)
	})
}

// What could be is easier than what is, and nothing stays open in a firm decision.
func TestCouldBeIsEasierAndFirmIsFinal(t *testing.T) {
	book := load(t, ladder)
	rapid.Check(t, func(t *rapid.T) {
		d := book.Decide(drawFacts(t))
		if d.CouldBe == d.Path.ID+withoutWaiver {
			require.NotEmpty(t, d.Waiver)
		} else if d.CouldBe != "" {
			easier := 0
			for book.Paths[easier].ID != d.CouldBe {
				easier++
			}
			require.Less(t, 2*easier, order(book, d))
		}
		if d.Certainty == Firm {
			require.Empty(t, d.CouldBe)
		}
		for i := range d.Results {
			r := &d.Results[i]
			require.False(t, r.Holds && r.Outcome == Unknown)
			require.Equal(t, r.Holds || r.Outcome == Unknown, r.Change == "", "a change for what fails, and only for that")
			require.Equal(t, r.Outcome == Unknown, r.Outcome == Unknown && len(r.Doubts) > 0, "an unknown says what to ask")
		}
	})
}
