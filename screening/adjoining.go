package screening

import (
	"fmt"

	"waterward/geo"
)

// part is the drawing of a proposal, as geo takes it.
func (p *proposal) part() geo.Part {
	return geo.Part{Geometry: p.feature.Geometry, Width: p.width, Diameter: p.diameter}
}

// neighbour is another proposal nearer to one than an opening.
type neighbour struct {
	*proposal
	apart float64 // clear width, metres
	own   bool    // of the same project
}

// adjoining are the proposals that overlap one or leave less than an opening of water to
// it, and what they and others of its id leave in doubt. Of two alternatives only one is
// built.
func (b *basis) adjoining(p *proposal) (near []neighbour, doubts []string) {
	_, key := projectOf(p.feature, b.source.Properties)
	for _, n := range b.projects.beside[p.feature.Number] {
		f := b.projects.kept[n]
		if f == nil {
			continue
		}
		_, its := projectOf(f, b.source.Properties)
		if other := alternativeOf(f, b.source.Properties); other != "" && other != alternativeOf(p.feature, b.source.Properties) {
			continue
		}
		o := neighbour{proposal: newProposal(f, b.source), own: key != "" && key == its}
		var err error
		if o.apart, err = p.footprint.Apart(o.part()); err != nil {
			if geo.Window(f.Bound(), b.opening+b.source.halfWidth(f)).Intersects(p.feature.Bound()) {
				doubts = append(doubts, fmt.Sprintf("%s, which lies beside it, cannot be measured: correct that one", o.id))
			}
			continue
		}
		if o.apart >= b.opening {
			continue
		}
		near = append(near, o)
		if o.own {
			continue
		}
		how := "adjoins it, " + feetText(o.apart) + " away, which is less than an opening of " + feetText(b.opening)
		if o.apart == 0 {
			how = "overlaps or touches it"
		}
		doubts = append(doubts, fmt.Sprintf("another proposal, %s, %s: say whether they are one structure (the same project) or which of them is proposed", o.id, how))
	}
	if numbers := b.projects.named[p.feature.ID]; len(numbers) > 1 {
		doubts = append(doubts, fmt.Sprintf("%s bear the id %s: say which of them is proposed", number(len(numbers), "feature"), p.feature.ID))
	}
	return near, doubts
}

// structure is the footprint of all parts of the project that adjoin a proposal, one to
// the next, the proposal first; nil if none does.
func (b *basis) structure(p *proposal, near []neighbour) *geo.Footprint {
	seen := map[int]bool{p.feature.Number: true}
	parts := []geo.Part{p.part()}
	for todo := near; len(todo) > 0; todo = todo[1:] {
		o := todo[0]
		if !o.own || seen[o.feature.Number] || o.err != nil {
			continue
		}
		seen[o.feature.Number] = true
		parts = append(parts, o.part())
		more, _ := b.adjoining(o.proposal)
		todo = append(todo, more...)
	}
	if len(parts) == 1 {
		return nil
	}
	fp, err := geo.NewFootprintOf(parts...)
	if err != nil { // each was built by itself; together they are too large for one
		return nil
	}
	return fp
}
