package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/area"
	"waterward/geo/flat"
)

// Element is one connected piece of a footprint.
type Element struct {
	Areas  []orb.Polygon // in the plane, for areas and overlay; empty if the footprint is incomplete
	Lines  [][]orb.Point // what was drawn, if lines or points
	Length float64       // metres
	Discs  bool          // drawn as points with a diameter

	// pieces are what distances are taken from. They may overlap: the exact
	// rectangles and wedges of a strip, whose union no overlay gets right
	// where edges coincide but for rounding. Otherwise they are the areas.
	pieces []orb.Polygon
	parts  [][]orb.Point // convex, for the search for extremes; edges if there are no pieces
	box    flat.Box
	centre orb.Point
	radius float64 // of the circle round centre that holds the element
	edges  *edges  // of its outline, by where they lie; nil if they are few
	of     []int   // the drawings that it is made of, by number
}

// settle cuts the element into convex parts and puts a circle round it.
func (e *Element) settle() {
	if e.pieces == nil {
		e.pieces = e.Areas
	}
	e.parts = nil
	for _, polygon := range e.pieces {
		e.parts = append(e.parts, area.ConvexParts(polygon)...)
	}
	if len(e.pieces) == 0 {
		for _, line := range e.Lines {
			for i := 1; i < len(line); i++ {
				e.parts = append(e.parts, line[i-1:i+1])
			}
		}
	}
	bound := e.bound()
	e.centre, e.box = bound.Center(), flat.BoxOf(bound)
	e.radius = 0
	n := 0
	e.eachVertex(func(p orb.Point) {
		e.radius = math.Max(e.radius, flat.Distance(e.centre, p))
		n++
	})
	if e.edges = nil; n > fewEdges && !e.IsDisc() {
		e.edges = newEdges(e)
	}
}

func (e *Element) bound() orb.Bound {
	if len(e.pieces) > 0 {
		return flat.BoundOf(orb.MultiPolygon(e.pieces))
	}
	b := orb.LineString(e.Lines[0]).Bound()
	for _, line := range e.Lines[1:] {
		b = b.Union(orb.LineString(line).Bound())
	}
	return b
}

// outline visits the edges of the element's pieces.
func (e *Element) outline(visit func(a, b orb.Point)) {
	for _, polygon := range e.pieces {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				visit(ring[i-1], ring[i])
			}
		}
	}
	if len(e.pieces) == 0 {
		for _, line := range e.Lines {
			for i := 1; i < len(line); i++ {
				visit(line[i-1], line[i])
			}
		}
	}
}

// eachVertex visits the vertices of the element's pieces, each once.
func (e *Element) eachVertex(visit func(orb.Point)) {
	e.outline(func(a, _ orb.Point) { visit(a) })
	if len(e.pieces) == 0 { // a ring ends where it began, a line does not
		for _, line := range e.Lines {
			visit(line[len(line)-1])
		}
	}
}

// middle is a place of the element: its centre, or if that lies outside of it, as of one
// that bends round a point of land, the middle of its longest part.
func (e *Element) middle() orb.Point {
	if e.contains(e.centre) {
		return e.centre
	}
	long, at := -1.0, e.centre
	for _, part := range e.parts {
		if w := widest(part); w > long {
			long, at = w, orb.Point{}
			for _, p := range part {
				at[0], at[1] = at[0]+p[0]/float64(len(part)), at[1]+p[1]/float64(len(part))
			}
		}
	}
	return at
}

// Area is the area of the element in square metres.
func (e *Element) Area() float64 { return area.Of(e.Areas) }

// Outline is the element as one area, in the plane, without what lies between parts that
// overlap; empty if the footprint is incomplete.
func (e *Element) Outline() []orb.Polygon {
	if joined, err := area.Union(e.Areas); err == nil {
		return joined
	}
	return e.Areas // drawn with them
}

// contains reports whether the element covers p, its outline included.
func (e *Element) contains(p orb.Point) bool {
	if e.edges != nil {
		return e.edges.contain(p)
	}
	return planar.MultiPolygonContains(e.pieces, p)
}
