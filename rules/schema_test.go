package rules

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
)

// The schema is for editors. These tests hold it to the loader; the validator,
// which also holds the schema to the published meta-schema of draft 2020-12, is
// the outside source. The loader forgives outer blanks in quotes and capitals in
// outside, inside and unknown; the schema shows one way to write.

const schemaFile = "books/schema.json"

func bookSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	text, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	require.NoError(t, err)
	compiler := jsonschema.NewCompiler()
	require.NoError(t, compiler.AddResource(schemaFile, doc))
	compiled, err := compiler.Compile(schemaFile)
	require.NoError(t, err)
	return compiled
}

func parseYAML(t require.TestingT, text string) *yaml.Node {
	var document yaml.Node
	require.NoError(t, yaml.Unmarshal([]byte(text), &document), text)
	return document.Content[0]
}

// asJSON is the value an editor checks: YAML 1.2 as written, so that a date is
// text, and what JSON has no number for too.
func asJSON(t require.TestingT, n *yaml.Node) any {
	switch n.Kind {
	case yaml.MappingNode:
		out := map[string]any{}
		for i := 0; i < len(n.Content); i += 2 {
			out[n.Content[i].Value] = asJSON(t, n.Content[i+1])
		}
		return out
	case yaml.SequenceNode:
		out := []any{}
		for _, item := range n.Content {
			out = append(out, asJSON(t, item))
		}
		return out
	}
	switch n.Tag {
	case "!!null", "!!bool", "!!int", "!!float":
		var value any
		require.NoError(t, n.Decode(&value))
		if number, ok := value.(float64); ok && (math.IsInf(number, 0) || math.IsNaN(number)) {
			return n.Value
		}
		return value
	}
	return n.Value
}

// verdicts are the errors of the loader and of the schema on one text.
func verdicts(t require.TestingT, schema *jsonschema.Schema, text string) (loader, editor error) {
	_, loader = Load("b.yaml", strings.NewReader(text))
	return loader, schema.Validate(asJSON(t, parseYAML(t, text)))
}

