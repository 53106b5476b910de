package area

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// mark is what is known of an edge.
type mark uint8

const (
	wallMark  mark = 1 << iota // what cannot be passed
	leftMark                   // cells on its left are a start
	rightMark                  // those on its right are
	freshMark                  // not looked at yet for what it meets
)

// flanks is what is known of an edge and of its two sides.
type flanks struct {
	mark mark
	turn int32 // how many more areas lie on its left than on its right
}

// reversed is what is known of an edge drawn the other way.
func (s flanks) reversed() flanks {
	out := flanks{s.mark &^ (leftMark | rightMark), -s.turn}
	if s.mark&leftMark != 0 {
		out.mark |= rightMark
	}
	if s.mark&rightMark != 0 {
		out.mark |= leftMark
	}
	return out
}

// numbered is an edge between two numbered positions, the one that comes first in
// order of position first, so that the same piece drawn either way is the same edge.
type numbered struct {
	a, b int32
	flanks
}

// edgeSet holds each edge once, in order of position. Of an edge drawn again, parity
// tells a set to drop it, as drawn twice it parts nothing from nothing; else it gets
// both marks, and in either case the sum of the turns.
type edgeSet struct {
	at     []orb.Point // by number, no position twice
	edges  []numbered
	parity bool
}

// drawing is lines as they come, an edge as often as it is drawn.
type drawing struct {
	at    []orb.Point
	edges []numbered
}

func (d *drawing) add(line []orb.Point, s flanks) {
	for i, p := range line {
		if n := int32(len(d.at)); i > 0 {
			d.edges = append(d.edges, numbered{n - 1, n, s})
		}
		d.at = append(d.at, p)
	}
}

// set numbers the positions of a drawing in their order.
func (d *drawing) set(parity bool) *edgeSet {
	type drawn struct {
		orb.Point
		number int32
	}
	all := make([]drawn, len(d.at))
	for i, p := range d.at {
		all[i] = drawn{p, int32(i)}
	}
	slices.SortFunc(all, func(p, q drawn) int { return flat.ByPosition(p.Point, q.Point) })
	s := &edgeSet{parity: parity}
	numbers := make([]int32, len(d.at))
	for i, p := range all {
		if i == 0 || p.Point != all[i-1].Point {
			s.at = append(s.at, p.Point)
		}
		numbers[p.number] = int32(len(s.at) - 1)
	}
	s.edges = make([]numbered, 0, len(d.edges))
	for _, e := range d.edges {
		switch a, b := numbers[e.a], numbers[e.b]; {
		case a < b:
			s.edges = append(s.edges, numbered{a, b, e.flanks})
		case a > b:
			s.edges = append(s.edges, numbered{b, a, e.flanks.reversed()})
		}
	}
	slices.SortFunc(s.edges, func(e, f numbered) int { return cmp.Or(cmp.Compare(e.a, f.a), cmp.Compare(e.b, f.b)) })
	s.edges = once(s.edges, parity)
	return s
}

// once leaves of equal edges in a row one, or by parity one or none.
func once(edges []numbered, parity bool) []numbered {
	out := edges[:0]
	for i := 0; i < len(edges); {
		e, n := edges[i], 1
		for ; i+n < len(edges) && edges[i+n].a == e.a && edges[i+n].b == e.b; n++ {
			e.mark |= edges[i+n].mark
			e.turn += edges[i+n].turn
		}
		if !parity || n%2 == 1 {
			out = append(out, e)
		}
		i += n
	}
	return out
}

// compare orders edges by position, those between the same positions as equal.
func (s *edgeSet) compare(e, f numbered) int {
	if e.a != f.a {
		return flat.ByPosition(s.at[e.a], s.at[f.a])
	}
	if e.b != f.b {
		return flat.ByPosition(s.at[e.b], s.at[f.b])
	}
	return 0
}

// between is the edge from one position to another, either way.
func (s *edgeSet) between(a, b int32, of flanks) numbered {
	if flat.ByPosition(s.at[a], s.at[b]) > 0 {
		return numbered{b, a, of.reversed()}
	}
	return numbered{a, b, of}
}

// line is an edge by its positions.
func (s *edgeSet) line(i int) flat.Edge {
	return flat.Edge{A: s.at[s.edges[i].a], B: s.at[s.edges[i].b]}
}

// index finds edges by where they lie.
func (s *edgeSet) index() *flat.Index {
	return flat.NewIndex(len(s.edges), func(i int) flat.Box { return s.line(i).Box(0) })
}
