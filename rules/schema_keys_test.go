package rules

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
)

// levels are where the keys of each of the loader's sections stand in the schema.
var levels = map[string][]string{
	"a book":                 {},
	"in_force":               {"properties", "in_force"},
	"words":                  {"properties", "words"},
	"an unread limit":        {"$defs", "unread_limit"},
	"work_started":           {"properties", "work_started"},
	"a notice":               {"$defs", "notices", "items"},
	"a path":                 {"$defs", "path"},
	"a condition":            {"$defs", "condition"},
	"a criterion":            {"$defs", "criterion"},
	"an interpretation":      {"$defs", "interpretation"},
	"a condition under when": {"$defs", "condition_under_when"},
	"with":                   {"$defs", "with"},
	"an example":             {"$defs", "example"},
}

func schemaDocument(t *testing.T) map[string]any {
	t.Helper()
	text, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	var doc map[string]any
	require.NoError(t, json.Unmarshal(text, &doc))
	return doc
}

func below(t *testing.T, doc map[string]any, path ...string) map[string]any {
	t.Helper()
	for _, key := range path {
		next, ok := doc[key].(map[string]any)
		require.True(t, ok, "%s in %v", key, path)
		doc = next
	}
	return doc
}

func keysOf(m map[string]any) []string {
	var out []string
	for key := range m {
		out = append(out, key)
	}
	return out
}

// The loader lists the keys it knows when it meets one that is like none of them.
func TestSchemaHasTheLoadersKeys(t *testing.T) {
	doc, schema := schemaDocument(t), bookSchema(t)
	strange := strings.Repeat("x", 60)
	known := regexp.MustCompile(`unknown key "` + strange + `" in (.+): write one of (.+)`)
	seen := map[string]bool{}
	book := parseYAML(t, whole)
	mappings(book, func(n *yaml.Node) {
		n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: strange}, &yaml.Node{Kind: yaml.ScalarNode, Value: "1"})
		err, editor := verdicts(t, schema, written(t, book))
		n.Content = n.Content[:len(n.Content)-2]
		require.Error(t, err)
		require.Error(t, editor)
		found := known.FindStringSubmatch(err.Error())
		if found == nil { // in given, whose keys are measures
			require.ErrorContains(t, err, "unknown measure")
			return
		}
		place, ok := levels[found[1]]
		require.True(t, ok, "a section that the schema does not have: %s", found[1])
		seen[found[1]] = true
		keys := strings.Split(found[2], ", ")
		if found[1] == "with" { // the loader asks for what the measure takes
			keys = []string{OpeningParameter, EveryParameter}
		}
		require.ElementsMatch(t, keys, keysOf(below(t, doc, append(place, "properties")...)), found[1])
	})
	require.Len(t, seen, len(levels))

	given := below(t, doc, "$defs", "given", "properties")
	var names []string
	for _, m := range measures {
		if m.Name == areaFamily {
			continue
		}
		names = append(names, m.Name)
		require.Equal(t, m.Title, below(t, given, m.Name)["description"], m.Name)
	}
	require.ElementsMatch(t, names, keysOf(given))
}

// TestSchemaListsEveryMeasure: each list of the schema has the measures of its kind.
func TestSchemaListsEveryMeasure(t *testing.T) {
	defs := below(t, schemaDocument(t), "$defs")
	of := func(q Quantity) func(Measure) bool {
		return func(m Measure) bool { return m.Quantity == q && (q != Length || m.Parameters == nil) }
	}
	for list, holds := range map[string]func(Measure) bool{
		"lengths": of(Length), "areas": of(Area), "volumes": of(Volume), "volumes_per_length": of(VolumePerLength), "ratios": of(Ratio), "counts": of(Count), "stated_words": of(Word),
		"runs":  func(m Measure) bool { return m.Quantity == Length && m.Parameters != nil },
		"dated": func(m Measure) bool { return m.Dated && m.Quantity != Names },
	} {
		def := below(t, defs, list)
		if either, ok := def["anyOf"].([]any); ok {
			def = either[0].(map[string]any)
		}
		var want, listed []string
		for _, m := range measures {
			if holds(m) {
				want = append(want, m.Name)
			}
		}
		for _, name := range def["enum"].([]any) {
			listed = append(listed, name.(string))
		}
		require.ElementsMatch(t, want, listed, "books/schema.json, %s", list)
	}
}

