package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// builtInBooks are all editions of all built-in books.
func builtInBooks(t require.TestingT) []*Book {
	var out []*Book
	for _, name := range BuiltInNames() {
		editions, err := BuiltIn(name)
		require.NoError(t, err)
		out = append(out, editions...)
	}
	return out
}

func TestBuiltInBooksLoadAndTheirExamplesPass(t *testing.T) {
	for _, book := range builtInBooks(t) {
		name := book.Name + "/" + book.Edition
		require.Equal(t, name+bookExt, book.period.File, "each edition lies in the folder of its book")
		require.Empty(t, book.Check(), name)
		require.NotEmpty(t, book.Examples, name)
		for _, path := range book.Paths {
			for _, c := range path.Criteria {
				require.NotEmpty(t, c.Says, "%s %s", name, c.ID)
				require.False(t, c.Looked.IsZero(), "%s %s", name, c.ID)
			}
		}
	}
}

// Every limit of a built-in book has examples on both sides of it and at it, and
// no path is idle; what is common practice has nothing to cite.
func TestBuiltInBooksGiveNoWarning(t *testing.T) {
	for _, book := range builtInBooks(t) {
		for _, warning := range book.Warnings() {
			require.Contains(t, warning, "has no citation", "%s/%s", book.Name, book.Edition)
		}
	}
}

func TestBuiltInUnknownNamesTheNearest(t *testing.T) {
	_, err := BuiltIn("us-fl-stat")
	require.EqualError(t, err, `no built-in book "us-fl-stat": did you mean "us-fl-state"?`)
	for _, name := range []string{"", ".", "../book", "us-federal/2026"} {
		_, err = BuiltIn(name)
		require.Error(t, err, name)
	}
}
