package geo

import "math"

// OpeningSpacing returns the greatest distance, in metres, along the structure
// between the middles of neighbouring openings at least as wide as opening
// (metres), or from an end of the structure to the middle of the nearest one:
// the length of a run and half the widths of the two widest such openings
// beside it, of the one there is at an end.
func (fp *Footprint) OpeningSpacing(opening float64) float64 {
	of, length := fp.runs(opening)
	beside := make([][2]float64, len(length)) // the two widest openings of each run
	for _, l := range fp.Links {              // narrowest first
		if l.Width >= opening {
			for _, i := range [2]int{of[l.A], of[l.B]} {
				beside[i] = [2]float64{beside[i][1], l.Width}
			}
		}
	}
	greatest := 0.0
	for i, x := range length {
		greatest = math.Max(greatest, x+(beside[i][0]+beside[i][1])/2)
	}
	return greatest
}

// LongestOverlap returns the length, in metres along the bank, of the longest
// stretch of it in front of which two neighbouring elements both lie: between
// the extreme feet of the vertices of either, as in Occupied. 0 if none do.
func (b *Bank) LongestOverlap(fp *Footprint) float64 {
	if len(fp.Links) == 0 {
		return 0
	}
	s := b.stations()
	extents := make([]map[int]extent, len(fp.Elements))
	for i := range fp.Elements {
		extents[i] = s.extents(fp.Elements[i : i+1])
	}
	longest := 0.0
	for _, l := range fp.Links {
		overlap := 0.0 // on all separately mapped lines of the bank
		for i := range s.bases {
			e, ok := extents[l.A][i]
			o, too := extents[l.B][i]
			if ok && too {
				overlap += math.Max(0, math.Min(e.to, o.to)-math.Max(e.from, o.from))
			}
		}
		longest = math.Max(longest, overlap)
	}
	return longest
}