func TestSchemaDescribesEveryKey(t *testing.T) {
	doc := schemaDocument(t)
	for title, place := range levels {
		for key, value := range below(t, doc, append(place, "properties")...) {
			said := value.(map[string]any)
			for said["description"] == nil {
				ref, ok := said["$ref"].(string)
				require.True(t, ok, "%s of %s has no description", key, title)
				said = below(t, doc, strings.Split(strings.TrimPrefix(ref, "#/"), "/")...)
			}
		}
	}
}

// Without any one of its keys, or with it under another name, a book that has
// them all is as good to the schema as to the loader.
func TestSchemaNeedsWhatTheLoaderNeeds(t *testing.T) {
	schema := bookSchema(t)
	book := parseYAML(t, whole)
	tried, good := 0, 0
	mappings(book, func(n *yaml.Node) {
		all := n.Content
		for i := 0; i < len(all); i += 2 {
			n.Content = slices.Concat(all[:i], all[i+2:])
			text := written(t, book)
			loader, editor := verdicts(t, schema, text)
			require.Equal(t, loader == nil, editor == nil, "without %s:\n%s\n%v\n%v", all[i].Value, text, loader, editor)
			if loader == nil {
				good++
			}
			tried++

			key := *all[i]
			key.Value += "x"
			n.Content = slices.Concat(all[:i], []*yaml.Node{&key}, all[i+1:])
			loader, editor = verdicts(t, schema, written(t, book))
			require.Error(t, loader, key.Value)
			require.Error(t, editor, key.Value)
			n.Content = all
		}
	})
	require.Greater(t, tried, 90)
	require.Greater(t, good, 15)
}

// With a thing of another kind in any one place, likewise.
func TestSchemaKnowsWhatIsOfAKind(t *testing.T) {
	schema := bookSchema(t)
	book := parseYAML(t, whole)
	good := 0
	var visit func(n *yaml.Node)
	visit = func(n *yaml.Node) {
		for i, part := range n.Content {
			visit(part)
			key := ""
			if n.Kind == yaml.MappingNode {
				if i%2 == 0 {
					continue
				}
				key = n.Content[i-1].Value
			}
			for _, kind := range []string{"{a: b}", "{}", "[]", "[[a]]", "[null]", "null", `""`} {
				if key == "could_be" && kind == "null" {
					continue // to YAML the same as nothing, which the loader takes for none
				}
				n.Content[i] = parseYAML(t, kind)
				text := written(t, book)
				loader, editor := verdicts(t, schema, text)
				require.Equal(t, loader == nil, editor == nil, "%s: %s:\n%s\n%v\n%v", key, kind, text, loader, editor)
				if loader == nil {
					good++
				}
			}
			n.Content[i] = part
		}
	}
	visit(book)
	require.Greater(t, good, 5)
	require.Error(t, schema.Validate([]any{}), "a book is no list")
}

// values are written in every way a limit or a given value can be, and in some
// that fit nothing.
var values = []string{
	"10 ft", "10ft", "-2.5 in", "+1 yd", "0 mile", "3 m", "160 sqft", "0.25 acre", "2 sqm", "12 cuyd", "1 cuft", "1 cum", "1 cuyd/ft", "2 cum/m",
	"0", "3", "-1", "2.5", `"3"`, `"2.0"`, "1/6", `"1 / 6"`, "1/0", "0/3", "16.7 %", "-5%", "1e3 ft", "10 feet", "1,000 ft", "10 ft 6 in", "ft", ".5 ft", "5. ft",
	"1234567890123 ft", "0.1234567890123 ft", "sill", "unknown", "outside", "inside", "near", `""`, "null", "true", "[a]", "[a, 2]", "[]", `[""]`, "[null]", "[[a]]", "{a: b}",
}

