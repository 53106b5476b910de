package geo

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"
)

// trendDetail is the size, in metres, below which a wiggle of the shore does not
// change its trend: about 10 ft, more than the roughness of a mapped line.
const trendDetail = 3.0

// chain is a string of neighbouring segments.
type chain struct {
	segs []int32
	loop bool
}

// chains returns the strings of neighbouring segments in use and the trend of
// the shore at each segment: the direction of the simplified line there.
func (l *Lines) chains() ([]chain, map[int32]orb.Point) {
	in := make(map[int32]bool, len(l.use))
	for _, k := range l.use {
		in[k] = true
	}
	seen := make(map[int32]bool, len(l.use))
	trends := make(map[int32]orb.Point, len(l.use))
	var out []chain
	follow := func(start int32) {
		c := chain{}
		k := start
		for k >= 0 && in[k] && !seen[k] {
			seen[k] = true
			c.segs = append(c.segs, k)
			k = l.segs[k].next
		}
		c.loop = k == start
		out = append(out, c)
		l.trends(c, trends)
	}
	for _, k := range l.use {
		if p := l.segs[k].prev; p < 0 || !in[p] {
			follow(k)
		}
	}
	for _, k := range l.use {
		if !seen[k] {
			follow(k)
		}
	}
	return out, trends
}

func (l *Lines) points(c chain) []orb.Point {
	out := make([]orb.Point, 0, len(c.segs)+1)
	for _, k := range c.segs {
		out = append(out, l.segs[k].a)
	}
	return append(out, l.segs[c.segs[len(c.segs)-1]].b)
}

func (l *Lines) trends(c chain, into map[int32]orb.Point) {
	points := l.points(c)
	// Simplifying works in place, so it is given a copy.
	kept := simplify.DouglasPeucker(trendDetail).LineString(append(orb.LineString{}, points...))
	i := 0
	for j := 1; j < len(kept); j++ {
		from, to := kept[j-1], kept[j]
		length := distance(from, to)
		for i < len(c.segs) {
			s := &l.segs[c.segs[i]]
			if length > 0 {
				into[c.segs[i]] = orb.Point{(to[0] - from[0]) / length, (to[1] - from[1]) / length}
			} else { // a ring smaller than the detail: each segment for itself
				d := distance(s.a, s.b)
				into[c.segs[i]] = orb.Point{(s.b[0] - s.a[0]) / d, (s.b[1] - s.a[1]) / d}
			}
			i++
			if points[i] == to && (j+1 < len(kept) || i == len(c.segs)) {
				break
			}
		}
	}
}
