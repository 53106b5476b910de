package rules

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
)

const examples = `examples:
  - given: {mhw_farthest: 5 ft, seagrass_nearest: 90 ft}
    path: exemption
`

// problems loads the ladder with each old text replaced by the new one after it.
func problems(t *testing.T, replace ...string) []string {
	t.Helper()
	text := ladder + examples
	for i := 0; i < len(replace); i += 2 {
		require.Contains(t, text, replace[i])
		text = strings.Replace(text, replace[i], replace[i+1], 1)
	}
	return problemsOf(t, text)
}

func problemsOf(t *testing.T, text string) []string {
	t.Helper()
	book, err := Load("b.yaml", strings.NewReader(text))
	require.Nil(t, book)
	var found *LoadError
	require.ErrorAs(t, err, &found)
	return strings.Split(found.Error(), "\n")
}

func TestLoadProblems(t *testing.T) {
	const reach = "{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: practice}"
	swap := func(with string) []string { return []string{reach, with} }
	for _, tt := range []struct {
		name    string
		replace []string
		want    []string
	}{
		{"unknown key", []string{"caution:", "cautoin:"}, []string{
			`b.yaml:1:1: a book needs the key "caution"`,
			`b.yaml:8:1: unknown key "cautoin" in a book: did you mean "caution"?`}},
		{"unknown key near nothing", []string{"caution: For tests only.", "caution: For tests only.\nx: 1"}, []string{
			`b.yaml:9:1: unknown key "x" in a book: write one of book, title, authority, jurisdiction, edition, in_force, status, caution, paths, work_started, words, notices, examples`}},
		{"a long unknown key", []string{"caution: For tests only.", "caution: For tests only.\n" + strings.Repeat("x", 60) + ": 1"}, []string{
			`b.yaml:9:1: unknown key "` + strings.Repeat("x", 60) + `" in a book: write one of book, title, authority, jurisdiction, edition, in_force, status, caution, paths, work_started, words, notices, examples`}},
		{"key twice", []string{"status: in force", "status: in force\ntitle: again"}, []string{
			`b.yaml:8:1: key "title" stands here twice, first in line 2: keep one`}},
		{"empty value", []string{"title: Exemption", "title:"}, []string{
			`b.yaml:11:11: "title" is empty: write its text or leave the key out`}},
		{"no text", []string{"title: Exemption", "title: [a]"}, []string{
			`b.yaml:11:12: "title" is one piece of text`}},
		{"bad ids", []string{"book: ladder", "book: My Book", "id: general", "id: General"}, []string{
			`b.yaml:1:7: "My Book" is no book: use lower-case letters and digits, joined by - or _`,
			`b.yaml:17:9: "General" is no id: use lower-case letters and digits, joined by - or _`}},
		{"bad authority", []string{"authority: test", "authority: My-State"}, []string{
			`b.yaml:3:12: "My-State" cannot begin the name of a column: write a lower-case word`}},
		{"unknown status", []string{"status: in force", "status: in-force"}, []string{
			`b.yaml:7:9: unknown status "in-force": did you mean "in force"?`}},
		{"bad date", []string{"from: 2020-01-01", "from: 2020-02-30"}, []string{
			`b.yaml:6:18: "2020-02-30" is no date: write it as 2026-03-15`}},
		{"until before from", []string{"2029-12-31", "2019-12-31"}, []string{
			`b.yaml:6:37: until is before from: write the last day in force, or null`}},
		{"no until", []string{", until: 2029-12-31", ""}, []string{
			`b.yaml:6:11: in_force needs the key "until"`}},
		{"unknown measure", swap("{id: reach, measure: mhw_fartest, at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:30: unknown measure "mhw_fartest": did you mean "mhw_farthest"?`}},
		{"wrong unit", swap("{id: reach, measure: mhw_farthest, at_most: 10 sqft, evidence: practice}"), []string{
			`b.yaml:13:53: unit "sqft" does not fit: a length is written in ft, in, yd, mile, m`}},
		{"no unit", swap("{id: reach, measure: mhw_farthest, at_most: 10, evidence: practice}"), []string{
			`b.yaml:13:53: a unit is missing: a length is written in ft, in, yd, mile, m`}},
		{"no value", swap("{id: reach, measure: mhw_farthest, at_most: null, evidence: practice}"), []string{
			`b.yaml:13:53: "at_most" takes one value`}},
		{"two comparisons", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, at_least: 1 ft, evidence: practice}"), []string{
			`b.yaml:13:60: a criterion compares once, but this one has "at_most" and "at_least": make it two`}},
		{"no comparison", swap("{id: reach, measure: mhw_farthest, evidence: practice}"), []string{
			`b.yaml:13:9: a criterion compares once: it needs one of at_most, at_least, less_than, more_than, is, none_of, any_of`}},
		{"words for a quantity", swap("{id: reach, measure: mhw_farthest, any_of: [a], evidence: practice}"), []string{
			`b.yaml:13:44: measure mhw_farthest is a length: compare it with at_most, at_least, less_than or more_than`}},
		{"a quantity for words", swap("{id: reach, measure: kind, at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:36: measure kind is no quantity: compare it with is, none_of or any_of`}},
		{"no list", swap("{id: reach, measure: kind, any_of: sill, evidence: practice}"), []string{
			`b.yaml:13:44: "any_of" is a list of words: write it as [one, two]`}},
		{"empty word", swap("{id: reach, measure: kind, any_of: [sill, ''], evidence: practice}"), []string{
			`b.yaml:13:51: each entry of "any_of" is one word or name`}},
		{"an area is out or in", swap("{id: reach, measure: 'in_area:x', is: near, evidence: practice}"), []string{
			`b.yaml:13:47: an area is outside or inside; for names use none_of or any_of with a list`}},
		{"parameter missing", swap("{id: reach, measure: longest_run, at_most: 75 ft, evidence: practice}"), []string{
			`b.yaml:13:9: measure longest_run needs to be told more: with: {opening: 5 ft}`}},
		{"parameter refused", swap("{id: reach, measure: mhw_farthest, with: {opening: 5 ft}, at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:44: measure mhw_farthest takes no parameter: leave "with" out`}},
		{"parameter in a wrong unit", swap("{id: reach, measure: longest_run, with: {opening: 5}, at_most: 75 ft, evidence: practice}"), []string{
			`b.yaml:13:59: a unit is missing: a length is written in ft, in, yd, mile, m`}},
		{"parameter not named", swap("{id: reach, measure: longest_run, with: {}, at_most: 75 ft, evidence: practice}"), []string{
			`b.yaml:13:49: with needs the key "opening"`}},
		{"parameter of nothing", swap("{id: reach, measure: longest_run, with: {opening: 0 ft}, at_most: 75 ft, evidence: practice}"), []string{
			`b.yaml:13:59: "opening" is a length of more than 0`}},
		{"no age", swap("{id: reach, measure: mhw_farthest, max_age: 2 weeks, at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:53: "2 weeks" is no age; write it as "5 years" or "18 months"`}},
		{"age of 0, and of a word", swap("{id: reach, measure: mhw_farthest, max_age: 0 years, at_most: 10 ft, evidence: practice, when: {measure: kind, is: sill, max_age: 1 year}}"), []string{
			`b.yaml:13:53: "0 years" is no age; write it as "5 years" or "18 months"`,
			`b.yaml:13:130: measure kind has no layer's date to judge: leave "max_age" out`}},
		{"age of nothing", swap("{id: reach, measure: mhw_farthest, max_age: , at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:53: "max_age" is empty: write its text or leave the key out`}},
		{"age of what rests on no layer", swap("{id: reach, greatest_of: [stone_size, fetch], max_age: 1 year, at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:55: measure stone_size has no layer's date to judge: leave "max_age" out`}},
		{"age under a notice", []string{"{says: Plant what grows here, evidence: practice}", "{says: Plant, evidence: practice, when: [{measure: fetch, at_most: 1 mile}, {measure: mhw_farthest, at_most: 1 ft, max_age: 1 year}]}"}, []string{
			`b.yaml:16:43: a notice is shown on data of any age: leave "max_age" out`}},
		{"two parameters missing", swap("{id: reach, measure: openings_lacking, at_most: 0, evidence: practice}"), []string{
			`b.yaml:13:9: measure openings_lacking needs to be told more: with: {opening: 5 ft, every: 5 ft}`}},
		{"two ways to name a measure", swap("{id: reach, measure: mhw_farthest, greatest_of: [mhw_nearest, mlw_nearest], at_most: 1 ft, evidence: practice}"), []string{
			`b.yaml:13:44: a criterion names what it compares, but this one has "measure" and "greatest_of": make it two`}},
		{"no measure", swap("{id: reach, at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:9: a criterion names what it compares: it needs one of measure, greatest_of, least_of`}},
		{"the greatest of one", swap("{id: reach, greatest_of: [mhw_farthest], at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:34: "greatest_of" is a list of two measures or more`}},
		{"the greatest of unlike", swap("{id: reach, greatest_of: [mhw_farthest, footprint_area], at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:49: measure mhw_farthest is a length and footprint_area is an area: compare like with like`}},
		{"the least of words", swap("{id: reach, least_of: [mhw_farthest, kind], at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:46: measure kind is no quantity: the greatest or least is taken of quantities`}},
		{"the greatest of one with a parameter", swap("{id: reach, greatest_of: [mhw_farthest, longest_run], at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:49: measure longest_run takes a parameter and stands alone: write measure: longest_run`}},
		{"the greatest of an unknown", swap("{id: reach, greatest_of: [mhw_farthest, mlw_fartest], at_most: 10 ft, evidence: practice}"), []string{
			`b.yaml:13:49: unknown measure "mlw_fartest": did you mean "mlw_farthest"?`}},
		{"an empty when", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, when: [], evidence: practice}"), []string{
			`b.yaml:13:66: "when" is empty: write a condition or leave the key out`}},
		{"a when of no comparison", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, when: {measure: kind}, evidence: practice}"), []string{
			`b.yaml:13:66: a condition under when compares once: it needs one of at_most, at_least, less_than, more_than, is, none_of, any_of`}},
		{"a when of words", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, when: yes, evidence: practice}"), []string{
			`b.yaml:13:66: a condition under when is written as keys with values: measure, greatest_of, least_of, with, max_age, at_most, at_least, less_than, more_than, is, none_of, any_of`}},
		{"interpretations without the one that decides", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: practice, interpretations: [{id: a, measure: mhw_farthest, less_than: 10 ft, says: b, evidence: practice}]}"), []string{
			`b.yaml:13:80: where a wording has several interpretations, the one that decides is named: interpretation: "what it takes the words to mean"`}},
		{"an interpretation twice", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: practice, interpretation: c, interpretations: [{id: a, measure: mhw_farthest, less_than: 10 ft, says: b, evidence: practice}, {id: a, measure: mhw_farthest, less_than: 9 ft, says: b, evidence: practice}]}"), []string{
			`b.yaml:13:201: interpretation "a" is already in line 13: give each its own id`}},
		{"if stated of what is measured", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, if_stated: true, evidence: practice}"), []string{
			`b.yaml:13:60: measure mhw_farthest is not a word that a proposal states: leave "if_stated" out`}},
		{"a scope that is neither", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, scope: perhaps, evidence: practice}"), []string{
			`b.yaml:13:67: unknown scope "perhaps": write one of true, false`}},
		{"an unverified limit", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: unverified, cite: Rule 1}"), []string{
			`b.yaml:13:70: a criterion cannot rest on an unverified figure: make it a notice`}},
		{"unknown evidence", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: rumour}"), []string{
			`b.yaml:13:70: unknown evidence "rumour": write one of read, secondary, practice, memory, unverified`}},
		{"no evidence", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft}"), []string{
			`b.yaml:13:9: a criterion needs the key "evidence"`}},
		{"no citation", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: read}"), []string{
			`b.yaml:13:9: a criterion needs the key "cite" unless its evidence is practice`}},
		{"no citation in a notice", []string{"cite: Rule 9, ", ""}, []string{
			`b.yaml:24:9: a notice needs the key "cite" unless its evidence is practice`}},
		{"bad day looked at", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: practice, looked: yesterday}"), []string{
			`b.yaml:13:88: "yesterday" is no date: write it as 2026-03-15`}},
		{"criterion twice", []string{"id: grass", "id: reach"}, []string{
			`b.yaml:14:14: criterion "reach" is already in line 13: give each its own id`}},
		{"path twice", []string{"id: general", "id: exemption"}, []string{
			`b.yaml:17:9: path "exemption" is already in line 10: give each its own id`}},
		{"criteria on the last path", []string{"criteria: []", "criteria: [" + reach + "]"}, []string{
			`b.yaml:27:15: the last path has criteria: end the book with a path that has none (criteria: []) and always holds`}},
		{"an early path without criteria", []string{"  - id: general", "  - {id: early, title: Early, criteria: []}\n  - id: general"}, []string{
			`b.yaml:17:41: a path without criteria always holds, so the paths after it are never reached: put it last`}},
		{"criteria no list", []string{"criteria: []", "criteria: none"}, []string{
			`b.yaml:27:15: "criteria" is a list: write [] for none`}},
		{"a criterion that is no mapping", swap("reach"), []string{
			`b.yaml:13:9: a criterion is written as keys with values: id, evidence, measure, greatest_of, least_of, with, max_age, at_most, at_least, less_than, more_than, is, none_of, any_of, when, scope, if_stated, interpretation, interpretations, waivable_by, cite, says, looked`}},
		{"a key that is no word", []string{"caution:", "[a]: b\ncaution:"}, []string{
			`b.yaml:8:1: a key is one word`}},
		{"an example of an unknown path", []string{"path: exemption", "path: exemptoin"}, []string{
			`b.yaml:31:11: the book has no path "exemptoin": did you mean "exemption"?`}},
		{"an example of an unknown measure", []string{"seagrass_nearest: 90 ft", "seagras_nearest: 90 ft"}, []string{
			`b.yaml:30:33: unknown measure "seagras_nearest": did you mean "seagrass_nearest"?`}},
		{"an example of no path", []string{"    path: exemption\n", "    waiver: [reach]\n"}, []string{
			`b.yaml:30:5: an example needs the key "path"`}},
		{"an example in a wrong unit", []string{"seagrass_nearest: 90 ft", "seagrass_nearest: 90"}, []string{
			`b.yaml:30:51: a unit is missing: a length is written in ft, in, yd, mile, m`}},
		{"an example without a value", []string{"seagrass_nearest: 90 ft", "seagrass_nearest: []"}, []string{
			`b.yaml:30:51: seagrass_nearest takes one value, or the word unknown`}},
		{"an example of an odd area", []string{"seagrass_nearest: 90 ft", "in_area:x: near"}, []string{
			`b.yaml:30:44: an area is given as outside, inside or a list of names`}},
		{"an example of nothing", []string{"{mhw_farthest: 5 ft, seagrass_nearest: 90 ft}", "5 ft"}, []string{
			`b.yaml:30:12: "given" is written as measures with values: {mhw_farthest: 10 ft}`}},
		{"interpretations under their old name", swap("{id: reach, measure: mhw_farthest, at_most: 10 ft, evidence: practice, reading: all of it}"), []string{
			`b.yaml:13:80: unknown key "reading" in a criterion: it is called "interpretation" now`}},
		{"an example with the old name of a key", []string{"path: exemption", "path: exemption\n    standing: firm"}, []string{
			`b.yaml:32:5: unknown key "standing" in an example: it is called "certainty" now`}},
		{"an example of an unknown certainty", []string{"path: exemption", "path: exemption\n    certainty: sure"}, []string{
			`b.yaml:32:16: unknown certainty "sure": write one of firm, close call, needs information`}},
		{"an example of an unknown easier path", []string{"path: exemption", "path: individual\n    could_be: exemptions"}, []string{
			`b.yaml:32:15: the book has no path "exemptions": did you mean "exemption"?`}},
		{"an example of a strange waiver", []string{"path: exemption", "path: general\n    waiver: [reach, width, material]"}, []string{
			`b.yaml:32:21: path general has no criterion "width"`,
			`b.yaml:32:28: criterion "material" cannot be waived: nobody is named in waivable_by`}},
		{"anchors and aliases", []string{"title: Exemption", "title: &t Exemption", "title: General permit", "title: *t"}, []string{
			`b.yaml:11:12: an anchor (&t): write the value out where it is needed`,
			`b.yaml:18:12: an alias (*t): write the value out`}},
		{"an escape that steers", []string{"title: Exemption", `title: "Exem\x1b[2Jption"`}, []string{
			`b.yaml:11:12: a control character, written as an escape: take it out`}},
		{"a tag", []string{"title: Exemption", "title: !!binary Exemption"}, []string{
			`b.yaml:11:12: a tag (!!binary): leave it out`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.Equal(t, tt.want, problems(t, tt.replace...))
		})
	}
}