// Of every measure with every comparison and value the schema says what the
// loader says.
func TestSchemaKnowsWhatFitsAMeasure(t *testing.T) {
	schema := bookSchema(t)
	before := strings.Split(ladder, "paths:")[0] + "paths:\n  - {id: a, title: A, criteria: [{id: c, evidence: practice, "
	const after = "}]}\n  - {id: z, title: Z, criteria: []}\n"
	good := 0
	same := func(text string) {
		loader, editor := verdicts(t, schema, text)
		require.Equal(t, loader == nil, editor == nil, "%s\n%v\n%v", text, loader, editor)
		if loader == nil {
			good++
		}
	}
	every := append(slices.Clone(measures), Measure{Name: "in_area:x"}, Measure{Name: "nothing"}, Measure{Name: "fetch:x"})
	for i, m := range every {
		tried := []string{"10 ft", "160 sqft", "12 cuyd", "1 cuyd/ft", "2.5", "3", "sill", "inside", "[a]"}
		// Of one measure of each kind, everything.
		if i == slices.IndexFunc(every, func(o Measure) bool { return o.Quantity == m.Quantity && len(o.Parameters) == len(m.Parameters) }) {
			tried = values
		}
		with := ""
		switch len(m.Parameters) {
		case 1:
			with = ", with: {opening: 5 ft}"
		case 2:
			with = ", with: {opening: 5 ft, every: 75 ft}"
		}
		for _, value := range tried {
			for _, comparison := range comparisons {
				same(fmt.Sprintf("%smeasure: %q%s, %s: %s%s", before, m.Name, with, comparison, value, after))
			}
			same(fmt.Sprintf("%smeasure: fetch, at_most: 1 ft%sexamples: [{given: {%q: %s}, path: a}]\n", before, after, m.Name, value))
		}
		for _, with := range []string{"", "with: {}, ", "with: {opening: 5 ft}, ", "with: {opening: 0 ft}, ", "with: {opening: 0.0 ft}, ", "with: {opening: 0.01 ft}, ",
			"with: {opening: -5 ft}, ", "with: {opening: 5}, ", "with: {every: 5 ft}, ", "with: {opening: 5 ft, every: 10 ft}, ", "with: {opening: 5 ft, every: 00 ft}, ",
			"with: {opening: 5 ft, other: 5 ft}, ", "with: 5 ft, ", "with: null, "} {
			limit := map[bool]string{true: "at_most: 3", false: "at_most: 3 ft"}[m.Quantity == Count]
			same(fmt.Sprintf("%smeasure: %q, %s%s%s", before, m.Name, with, limit, after))
			same(fmt.Sprintf("%smeasure: %q, %smax_age: 1 year, %s%s", before, m.Name, with, limit, after))
		}
		for _, limit := range []string{"at_most: 3 ft", "at_least: 3 sqft", "less_than: 3 cuyd", "at_most: 3 cuyd/ft", "more_than: 3"} {
			same(fmt.Sprintf("%sleast_of: [%q, %q], %s%s", before, m.Name, m.Name, limit, after))
			same(fmt.Sprintf("%sleast_of: [%q, %q], max_age: 1 year, %s%s", before, m.Name, "fetch", limit, after))
			for _, other := range []string{"fetch", "fill_volume", "fill_per_length", "footprint_area", "waterway_share", "openings", "kind"} {
				same(fmt.Sprintf("%sgreatest_of: [%q, %q], %s%s", before, m.Name, other, limit, after))
			}
		}
	}
	require.Greater(t, good, 400)
}
