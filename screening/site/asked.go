package site

import (
	"slices"
	"strings"

	"waterward/rules"
)

// Asked are the measures that a book, or the siting criteria of all books, can ask for.
type Asked []string

// Asks reports whether any measure with one of the prefixes is asked for.
func (a Asked) Asks(prefixes ...string) bool {
	return slices.ContainsFunc(a, func(measure string) bool {
		return slices.ContainsFunc(prefixes, func(prefix string) bool { return strings.HasPrefix(measure, prefix) })
	})
}

// WithNeeded are the measures with those that they are made of, each once.
func (a Asked) WithNeeded() Asked {
	if a.Asks("waterway_share") { // which is that of the reach
		a = append(a, "mhw_farthest")
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
		r, _ := recordOf(measure)
		return r.Shore
	})
}

// Surroundings sets the measures asked for of layers that the shore has no part in.
func (s *Site) Surroundings(of Asked) {
	if of.Asks("seagrass_") {
		s.seagrass()
	}
	if of.Asks("channel_") {
		s.channels()
	}
	if l := s.Layers.Layer("wetlands"); l == nil {
		s.wetlands()
	} else if of.Asks("wetland_") {
		s.cover(l, "wetland_overlap", "wetland_nearest")
	}
	for _, a := range s.Layers.Areas {
		if slices.Contains(of, "in_area:"+a.Name[len("areas."):]) {
			s.namedArea(a)
		}
	}
}
