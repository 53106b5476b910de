package geo

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"

	"waterward/geo/flat"
)

// trendDetail is the size, in metres, below which a wiggle of the shore does not
// change its trend: about 10 ft, more than the roughness of a mapped line.
const trendDetail = 3.0

// chain is a string of neighbouring segments.
type chain struct {
	segs []int32
	loop bool
}

// chains returns the strings of neighbouring segments in use.
func (l *Lines) chains() []chain {
	const out, in, seen = 0, 1, 2
	state := make([]byte, len(l.segs))
	for _, k := range l.use {
		state[k] = in
	}
	var all []chain
	segs := make([]int32, 0, len(l.use)) // of all chains, one behind the other
	follow := func(start int32) {
		from, k := len(segs), start
		for k >= 0 && state[k] == in {
			state[k] = seen
			segs = append(segs, k)
			k = l.segs[k].next
		}
		all = append(all, chain{segs: segs[from:len(segs):len(segs)], loop: k == start})
	}
	for _, k := range l.use {
		if p := l.segs[k].prev; p < 0 || state[p] == out {
			follow(k)
		}
	}
	for _, k := range l.use {
		if state[k] == in {
			follow(k)
		}
	}
	return all
}

// trends returns, by segment, the trend of the shore at those in chains: the direction
// of the simplified line there.
func (l *Lines) trends(chains []chain) []orb.Point {
	out := make([]orb.Point, len(l.segs))
	for _, c := range chains {
		l.trend(c, out)
	}
	return out
}

func (l *Lines) points(c chain) []orb.Point {
	out := make([]orb.Point, 0, len(c.segs)+1)
	for _, k := range c.segs {
		out = append(out, l.segs[k].a)
	}
	return append(out, l.segs[c.segs[len(c.segs)-1]].b)
}

func (l *Lines) trend(c chain, into []orb.Point) {
	points := l.points(c)
	// Simplifying works in place, so it is given a copy.
	kept := simplify.DouglasPeucker(trendDetail).LineString(append(orb.LineString{}, points...))
	i := 0
	for j := 1; j < len(kept); j++ {
		from, to := kept[j-1], kept[j]
		for i < len(c.segs) {
			s := &l.segs[c.segs[i]]
			into[c.segs[i]] = flat.Direction(from, to)
			if from == to { // a ring smaller than the detail: each segment for itself
				into[c.segs[i]] = flat.Direction(s.a, s.b)
			}
			i++
			if points[i] == to && (j+1 < len(kept) || i == len(c.segs)) {
				break
			}
		}
	}
}
