package area

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// SelfMeeting returns the first place where a line or ring meets itself other than
// from one edge to the next.
func SelfMeeting(line []orb.Point) (orb.Point, bool) {
	var edges []flat.Edge
	for i := 1; i < len(line); i++ {
		if line[i-1] != line[i] {
			edges = append(edges, flat.Edge{A: line[i-1], B: line[i]})
		}
	}
	if len(edges) == 0 {
		return orb.Point{}, false
	}
	closed := line[0] == line[len(line)-1]
	index := flat.NewIndex(len(edges), func(i int) flat.Box { return edges[i].Box(0) })
	for i, e := range edges {
		first, at := len(edges), orb.Point{}
		index.Search(e.Box(0), func(j int) bool {
			if j <= i || j >= first {
				return true
			}
			neighbours := j == i+1 || closed && i == 0 && j == len(edges)-1
			if p, ok := touch(e, edges[j], neighbours); ok {
				first, at = j, p
			}
			return true
		})
		if first < len(edges) {
			return at, true
		}
	}
	return orb.Point{}, false
}

// touch returns where two edges meet; neighbours may share one end.
func touch(e, f flat.Edge, neighbours bool) (orb.Point, bool) {
	onE, onF := flat.Meet(e, f, 0)
	shared := append(onE, onF...)
	if !neighbours || e == (flat.Edge{A: f.B, B: f.A}) {
		for _, p := range []orb.Point{e.A, e.B} {
			if p == f.A || p == f.B {
				shared = append(shared, p)
			}
		}
	}
	if len(shared) == 0 {
		return orb.Point{}, false
	}
	return shared[0], true
}
