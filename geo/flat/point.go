package flat

import (
	"math"

	"github.com/paulmach/orb"
)

// Project returns the point of a segment nearest to p and its place, 0..1.
func Project(a, b, p orb.Point) (orb.Point, float64) {
	dx, dy := b[0]-a[0], b[1]-a[1]
	length2 := dx*dx + dy*dy
	if length2 == 0 {
		return a, 0
	}
	t := ((p[0]-a[0])*dx + (p[1]-a[1])*dy) / length2
	switch {
	case t <= 0:
		return a, 0
	case t >= 1:
		return b, 1
	}
	return orb.Point{a[0] + t*dx, a[1] + t*dy}, t
}

// Distance is that between two points.
func Distance(a, b orb.Point) float64 { return math.Sqrt(Squared(a, b)) }

// Squared is the square of the distance between two points.
func Squared(a, b orb.Point) float64 {
	dx, dy := a[0]-b[0], a[1]-b[1]
	return dx*dx + dy*dy
}

// Cross is twice the area of the triangle a, b, p: positive if p lies left of
// the direction from a to b.
func Cross(a, b, p orb.Point) float64 {
	return (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0])
}

// Dot is the scalar product of two vectors.
func Dot(a, b orb.Point) float64 { return a[0]*b[0] + a[1]*b[1] }

// Way is the vector from one point to another.
func Way(a, b orb.Point) orb.Point { return orb.Point{b[0] - a[0], b[1] - a[1]} }

// Middle is the point half way between two.
func Middle(a, b orb.Point) orb.Point { return orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2} }

// At returns the point of an edge whose ends have the places given.
func At(a, b orb.Point, placeA, placeB, place float64) orb.Point {
	if placeA == placeB {
		return a
	}
	t := (place - placeA) / (placeB - placeA)
	return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}

// Direction is the unit vector from one point to another.
func Direction(a, b orb.Point) orb.Point {
	d := Distance(a, b)
	return orb.Point{(b[0] - a[0]) / d, (b[1] - a[1]) / d}
}

// Cos45 is the cosine of 45 degrees.
const Cos45 = math.Sqrt2 / 2

// Turn is the angle from one vector to another, in radians, positive to the left.
func Turn(from, to orb.Point) float64 {
	return math.Atan2(from[0]*to[1]-from[1]*to[0], Dot(from, to))
}

// Turned is a vector turned to the left by an angle in radians.
func Turned(v orb.Point, by float64) orb.Point {
	s, c := math.Sincos(by)
	return orb.Point{c*v[0] - s*v[1], s*v[0] + c*v[1]}
}

// LeftNormal is the vector of a length to the left of the direction from a to b.
func LeftNormal(a, b orb.Point, length float64) orb.Point {
	d := Distance(a, b)
	return orb.Point{-(b[1] - a[1]) / d * length, (b[0] - a[0]) / d * length}
}

// BoundOf is the bound of a geometry, taken once for each position: orb's own takes
// several times as long.
func BoundOf(g orb.Geometry) orb.Bound {
	out := orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}
	take := func(points []orb.Point) {
		for _, p := range points {
			out.Min[0], out.Max[0] = min(out.Min[0], p[0]), max(out.Max[0], p[0])
			out.Min[1], out.Max[1] = min(out.Min[1], p[1]), max(out.Max[1], p[1])
		}
	}
	rings := func(polygon orb.Polygon) {
		for _, ring := range polygon {
			take(ring)
		}
	}
	switch g := g.(type) {
	case orb.LineString:
		take(g)
	case orb.MultiLineString:
		for _, line := range g {
			take(line)
		}
	case orb.Polygon:
		rings(g)
	case orb.MultiPolygon:
		for _, polygon := range g {
			rings(polygon)
		}
	default:
		return g.Bound()
	}
	return out
}

// ByPosition orders points by x, then y.
func ByPosition(a, b orb.Point) int {
	switch {
	case a[0] < b[0]:
		return -1
	case a[0] > b[0]:
		return 1
	case a[1] < b[1]:
		return -1
	case a[1] > b[1]:
		return 1
	}
	return 0
}
