package geo

import (
	"iter"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// crossed are the places at which a straight way crosses a mapped shore, in no order.
func (b *Bank) crossed(way flat.Edge) iter.Seq[orb.Point] {
	return func(yield func(orb.Point) bool) {
		over := way.Box(0)
		for _, s := range b.all.over(&over) {
			shore := flat.Edge{A: s.a, B: s.b}
			if s.meets(&over) && way.Crosses(shore) && !yield(flat.Crossing(way, shore)) {
				return
			}
		}
	}
}

// LandBetween reports whether the way from a point of the bank, or of the water, leads over
// land to another: whether it crosses a shore.
func (b *Bank) LandBetween(from, to orb.Point) bool {
	// A little off the shore, so that its own edges are not crossed.
	d := flat.Distance(from, to)
	if d <= touching {
		return false
	}
	start := orb.Point{from[0] + touching*(to[0]-from[0])/d, from[1] + touching*(to[1]-from[1])/d}
	if signed, _ := b.all.Signed(start); signed < 0 {
		return true
	}
	for range b.crossed(flat.Edge{A: start, B: to}) {
		return true
	}
	return false
}

// Ashore is where the straight way out from a point first meets a shore; its end if it meets
// none, and the point itself if that is on land.
func (b *Bank) Ashore(from, to orb.Point) orb.Point {
	if signed, _ := b.all.Signed(from); signed < 0 {
		return from
	}
	best := to
	for at := range b.crossed(flat.Edge{A: from, B: to}) {
		if flat.Distance(from, at) < flat.Distance(from, best) {
			best = at
		}
	}
	return best
}
