package geo

import (
	"cmp"
	"slices"
)

// Order returns which elements of the structure follow one another along the bank,
// by where their middles lie, with the water on the left: from left to right for who looks
// over the water. Round an island it begins behind the widest stretch without one.
func (b *Bank) Order() []int {
	st := newStations(b.Lines)
	type place struct {
		element, chain int
		station        float64
	}
	places := make([]place, len(b.fp.Elements))
	for i := range b.fp.Elements {
		f := b.Lines.Nearest(b.fp.Elements[i].middle())
		places[i] = place{i, int(st.of[f.seg]), st.station(f)}
	}
	slices.SortStableFunc(places, func(p, q place) int {
		return cmp.Or(cmp.Compare(p.chain, q.chain), cmp.Compare(p.station, q.station))
	})
	first, widest := 0, -1.0
	for i, p := range places {
		before, round := places[len(places)-1], 0.0
		if i > 0 {
			before = places[i-1]
		} else {
			round = st.length[p.chain]
		}
		if p.chain != before.chain || !st.chains[p.chain].loop {
			first = 0
			break
		}
		if gap := p.station - before.station + round; gap > widest {
			first, widest = i, gap
		}
	}
	order := make([]int, len(places))
	for i := range places {
		order[i] = places[(first+i)%len(places)].element
	}
	return order
}
