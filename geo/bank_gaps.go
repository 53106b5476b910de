package geo

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Unmapped reports whether the bank is not mapped all along the footprint: whether the
// nearest shore of any place of its outline is the end of a mapped line, past which
// nobody knows how the shore goes on.
func (b *Bank) Unmapped() bool {
	if !b.Lines.haveEnd() {
		return false
	}
	for _, end := range b.ends() {
		for i := range b.fp.Elements {
			if b.pastBy(end, &b.fp.Elements[i]) {
				return true
			}
		}
	}
	return false
}

// EndsWithin reports whether a line of the bank ends so near to the place from which a
// reach of its own footprint is taken that shore beyond that end may be nearer. Another
// place as far off, well away from every end, makes that no matter. Of a mere place of
// the water it is not asked.
func (b *Bank) EndsWithin(fp *Footprint, r Reach) bool {
	if fp != b.fp || !b.Lines.haveEnd() {
		return false
	}
	ends := b.ends()
	sure := func(at orb.Point) bool {
		for _, e := range ends {
			if flat.Distance(e.at, at) < endRound*r.Distance {
				return false
			}
		}
		return true
	}
	if sure(r.At) {
		return false
	}
	for i := range fp.Elements {
		found := false
		fp.Elements[i].eachVertex(func(p orb.Point) {
			found = found || sure(p) && b.Lines.Nearest(p).Distance >= r.Distance-ties
		})
		if found {
			return false
		}
	}
	return true
}

// lineEnd is where a mapped line ends, and the unit vector along it there, outward.
type lineEnd struct {
	at, out orb.Point
}

func (b *Bank) ends() []lineEnd {
	var out []lineEnd
	add := func(end, before orb.Point) {
		if end != before {
			out = append(out, lineEnd{end, flat.Direction(before, end)})
		}
	}
	for _, k := range b.Lines.use {
		s := &b.Lines.segs[k]
		if s.prev == freeEnd {
			add(s.a, s.b)
		}
		if s.next == freeEnd {
			add(s.b, s.a)
		}
	}
	return out
}

// pastBy reports whether a place of an element past the end of a line has that end for
// its foot: the nearest such place, or one of those walked.
func (b *Bank) pastBy(end lineEnd, e *Element) bool {
	if f := b.Lines.Nearest(e.centre); flat.Distance(e.centre, end.at)-e.radius > f.Distance+e.radius {
		return false
	}
	past := func(p orb.Point) float64 {
		return flat.Dot(flat.Way(end.at, p), end.out)
	}
	here := func(p orb.Point) bool {
		return past(p) > jumpWithin && flat.Distance(p, end.at) <= b.Lines.Nearest(p).Distance+jumpWithin
	}
	found := false
	e.outline(func(p, q orb.Point) {
		a, c := past(p), past(q)
		if found || a <= jumpWithin && c <= jumpWithin {
			return
		}
		// What of the edge lies past the end, from just beyond it.
		if a <= jumpWithin {
			p = flat.At(p, q, a, c, 2*jumpWithin)
		} else if c <= jumpWithin {
			q = flat.At(p, q, a, c, 2*jumpWithin)
		}
		nearest, _ := flat.Project(p, q, end.at)
		if found = here(nearest) || here(p) || here(q); found {
			return
		}
		n := math.Ceil(flat.Distance(p, q) / walkMost)
		for i := 1.0; i < n && !found; i++ {
			found = here(flat.At(p, q, 0, n, i))
		}
	})
	return found
}
