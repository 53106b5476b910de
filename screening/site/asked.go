package site

import (
	"slices"

	"waterward/rules"
)

// Asked are the measures that a book, or the siting criteria of all books, can ask for.
type Asked []string

// Asks reports whether any of the measures is asked for.
func (a Asked) Asks(measures ...string) bool {
	return slices.ContainsFunc(a, func(measure string) bool { return slices.Contains(measures, measure) })
}

// AsksOf reports whether any measure that is taken from a layer is asked for.
func (a Asked) AsksOf(layer string) bool {
	return slices.ContainsFunc(a, func(measure string) bool { return RecordOf(measure).Layer == layer })
}

// WithNeeded are the measures with those that they are made of, each once.
func (a Asked) WithNeeded() Asked {
	for _, measure := range slices.Clone(a) {
		if needs := RecordOf(measure).needs; needs != "" {
			a = append(a, needs)
		}
	}
	slices.Sort(a)
	return slices.Compact(a)
}

// AskedBy are the measures that a book can ask for.
func AskedBy(b *rules.Book) Asked {
	var out Asked
	for _, d := range b.Demands() {
		for _, in := range d.Inputs() {
			out = append(out, in.Ref.Measure)
		}
	}
	return out
}

// OnShore reports whether any of the measures needs the home bank.
func (a Asked) OnShore() bool {
	return slices.ContainsFunc(a, func(measure string) bool {
		return RecordOf(measure).Shore
	})
}

// Surroundings sets the measures asked for of layers that the shore has no part in.
func (s *Site) Surroundings(of Asked) {
	if of.AsksOf("seagrass") {
		s.seagrass()
	}
	if of.AsksOf("channels") {
		s.channels()
	}
	if l := s.Layers.Layer("wetlands"); l == nil {
		s.wetlands()
	} else if of.AsksOf("wetlands") {
		s.cover(l, "wetland_overlap", "wetland_nearest")
	}
	for _, a := range s.Layers.Areas {
		if of.AsksOf(a.Name) {
			s.namedArea(a)
		}
	}
}
