package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

const (
	// facingCos is the cosine of 45 degrees and a little more (0.06), so that an
	// edge drawn at 45 degrees faces the line however its positions are rounded.
	facingCos = 0.7064
	// facingStep is the greatest distance, in metres, between places of an edge
	// that are asked whether they face the line: a third of a foot, less than
	// any stretch of a structure that matters.
	facingStep = 0.1
	// facingSpan is how wide a circle is, in metres, for which the segments near it are
	// looked up once.
	facingSpan = 4.0
	// facingBit is the length, in metres, of a piece of an edge that is no longer told
	// as a whole: a step.
	facingBit = facingStep
	// facingWithin is how close, in metres, the end of a stretch that faces the
	// line is found: 0.0001 ft, well within what the distance must be right within.
	facingWithin = 0.0001 * metresPerFoot
)

// LandwardEdge returns the greatest signed distance of the footprint's landward
// edge from lines faced to the water (positive waterward of them), within 0.001
// ft. The landward edge of an element is what of its outline faces the line:
// where the way straight out of the element is within 45 degrees of the way to
// land, which is the way to the foot on the lines, or away from it on the land
// side. Holes do not count (water between several parts of an element is none),
// nor what lies against another part. The edge of a disc is its nearest point.
// An element that faces the line nowhere, or has no area, counts with its least
// distance.
//
// The foot can change along an edge, so each place of an edge is asked whether
// it faces the line. A change there and back within a third of a foot of one
// edge can go unseen.
func (fp *Footprint) LandwardEdge(lines *Lines) Reach {
	best := Reach{Distance: math.Inf(-1)}
	for i := range fp.Elements {
		e := &fp.Elements[i]
		var r Reach
		if edge := e.landwardEdge(lines.around(e.centre, e.radius), nil); len(edge) > 0 {
			r = alone(Element{Lines: edge}).Farthest(lines)
		} else {
			r = (&Footprint{Elements: fp.Elements[i : i+1]}).Least(lines)
		}
		if r.Distance > best.Distance {
			best = r
		}
	}
	return best
}

// alone is a footprint of one element, to measure from.
func alone(e Element) *Footprint {
	e.settle()
	return &Footprint{Elements: []Element{e}}
}

// place says whether a place of an outline counts; near are the lines that can be
// nearest to it.
type place func(near *Lines, at orb.Point) bool

// landwardEdge returns what of the element's outline faces the lines and, if
// counts is not nil, counts.
func (e *Element) landwardEdge(lines *Lines, counts place) [][]orb.Point {
	if lines.Empty() {
		return nil
	}
	bounds := make([]orb.Bound, len(e.Areas))
	for i, polygon := range e.Areas {
		bounds[i] = boundOf(polygon).Pad(touching)
	}
	var out [][]orb.Point
	for i := range e.Areas {
		var others orb.MultiPolygon
		for k := range bounds {
			if k != i && bounds[k].Intersects(bounds[i]) {
				others = append(others, e.Areas[k])
			}
		}
		if e.Discs {
			if edge := e.discEdge(i, others, lines); edge != nil && (counts == nil || counts(lines, edge[0][0])) {
				out = append(out, edge...)
			}
			continue
		}
		of := facingAll
		if len(others) > 0 || counts != nil {
			of = facingToo
		}
		out = append(out, ringStretches(e.Areas[i][0], lines, of, func(near *Lines, at, outward orb.Point) bool {
			land := near.landward(at)
			return outward[0]*land[0]+outward[1]*land[1] >= facingCos && !against(others, at, outward) &&
				(counts == nil || counts(near, at))
		})...)
	}
	return out
}

// discEdge returns the nearest point of a disc, unless another part lies
// against it.
func (e *Element) discEdge(part int, others orb.MultiPolygon, lines *Lines) [][]orb.Point {
	centre := e.Lines[part][0]
	var at orb.Point
	if f, r := lines.Nearest(centre), distance(centre, e.Areas[part][0][0]); f.Distance > r && lines.side(centre, f) > 0 {
		at = fromDisc(centre, r, f).At
	} else {
		at = alone(Element{Areas: e.Areas[part : part+1]}).Least(lines).At
	}
	r := distance(centre, at)
	if against(others, at, orb.Point{(at[0] - centre[0]) / r, (at[1] - centre[1]) / r}) {
		return nil
	}
	return [][]orb.Point{{at, at}}
}

// which says what is known beforehand of the places of an outline that count.
type which int

const (
	anyPlace  which = iota // nothing
	facingToo              // they face the lines, and something else must hold too
	facingAll              // they are those that face the lines
)

// ringStretches returns the stretches of an outer ring whose places count; they
// are given with the way straight out.
func ringStretches(ring orb.Ring, lines *Lines, of which, counts func(near *Lines, at, outward orb.Point) bool) [][]orb.Point {
	side := -1.0 // the outside is on the right of a counter-clockwise ring
	if ring.Orientation() == orb.CW {
		side = 1
	}
	var out [][]orb.Point
	var near *Lines // to all places of a circle, which holds many short edges
	var centre orb.Point
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		outward := leftNormal(a, b, side)
		var faced [][]orb.Point
		n := math.Ceil(distance(a, b) / facingSpan)
		for k := 1.0; k <= n; k++ {
			p, q := atPlace(a, b, 0, n, k-1), atPlace(a, b, 0, n, k)
			if near == nil || distance(centre, p) > facingSpan/2 || distance(centre, q) > facingSpan/2 {
				centre = middle(p, q)
				near = lines.around(centre, facingSpan/2)
			}
			ask := func(at orb.Point) bool { return counts(near, at, outward) }
			if of == anyPlace {
				faced = appendStretches(faced, p, q, ask)
			} else {
				faced = near.appendFacing(faced, p, q, outward, of, ask)
			}
		}
		for _, s := range faced {
			if distance(s[0], s[1]) > touching { // what is shorter is only rounding
				out = append(out, s)
			}
		}
	}
	return out
}

