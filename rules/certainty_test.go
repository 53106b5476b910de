package rules

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the decision lacks is said once each, that of paths closed for sure left out.
func TestLacksAreRequests(t *testing.T) {
	book := load(t, ladder)
	facts := doubted{table{
		"mhw_farthest": {Number: 20 * foot}, "seagrass_nearest": {Unknown: "no seagrass is mapped"},
		"mlw_farthest": {Number: 10 * foot, Doubts: []Doubt{{Says: "the low water line is of 1950"}}},
		"bank_length":  {Number: 90 * foot, Doubts: []Doubt{{Says: "the low water line is of 1950"}}}, "material": {Word: "stone"},
	}, []string{"say whether it is one with LS-2"}}
	d := book.Decide(facts)
	require.Equal(t, "general", d.Path.ID)
	require.Equal(t, NeedsInformation, d.Certainty)
	require.Equal(t, []string{"say whether it is one with LS-2", "the low water line is of 1950"}, d.Lacks)
	facts.table["mhw_farthest"] = Value{Number: 5 * foot}
	require.Equal(t, []string{"say whether it is one with LS-2", "no seagrass is mapped", "the low water line is of 1950"}, book.Decide(facts).Lacks)
	facts.table["material"] = Value{Word: "slag"}
	require.Contains(t, book.Decide(facts).Lacks, `the material "slag" is none of the words of the rule book: name it by one of stone, tyre`)
}

// The decision rests on the weakest of what decides it: all of its own path, and the
// best of what keeps it off each easier one.
func TestRestsOn(t *testing.T) {
	text := strings.NewReplacer(
		"at_most: 10 ft, evidence: practice", "at_most: 10 ft, cite: R, evidence: memory",
		"at_least: 50 ft, evidence: practice", "at_least: 50 ft, cite: R, evidence: read",
		"at_most: 30 ft, waivable_by: the engineer, evidence: practice", "at_most: 30 ft, waivable_by: the engineer, cite: R, evidence: secondary",
		"at_most: 500 ft, waivable_by: the engineer, evidence: practice", "at_most: 500 ft, waivable_by: the engineer, cite: R, evidence: read",
		"none_of: [tyre], evidence: practice", "none_of: [tyre], cite: R, evidence: read").Replace(ladder)
	facts := func(reach, grass, mlw float64, material string) table {
		return table{"mhw_farthest": lengthOf(reach), "seagrass_nearest": lengthOf(grass), "mlw_farthest": lengthOf(mlw), "bank_length": lengthOf(90), "material": {Word: material}}
	}
	unread := strings.Replace(text, "    notices:\n      - {says: Plant", "    unread: [{id: rest, says: its height, cite: R}]\n    notices:\n      - {says: Plant", 1)
	for _, tt := range []struct {
		book  string
		facts table
		want  Evidence
	}{
		{text, facts(5, 90, 10, "stone"), Memory},
		{text, facts(20, 90, 10, "stone"), Memory},
		{text, facts(20, 20, 10, "stone"), Secondary},
		{text, facts(20, 20, 40, "stone"), Secondary},
		{text, facts(20, 20, 10, "tyre"), Read},
		{unread, facts(5, 90, 10, "stone"), Unread},
		{unread, facts(20, 20, 10, "tyre"), Read},
	} {
		require.Equal(t, tt.want, load(t, tt.book).Decide(tt.facts).RestsOn, "%v", tt.facts)
	}
	require.Empty(t, load(t, strings.Split(ladder, "paths:")[0]+"paths: [{id: a, title: A, criteria: []}]\n").Decide(table{}).RestsOn)
}

// What nobody has read counts as a limit, keeps its path from being sure, and is no
// path never reached.
func TestUnreadLimits(t *testing.T) {
	const reach = "measure: mhw_farthest, at_most: 10 ft"
	text := strings.Replace(ladder, "    notices:\n      - {says: Plant", "    unread: [{id: rest, says: its height, cite: Rule 4}]\n    notices:\n      - {says: Plant", 1)
	book := load(t, text)
	all, unread := book.Limits()
	require.Equal(t, []int{6, 6}, []int{all, unread})
	d := book.Decide(table{"mhw_farthest": lengthOf(5), "seagrass_nearest": lengthOf(90), "mlw_farthest": lengthOf(5), "bank_length": lengthOf(90), "material": {Word: "stone"}})
	require.Equal(t, "general", d.Path.ID)
	require.Equal(t, "exemption", d.CouldBe)
	require.Equal(t, NeedsInformation, d.Certainty)
	require.Equal(t, []string{"there are limits on its height (Rule 4), and nobody here has read them: have that text read, and show that they are kept"}, d.Lacks)
	require.Equal(t, []string{"exemption/rest"}, ids(d.BlockedBy))
	require.Empty(t, d.BlockedBy[0].Change, "no change is known")
	require.False(t, SameRuling(book, load(t, ladder)))
	require.True(t, SameRuling(book, load(t, text)))

	paths := pathsBook(t, "", []string{reach}, []string{reach})
	require.NotEmpty(t, about(paths.Warnings(), "never reached"))
	paths.Paths[0].Unread = []*UnreadLimit{{ID: "rest"}}
	require.Empty(t, about(paths.Warnings(), "never reached"))
}

// Words of the book alone decide too.
func TestWordsChangeTheRuling(t *testing.T) {
	book := load(t, ladder)
	other := load(t, strings.Replace(ladder, "words: {material: [stone]}", "words: {material: [stone, slag]}", 1))
	require.False(t, SameRuling(book, other))
	require.True(t, SameRuling(book, load(t, strings.Replace(ladder, "words: {material: [stone]}", "words: {material: [ stone ]}", 1))))
}
