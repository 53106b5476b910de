package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// ahead keeps of the places on one side of a midway line those whose foot lies ahead of
// the other side: seen from the nearest places of the structure, more than 105 degrees from
// the way to the feet of that side about the leap. A structure before the lips of a mouth or
// the tips of groins sees both in one direction.
func (m *mesh) ahead(s *sides, side int) []acrossPlace {
	across := m.sights(s, 1-side)
	var out []acrossPlace
	for _, p := range s.places[side] {
		if !m.looks(p) {
			continue
		}
		own, _ := m.nodes[p.node].way()
		view := m.seen(m.nodes[p.node].foot.At, own)
		if slices.ContainsFunc(across, func(v sight) bool { return flat.Dot(view, v.way) < leapCos && m.about(p.leap, v.at) }) {
			out = append(out, p)
		}
	}
	return out
}

// across are the places of one side of a midway line whose feet lie on the shore across:
// those ahead or, where the structure stands so that it sees that shore beside it, those
// whose own way leads back from that to the other side.
func (m *mesh) across(s *sides, side int) []acrossPlace {
	out := m.ahead(s, side)
	if len(out) > 0 {
		return out
	}
	for _, p := range s.places[side] {
		if w, ok := m.nodes[p.node].way(); ok && m.looks(p) && flat.Dot(w, m.leaps[p.leap].way[1-side]) < leapCos {
			out = append(out, p)
		}
	}
	return out
}

// about reports whether a place lies about a leap.
func (m *mesh) about(leap int, at orb.Point) bool {
	l := &m.leaps[leap]
	return flat.Squared(at, l.at) <= aboutLeap*aboutLeap*flat.Squared(l.foot[0], l.at)
}

// sight is how a foot is seen from the structure.
type sight struct{ at, way orb.Point }

// sights are how the feet of one side of a midway line are seen.
func (m *mesh) sights(s *sides, side int) []sight {
	var out []sight
	for _, k := range s.leaps {
		l := &m.leaps[k]
		out = append(out, sight{l.at, m.seen(l.foot[side], l.way[side])})
	}
	for _, p := range s.places[side] {
		if n := &m.nodes[p.node]; m.looks(p) {
			own, _ := n.way()
			out = append(out, sight{n.at, m.seen(n.foot.At, own)})
		}
	}
	return out
}

// looks reports whether a place is asked how its foot is seen: those beside a leap and
// those of the outline, whose feet reach farther than those of the inside.
func (m *mesh) looks(p acrossPlace) bool {
	n := &m.nodes[p.node]
	return !n.fine && (n.pieces == nil || m.leaps[p.leap].node[p.side] == p.node)
}

// seen is the way to a place of the shore from the nearest place of the structure;
// otherwise where that touches it.
func (m *mesh) seen(at, otherwise orb.Point) orb.Point {
	way, known := m.views[at]
	if !known {
		if from, d := m.fp.nearestOutline(at); d > onLine && !(m.touches && m.fp.holds(at)) {
			way = flat.Direction(from, at)
		}
		m.views[at] = way
	}
	if way == (orb.Point{}) {
		return otherwise
	}
	return way
}

// nearestTo is the place of the footprint nearest to a point, and how far off it is: 0
// within.
func (fp *Footprint) nearestTo(at orb.Point) (orb.Point, float64) {
	if fp.holds(at) {
		return at, 0
	}
	return fp.nearestOutline(at)
}

// holds reports whether a point lies within the footprint.
func (fp *Footprint) holds(at orb.Point) bool {
	for i := range fp.Elements {
		e := &fp.Elements[i]
		if len(e.pieces) > 0 && flat.Squared(e.centre, at) <= e.radius*e.radius && e.contains(at) {
			return true
		}
	}
	return false
}

// nearestOutline is the place of the outline nearest to a point, and how far off it is.
func (fp *Footprint) nearestOutline(at orb.Point) (orb.Point, float64) {
	best, least, most := at, math.Inf(1), math.Inf(1)
	for i := range fp.Elements { // none is farther than the far side of its circle
		most = min(most, flat.Distance(fp.Elements[i].centre, at)+fp.Elements[i].radius)
	}
	for i := range fp.Elements {
		e := &fp.Elements[i]
		if flat.Distance(e.centre, at)-e.radius > most+flat.BoxSlack {
			continue
		}
		if beyond := flat.Distance(e.centre, at) - e.radius; beyond > 0 && beyond*beyond > least {
			continue
		}
		if e.edges != nil {
			if q, d := e.edges.nearest(at, least); d < least {
				best, least = q, d
			}
			continue
		}
		e.outline(func(a, b orb.Point) {
			q, _ := flat.Project(a, b, at)
			if d := flat.Squared(q, at); d < least {
				best, least = q, d
			}
		})
	}
	return best, math.Sqrt(least)
}
