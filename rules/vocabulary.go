package rules

import "slices"

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
