package area

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

const (
	// mostRounds is how often edges are cut where they meet. Rounding the place
	// where two cross moves them by less than a nanometre, so that the second
	// round seldom finds anything and the third next to never.
	mostRounds = 10
	// mostEdges is in how many places edges may be cut: more are no drawing that
	// repairing could make sense of.
	mostEdges = 2_000_000
)

var errTangled = errors.New("they meet in too many places")

// noded cuts edges wherever they meet, so that what is left meets only at ends. A
// piece keeps the mark of its edge. It fails if they meet in more places than are left.
func (s *edgeSet) noded(left *int) (*edgeSet, error) {
	at := newSnapper(s.snap(), len(s.at))
	s = s.moved(at)
	for i := range s.edges {
		s.edges[i].mark |= freshMark
	}
	for range mostRounds {
		places, err := s.meetings(at.snap, *left)
		*left -= len(places)
		if err != nil {
			return nil, err
		}
		if len(places) == 0 {
			return s, nil
		}
		s = s.cut(places, at)
	}
	return nil, errTangled
}

// snap is how near to an edge an end is taken to lie on it: rounding moves a place
// where two edges cross by a ten-thousandth of that (9e-11 degrees, 9 micrometres,
// at 90 degrees). What is left then meets plainly or not at all, also for those who
// calculate with rounded numbers.
func (s *edgeSet) snap() float64 {
	const share = 1e-12
	greatest := 0.0
	for _, e := range s.edges {
		for _, p := range []orb.Point{s.at[e.a], s.at[e.b]} {
			greatest = max(greatest, math.Abs(p[0]), math.Abs(p[1]))
		}
	}
	return share * greatest
}

// moved is the set with every end moved to the one that stands for it.
func (s *edgeSet) moved(at *snapper) *edgeSet {
	numbers := make([]int32, len(s.at))
	for i := range numbers {
		numbers[i] = -1
	}
	of := func(n int32) int32 {
		if numbers[n] < 0 {
			numbers[n] = at.of(s.at[n])
		}
		return numbers[n]
	}
	out := &edgeSet{edges: make([]numbered, 0, len(s.edges)), parity: s.parity}
	for _, e := range s.edges {
		out.edges = append(out.edges, numbered{of(e.a), of(e.b), e.flanks})
	}
	if out.at = at.at; len(out.at) == len(s.at) {
		return out
	}
	kept := out.edges[:0]
	for _, e := range out.edges {
		if e.a != e.b {
			kept = append(kept, out.between(e.a, e.b, e.flanks))
		}
	}
	slices.SortStableFunc(kept, out.compare)
	out.edges = once(kept, s.parity)
	return out
}

// cutPlace is where an edge meets another short of its own ends.
type cutPlace struct {
	edge  int
	along float64 // orders the places of an edge
	at    orb.Point
}

// meetings returns the places at which fresh edges meet others and one another, by edge
// and along it, and fails if there are more.
func (s *edgeSet) meetings(snap float64, most int) ([]cutPlace, error) {
	index := s.index()
	var out []cutPlace
	for i := range s.edges {
		if s.edges[i].mark&freshMark == 0 {
			continue
		}
		all := index.Search(s.line(i).Box(snap), func(j int) bool {
			if j == i || j < i && s.edges[j].mark&freshMark != 0 { // asked before
				return true
			}
			first, second := min(i, j), max(i, j)
			e, f := s.line(first), s.line(second)
			onE, onF := flat.Meet(e, f, snap)
			for _, p := range onE {
				out = append(out, cutPlace{first, e.Along(p), p})
			}
			for _, p := range onF {
				out = append(out, cutPlace{second, f.Along(p), p})
			}
			return len(out) <= most
		})
		if !all {
			return out, errTangled
		}
	}
	slices.SortStableFunc(out, func(p, q cutPlace) int { return cmp.Or(cmp.Compare(p.edge, q.edge), cmp.Compare(p.along, q.along)) })
	return out, nil
}

// cut cuts edges at places. Only what comes of it is fresh.
func (s *edgeSet) cut(places []cutPlace, at *snapper) *edgeSet {
	out := &edgeSet{parity: s.parity}
	var whole, pieces []numbered
	for i, e := range s.edges {
		e.mark &^= freshMark
		piece := flanks{e.mark | freshMark, e.turn}
		if len(places) == 0 || places[0].edge != i {
			whole = append(whole, e)
			continue
		}
		from := e.a
		for last := false; !last; {
			to := e.b
			if last = len(places) == 0 || places[0].edge != i; !last {
				to, places = at.of(places[0].at), places[1:]
			}
			if out.at = at.at; from != to {
				pieces = append(pieces, out.between(from, to, piece))
			}
			from = to
		}
	}
	slices.SortStableFunc(pieces, out.compare)
	all := make([]numbered, 0, len(whole)+len(pieces))
	for _, e := range whole {
		for ; len(pieces) > 0 && out.compare(pieces[0], e) < 0; pieces = pieces[1:] {
			all = append(all, pieces[0])
		}
		all = append(all, e)
	}
	out.edges = once(append(all, pieces...), s.parity)
	return out
}
