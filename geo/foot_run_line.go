package geo

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// LongestRunLine returns a line along the longest run, in the plane: from end to end of it
// and through the openings in it that are narrower than opening (metres). It shows which run
// [Footprint.LongestRun] is the length of, and is straight within each element; where the
// run branches it follows the longest way. Of runs as long as one another it is that of a
// drawing of the structure, told by its number, else the first drawn.
func (fp *Footprint) LongestRunLine(opening float64, drawing int) []orb.Point {
	narrow := fp.Links[:fp.Narrower(opening)]
	run, length := make(groups, len(fp.Elements)), make([]float64, len(fp.Elements))
	for i, e := range fp.Elements {
		run[i], length[i] = i, e.Length
	}
	beside := make([][]int, len(fp.Elements))
	for i, l := range narrow {
		beside[l.A], beside[l.B] = append(beside[l.A], i), append(beside[l.B], i)
		a, b := run.root(l.A), run.root(l.B)
		run.unite(a, b)
		length[run.root(a)] = length[a] + length[b] + l.Width
	}
	longest := max(0, slices.IndexFunc(fp.Elements, func(e Element) bool { return slices.Contains(e.of, drawing) }))
	most := length[run.root(longest)]
	for i := range length {
		if run[i] == i && length[i] > most {
			longest, most = i, length[i]
		}
	}
	// farthest is the element that lies farthest along the run from another, and by which
	// opening each was reached, -1: by none.
	farthest := func(from int) (last int, by []int) {
		by, reach := make([]int, len(fp.Elements)), make([]float64, len(fp.Elements))
		by[from], last = -1, from
		for next := []int{from}; len(next) > 0; {
			k := next[len(next)-1]
			next = next[:len(next)-1]
			if reach[k] += fp.Elements[k].Length; reach[k] > reach[last] {
				last = k
			}
			for _, i := range beside[k] {
				if i != by[k] {
					other := narrow[i].A + narrow[i].B - k
					by[other], reach[other] = i, reach[k]+narrow[i].Width
					next = append(next, other)
				}
			}
		}
		return last, by
	}
	end, _ := farthest(longest)
	start, by := farthest(end)
	var through []orb.Point
	for k := start; by[k] >= 0; {
		l := narrow[by[k]]
		if l.A != k {
			l.A, l.B, l.From, l.To = l.B, l.A, l.To, l.From
		}
		through = append(through, l.From, l.To)
		k = l.B
	}
	if len(through) == 0 {
		one := &fp.Elements[longest]
		first := one.end(one.middle())
		return []orb.Point{first, one.end(first)}
	}
	line := append([]orb.Point{fp.Elements[start].end(through[0])}, through...)
	return append(line, fp.Elements[end].end(through[len(through)-1]))
}

// end is the middle of the edge of the element's outline that lies farthest from a place; of
// an element without an outline the vertex.
func (e *Element) end(from orb.Point) orb.Point {
	at, most := from, -1.0
	take := func(p orb.Point) {
		if d := flat.Distance(from, p); d > most {
			at, most = p, d
		}
	}
	if len(e.pieces) == 0 {
		e.eachVertex(take)
	} else {
		e.outline(func(a, b orb.Point) { take(flat.Middle(a, b)) })
	}
	return at
}
