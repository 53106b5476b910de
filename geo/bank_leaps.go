package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// leap is a place in the water with two equally near feet on shores that face each other.
// All leaps make the midway line.
type leap struct {
	at    orb.Point
	foot  [2]orb.Point
	way   [2]orb.Point // to the feet
	node  [2]int       // of a mesh, between which it lies
	apart bool         // it lies between two elements, and in none
}

// leapOf looks for a leap between two places close to each other.
func (b *Bank) leapOf(near func(orb.Point) Foot, p, q pace) (leap, bool) {
	const maybe = 0.5 // 60 degrees: a foot can turn by so much more between two places
	if p.foot.seg == q.foot.seg {
		return leap{}, false
	}
	a, ok := p.way()
	c, too := q.way()
	if !ok || !too || flat.Dot(a, c) > maybe {
		return leap{}, false
	}
	for flat.Distance(p.at, q.at) > jumpWithin {
		mid := flat.Middle(p.at, q.at)
		m := pace{mid, near(mid)}
		w, ok := m.way()
		if !ok {
			return leap{}, false
		}
		if flat.Dot(a, w) < flat.Dot(w, c) {
			q, c = m, w
		} else {
			p, a = m, w
		}
	}
	if flat.Dot(a, c) >= leapCos || b.onLand(p.at) || b.onLand(q.at) {
		return leap{}, false
	}
	return leap{at: p.at, foot: [2]orb.Point{p.foot.At, q.foot.At}, way: [2]orb.Point{a, c}}, true
}

// turn makes the first side of a leap the second.
func (l *leap) turn() {
	l.node[0], l.node[1] = l.node[1], l.node[0]
	l.foot[0], l.foot[1] = l.foot[1], l.foot[0]
	l.way[0], l.way[1] = l.way[1], l.way[0]
}

// onLand reports whether a place lies landward of the nearest of any mapped shore.
func (b *Bank) onLand(at orb.Point) bool {
	signed, _ := b.all.Signed(at)
	return signed < 0
}

// acrossLink walks the clear width between two elements and hands on the steps of it.
func (b *Bank) acrossLink(l Link, visit func(w *pacing, p, q pace)) {
	w := newPacing(b.Lines)
	w.along(l.From, l.To, func(p, q pace) { visit(w, p, q) })
}
