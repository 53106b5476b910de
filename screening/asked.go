package screening

import (
	"slices"
	"strings"

	"waterward/rules"
)

// asked are the measures that a book, or the siting criteria of all books, can ask for.
type asked []string

// asks reports whether any measure with one of the prefixes is asked for.
func (a asked) asks(prefixes ...string) bool {
	return slices.ContainsFunc(a, func(measure string) bool {
		return slices.ContainsFunc(prefixes, func(prefix string) bool { return strings.HasPrefix(measure, prefix) })
	})
}

// withNeeded are the measures with those that they are made of, each once.
func (a asked) withNeeded() asked {
	if a.asks("waterway_share") { // which is that of the reach
		a = append(a, "mhw_farthest")
	}
	slices.Sort(a)
	return slices.Compact(a)
}

// askedBy are the measures that a book can ask for.
func askedBy(b *rules.Book) asked {
	var out asked
	for _, d := range b.Demands() {
		for _, in := range d.Inputs() {
			out = append(out, in.Ref.Measure)
		}
	}
	return out
}

// onShore reports whether any of the measures needs the home bank.
func (a asked) onShore() bool {
	return slices.ContainsFunc(a, func(measure string) bool {
		r, _ := recordOf(measure)
		return r.shore
	})
}

// surroundings sets the measures asked for of layers that the shore has no part in.
func (s *site) surroundings(of asked) {
	if of.asks("seagrass_") {
		s.seagrass()
	}
	if of.asks("channel_") {
		s.channels()
	}
	if l := s.layers.layer("wetlands"); l == nil {
		s.wetlands()
	} else if of.asks("wetland_") {
		s.cover(l, "wetland_overlap", "wetland_nearest")
	}
	for _, a := range s.layers.areas {
		if slices.Contains(of, "in_area:"+a.name[len("areas."):]) {
			s.namedArea(a)
		}
	}
}