func TestLoadReportsEverythingAtOnce(t *testing.T) {
	found := problems(t, "edition: \"1\"\n", "", "at_most: 10 ft", "at_most: 10 acre", "evidence: memory", "evidence: hearsay", "path: exemption", "path: none")
	require.Len(t, found, 4)
	for i, place := range []string{"b.yaml:1:1:", "b.yaml:12:53:", "b.yaml:23:54:", "b.yaml:30:11:"} {
		require.True(t, strings.HasPrefix(found[i], place), found[i])
	}
}

func TestLoadRefusesWhatIsNoBook(t *testing.T) {
	for _, tt := range []struct {
		name, text, want string
	}{
		{"empty", "", "b.yaml:1:1: the book is empty: it starts with the line book: NAME"},
		{"only a remark", "# nothing\n", "b.yaml:1:1: the book is empty: it starts with the line book: NAME"},
		{"null", "---\nnull\n", "b.yaml:1:1: the book is empty: it starts with the line book: NAME"},
		{"two books", "book: a\n---\nbook: b\n", "b.yaml:2:1: a second document starts here: put each book in a file of its own"},
		{"open bracket", "book: [a\ntitle: b\n", "b.yaml:2:6: not valid YAML: did not find expected ',' or ']'"},
		{"tab", "book:\n\ttitle: b\n", "b.yaml:2:1: not valid YAML: found character that cannot start any token"},
		{"broken second", "book: a\n---\nb: [\n", "b.yaml:4:1: not valid YAML: did not find expected node content"},
		{"not text", "book: a\ntitle: \xff\n", "b.yaml:2:8: a byte that is not UTF-8 (0xff, at offset 15): save the book as plain UTF-8 text"},
		{"Latin-1", "book: caf\xe9\n", "b.yaml:1:10: a byte that is not UTF-8 (0xe9, at offset 9): save the book as plain UTF-8 text"},
		{"UTF-16", "\xff\xfeb\x00", "b.yaml:1:1: a text in UTF-16: save the book as plain UTF-8 text"},
		{"control character", "book: a\nti\x00tle: b\n", "b.yaml:2:3: control character 0x00: save the book as plain UTF-8 text"},
		{"deep", strings.Repeat("[", 500_000), "b.yaml:1:10001: not valid YAML: exceeded max depth of 10000"},
		{"too large", "book: a\n" + strings.Repeat("#", maxBook), "b.yaml:1:1: the book is over 1 MiB: a rule book is far smaller, so this is another file, or several books"},
		{"a list", "- book\n", "b.yaml:1:1: a book is written as keys with values: book, title, authority, jurisdiction, edition, in_force, status, caution, paths, work_started, words, notices, examples"},
		{"no paths", strings.Split(ladder, "paths:")[0] + "paths: []\n", "b.yaml:9:8: a book needs at least one path: the last, without criteria, always holds"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.Equal(t, []string{tt.want}, problemsOf(t, tt.text))
		})
	}
}

func TestLoadSurvivesDeepBooks(t *testing.T) {
	const depth = 9000
	found := problemsOf(t, "book: "+strings.Repeat("[", depth)+strings.Repeat("]", depth)+"\n")
	require.Contains(t, found, `b.yaml:1:7: "book" is one piece of text`)
}

func TestLoadKeepsReadErrors(t *testing.T) {
	broken := errors.New("the disk is gone")
	_, err := Load("b.yaml", iotest.ErrReader(broken))
	require.ErrorIs(t, err, broken)
	require.ErrorContains(t, err, "b.yaml: cannot be read")
}

// A small file must not be able to ask for a great answer.
func TestLoadKeepsSuggestionsShort(t *testing.T) {
	var text strings.Builder
	text.WriteString(strings.Split(ladder, "paths:")[0] + "paths:\n")
	for i := range 3000 {
		fmt.Fprintf(&text, "  - {id: p%d, title: P, criteria: []}\n", i)
	}
	text.WriteString("examples:\n")
	for range 3000 {
		text.WriteString("  - {given: {}, path: elsewhere}\n")
	}
	size := 0
	for _, p := range problemsOf(t, text.String()) {
		size = max(size, len(p))
	}
	require.Less(t, size, 1000)
}
