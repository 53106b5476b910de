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
// the extreme feet of either, as in Occupied. 0 if none do.
func (b *Bank) LongestOverlap() float64 {
	fp := b.fp
	if len(fp.Links) == 0 {
		return 0
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
	longest := 0.0
	for _, l := range fp.Links {
		overlap := 0.0 // on all lines of the bank
		for c, e := range extents[l.A] {
			o := extents[l.B][c]
			for _, lap := range f.laps(c) {
				overlap += math.Max(0, math.Min(e.to, o.to+lap)-math.Max(e.from, o.from+lap))
			}
		}
		longest = math.Max(longest, overlap)
	}
	return longest
}