func TestSchemaAcceptsBooks(t *testing.T) {
	schema := bookSchema(t)
	files, err := filepath.Glob("books/*/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	texts := map[string]string{"whole": whole, "ladder": ladder + examples}
	for _, file := range append(files, "../testdata/marrowby/county.yaml") {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		texts[file] = string(text)
	}
	for name, text := range texts {
		loader, editor := verdicts(t, schema, text)
		require.NoError(t, loader, name)
		require.NoError(t, editor, name)
	}
}

// mappings calls see with every mapping of a tree.
func mappings(n *yaml.Node, see func(*yaml.Node)) {
	if n.Kind == yaml.MappingNode {
		see(n)
	}
	for _, child := range n.Content {
		mappings(child, see)
	}
}

func written(t require.TestingT, n *yaml.Node) string {
	text, err := yaml.Marshal(n)
	require.NoError(t, err)
	return string(text)
}

// Unusual, and good to both.
func TestSchemaAcceptsOddBooks(t *testing.T) {
	schema := bookSchema(t)
	for _, tt := range [][]string{
		{`edition: "2"`, "edition: 2"},
		{"in_force: {from: 2022-02-25, until", "in_force: {from: null, until"},
		{"looked: 2026-11-25", `looked: "2026-11-25"`},
		{"looked: 2026-11-25", "looked: null"},
		{"scope: true", `scope: "false"`},
		{`could_be: ""`, "could_be:"},
		{"at_most: 0\n", "at_most: \"0\"\n"},
		{"none_of: [tyre, asphalt]", "none_of: [2, true]"},
		{"title: A book with everything", "title: 1984"},
		{"        interpretation: openings counted in\n        interpretations:\n          - {id: strict, measure: overall_length, less_than: 500 ft, says: less than 500 ft, evidence: secondary, cite: Rule 3}\n" +
			"          - {id: bank, measure: bank_length, at_most: 500 ft, says: along the bank, evidence: practice}\n", "        interpretations: []\n"},
		{"evidence: secondary, cite: Rule 3", "evidence: unverified, cite: Rule 3"},
	} {
		require.Contains(t, whole, tt[0])
		loader, editor := verdicts(t, schema, strings.Replace(whole, tt[0], tt[1], 1))
		require.NoError(t, loader, tt[1])
		require.NoError(t, editor, tt[1])
	}
}

// What both refuse; what the schema cannot say, such as an id that comes twice
// with other limits, is the loader's alone.
func TestSchemaRefusesBadBooks(t *testing.T) {
	schema := bookSchema(t)
	const stuff = "{id: stuff, measure: material, none_of: [tyre, asphalt], scope: true, if_stated: true, evidence: practice}"
	for _, tt := range [][]string{
		{"unknown key", "caution:", "cautoin:"},
		{"key too many", "caution: For tests only.", "caution: For tests only.\nx: 1"},
		{"missing key", "title: A book with everything\n", ""},
		{"empty text", "title: A book with everything", "title:"},
		{"blank text", "title: A book with everything", `title: "  "`},
		{"no text", "title: A book with everything", "title: [a]"},
		{"bad book name", "book: whole", "book: My Book"},
		{"bad id", "id: general", "id: General"},
		{"bad authority", "authority: test", "authority: My-State"},
		{"numbered authority", "authority: test", "authority: 5"},
		{"unknown status", "status: in force", "status: in-force"},
		{"bad date", "from: 2022-02-25", "from: 25.2.2022"},
		{"no such month", "from: 2022-02-25", "from: 2022-13-25"},
		{"time of day", "from: 2022-02-25", "from: 2022-02-25T00:00:00Z"},
		{"no until", ", until: 2026-03-14", ""},
		{"work started under a book without end", "until: 2026-03-14", "until: null"},
		{"work started without end", "until: 2027-03-14", "until: null"},
		{"bad day looked at", "looked: 2026-11-25", "looked: yesterday"},
		{"two comparisons", "at_most: 500 ft\n        interpretation", "at_most: 500 ft\n        at_least: 1 ft\n        interpretation"},
		{"no comparison", "at_most: 500 ft\n        interpretation", "interpretation"},
		{"two measures", "measure: overall_length\n", "measure: overall_length\n        least_of: [bank_length, fetch]\n"},
		{"no measure", "        measure: overall_length\n", ""},
		{"unknown measure", "measure: overall_length\n", "measure: overal_length\n"},
		{"area without a name", "in_area:preserve", `"in_area:"`},
		{"bad unit", "at_most: 500 ft\n        interpretation", "at_most: 500 sqft\n        interpretation"},
		{"no unit", "at_most: 500 ft\n        interpretation", "at_most: 500\n        interpretation"},
		{"unlike measures", "[mhw_landward_edge, wetland_landward_edge]", "[mhw_landward_edge, footprint_area]"},
		{"greatest of one", "[mhw_landward_edge, wetland_landward_edge]", "[mhw_landward_edge]"},
		{"interpretation of the greatest of one", "{id: bank, measure: bank_length", "{id: bank, greatest_of: [bank_length]"},
		{"interpretation of the least of one", "{id: bank, measure: bank_length", "{id: bank, least_of: [bank_length]"},
		{"condition on the greatest of one", "{measure: wetland_nearest", "{greatest_of: [wetland_nearest]"},
		{"condition on the least of one", "{measure: wetland_nearest", "{least_of: [wetland_nearest]"},
		{"parameter missing", "with: {opening: 5 ft, every: 100 ft}", "with: {opening: 5 ft}"},
		{"parameter of nothing", "with: {opening: 5 ft, every: 100 ft}", "with: {opening: 0 ft, every: 100 ft}"},
		{"parameter refused", "measure: overall_length\n", "measure: overall_length\n        with: {opening: 5 ft}\n"},
		{"no age", "max_age: 18 months", "max_age: 18 weeks"},
		{"age of 0", "max_age: 18 months", "max_age: 0 months"},
		{"age of what rests on no layer", "with: {opening: 5 ft, every: 100 ft}", "with: {opening: 5 ft, every: 100 ft}\n        max_age: 1 year"},
		{"age under a notice", "    when: {measure: in_area:preserve, is: inside}", "    when: {measure: in_area:preserve, is: inside, max_age: 1 year}"},
		{"age under a list of a notice", "    when: {measure: in_area:preserve, is: inside}", "    when: [{measure: in_area:preserve, is: inside, max_age: 1 year}]"},
		{"half a count", "at_most: 0\n", "at_most: 0.5\n"},
		{"no list", "none_of: [tyre, asphalt]", "none_of: tyre"},
		{"empty list", "none_of: [tyre, asphalt]", "none_of: []"},
		{"area near", "is: inside", "is: near"},
		{"bad scope", "scope: true", "scope: maybe"},
		{"bad if_stated", "if_stated: true", "if_stated: maybe"},
		{"bad evidence", "evidence: secondary", "evidence: rumour"},
		{"unverified limit", "cite: Rule 3\n        evidence: read", "cite: Rule 3\n        evidence: unverified"},
		{"no citation", "cite: Rule 3\n        evidence: read", "evidence: read"},
		{"no citation of an interpretation", ", evidence: secondary, cite: Rule 3", ", evidence: secondary"},
		{"no citation of a condition", "{says: Plant what grows here, evidence: practice}", "{says: Plant what grows here, evidence: read}"},
		{"no citation of a notice", ", evidence: unverified, cite: Rule 2", ", evidence: unverified"},
		{"no citation of work started", ", cite: Rule 0, evidence: read", ", evidence: read"},
		{"interpretations without one that decides", "        interpretation: openings counted in\n", ""},
		{"condition with when", "{says: Plant what grows here, evidence: practice}", "{says: Plant, evidence: practice, when: {measure: kind, is: sill}}"},
		{"empty when", "    when: {measure: in_area:preserve, is: inside}", "    when: []"},
		{"criterion twice", "      - " + stuff, "      - " + stuff + "\n      - " + stuff},
		{"interpretation twice", "          - {id: bank, measure: bank_length, at_most: 500 ft, says: along the bank, evidence: practice}\n",
			strings.Repeat("          - {id: bank, measure: bank_length, at_most: 500 ft, says: along the bank, evidence: practice}\n", 2)},
		{"path twice", "  - {id: individual", strings.Repeat("  - {id: early, title: Early, criteria: ["+stuff+"]}\n", 2) + "  - {id: individual"},
		{"criterion that is no mapping", stuff, "stuff"},
		{"last path with criteria", "criteria: []", "criteria: [" + stuff + "]"},
		{"last path with what is unread", "criteria: []", "criteria: [], unread: [{id: rest, says: its height, cite: Rule 4}]"},
		{"unread limit without a place", "says: how high it may stand, cite: Rule 4", "says: how high it may stand"},
		{"unread limit of nothing", "says: how high it may stand, cite", "cite"},
		{"unread limit with evidence", "says: how high it may stand,", "says: how high it may stand, evidence: memory,"},
		{"unread limit twice", "      - {id: rest, says: how high it may stand, cite: Rule 4}\n", strings.Repeat("      - {id: rest, says: how high it may stand, cite: Rule 4}\n", 2)},
		{"words of a quantity", "kind: [reef ball]", "fetch: [reef ball]"},
		{"words of what is yes or no", "kind: [reef ball]", "fill_proposed: [reef ball]"},
		{"no words", "kind: [reef ball]", "kind: []"},
		{"example under an old key", "certainty: close call", "standing: close call"},
		{"an early path without criteria", "  - {id: individual", "  - {id: early, title: Early, criteria: []}\n  - {id: individual"},
		{"criteria no list", "criteria: []", "criteria: none"},
		{"example of an unknown measure", "given: {overall_length", "given: {overal_length"},
		{"example in a bad unit", "given: {overall_length: 500 ft", "given: {overall_length: 500"},
		{"example of nothing", "material: rock}", "material: }"},
		{"example of an unknown certainty", "certainty: close call", "certainty: sure"},
		{"example without a path", "    path: general\n", ""},
		{"example of an easier path that is no id", `could_be: ""`, "could_be: General"},
		{"waiver no list", "waiver: []", "waiver: length"},
	} {
		require.Contains(t, whole, tt[1], tt[0])
		loader, editor := verdicts(t, schema, strings.Replace(whole, tt[1], tt[2], 1))
		require.Error(t, loader, "loader: %s", tt[0])
		require.Error(t, editor, "schema: %s", tt[0])
	}
}
