package rules

import (
	"io/fs"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzLoad: whatever the bytes, loading neither panics nor gives a book that
// cannot decide, and every problem has a place.
func FuzzLoad(f *testing.F) {
	for _, seed := range []string{
		ladder + examples,
		"",
		"book: [a",
		"book: &a [*a]\n",
		"a: &a [x]\nb: &b [*a, *a]\nc: [*b, *b]\n",
		"book: a\n---\nbook: b\n",
		"<<: {book: a}\n",
		"? {a: b}\n: c\n",
		"book: !!int x\n",
		"paths: [{id: a, title: b, criteria: [{measure: openings, with: {opening: 1/0}, at_most: 99999999999999}]}]\n",
		"examples: [{given: {in_area:x: [a], waterway_share: 1/0}, path: a, waiver: {}}]\n",
		strings.Repeat("- ", 20_000),
		strings.Repeat("{a: ", 5000),
		"\xef\xbb\xbfbook: a\n",
		"book: \x00\n",
	} {
		f.Add([]byte(seed))
	}
	books, err := fs.Glob(builtIn, booksDir+"/*/*"+bookExt)
	require.NoError(f, err)
	for _, name := range books {
		text, err := fs.ReadFile(builtIn, name)
		require.NoError(f, err)
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		book, err := Load("fuzz.yaml", strings.NewReader(string(text)))
		if err != nil {
			var found *LoadError
			require.ErrorAs(t, err, &found)
			require.NotEmpty(t, found.Problems)
			for _, p := range found.Problems {
				require.Positive(t, p.Line)
				require.Positive(t, p.Column)
			}
			return
		}
		edge := 1.0
		for _, v := range []Value{
			{},
			{Unknown: "not mapped"},
			{Number: 1e300, Room: math.NaN(), Edge: &edge, Narrow: []float64{1}, Names: []string{"a"}, Word: "a"},
			{Number: math.Inf(-1), Bound: LessThan, Whole: 3, Accuracy: []Accuracy{{Line: math.NaN()}}},
			{Number: -1, Bound: MoreThan, Accuracy: []Accuracy{{Line: 1, Footprint: 1, Bias: 1}}},
		} {
			d := book.Decide(same{v})
			require.NotNil(t, d.Path)
		}
		book.Check()
	})
}

// same gives every measure one value.
type same struct{ value Value }

func (s same) Measure(Ref) Value { return s.value }

func (s same) Doubts() []string { return nil }

// judged applies a criterion to one value, whatever it asks for.
func judged(c *Criterion, v Value) Result { return judge(nil, c, same{v}) }
