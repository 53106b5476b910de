package site

import (
	"fmt"
	"math"

	"waterward/geo"
)

// Whole is proposals that adjoin one another as one structure. It may be read by many
// goroutines.
type Whole struct {
	Footprint *geo.Footprint // nil if it is not known
	Unknown   string         // why it is not, and what to do
	first     map[int]int    // by order of a proposal, its first drawing
}

// Together makes proposals that adjoin one another one structure, the same for each.
func Together(all []*Proposal) *Whole {
	w := &Whole{first: map[int]int{}}
	var drawn []geo.Part
	for _, p := range all {
		w.first[p.Of.Order] = len(drawn)
		drawn = append(drawn, p.drawn...)
	}
	fp, err := geo.NewFootprintOf(drawn...)
	switch {
	case err != nil: // each was built by itself; together they are too large for one
		return NoWhole("the %d proposals of its project that adjoin one another cannot be measured as one structure (%v): draw it in fewer parts", len(all), err)
	case fp.Incomplete != "":
		return NoWhole("of the %d proposals of its project that adjoin one another one is not known: %s", len(all), fp.Incomplete)
	}
	w.Footprint = fp
	return w
}

// NoWhole is a structure that is not known, with why.
func NoWhole(format string, args ...any) *Whole {
	return &Whole{Unknown: fmt.Sprintf(format, args...)}
}

// Apart is the clear width, in metres, of the water between two proposals, 0 if they touch
// or overlap. It fails if the other is no structure.
func (p *Proposal) Apart(other *Proposal) (float64, error) {
	if other.Err != nil {
		return 0, other.Err
	}
	least := math.Inf(1)
	for _, part := range other.drawn {
		apart, err := p.Footprint.Apart(part)
		if err != nil {
			return 0, err
		}
		least = math.Min(least, apart)
	}
	return least, nil
}
