package screening

import (
	"fmt"

	"waterward/geo/crs"
	"waterward/rules"
)

// neighbour is another proposal nearer to one than an opening.
type neighbour struct {
	*proposal
	own bool // of the same project, and the same alternative of it
}

// adjoining are the proposals that overlap one or leave less than an opening of water to
// it, or may do so by how far either may be off, and what they and others of its id leave
// in doubt. Of two alternatives of one project only one is built.
func (b *basis) adjoining(p *proposal) (near []neighbour, doubts []string) {
	fields := b.source.Properties
	own := designOf(p.feature, fields)
	for _, n := range b.projects.beside[p.feature.Number] {
		f := b.projects.kept[n]
		if f == nil {
			continue
		}
		its := designOf(f, fields)
		if own.alternativeTo(its) {
			continue
		}
		o := neighbour{proposal: newProposal(f, b.source), own: own.key() != "" && own.key() == its.key()}
		apart, err := p.footprint.Apart(o.part())
		if err != nil {
			if crs.Window(f.Bound(), b.opening+b.source.halfWidth(f)).Intersects(p.feature.Bound()) {
				doubts = append(doubts, fmt.Sprintf("%s, which lies beside it, cannot be measured: correct that one", o.id))
			}
			continue
		}
		off, _ := rules.Accuracy{Line: o.accuracy, Footprint: p.accuracy, Bias: coarseness(f) + coarseness(p.feature)}.Guard()
		if apart-off >= b.opening {
			continue
		}
		near = append(near, o)
		if o.own && apart < b.opening {
			continue
		}
		how := "lies " + feetText(apart) + " from it, where " + feetText(b.opening) + " make an opening"
		if apart == 0 {
			how = "overlaps or touches it"
		}
		doubts = append(doubts, fmt.Sprintf("another proposal, %s, %s: say whether they are one structure (the same project) or which of them is proposed", o.id, how))
	}
	if numbers := b.projects.named[p.feature.ID]; len(numbers) > 1 {
		doubts = append(doubts, fmt.Sprintf("%s bear the id %s: say which of them is proposed", number(len(numbers), "feature"), p.feature.ID))
	}
	return near, doubts
}

// parts are the other proposals of a project that adjoin one, one to the next.
func (b *basis) parts(p *proposal, near []neighbour) []*proposal {
	var out []*proposal
	seen := map[int]bool{p.feature.Number: true}
	for todo := near; len(todo) > 0; todo = todo[1:] {
		o := todo[0]
		if !o.own || seen[o.feature.Number] || o.err != nil {
			continue
		}
		seen[o.feature.Number] = true
		out = append(out, o.proposal)
		more, _ := b.adjoining(o.proposal)
		todo = append(todo, more...)
	}
	return out
}