// appendFacing appends the stretches of an edge that face the lines: asked only where
// that is not clear of a piece as a whole.
func (l *Lines) appendFacing(out [][]orb.Point, p, q, outward orb.Point, of which, ask func(orb.Point) bool) [][]orb.Point {
	all, none := l.facing(p, q, outward)
	switch {
	case none:
		return out
	case all && of == facingAll:
		return joinStretch(out, p, q)
	case distance(p, q) <= facingBit:
		return appendStretches(out, p, q, ask)
	}
	mid := middle(p, q)
	out = l.appendFacing(out, p, mid, outward, of, ask)
	return l.appendFacing(out, mid, q, outward, of, ask)
}

// joinStretch appends a stretch, or lengthens the last by it where it goes on.
func joinStretch(out [][]orb.Point, p, q orb.Point) [][]orb.Point {
	if last := len(out) - 1; last >= 0 && distance(out[last][1], p) < facingWithin {
		out[last][1] = q
		return out
	}
	return append(out, []orb.Point{p, q})
}

// facing reports whether all of an edge from p to q surely faces the lines, or surely
// none of it: whether the way out lies within 45 degrees of the way to land at every
// foot that a place of the edge can have, or at none. What can be a foot lies no farther
// from the edge than its farthest place from the lines. To a corner of the lines the
// cosine is its height over the edge by its distance, which lies between two.
func (l *Lines) facing(p, q, outward orb.Point) (all, none bool) {
	const rounding = 1e-9
	mid, half := middle(p, q), distance(p, q)/2
	f := l.Nearest(mid)
	reach := f.Distance + half + boxSlack
	water := l.side(mid, f)
	// Whether all of it lies on that side: sides change across the lines, and past their
	// ends and where they have been cut off.
	oneSide := f.Distance > half && water != 0 && !l.endsWithin(p, q, reach)
	all, none = oneSide, true
	saw := func(low, high float64) {
		all, none = all && low >= facingCos+rounding, none && high < facingCos-rounding
	}
	for _, k := range l.use {
		s := &l.segs[k]
		if planar.DistanceFromSegment(s.a, s.b, mid) > reach+half {
			continue
		}
		n := leftNormal(s.a, s.b, -1)
		face := outward[0]*n[0] + outward[1]*n[1]
		saw(face, face)
		for _, v := range [2]orb.Point{s.a, s.b} {
			nearest := planar.DistanceFromSegment(p, q, v)
			if nearest > reach || nearest == 0 {
				all = all && nearest > 0
				none = none && nearest > 0
				continue
			}
			height := (v[0]-p[0])*outward[0] + (v[1]-p[1])*outward[1]
			if !oneSide {
				height = math.Abs(height)
			} else {
				height *= water
			}
			one, other := height/nearest, height/math.Max(distance(p, v), distance(q, v))
			saw(math.Min(one, other), math.Max(one, other))
		}
		if !all && !none {
			break
		}
	}
	return all, none
}

// endsWithin reports whether the lines end, as they were mapped or as they were chosen,
// at a place so near to the edge from p to q.
func (l *Lines) endsWithin(p, q orb.Point, reach float64) bool {
	for _, k := range l.use {
		s := &l.segs[k]
		for _, end := range [2]struct {
			at   orb.Point
			next int32
		}{{s.a, s.prev}, {s.b, s.next}} {
			if (end.next < 0 || !slices.Contains(l.use, end.next)) && planar.DistanceFromSegment(p, q, end.at) <= reach {
				return true
			}
		}
	}
	return false
}

// landward returns the unit vector at p that points to land.
func (l *Lines) landward(p orb.Point) orb.Point { return l.landwardAt(p, l.Nearest(p)) }

func (l *Lines) landwardAt(p orb.Point, f Foot) orb.Point {
	s := &l.segs[f.seg]
	if f.t > 0 && f.t < 1 || f.Distance == 0 { // the way that is sure on the line too
		return leftNormal(s.a, s.b, -1)
	}
	d := f.Distance
	if l.side(p, f) < 0 {
		d = -d
	}
	return orb.Point{(f.At[0] - p[0]) / d, (f.At[1] - p[1]) / d}
}

// against reports whether one of the areas lies straight out from p.
func against(areas orb.MultiPolygon, p, outward orb.Point) bool {
	return len(areas) > 0 && planar.MultiPolygonContains(areas, orb.Point{
		p[0] + 2*touching*outward[0], p[1] + 2*touching*outward[1],
	})
}

// appendStretches appends the stretches of an edge that face the line.
func appendStretches(out [][]orb.Point, a, b orb.Point, faces func(orb.Point) bool) [][]orb.Point {
	var cut func(p, q orb.Point, facesP, facesQ bool)
	cut = func(p, q orb.Point, facesP, facesQ bool) {
		switch {
		case facesP && facesQ:
			out = joinStretch(out, p, q)
		case facesP != facesQ && distance(p, q) > facingWithin:
			m := middle(p, q)
			facesM := faces(m)
			cut(p, m, facesP, facesM)
			cut(m, q, facesM, facesQ)
		}
	}
	p, facesP := a, faces(a)
	n := math.Ceil(distance(a, b) / facingStep)
	for k := 1.0; k <= n; k++ {
		q := atPlace(a, b, 0, n, k)
		facesQ := faces(q)
		cut(p, q, facesP, facesQ)
		p, facesP = q, facesQ
	}
	return out
}
