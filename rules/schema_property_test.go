package rules

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"
)

// Whatever becomes of a good book, what the loader still accepts the schema does.
func TestSchemaAcceptsWhatTheLoaderAccepts(t *testing.T) {
	schema := bookSchema(t)
	var strange []*yaml.Node
	for _, text := range append(values, "2026-03-14", "2026-02-30", "in_area:x", "longest_run", "footprint_area", "[fetch, stone_size]",
		"{measure: kind, is: sill}", "[{measure: fetch, at_most: 1 mile}]", "read", "unverified", "firm", "2024", ".inf", "1e3", "yes", "general", "length") {
		strange = append(strange, parseYAML(t, text))
	}
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		book := parseYAML(t, rapid.SampledFrom([]string{whole, whole, ladder + examples}).Draw(t, "book"))
		for range rapid.IntRange(1, 3).Draw(t, "changes") {
			var all, parts []*yaml.Node // mappings; values and keys
			mappings(book, func(n *yaml.Node) {
				if len(n.Content) > 0 {
					all = append(all, n)
					parts = append(parts, n.Content...)
				}
			})
			n := rapid.SampledFrom(all).Draw(t, "mapping")
			i := 2 * rapid.IntRange(0, len(n.Content)/2-1).Draw(t, "key")
			other := rapid.SampledFrom(parts).Draw(t, "part")
			switch rapid.SampledFrom([]string{"drop", "rename", "swap", "swap", "strange", "strange", "add"}).Draw(t, "change") {
			case "drop":
				n.Content = slices.Delete(slices.Clone(n.Content), i, i+2)
			case "rename":
				if other.Kind == yaml.ScalarNode {
					n.Content[i] = other
				}
			case "swap":
				if !contains(other, n) {
					n.Content[i+1] = other
				}
			case "strange":
				n.Content[i+1] = rapid.SampledFrom(strange).Draw(t, "value")
			case "add":
				key := rapid.SampledFrom(slices.Concat(demandKeys, criterionKeys)).Draw(t, "added")
				n.Content = append(slices.Clone(n.Content), &yaml.Node{Kind: yaml.ScalarNode, Value: key}, rapid.SampledFrom(strange).Draw(t, "value"))
			}
		}
		text := written(t, book)
		loader, editor := verdicts(t, schema, text)
		if loader == nil {
			accepted++
			require.NoError(t, editor, text)
		}
	})
	require.Positive(t, accepted)
}

// contains says whether a node lies in the tree of another, or is it.
func contains(tree, n *yaml.Node) bool {
	return tree == n || slices.ContainsFunc(tree.Content, func(child *yaml.Node) bool { return contains(child, n) })
}
