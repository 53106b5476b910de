package rules

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// kindOf are facts of which only the kind is known.
func kindOf(word string) table { return table{"kind": {Word: word}} }

// A path that is for certain structures lists them: what it does not list is on none
// of the easy paths, whatever else is known, and a word that is nobody's leaves all
// open. A setback from channels is for any structure.
func TestBooksListTheKindsOfTheirPaths(t *testing.T) {
	for _, book := range builtInBooks(t) {
		if book.Name == "us-channel-setback" {
			continue
		}
		last := book.Paths[len(book.Paths)-1]
		for _, path := range book.Paths[:len(book.Paths)-1] {
			at := slices.IndexFunc(path.Criteria, func(c *Criterion) bool { return c.Measure.Name == "kind" })
			require.GreaterOrEqual(t, at, 0, "%s %s", book.Name, path.ID)
			require.Equal(t, AnyOf, path.Criteria[at].Comparison, "%s %s", book.Name, path.ID)
			require.True(t, path.Criteria[at].Scope, "%s %s", book.Name, path.ID)
		}
		for _, kind := range []string{"dock", "Jetty", "pier", "mooring", "marina", "boat ramp"} {
			d := book.Decide(kindOf(kind))
			require.Equal(t, last.ID, d.Path.ID, "%s %s", book.Name, kind)
			require.Equal(t, Firm, d.Certainty, "%s %s", book.Name, kind)
			require.Empty(t, d.BlockedBy, "%s %s: the other paths are for other things", book.Name, kind)
		}
		for _, kind := range []string{"mooring field", "shore thing"} {
			require.Equal(t, NeedsInformation, book.Decide(kindOf(kind)).Certainty, "%s %s", book.Name, kind)
		}
	}
}

// Words are told by their letters alone.
func TestSpellingsOfAKindAreOne(t *testing.T) {
	lands := editionOf(t, "us-fl-lands", "2019")
	for spelling, path := range map[string]string{"sea wall": "shore-protection", "Rip-Rap": "shore-protection", "REEF": "riparian-setback"} {
		d := lands.Decide(given(besideLine, table{"kind": {Word: spelling}, "fill_proposed": {Word: "no"}, "mhw_nearest": {}}))
		require.Equal(t, path, d.Path.ID, spelling)
		require.Equal(t, Firm, d.Certainty, spelling)
	}
}

// What the rules name as unfit, and what nobody would take for fit, each for sure; and
// words that no book knows, never for sure. Worked by hand from the rules' lists.
func TestMaterialsOfTheBooks(t *testing.T) {
	state, virginia := editionOf(t, "us-fl-state", "2024"), editionOf(t, "us-va-state", "2017")
	bags := table{
		"kind": {Word: "sill"}, "material": {Word: "shell bags"}, "fetch": lengthOf(1000), "fill_proposed": {Word: "no"},
		"crest_above_mhw": inchesOf(-6), "mlw_farthest": lengthOf(-6), "wetland_overlap": {},
	}
	for _, tt := range []struct {
		book      *Book
		facts     table
		word      string
		path      string
		certainty Certainty
	}{
		{state, smallReef, "Oyster shell", "exemption", Firm},
		{state, smallReef, "limestone rock", "exemption", Firm},
		{state, smallReef, "bagged oyster shell", "exemption", Firm},
		{state, smallReef, "untreated lumber", "individual", Firm},
		{state, smallReef, "tire bales", "individual", Firm},
		{state, smallReef, "coir logs", "individual", Firm},
		{state, smallReef, "slag", "individual", NeedsInformation},
		{virginia, bags, "shell bags", "group-1", Firm},
		{virginia, bags, "coir mats", "group-1", Firm},
		{virginia, groupTwoSill, "asphalt rubble", "individual", Firm},
		{virginia, groupTwoSill, "tire bales", "individual", Firm},
		{virginia, groupTwoSill, "rock", "individual", NeedsInformation},
		{virginia, groupTwoSill, "slag", "individual", NeedsInformation},
		{virginia, given(bags, kindOf("bulkhead")), "shell bags", "individual", Firm},
	} {
		d := tt.book.Decide(given(tt.facts, table{"material": {Word: tt.word}}))
		require.Equal(t, tt.path, d.Path.ID, "%s: %s", tt.book.Name, tt.word)
		require.Equal(t, tt.certainty, d.Certainty, "%s: %s", tt.book.Name, tt.word)
	}
}

