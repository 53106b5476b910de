package rules

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Each change of the text of a book with its sentences, worked by hand.
func TestDiffSentences(t *testing.T) {
	const (
		length     = "        at_most: 500 ft\n        interpretation:"
		gaps       = "at_most: 0\n"
		individual = "  - {id: individual, title: Individual permit, criteria: []}\n"
	)
	for _, tt := range []struct {
		name    string
		replace []string
		want    []string
	}{
		{"nothing", nil, nil},
		{"only remarks and layout", []string{"title: General permit", "title:   General permit # as before"}, nil},
		{"the order of words and conditions", []string{"[tyre, asphalt]", "[asphalt, tyre]",
			`          - {measure: fill_proposed, is: "no"}` + "\n", "", "at_most: 30 ft}\n", "at_most: 30 ft}\n" + `          - {measure: fill_proposed, is: "no"}` + "\n"}, nil},
		{"head", []string{`edition: "2"`, `edition: "3"`, "book with everything", "whole book", "Nowhere", "Somewhere", "authority: test", "authority: county", "book: whole", "book: other"}, []string{
			"the book was whole and is now other",
			"the edition was 2 and is now 3",
			"the title was \"A book with everything\" and is now \"A whole book\"",
			"the authority was test and is now county",
			"the jurisdiction was Nowhere and is now Somewhere"}},
		{"dates", []string{"from: 2022-02-25, until: 2026-03-14", "from: null, until: 2026-03-15"}, []string{
			"the first day in force was 2022-02-25 and is now none",
			"the last day in force was 2026-03-14 and is now 2026-03-15"}},
		{"work started", []string{"work_started: {until: 2027-03-14, cite: Rule 0, evidence: read}\n", ""}, []string{
			"the last day for work started under it was 2027-03-14 (Rule 0; read) and is now none"}},
		{"work started longer", []string{"until: 2027-03-14", "until: 2028-03-14"}, []string{
			"the last day for work started under it was 2027-03-14 (Rule 0; read) and is now 2028-03-14 (Rule 0; read)"}},
		{"status and caution", []string{"status: in force", "status: inoperative", "For tests only.", "For a test."}, []string{
			"the status was \"in force\" and is now inoperative",
			"the wording of the caution changed"}},
		{"path renamed", []string{"title: General permit", "title: A permit"}, []string{
			"general: the title was \"General permit\" and is now \"A permit\""}},
		{"path added", []string{individual, "  - id: letter\n    title: Letter\n    criteria:\n      - {id: a, measure: fetch, at_most: 1 mile, evidence: practice}\n      - {id: b, measure: openings, with: {opening: 5 ft}, at_least: 2, evidence: practice}\n" + individual}, []string{
			"path letter (Letter) is new, after relief, with the criteria a and b"}},
		{"last path other", []string{"id: individual", "id: review"}, []string{
			"path individual (Individual permit) is gone",
			"path review (Individual permit) is new, after relief, without criteria"}},
		{"criterion gone", []string{"      - {id: stuff, measure: material, none_of: [tyre, asphalt], scope: true, if_stated: true, evidence: practice}\n", ""}, []string{
			"general/stuff: the criterion is gone; it was that the material is none of: tyre, asphalt"}},
		{"criterion new", []string{"      - {id: stuff,", "      - {id: share, measure: waterway_share, less_than: 25 %, evidence: practice}\n      - {id: stuff,"}, []string{
			"general/share: the criterion is new: the share of the waterway taken is less than 25 %"}},
		{"limit", []string{length, strings.Replace(length, "500", "400", 1)}, []string{
			"general/length: the limit was at most 500 ft and is now at most 400 ft"}},
		{"comparison", []string{length, strings.Replace(length, "at_most", "less_than", 1)}, []string{
			"general/length: the limit was at most 500 ft and is now less than 500 ft"}},
		{"limit in another unit", []string{"at_most: 6 in", "at_most: 0.5 ft"}, []string{
			"general/height: the limit was at most 6 in and is now at most 0.5 ft, which is the same"}},
		{"less than is shown", []string{length, strings.Replace(length, "500", "500.001", 1)}, []string{
			"general/length: the limit was at_most 500 ft and is now at_most 500.001 ft"}},
		{"words", []string{"[tyre, asphalt]", "[tyre]"}, []string{
			"general/stuff: the limit was none of: tyre, asphalt and is now none of: tyre"}},
		{"words that read the same", []string{"[tyre, asphalt]", `["tyre, asphalt"]`}, []string{
			`general/stuff: the limit was none_of ["asphalt" "tyre"] and is now none_of ["tyre, asphalt"]`}},
		{"measure", []string{"measure: overall_length\n", "measure: bank_length\n"}, []string{
			"general/length: the measure was the overall length with openings and is now the length along the bank"}},
		{"pick", []string{"least_of:", "greatest_of:"}, []string{
			"general/height: the measure was the least of the crest height above mean high water and crest height above the wetland and is now the greatest of the crest height above mean high water and crest height above the wetland"}},
		{"parameters", []string{"opening: 5 ft, every: 100 ft", "opening: 6 ft, every: 75 ft"}, []string{
			"general/gaps: the width from which an opening counts was 5 ft and is now 6 ft",
			"general/gaps: the length for which an opening is due was 100 ft and is now 75 ft"}},
		{"age", []string{"max_age: 18 months", "max_age: 2 years"}, []string{
			"general/stand-off: the greatest age of its data was 18 months and is now 2 years"}},
		{"age of an interpretation", []string{"{id: bank, measure: bank_length,", "{id: bank, measure: waterway_width, max_age: 1 year,"}, []string{
			"general/length, interpretation bank: the measure was the length along the bank and is now the width of the waterway",
			"general/length, interpretation bank: the greatest age of its data was none and is now 1 year"}},
		{"age of a condition", []string{"{measure: wetland_nearest,", "{measure: wetland_nearest, max_age: 1 year,"}, []string{
			"general/stand-off: it applied only where the fill proposed is no and the distance to wetlands is at most 30 ft and applies now only where the fill proposed is no and the distance to wetlands is at most 30 ft (on data no older than 1 year)"}},
		{"no parameters any more", []string{"measure: openings_lacking\n        with: {opening: 5 ft, every: 100 ft}", "measure: openings\n        with: {opening: 5 ft}", gaps, strings.Replace(gaps, "0", "3", 1)}, []string{
			"general/gaps: the measure was the number of openings lacking and is now the number of counting openings",
			"general/gaps: the limit was at most 0 and is now at most 3",
			"general/gaps: the length for which an opening is due was 100 ft and is now none"}},
		{"when", []string{"at_most: 30 ft}", "at_most: 40 ft}"}, []string{
			"general/stand-off: it applied only where the fill proposed is no and the distance to wetlands is at most 30 ft and applies now only where the fill proposed is no and the distance to wetlands is at most 40 ft"}},
		{"never more when", []string{"        when:\n          - {measure: fill_proposed, is: \"no\"}\n          - {measure: wetland_nearest, at_most: 30 ft}\n", ""}, []string{
			"general/stand-off: it applied only where the fill proposed is no and the distance to wetlands is at most 30 ft and applies now always"}},
		{"scope", []string{", scope: true", ""}, []string{
			"general/stuff: scope was true and is now false"}},
		{"waiver", []string{"        waivable_by: the engineer\n", ""}, []string{
			"general/length: the one who may waive it was \"the engineer\" and is now nobody"}},
		{"source", []string{"cite: Rule 3\n        evidence: read\n        looked: 2026-11-25\n        says: No longer than 500 ft", "evidence: practice\n        looked: 2027-01-05\n        says: Not longer"}, []string{
			"general/length: the wording changed",
			"general/length: the evidence was read and is now practice",
			"general/length: the day it was looked at was 2026-11-25 and is now 2027-01-05",
			"general/length: the citation was \"Rule 3\" and is now none"}},
		{"interpretation that decides", []string{"interpretation: openings counted in", "interpretation: end to end"}, []string{
			"general/length: the interpretation that decides was \"openings counted in\" and is now \"end to end\""}},
		{"interpretations", []string{"id: strict, measure: overall_length, less_than: 500 ft, says: less than 500 ft, evidence: secondary", "id: strict, measure: overall_length, less_than: 600 ft, says: less, evidence: read",
			"id: bank, measure: bank_length", "id: along, measure: bank_length"}, []string{
			"general/length: the interpretation bank is gone; it was that the length along the bank is at most 500 ft",
			"general/length, interpretation strict: the limit was less than 500 ft and is now less than 600 ft",
			"general/length, interpretation strict: the wording changed",
			"general/length, interpretation strict: the evidence was secondary and is now read",
			"general/length: the interpretation along is new: the length along the bank is at most 500 ft"}},
		{"conditions and notices", []string{"says: Plant what grows here", "says: Plant", "says: Notify first, cite: Rule 9", "says: Notify first, cite: Rule 8"}, []string{
			"general: the condition is gone: Plant what grows here",
			"general: the condition is new: Plant",
			`general, notice "Notify first": the citation was "Rule 9" and is now "Rule 8"`}},
		{"words", []string{"kind: [reef ball]", "channel_reach: [Marrowby Cut]", "[rock, shell bags]", "[rock]"}, []string{
			"words for channel_reach that it knows now: Marrowby Cut",
			"words for kind that it knows no more: reef ball",
			"words for material that it knows no more: shell bags"}},
		{"what is unread", []string{"says: how high it may stand, cite: Rule 4", "says: how high it stands, cite: Rule 5"}, []string{
			"relief/rest: the wording changed",
			`relief/rest: the citation was "Rule 4" and is now "Rule 5"`}},
		{"other things unread", []string{"{id: rest, says: how high it may stand, cite: Rule 4}", "{id: more, says: how long it may be, cite: Rule 4}"}, []string{
			"relief/rest: the unread limit is gone; it was on how high it may stand",
			"relief/more: the unread limit is new: on how long it may be"}},
		{"notices of the book", []string{"in_area:preserve, is: inside", "in_area:preserve, is: outside", "  - {says: Perhaps a figure of 62 ft, evidence: unverified, cite: Rule 2}\n", ""}, []string{
			"the notice is gone: Perhaps a figure of 62 ft",
			`notice "Notify the keeper of the preserve": it applied only where it is inside preserve and applies now only where it is outside preserve`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			text := whole
			for i := 0; i < len(tt.replace); i += 2 {
				require.Contains(t, text, tt.replace[i])
				text = strings.Replace(text, tt.replace[i], tt.replace[i+1], 1)
			}
			require.Equal(t, tt.want, Diff(load(t, whole), load(t, text)))
		})
	}
}

