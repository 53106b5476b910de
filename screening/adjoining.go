package screening

import (
	"fmt"

	"waterward/geo/crs"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

// neighbour is another proposal nearer to one than an opening.
type neighbour struct {
	*site.Proposal
	own bool // of the same project, and the same alternative of it
}

// adjoining are the proposals that overlap one or leave less than an opening of water to
// it, or may do so by how far either may be off, and what they leave in doubt. Of two alternatives of one project only one is built.
func (b *setup) adjoining(p *site.Proposal) (near []neighbour, doubts []string) {
	own := site.DesignOf(p.Of)
	for _, n := range b.projects.beside[p.Of.Order] {
		of := b.projects.kept[n]
		if of == nil {
			continue
		}
		its := site.DesignOf(of)
		if own.AlternativeTo(its) {
			continue
		}
		o := neighbour{Proposal: site.NewProposal(of), own: own.Key() != "" && own.Key() == its.Key()}
		apart, err := p.Apart(o.Proposal)
		if err != nil {
			if crs.Window(of.Bound(), b.opening+of.HalfWidth()).Intersects(p.Of.Bound()) {
				doubts = append(doubts, fmt.Sprintf("%s, which lies beside it, cannot be measured: correct that one", o.ID))
			}
			continue
		}
		off, _ := rules.Accuracy{Line: o.Accuracy, Footprint: p.Accuracy, Bias: of.Coarseness() + p.Of.Coarseness()}.Tolerance()
		if apart-off >= b.opening {
			continue
		}
		near = append(near, o)
		if o.own && apart < b.opening {
			continue
		}
		how := "lies " + job.FeetText(apart) + " from it, where " + job.FeetText(b.opening) + " make an opening"
		if apart >= b.opening {
			how += " and the positions are good to " + job.FeetText(off)
		}
		if apart == 0 {
			how = "overlaps or touches it"
		}
		doubts = append(doubts, fmt.Sprintf("another proposal, %s, %s: say whether they are one structure (the same project) or which of them is proposed", o.ID, how))
	}
	return near, doubts
}

// parts are the other proposals of a project that adjoin one, one to the next.
func (b *setup) parts(p *site.Proposal, near []neighbour) []*site.Proposal {
	var out []*site.Proposal
	seen := map[int]bool{p.Of.Order: true}
	for todo := near; len(todo) > 0; todo = todo[1:] {
		o := todo[0]
		if !o.own || seen[o.Of.Order] || o.Err != nil {
			continue
		}
		seen[o.Of.Order] = true
		out = append(out, o.Proposal)
		more, _ := b.adjoining(o.Proposal)
		todo = append(todo, more...)
	}
	return out
}