// Virginia's group 2 has limits on height, openings and length that nobody has read: a
// sill of 1,500 ft, 6 ft over mean high water, is not known to keep them.
func TestWhatIsUnreadIsNeverFirm(t *testing.T) {
	d := editionOf(t, "us-va-state", "2017").Decide(given(groupTwoSill, table{"overall_length": lengthOf(1500), "crest_above_mhw": lengthOf(6)}))
	require.Equal(t, "individual", d.Path.ID)
	require.Equal(t, "group-2", d.CouldBe)
	require.Equal(t, NeedsInformation, d.Certainty)
	require.Equal(t, []string{"there are limits on the height of the sill, its openings and its length (4VAC20-1330-40, items 6 and following), and nobody here has read them: have that text read, and show that they are kept"}, d.Lacks)
}

// The limits that are known to exist and were not read, by the notes on the rules.
func TestUnreadLimitsOfTheBooks(t *testing.T) {
	want := map[string]string{
		"us-fl-state/2024/oyster-habitat": "F.A.C. 62-330.632(2)(d) and following",
		"us-va-state/2017/group-2":        "4VAC20-1330-40, items 6 and following",
		"us-nc-state/2019/marsh-sill":     "15A NCAC 07H .2705 as amended in 2019",
		"us-channel-setback/2013/clear":   "the Jacksonville District setback guidance as revised in 2013",
	}
	got := map[string]string{}
	for _, book := range builtInBooks(t) {
		for _, path := range book.Paths {
			for _, u := range path.Unread {
				got[strings.Join([]string{book.Name, book.Edition, path.ID}, "/")] = u.Cite
			}
		}
	}
	require.Equal(t, want, got)
}

// FL-AP-02, worked by hand: in an aquatic preserve no seawall and no fill stand
// waterward of mean high water. Whether the place is in one matters for those alone.
func TestAquaticPreservesOfFlorida(t *testing.T) {
	lands := editionOf(t, "us-fl-lands", "2019")
	unmapped := Value{Unknown: "no preserve is mapped"}
	wall := given(besideLine, table{"kind": {Word: "seawall"}, "mhw_farthest": lengthOf(3), "mhw_nearest": {}, "fill_proposed": {Word: "no"}})
	reef := given(besideLine, table{"fill_proposed": {Word: "no"}})
	for _, tt := range []struct {
		name      string
		facts     table
		preserve  Value
		path      string
		certainty Certainty
	}{
		{"a seawall outside", wall, Value{}, "shore-protection", Firm},
		{"a seawall inside", wall, touched, "board-review", Firm},
		{"a bulkhead inside", given(wall, kindOf("bulkhead")), touched, "board-review", Firm},
		{"a seawall landward of mean high water", given(wall, table{"mhw_farthest": lengthOf(-3)}), touched, "shore-protection", Firm},
		{"a seawall, preserves not mapped", wall, unmapped, "board-review", NeedsInformation},
		{"riprap inside", given(wall, kindOf("riprap")), touched, "shore-protection", Firm},
		{"a reef inside", reef, touched, "riparian-setback", Firm},
		{"a reef, preserves not mapped", reef, unmapped, "riparian-setback", Firm},
		{"a reef with fill inside", given(reef, table{"fill_proposed": {Word: "yes"}}), touched, "board-review", Firm},
		{"a reef with fill, preserves not mapped", given(reef, table{"fill_proposed": {Word: "yes"}}), unmapped, "board-review", NeedsInformation},
		{"a reef inside, fill not stated", given(reef, table{"fill_proposed": {}}), touched, "riparian-setback", NeedsInformation},
		{"a reef outside, fill not stated", given(reef, table{"fill_proposed": {}}), Value{}, "riparian-setback", Firm},
	} {
		d := lands.Decide(given(tt.facts, table{"in_area:aquatic_preserve": tt.preserve}))
		require.Equal(t, tt.path, d.Path.ID, tt.name)
		require.Equal(t, tt.certainty, d.Certainty, tt.name)
	}
}

// Notices stand side by side, parted by semicolons, so none holds one.
func TestNoticesOfTheBooksHoldNoSemicolon(t *testing.T) {
	for _, book := range builtInBooks(t) {
		notices := slices.Clone(book.Notices)
		for _, path := range book.Paths {
			notices = append(notices, path.Notices...)
		}
		for _, n := range notices {
			require.NotContains(t, n.Says, ";", book.Name)
		}
	}
}
