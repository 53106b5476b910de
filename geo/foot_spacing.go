package geo

import "math"

// OpeningSpacing returns the greatest distance, in metres, along the structure
// between the middles of neighbouring openings at least as wide as opening
// (metres), or from an end of the structure to the middle of the nearest one:
// the length of a run and half the widths of the two widest such openings
// beside it, of the one there is at an end.
func (fp *Footprint) OpeningSpacing(opening float64) float64 {
	return fp.run().spacing[fp.Narrower(opening)]
}

// LongestOverlap returns the length, in metres along the bank, of the longest
// stretch of it in front of which two neighbouring elements both lie: between
// the extreme feet of either, as in Occupied. 0 if none do. It is one stretch on
// each line of the bank that it lies on.
func (b *Bank) LongestOverlap() (length float64, stretches []Stretch) {
	fp := b.fp
	if len(fp.Links) == 0 {
		return 0, nil
	}
	extents := make([][]extent, len(fp.Elements))
	f := b.feetOn()
	for i := range fp.Elements {
		f := feetOf(b.Lines, fp.Elements[i:i+1], nil)
		for c := range f.chains {
			whole, _, has := f.whole(c)
			if !has {
				whole = extent{math.Inf(1), math.Inf(-1)}
			}
			extents[i] = append(extents[i], whole)
		}
	}
	type lapped struct {
		chain int
		extent
	}
	var longest []lapped
	for _, l := range fp.Links {
		overlap, on := 0.0, []lapped(nil) // on all lines of the bank
		for c, e := range extents[l.A] {
			o := extents[l.B][c]
			for _, lap := range f.laps(c) {
				both := extent{math.Max(e.from, o.from+lap), math.Min(e.to, o.to+lap)}
				if both.to > both.from {
					overlap += both.to - both.from
					on = append(on, lapped{c, both})
				}
			}
		}
		if overlap > length {
			length, longest = overlap, on
		}
	}
	for _, s := range longest {
		stretches = append(stretches, Stretch{f.between(s.chain, s.from, s.to), s.to - s.from})
	}
	return length, stretches
}
