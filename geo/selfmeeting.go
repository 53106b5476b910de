package geo

import "github.com/paulmach/orb"

// SelfMeeting returns the first place where a line or ring meets itself other than
// from one edge to the next.
func SelfMeeting(line []orb.Point) (orb.Point, bool) {
	var edges []ringEdge
	for i := 1; i < len(line); i++ {
		if line[i-1] != line[i] {
			edges = append(edges, ringEdge{line[i-1], line[i]})
		}
	}
	if len(edges) == 0 {
		return orb.Point{}, false
	}
	closed := line[0] == line[len(line)-1]
	index := newPacked(len(edges), func(i int) rect { return edges[i].rect(0) })
	for i, e := range edges {
		first, at := len(edges), orb.Point{}
		index.search(e.rect(0), func(j int) bool {
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
func touch(e, f ringEdge, neighbours bool) (orb.Point, bool) {
	onE, onF := meet(e, f, 0)
	shared := append(onE, onF...)
	if !neighbours || e == (ringEdge{f.b, f.a}) {
		for _, p := range []orb.Point{e.a, e.b} {
			if p == f.a || p == f.b {
				shared = append(shared, p)
			}
		}
	}
	if len(shared) == 0 {
		return orb.Point{}, false
	}
	return shared[0], true
}
