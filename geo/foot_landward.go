package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

const (
	// facingSlack is by how much the cosine of 45 degrees is passed over (0.06 degrees), so
	// that an edge drawn at 45 degrees is told alike however its positions are rounded.
	facingSlack = 0.0007
	// facingCos is the cosine of 45 degrees and a little more, at which an edge faces the
	// line.
	facingCos = flat.Cos45 - facingSlack
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
	facingWithin = 0.0001 * crs.MetresPerFoot
)

// landwardEdge returns the greatest signed distance of the footprint's landward
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
func (fp *Footprint) landwardEdge(lines *Lines) Reach {
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
		bounds[i] = flat.BoundOf(polygon).Pad(touching)
	}
	places := flat.NewPlaces(bounds)
	var out [][]orb.Point
	for i := range e.Areas {
		var others []bounded
		for _, k := range places.Meeting(bounds[i]) {
			if k != i {
				others = append(others, bounded{e.Areas[k], bounds[k]})
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
			return flat.Dot(outward, land) >= facingCos && !against(others, at, outward) &&
				(counts == nil || counts(near, at))
		})...)
	}
	return out
}

// discEdge returns the nearest point of a disc, unless another part lies
// against it.
func (e *Element) discEdge(part int, others []bounded, lines *Lines) [][]orb.Point {
	centre := e.Lines[part][0]
	var at orb.Point
	if f, r := lines.Nearest(centre), flat.Distance(centre, e.Areas[part][0][0]); f.Distance > r && lines.side(centre, f) > 0 {
		at = fromDisc(centre, r, f).At
	} else {
		at = alone(Element{Areas: e.Areas[part : part+1]}).Least(lines).At
	}
	if against(others, at, flat.Direction(centre, at)) {
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
	trail := &Trail{lines: lines, reach: facingSpan / 2}
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		outward := flat.LeftNormal(a, b, side)
		var faced [][]orb.Point
		n := math.Ceil(flat.Distance(a, b) / facingSpan)
		for k := 1.0; k <= n; k++ {
			p, q := flat.At(a, b, 0, n, k-1), flat.At(a, b, 0, n, k)
			near := trail.beside(p, q)
			ask := func(at orb.Point) bool { return counts(near, at, outward) }
			if of == anyPlace {
				faced = appendStretches(faced, p, q, ask)
			} else {
				faced = near.appendFacing(faced, p, q, outward, of, ask)
			}
		}
		for _, s := range faced {
			if flat.Distance(s[0], s[1]) > touching { // what is shorter is only rounding
				out = append(out, s)
			}
		}
	}
	return out
}

// landward returns the unit vector at p that points to land.
func (l *Lines) landward(p orb.Point) orb.Point { return l.landwardAt(p, l.Nearest(p)) }

func (l *Lines) landwardAt(p orb.Point, f Foot) orb.Point {
	s := &l.segs[f.seg]
	if f.t > 0 && f.t < 1 || f.Distance == 0 { // the way that is sure on the line too
		return flat.LeftNormal(s.a, s.b, -1)
	}
	d := f.Distance
	if l.side(p, f) < 0 {
		d = -d
	}
	return orb.Point{(f.At[0] - p[0]) / d, (f.At[1] - p[1]) / d}
}

// bounded is an area with its bound, or a little more.
type bounded struct {
	area  orb.Polygon
	bound orb.Bound
}

// against reports whether one of the areas lies straight out from p.
func against(areas []bounded, p, outward orb.Point) bool {
	at := orb.Point{p[0] + 2*touching*outward[0], p[1] + 2*touching*outward[1]}
	return slices.ContainsFunc(areas, func(b bounded) bool { return b.bound.Contains(at) && planar.PolygonContains(b.area, at) })
}
