package screening

import (
	"slices"
	"sync"
	"sync/atomic"

	"github.com/paulmach/orb"

	"waterward/rules"
	"waterward/screening/site"
)

// standing is a proposal that others lie beside. What several of them ask of it is found
// once, by the first that asks, and let go when all of its company have their results.
type standing struct {
	of        *site.Submission
	design    site.Design
	bound     orb.Bound // degrees, of what is drawn
	halfWidth float64   // metres that it reaches beyond
	coarse    float64   // metres that positions of it may be off for want of digits
	beside    []*standing
	crowd     int // how many lie beside it, if too many to be looked at
	company   *company
	*found
}

// company are proposals of which each lies beside the next.
type company struct {
	members []*standing
	left    atomic.Int64 // of them, those that are not screened yet
}

// found is what several proposals ask of one.
type found struct {
	proposal  once[*site.Proposal]
	adjoining once[*adjoining]
	whole     once[*site.Whole] // of the structure of which it is the first
	deciding  sync.Mutex
	choices   map[*rules.Book]rules.Choice // as part of that structure
}

// once is what is found by the first that asks.
type once[T any] struct {
	do sync.Once
	is T
}

func (o *once[T]) get(find func() T) T {
	o.do.Do(func() { o.is = find() })
	return o.is
}

// measured is the proposal, read and built.
func (s *standing) measured() *site.Proposal {
	return s.proposal.get(func() *site.Proposal { return site.NewProposal(s.of) })
}

// screened lets go of what was found of a company that nobody asks about any more.
func (s *standing) screened() {
	if s != nil && s.company.left.Add(-1) == 0 {
		for _, m := range s.company.members {
			m.found = nil
		}
	}
}

// link puts those together that lie beside one another, by their orders.
func link(all map[int]*standing, beside map[int][]int) {
	for order, s := range all {
		s.company = &company{members: []*standing{s}}
		slices.Sort(beside[order])
		for _, n := range beside[order] {
			if o := all[n]; o != nil {
				s.beside = append(s.beside, o)
			}
		}
	}
	for _, s := range all {
		for _, o := range s.beside {
			s.company.join(o.company)
		}
	}
	for _, s := range all {
		s.company.left.Store(int64(len(s.company.members)))
	}
}

// join makes two companies one.
func (c *company) join(o *company) {
	if c == o {
		return
	}
	if len(c.members) < len(o.members) {
		c, o = o, c
	}
	for _, m := range o.members {
		m.company = c
	}
	c.members = append(c.members, o.members...)
}

// mostAdjoining is how many others are looked at beside one proposal, and how many may
// adjoin one another as one structure: as each is compared with each, a thousand take some
// twenty seconds, and no reef that is applied for module by module has as many.
const mostAdjoining = 1_000
