package rules

import (
	"cmp"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pathsBook is a book of paths, each given by its criteria in YAML.
func pathsBook(t require.TestingT, examples string, paths ...[]string) *Book {
	var text strings.Builder
	text.WriteString(strings.Split(ladder, "paths:")[0] + "paths:\n")
	for i, criteria := range paths {
		fmt.Fprintf(&text, "  - id: p%d\n    title: P\n    criteria:\n", i+1)
		for k, c := range criteria {
			fmt.Fprintf(&text, "      - {id: c%d, evidence: read, cite: R, %s}\n", k+1, c)
		}
	}
	text.WriteString("  - {id: last, title: L, criteria: []}\nexamples:" + cmp.Or(examples, " []") + "\n")
	return load(t, text.String())
}

func about(warnings []string, what string) []string {
	var out []string
	for _, w := range warnings {
		if strings.Contains(w, what) {
			out = append(out, w)
		}
	}
	return out
}

// Worked by hand: where the second path holds, does the first always?
func TestWarnsOfPathsNeverReached(t *testing.T) {
	const (
		reach10  = "measure: mhw_farthest, at_most: 10 ft"
		reach9   = "measure: mhw_farthest, at_most: 9 ft"
		under10  = "measure: mhw_farthest, less_than: 10 ft"
		waiver   = ", waivable_by: us"
		ifSill   = ", when: {measure: kind, is: sill}"
		ifReef   = ", when: {measure: kind, is: reef}"
		ifBoth   = ", when: [{measure: kind, is: sill}, {measure: fetch, at_most: 1 mile}]"
		ifBothOr = ", when: [{measure: fetch, at_most: 1 mile}, {measure: kind, is: sill}]"
	)
	for _, tt := range []struct {
		first, second string
		never         bool
	}{
		{reach10, reach10, true},
		{reach10, reach9, true},
		{reach9, reach10, false},
		{reach10, under10, true},
		{under10, reach10, false},
		{under10, reach9, true},
		{reach10, "measure: mlw_farthest, at_most: 9 ft", false},
		{reach10, "measure: mhw_farthest, at_least: 9 ft", false},
		{"measure: fetch, at_least: 1 mile", "measure: fetch, more_than: 1 mile", true},
		{"measure: fetch, more_than: 1 mile", "measure: fetch, at_least: 1 mile", false},
		{"measure: fetch, at_least: 1 mile", "measure: fetch, at_least: 0.5 mile", false},
		// A waived limit limits nothing.
		{reach10, reach9 + waiver, false},
		{reach10 + waiver, reach9, true},
		{reach10 + waiver, reach9 + waiver, false}, // a bounded value may be open at 10 ft and not at 9
		{reach10 + waiver, reach10 + waiver, true},
		// Conditions.
		{reach10 + ifSill, reach9 + ifSill, true},
		{reach10 + ifSill, reach9 + ifReef, false},
		{reach10, reach9 + ifSill, false},
		{reach10 + ifSill, reach9, true}, // the first asks no more, and of fewer cases
		{reach10 + ifSill, reach9 + ifBoth, false},
		{reach10 + ifBoth, reach9 + ifBothOr, true},
		{reach10 + ifBoth, reach9 + ifSill, true},
		{reach10 + ifSill + waiver, reach10 + waiver, false}, // whether it applies may not be known, and then neither whether it may be waived
		{reach10 + ifSill + waiver, reach10 + ifSill + waiver, true},
		// Parameters and picks.
		{"measure: longest_run, with: {opening: 5 ft}, at_most: 75 ft", "measure: longest_run, with: {opening: 5 ft}, at_most: 50 ft", true},
		{"measure: longest_run, with: {opening: 5 ft}, at_most: 75 ft", "measure: longest_run, with: {opening: 4 ft}, at_most: 50 ft", false},
		{"greatest_of: [mhw_farthest, mlw_farthest], at_most: 5 ft", "greatest_of: [mhw_farthest, mlw_farthest], at_most: 4 ft", true},
		{"greatest_of: [mhw_farthest, mlw_farthest], at_most: 5 ft", "least_of: [mhw_farthest, mlw_farthest], at_most: 4 ft", false},
		{"greatest_of: [mhw_farthest, mlw_farthest], at_most: 5 ft", "measure: mhw_farthest, at_most: 4 ft", false},
		// Words and names.
		{"measure: kind, any_of: [sill, reef]", "measure: kind, is: Sill", true},
		{"measure: kind, is: sill", "measure: kind, any_of: [sill, reef]", false},
		{"measure: kind, none_of: [wall]", "measure: kind, none_of: [wall, dock]", true},
		{"measure: kind, none_of: [wall, dock]", "measure: kind, none_of: [wall]", false},
		{"measure: kind, none_of: [wall]", "measure: kind, any_of: [sill, reef]", true},
		{"measure: kind, none_of: [reef]", "measure: kind, any_of: [sill, reef]", false},
		{"measure: kind, is: sill", "measure: kind, is: sill, if_stated: true", false}, // one that is not stated
		{"measure: kind, is: sill, if_stated: true", "measure: kind, is: sill", true},
		{"measure: in_area:x, none_of: [a]", "measure: in_area:x, is: outside", true},
		{"measure: in_area:x, is: outside", "measure: in_area:x, none_of: [a]", false},
		{"measure: in_area:x, is: inside", "measure: in_area:x, any_of: [a]", true},
		{"measure: in_area:x, any_of: [a, b]", "measure: in_area:x, any_of: [a]", true},
		{"measure: in_area:x, none_of: [a]", "measure: in_area:x, any_of: [b]", false}, // it may touch both
		{"measure: in_area:x, is: outside", "measure: in_area:y, is: outside", false},
	} {
		got := about(pathsBook(t, "", []string{tt.first}, []string{tt.second}).Warnings(), "never reached")
		if !tt.never {
			require.Empty(t, got, "%s / %s", tt.first, tt.second)
			continue
		}
		require.Equal(t, []string{"p2: the path is never reached: wherever it holds, p1 before it holds too; move it before p1, or change its limits"}, got, "%s / %s", tt.first, tt.second)
	}
	// Each criterion of the easier path counts, and further ones only narrow the other.
	require.Empty(t, about(pathsBook(t, "", []string{reach10, "measure: kind, is: sill"}, []string{reach9}).Warnings(), "never reached"))
	require.Len(t, about(pathsBook(t, "", []string{reach10}, []string{"measure: kind, is: sill", reach9}).Warnings(), "never reached"), 1)
}

// Worked by hand: is there a value that meets both?
func TestWarnsOfContradictions(t *testing.T) {
	for _, tt := range []struct {
		first, second string
		none          bool
	}{
		{"measure: fetch, at_most: 10 ft", "measure: fetch, at_least: 10 ft", false},
		{"measure: fetch, at_most: 10 ft", "measure: fetch, more_than: 10 ft", true},
		{"measure: fetch, less_than: 10 ft", "measure: fetch, at_least: 10 ft", true},
		{"measure: fetch, at_least: 20 ft", "measure: fetch, at_most: 10 ft", true},
		{"measure: fetch, at_least: 10 ft", "measure: fetch, at_most: 20 ft", false},
		{"measure: fetch, at_least: 20 ft", "measure: stone_size, at_most: 10 ft", false},
		{"measure: fetch, at_least: 20 ft", "measure: fetch, at_most: 10 ft, when: {measure: kind, is: sill}", false}, // only of sills
		{"measure: fetch, at_least: 20 ft, when: {measure: kind, is: sill}", "measure: fetch, at_most: 10 ft, when: {measure: kind, is: sill}", true},
		{"measure: openings, with: {opening: 5 ft}, more_than: 2", "measure: openings, with: {opening: 5 ft}, less_than: 3", true}, // no count between
		{"measure: openings, with: {opening: 5 ft}, more_than: 2", "measure: openings, with: {opening: 5 ft}, less_than: 4", false},
		{"measure: openings, with: {opening: 5 ft}, more_than: 2", "measure: openings, with: {opening: 4 ft}, less_than: 3", false},
		{"measure: kind, is: sill", "measure: kind, is: Sill", false},
		{"measure: kind, is: sill", "measure: kind, any_of: [reef, wall]", true},
		{"measure: kind, any_of: [reef, wall]", "measure: kind, none_of: [wall, reef, dock]", true},
		{"measure: kind, none_of: [wall]", "measure: kind, any_of: [reef, wall]", false},
		{"measure: in_area:x, is: outside", "measure: in_area:x, is: inside", true},
		{"measure: in_area:x, any_of: [a]", "measure: in_area:x, is: outside", true},
		{"measure: in_area:x, any_of: [a]", "measure: in_area:x, any_of: [b]", false}, // it may touch both
		{"measure: in_area:x, any_of: [a]", "measure: in_area:x, none_of: [A]", true},
	} {
		got := about(pathsBook(t, "", []string{tt.first, tt.second}).Warnings(), "nothing meets both")
		require.Equal(t, tt.none, len(got) == 1, "%s / %s: %s", tt.first, tt.second, got)
	}
	require.Equal(t, []string{"p1/c2: it asks that the longest fetch is at most 10 ft and p1/c1 that the longest fetch is at least 20 ft, where the kind of structure is sill, and nothing meets both: change one of the limits, or make two paths"},
		about(pathsBook(t, "", []string{"measure: fetch, at_least: 20 ft, when: {measure: kind, is: sill}", "measure: fetch, at_most: 10 ft, when: {measure: kind, is: sill}"}).Warnings(), "nothing meets"))
}

func TestWarnsOfLimitsBelowAllValues(t *testing.T) {
	for _, tt := range []struct {
		criterion string
		none      bool
	}{
		{"measure: footprint_area, at_most: 0 sqft", false},
		{"measure: footprint_area, less_than: 0 sqft", true},
		{"measure: footprint_area, at_most: -1 sqft", true},
		{"measure: footprint_area, at_least: -1 sqft", false},
		{"measure: crest_above_mhw, at_most: -1 ft", false},
		{"greatest_of: [fetch, stone_size], less_than: 0 ft", true},
		{"least_of: [fetch, riparian_nearest], less_than: 0 ft", false},
	} {
		got := about(pathsBook(t, "", []string{tt.criterion}).Warnings(), "nothing meets it")
		require.Equal(t, tt.none, len(got) == 1, "%s: %s", tt.criterion, got)
	}
}

func TestWarnsOfLimitsWithoutCitation(t *testing.T) {
	require.Equal(t, []string{
		"general/length: the limit of its interpretation bank has no citation: add cite, the rule it stands in",
		"general/stand-off: the limit has no citation: add cite, the rule it stands in",
		"general/height: the limit has no citation: add cite, the rule it stands in",
		"general/gaps: the limit has no citation: add cite, the rule it stands in",
		"general/stuff: the limit has no citation: add cite, the rule it stands in",
		"relief/wide: the limit has no citation: add cite, the rule it stands in",
	}, about(load(t, whole).Warnings(), "citation"))
}

func TestWarnsOfABookWithoutExamplesOnce(t *testing.T) {
	require.Equal(t, []string{"edition 1: there are no examples: add some inside, exactly at and beyond each limit"},
		pathsBook(t, "", []string{"measure: fetch, at_most: 10 ft"}).Warnings())
}

// Worked by hand: on which sides of the one limit do the examples lie?
func TestWarnsOfSidesWithoutExample(t *testing.T) {
	const (
		fetch   = "measure: fetch, at_most: 10 ft"
		area    = "measure: seagrass_overlap, at_most: 0 sqft"
		lacking = "measure: openings_lacking, with: {opening: 5 ft, every: 75 ft}, at_most: 0"
		kind    = "measure: kind, any_of: [sill, reef]"
		sills   = ", when: {measure: kind, is: sill}"
	)
	for _, tt := range []struct {
		criterion string
		given     []string
		want      string // empty: nothing is missing
	}{
		{fetch, []string{"fetch: 9 ft", "fetch: 10 ft", "fetch: 11 ft"}, ""},
		{fetch, []string{"fetch: 9 ft", "fetch: 120 in", "fetch: 11 ft"}, ""},
		{fetch, []string{"kind: sill"}, "p1/c1: no example lies inside or exactly at or beyond its limit, at most 10 ft: add one in which the longest fetch is less than 10 ft, and one in which it is exactly the limit, and one in which it is more than 10 ft"},
		{fetch, []string{"fetch: unknown", "fetch: 9 ft", "fetch: 10.000001 ft"}, "p1/c1: no example lies exactly at its limit, at most 10 ft: add one in which the longest fetch is exactly the limit"},
		{fetch, []string{"fetch: 9 ft", "fetch: 10 ft"}, "p1/c1: no example lies beyond its limit, at most 10 ft: add one in which the longest fetch is more than 10 ft"},
		{fetch + ", waivable_by: us", []string{"fetch: 9 ft", "fetch: 10 ft", "fetch: 11 ft"}, ""},
		{"measure: fetch, at_least: 10 ft", []string{"fetch: 9 ft", "fetch: 10 ft"}, "p1/c1: no example lies inside its limit, at least 10 ft: add one in which the longest fetch is more than 10 ft"},
		{"measure: fetch, more_than: 10 ft", []string{"fetch: 11 ft", "fetch: 10 ft"}, "p1/c1: no example lies beyond its limit, more than 10 ft: add one in which the longest fetch is less than 10 ft"},
		{"measure: waterway_share, at_most: 1/6", []string{"waterway_share: 0.1", "waterway_share: 0.1667", "waterway_share: 0.2"}, "p1/c1: no example lies exactly at its limit, at most 1/6: add one in which the share of the waterway taken is exactly the limit"},
		{"greatest_of: [fetch, stone_size], at_most: 10 ft", []string{"fetch: 9 ft, stone_size: 10 ft", "fetch: 11 ft, stone_size: 1 ft", "fetch: 2 ft, stone_size: 2 ft"}, ""},
		// Nothing is less than none.
		{area, []string{"seagrass_overlap: 0 sqft", "seagrass_overlap: 1 sqft"}, ""},
		{lacking, []string{"openings_lacking: 0", "openings_lacking: 1"}, ""},
		{"measure: seagrass_overlap, more_than: 0 sqft", []string{"seagrass_overlap: 0 sqft", "seagrass_overlap: 1 sqft"}, ""},
		{area, []string{"seagrass_overlap: 0 sqft"}, "p1/c1: no example lies beyond its limit, at most 0 sq ft: add one in which the seagrass under the footprint is more than 0 sq ft"},
		{"measure: crest_above_mhw, at_most: 0 ft", []string{"crest_above_mhw: 0 ft", "crest_above_mhw: 1 ft"}, "p1/c1: no example lies inside its limit, at most 0 ft: add one in which the crest height above mean high water is less than 0 ft"},
		// Words and names.
		{kind, []string{"kind: reef", "kind: bulkhead"}, ""},
		{kind, []string{"kind: reef"}, "p1/c1: no example fails what it asks, that the kind of structure is one of: sill, reef: add one that does"},
		{kind, []string{"kind: bulkhead"}, "p1/c1: no example meets what it asks, that the kind of structure is one of: sill, reef: add one that does"},
		{kind, []string{"kind: unknown"}, "p1/c1: no example meets or fails what it asks, that the kind of structure is one of: sill, reef: add one of each"},
		{kind + ", if_stated: true", []string{"kind: unknown", "kind: bulkhead"}, "p1/c1: no example meets what it asks, that the kind of structure is one of: sill, reef: add one that does"},
		{"measure: in_area:x, is: outside", []string{"in_area:x: outside", "in_area:x: [Unit 1]"}, ""},
		// Only where it applies.
		{fetch + sills, []string{"fetch: 9 ft, kind: sill", "fetch: 10 ft, kind: sill", "fetch: 11 ft, kind: sill"}, ""},
		{fetch + sills, []string{"fetch: 9 ft, kind: sill", "fetch: 10 ft, kind: sill", "fetch: 11 ft, kind: reef", "fetch: 12 ft"}, "p1/c1: no example lies beyond its limit, at most 10 ft: add one in which the longest fetch is more than 10 ft, where the kind of structure is sill"},
		{fetch + sills, []string{"fetch: 9 ft, kind: unknown", "fetch: 9 ft, kind: reef", "fetch: 10 ft, kind: sill", "fetch: 11 ft, kind: sill"}, "p1/c1: no example lies inside its limit, at most 10 ft: add one in which the longest fetch is less than 10 ft, where the kind of structure is sill"},
		{kind + ", when: {measure: fetch, at_most: 1 mile}", []string{"kind: reef, fetch: 1 mile", "kind: bulkhead, fetch: 2 mile"}, "p1/c1: no example fails what it asks, that the kind of structure is one of: sill, reef, where the longest fetch is at most 1 mile: add one that does"},
	} {
		var examples strings.Builder
		for _, given := range tt.given {
			fmt.Fprintf(&examples, "\n  - {given: {%s}, path: last}", strings.ReplaceAll(given, "in_area:x", `"in_area:x"`))
		}
		var want []string
		if tt.want != "" {
			want = []string{tt.want}
		}
		book := pathsBook(t, examples.String(), []string{tt.criterion})
		require.Equal(t, want, book.Warnings(), "%s: %s", tt.criterion, tt.given)
	}
}
