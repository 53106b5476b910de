package rules

import (
	"slices"
	"strings"
)

// vocabulary are the words that a book knows of one measure, as it writes them, by
// their letters and digits alone.
type vocabulary map[string]string

func (v vocabulary) add(words []string) {
	for _, w := range words {
		if v[plain(w)] == "" {
			v[plain(w)] = w
		}
	}
}

// find is a word as the vocabulary writes it, also where one of the two is a plural; empty
// if it has none such.
func (v vocabulary) find(word string) string {
	w := plain(word)
	for _, other := range []string{w, strings.TrimSuffix(w, "s"), strings.TrimSuffix(w, "es"), w + "s", w + "es"} {
		if known := v[other]; known != "" {
			return known
		}
	}
	return ""
}

// lacks are those of some words that it does not have.
func (v vocabulary) lacks(words []string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return v[plain(w)] != "" })
}

// familiarise tells every demand on a word which words the book knows: its own and
// those of the trade.
func (b *Book) familiarise() {
	known := b.vocabularies()
	for _, m := range measures {
		if m.Quantity == Word {
			known[m.Name].add(m.Familiar)
		}
	}
	for _, d := range b.Demands() {
		d.Known = known[d.Measure.Name]
	}
}

// vocabularies are the words that the book knows of each measure: those it lists and
// those of its demands.
func (b *Book) vocabularies() map[string]vocabulary {
	known := map[string]vocabulary{}
	for _, m := range measures {
		if m.Quantity == Word {
			known[m.Name] = vocabulary{}
			known[m.Name].add(b.Words[m.Name])
		}
	}
	for _, d := range b.Demands() {
		if d.Measure.Quantity == Word {
			known[d.Measure.Name].add(d.Words)
		}
	}
	return known
}
