package envelope

import (
	"math"

	"waterward/rules"
	"waterward/screening/site"
)

// sited is a path with what of it is a matter of the place and of length.
type sited struct {
	of       int // the book, among those of the search
	book     *rules.Book
	path     *rules.Path
	criteria []*rules.Criterion // those on the place
	undrawn  string             // what no drawing can show to hold; empty if there is nothing
	room
}

// room is what paths leave to the length of a structure, in metres.
type room struct {
	most    float64 // its greatest length; +Inf without a limit
	element float64 // the greatest length of an element, +Inf without
	opening float64 // the least width of the openings between elements
}

// newSited reads the path's criteria for a strip of a width.
func newSited(of int, book *rules.Book, path *rules.Path, width float64) *sited {
	s := &sited{of: of, book: book, path: path, room: room{most: math.Inf(1), element: math.Inf(1)}}
	for _, c := range path.Criteria {
		if of := onThePlace(c); of != nil {
			s.criteria = append(s.criteria, of)
			continue
		}
		if len(c.When) > 0 || len(c.Others) > 0 || c.Comparison != rules.AtMost && c.Comparison != rules.UnderLimit {
			continue
		}
		if strip := site.RecordOf(c.Ref.Measure).Strip; strip != nil {
			left := strip(c.Limit, width, c.Ref)
			s.most, s.element, s.opening = math.Min(s.most, left.Most), math.Min(s.element, left.Element), math.Max(s.opening, left.Opening)
		}
	}
	return s
}

// onThePlace is a criterion as far as a place alone can fail it; nil if it cannot. Of
// several inputs of which all must keep the limit those on the place are left.
func onThePlace(c *rules.Criterion) *rules.Criterion {
	for _, when := range c.When {
		for _, in := range when.Inputs() {
			if _, ok := site.PlaceRecord(in.Ref.Measure); !ok && site.RecordOf(in.Ref.Measure).Property == "" {
				return nil // whether it applies is no matter of the place
			}
		}
	}
	var inputs []rules.Input
	for _, in := range c.Inputs() {
		if _, ok := site.PlaceRecord(in.Ref.Measure); ok {
			inputs = append(inputs, in)
		}
	}
	capped := c.Comparison == rules.AtMost || c.Comparison == rules.UnderLimit
	all := c.Pick == rules.Greatest && capped || c.Pick == rules.Least && !capped
	switch {
	case len(inputs) == len(c.Inputs()):
		return c
	case len(inputs) == 0 || !all:
		return nil
	}
	of := *c
	of.Input, of.Others = inputs[0], inputs[1:]
	if len(inputs) == 1 {
		of.Pick = rules.Single
	}
	return &of
}

// unread reports whether nobody has read a limit of the path, so that no structure is known
// to come out on it.
func (s *sited) unread() bool { return len(s.path.Unread) > 0 }

// question is what one structure is to meet: a path, or paths of several authorities
// together.
type question []*sited

// room is what all of its paths leave.
func (q question) room() room {
	all := room{most: math.Inf(1), element: math.Inf(1)}
	for _, s := range q {
		all.most, all.element, all.opening = math.Min(all.most, s.most), math.Min(all.element, s.element), math.Max(all.opening, s.opening)
	}
	return all
}

// lengthIn is the greatest structure that fits into a run, openings included, in metres.
func (q question) lengthIn(run float64) float64 { return math.Min(run, q.room().most) }
