package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBuiltInBooksLoadAndTheirExamplesPass(t *testing.T) {
	require.Equal(t, []string{"us-federal", "us-fl-lands", "us-fl-state"}, BuiltInNames())
	authorities := map[string]bool{}
	for _, name := range BuiltInNames() {
		book, err := BuiltIn(name)
		require.NoError(t, err)
		require.Equal(t, name, book.Name)
		require.Empty(t, book.Check())
		require.NotEmpty(t, book.Examples)
		authorities[book.Authority] = true
		for _, path := range book.Paths {
			for _, c := range path.Criteria {
				require.NotEmpty(t, c.Says, "%s %s", name, c.ID)
				require.False(t, c.Looked.IsZero(), "%s %s", name, c.ID)
			}
		}
	}
	require.Len(t, authorities, 3, "one column prefix each")
}

func TestBuiltInUnknownNamesTheNearest(t *testing.T) {
	_, err := BuiltIn("us-fl-stat")
	require.EqualError(t, err, `no built-in book "us-fl-stat": did you mean "us-fl-state"?`)
	_, err = BuiltIn("../book")
	require.Error(t, err)
}

// Every numeric limit of a built-in book has an example on each side of it and
// one exactly at it. A limit of no seagrass at all has nothing inside it.
func TestBuiltInExamplesSurroundEveryLimit(t *testing.T) {
	for _, name := range BuiltInNames() {
		book, err := BuiltIn(name)
		require.NoError(t, err)
		for _, path := range book.Paths {
			for _, c := range path.Criteria {
				if !c.Measure.Quantity.numeric() {
					continue
				}
				var below, at, above bool
				for _, e := range book.Examples {
					v, given := e.Given[c.Measure.Name]
					if !given || v.Unknown != "" {
						continue
					}
					below = below || v.Number < c.Limit
					at = at || v.Number == c.Limit
					above = above || v.Number > c.Limit
				}
				require.True(t, at, "%s %s at the limit", name, c.ID)
				require.True(t, above, "%s %s above the limit", name, c.ID)
				require.True(t, below || c.Measure.Name == "seagrass_overlap", "%s %s below the limit", name, c.ID)
			}
		}
	}
}
