package screening

import (
	"cmp"
	"fmt"
	"slices"

	"waterward/geo/crs"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

// adjoining are the proposals that overlap one or leave less than an opening of water to
// it, or may do so by how far either may be off: those of the same project, and the same
// alternative of it, and what the others leave in doubt. Of two alternatives of one project
// only one is built.
type adjoining struct {
	own    []*standing
	doubts []string
}

// adjoining finds them.
func (b *setup) adjoining(p *standing) *adjoining {
	return p.adjoining.get(func() *adjoining {
		out := &adjoining{}
		if p.crowd > 0 {
			out.doubts = []string{fmt.Sprintf("%d other proposals lie beside it, more than the %d that are looked at: say which of them are proposed", p.crowd, mostAdjoining)}
		}
		var doubts []string
		unnamed := 0
		for _, o := range p.beside {
			own, doubt := b.stands(p, o, len(doubts) < mostNamed)
			if own {
				out.own = append(out.own, o)
			}
			switch {
			case doubt == "":
			case len(doubts) < mostNamed:
				doubts = append(doubts, doubt)
			default:
				unnamed++
			}
		}
		if unnamed > 0 {
			doubts = append(doubts, fmt.Sprintf("%d more proposals overlap it, lie closer than an opening or cannot be measured: say of each whether it is one structure with it (the same project), or whether it is proposed", unnamed))
		}
		out.doubts = append(out.doubts, doubts...)
		return out
	})
}

// stands tells whether another is of the same project and adjoins a proposal, and what it
// leaves in doubt. If it is not to be named, how near it lies is not measured where it
// surely adjoins.
func (b *setup) stands(p, o *standing, named bool) (own bool, doubt string) {
	if p.design.AlternativeTo(o.design) {
		return false, ""
	}
	its := o.measured()
	shift := crs.DatumShift(o.of.CRS().Datum, p.of.CRS().Datum)
	off, _ := rules.Accuracy{Line: its.Accuracy, Footprint: p.measured().Accuracy, Bias: o.coarse + p.coarse + shift}.Tolerance()
	if !crs.Window(o.bound, b.opening+off+o.halfWidth+p.halfWidth).Intersects(p.bound) {
		return false, ""
	}
	own = p.design.Key() != "" && p.design.Key() == o.design.Key()
	if (own || !named) && its.Err == nil && p.measured().Footprint.SurelyWithin(b.opening, its.Footprint) {
		if own {
			return true, ""
		}
		return false, "lies so near"
	}
	apart, err := apart(p, o)
	if err != nil {
		if crs.Window(o.bound, b.opening+o.halfWidth).Intersects(p.bound) {
			return false, fmt.Sprintf("%s, which lies beside it, cannot be measured: correct that one", its.ID)
		}
		return false, ""
	}
	if apart-off >= b.opening {
		return false, ""
	}
	if own && apart < b.opening {
		return true, ""
	}
	how := "lies " + job.FeetText(apart) + " from it, where " + job.FeetText(b.opening) + " make an opening"
	if apart >= b.opening {
		how += " and the positions are good to " + job.FeetText(off)
	}
	if apart == 0 {
		how = "overlaps or touches it"
	}
	return own, fmt.Sprintf("another proposal, %s, %s: say whether they are one structure (the same project) or which of them is proposed", its.ID, how)
}

// apart is the clear width between two proposals, the same whichever is asked.
func apart(p, o *standing) (float64, error) {
	if o.measured().Err == nil && o.of.Order < p.of.Order {
		p, o = o, p
	}
	return p.measured().Apart(o.measured())
}

// others are the proposals of its project that adjoin one, one to the next, nearest first,
// and the structure that they are with it; nil if none does.
func (b *setup) others(p *standing) ([]*standing, *site.Whole) {
	all := []*standing{p}
	seen := map[*standing]bool{p: true}
	for next := 0; next < len(all); next++ {
		if len(all) > mostAdjoining || all[next].crowd > 0 && p.design.Key() != "" {
			return nil, site.NoWhole("more than %d proposals of its project adjoin one another, or lie beside one of them, which are too many to be measured as one structure: draw them as one", mostAdjoining)
		}
		for _, o := range b.adjoining(all[next]).own {
			if !seen[o] {
				seen[o] = true
				all = append(all, o)
			}
		}
	}
	if len(all) == 1 {
		return nil, nil
	}
	others := slices.Clone(all[1:])
	slices.SortFunc(all, func(a, b *standing) int { return cmp.Compare(a.of.Order, b.of.Order) })
	return others, all[0].whole.get(func() *site.Whole {
		var parts []*site.Proposal
		for _, s := range all {
			parts = append(parts, s.measured())
		}
		return site.Together(parts)
	})
}

// choices are the paths that a proposal comes to by some books, as part of a structure.
func (b *setup) choices(s *standing, whole *site.Whole, books []*rules.Book) []rules.Choice {
	s.deciding.Lock()
	defer s.deciding.Unlock()
	var own *site.Site
	out := make([]rules.Choice, len(books))
	for i, book := range books {
		choice, known := s.choices[book]
		if !known {
			if own == nil {
				own = b.site(s.measured(), whole)
			}
			d := book.Decide(own)
			choice = d.Choice()
			if s.choices == nil {
				s.choices = map[*rules.Book]rules.Choice{}
			}
			s.choices[book] = choice
		}
		out[i] = choice
	}
	return out
}

// mostNamed is how many proposals a row names one by one that each ask the same of it: more
// than anybody reads, and few enough that a thousand in one place do not write a million
// sentences.
const mostNamed = 50
