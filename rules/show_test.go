package rules

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func shown(t require.TestingT, b *Book) string {
	var out strings.Builder
	require.NoError(t, b.Show(&out))
	return out.String()
}

// The page of a book that uses every key, written by hand from its text.
func TestShowSaysEverything(t *testing.T) {
	require.Equal(t, `whole, edition 2
A book with everything

  authority     test
  jurisdiction  Nowhere
  applies       2022-02-25 to 2026-03-14, for work started by then to 2027-03-14 (Rule 0;
                read)
  status        in force
  limits        7, of which 6 do not rest on the rule's own text
                1 read: in the published text
                5 practice: common practice, without a source
                1 unread: known to exist, and read by nobody
  caution       For tests only.
  words         of the kind it knows beside those it compares with: reef ball
  words         of the material it knows beside those it compares with: rock, shell bags

1. general: General permit

   length     The overall length with openings is at most 500 ft.
              May be waived by the engineer.
              > No longer than 500 ft
              Decided by the interpretation: openings counted in.
              Or strict: the overall length with openings is less than 500 ft (less than
                 500 ft; Rule 3; secondary)
              Or bank: the length along the bank is at most 500 ft (along the bank;
                 practice)
              [Rule 3; read, looked at 2026-11-25]

   stand-off  The greatest of the reach of the landward edge from mean high water and
              reach of the landward edge from the wetland is at most 5 ft (on data no
              older than 18 months).
              Only where the fill proposed is no and the distance to wetlands is at most
              30 ft.
              [practice]

   height     The least of the crest height above mean high water and crest height above
              the wetland is at most 6 in.
              [practice]

   gaps       The number of openings lacking is at most 0 (one of at least 5 ft is due
              every 100 ft).
              [practice]

   stuff      The material is none of: tyre, asphalt.
              So the path is for that alone.
              Where the proposal does not state it, it does not stand against it, and is
              asked for.
              [practice]

   Conditions that no map shows
   - Plant what grows here [practice]

   Notices
   - Notify first [Rule 9; memory]

2. relief: Relief permit

   wide  The length along the bank is at most 900 ft.
         [practice]

   rest  Limits on how high it may stand, which nobody has read: so the path is never sure
         to hold.
         [Rule 4; unread]

3. individual: Individual permit

   No criteria: it always holds.

Notices on any path
- Notify the keeper of the preserve [Rule 1; read]
  Only where it is inside preserve.
- NOT VERIFIED: Perhaps a figure of 62 ft [Rule 2; unverified]
`, shown(t, load(t, whole)))
}

func TestShowCountsLimitsByEvidence(t *testing.T) {
	book := load(t, ladder)
	for _, tt := range []struct {
		evidence []Evidence
		says     string
	}{
		{[]Evidence{Read, Read, Read, Read, Read}, "limits        5, of which 0 do not rest on"},
		{[]Evidence{Read, Read, Memory, Read, Read}, "limits        5, of which 1 does not rest on"},
		{[]Evidence{Secondary, Read, Memory, Practice, Read}, "limits        5, of which 3 do not rest on"},
	} {
		for i, path := range book.Paths {
			for k, c := range path.Criteria {
				c.Evidence = tt.evidence[2*i+k]
			}
		}
		require.Contains(t, shown(t, book), tt.says)
	}
	book.Paths = book.Paths[2:]
	require.Contains(t, shown(t, book), "limits        none\n")
}

func TestShowGivesALongIDItsOwnLine(t *testing.T) {
	long := strings.Repeat("long-", 4) + "id"
	page := shown(t, load(t, strings.Replace(ladder, "id: reach", "id: "+long, 1)))
	require.Contains(t, page, "   "+long+"\n                       The farthest reach from mean high water is at most 10 ft.\n")
}

// Nothing a book says is left out, and no line is wider than the page.
func TestShowOfBuiltInBooks(t *testing.T) {
	for _, book := range builtInBooks(t) {
		name := book.Name + "/" + book.Edition
		page := shown(t, book)
		for line := range strings.Lines(page) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), pageWidth, "%s: %s", name, line)
			require.Equal(t, strings.TrimRight(line, " \n")+"\n", line, "%s: blanks at the end", name)
		}
		flat := strings.Join(strings.Fields(page), " ")
		says := func(texts ...string) {
			for _, text := range texts {
				require.Contains(t, flat, strings.Join(strings.Fields(text), " "), name)
			}
		}
		notices := func(notices []*Notice) {
			for _, n := range notices {
				says(n.Says, n.Cite, string(n.Evidence))
			}
		}
		says(book.Title, book.Authority, book.Jurisdiction, book.Edition, book.Period(), string(book.Status), book.Caution)
		for _, words := range book.Words {
			says(words...)
		}
		notices(book.Notices)
		for _, path := range book.Paths {
			says(path.ID + ": " + path.Title)
			for _, u := range path.Unread {
				says(u.ID, u.Says, u.Cite)
			}
			notices(path.Conditions)
			notices(path.Notices)
			for _, c := range path.Criteria {
				says(c.ID, c.LimitText(), c.WaivableBy, c.Says, strings.TrimSuffix(c.Interpretation, "."), c.Cite, c.Looked.Format(dayLayout))
				for _, when := range c.When {
					says(when.String())
				}
				for _, r := range c.Interpretations {
					says(r.ID, r.String(), r.Says, r.Cite)
				}
			}
		}
	}
}

type full struct{ err error }

func (w full) Write([]byte) (int, error) { return 0, w.err }

func TestShowPassesOnTheWritersError(t *testing.T) {
	broken := errors.New("the disk is full")
	require.ErrorIs(t, load(t, ladder).Show(full{broken}), broken)
}