func TestDiffTellsNoticesOfTheSameWordsApart(t *testing.T) {
	const twice = `    notices:
      - {says: Notify first, evidence: practice, when: {measure: kind, is: sill}}
      - {says: Notify first, evidence: practice, when: {measure: kind, is: breakwater}}
    criteria:`
	book := func(notices string) *Book {
		return load(t, strings.Replace(whole, "    notices:\n      - {says: Notify first, cite: Rule 9, evidence: memory}\n    criteria:", notices, 1))
	}
	require.Equal(t, []string{"general: the notice is gone: Notify first"},
		Diff(book(twice), book(strings.Replace(twice, "      - {says: Notify first, evidence: practice, when: {measure: kind, is: sill}}\n", "", 1))))
	require.Equal(t, []string{`general, notice "Notify first": it applied only where the kind of structure is breakwater and applies now only where the kind of structure is reef`},
		Diff(book(twice), book(strings.Replace(twice, "is: breakwater", "is: reef", 1))))
}

func TestDiffTellsCitationsOfManyNoticesAtOnce(t *testing.T) {
	book := func(cite string) *Book {
		const conditions = "      - {says: Plant, evidence: read, cite: RULE}\n      - {says: Keep it up, evidence: read, cite: RULE}\n"
		return load(t, strings.Replace(whole, "      - {says: Plant what grows here, evidence: practice}\n", strings.ReplaceAll(conditions, "RULE", cite), 1))
	}
	require.Equal(t, []string{"general: the citation of 2 conditions changed"}, Diff(book("Rule 1"), book("Rule 2")))
}

