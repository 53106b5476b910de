package site

import (
	"cmp"
	"fmt"
	"slices"

	"waterward/geo"
)

// Elements returns which elements of the footprint follow one another along the shore, from
// left to right for who looks over the water; in the order drawn where no shore is known.
// Everything that people look at numbers them so, from 1.
func (s *Site) Elements() []int {
	if s.Bank != nil {
		return s.Bank.Order()
	}
	order := make([]int, len(s.Footprint.Elements))
	for i := range order {
		order[i] = i
	}
	return order
}

// Opening is the opening between two elements, by the numbers of Elements, the lesser first.
type Opening struct {
	geo.Link
	First, Second int
}

// Name is how people refer to it.
func (o Opening) Name() string { return fmt.Sprintf("%d-%d", o.First, o.Second) }

// Openings returns the openings of the footprint in the order of their elements.
func (s *Site) Openings() []Opening {
	number := make([]int, len(s.Footprint.Elements))
	for i, e := range s.Elements() {
		number[e] = i + 1
	}
	var made []Opening
	for _, l := range s.Footprint.Links {
		a, b := number[l.A], number[l.B]
		if a > b {
			a, b, l.From, l.To = b, a, l.To, l.From
		}
		made = append(made, Opening{l, a, b})
	}
	slices.SortFunc(made, func(p, q Opening) int {
		return cmp.Or(cmp.Compare(p.First, q.First), cmp.Compare(p.Second, q.Second))
	})
	return made
}