// The fewest paths that account for a new order, worked by hand.
func TestDiffMovedPaths(t *testing.T) {
	paths := func(ids string) *Book {
		b := &Book{}
		for id := range strings.FieldsSeq(ids) {
			b.Paths = append(b.Paths, &Path{ID: id})
		}
		return b
	}
	for _, tt := range []struct {
		old, new string
		want     []string
	}{
		{"a b c d", "a b c d", nil},
		{"a b c d", "d a b c", []string{"path d moved: it is now first"}},
		{"a b c d", "b c d a", []string{"path a moved: it is now after d"}},
		{"a b c d", "a c d b", []string{"path b moved: it is now after d"}},
		{"a b c", "c b a", []string{"path b moved: it is now after c", "path a moved: it is now after b"}},
		{"a b c", "x b c a", []string{"path x () is new, first, without criteria", "path a moved: it is now after c"}},
		{"a b c", "b", []string{"path a () is gone", "path c () is gone"}},
		{"", "", nil},
	} {
		require.Equal(t, tt.want, Diff(paths(tt.old), paths(tt.new)), "%s -> %s", tt.old, tt.new)
	}
}

func TestDiffOfABookWithItselfIsEmpty(t *testing.T) {
	for _, book := range builtInBooks(t) {
		require.Empty(t, Diff(book, book), book.Name)
	}
	require.Empty(t, Diff(load(t, whole), load(t, whole)))
}
