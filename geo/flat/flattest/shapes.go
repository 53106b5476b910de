// Package flattest draws shapes for tests at random and asks the plainest way what lies in
// them, as a check on what asks faster.
package flattest

import (
	"math"
	"math/rand/v2"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

func Within(t *rapid.T, low, high float64, label string) float64 {
	return rapid.Float64Range(low, high).Draw(t, label)
}

// DrawStar is a simple counter-clockwise ring round a centre: neighbouring
// corners are seen from it less than half a turn apart.
func DrawStar(t *rapid.T, centre orb.Point, least, most float64) orb.Ring {
	n := rapid.IntRange(3, 14).Draw(t, "corners")
	var ring orb.Ring
	for i := range n {
		angle := 2 * math.Pi * (float64(i) + Within(t, 0.3, 0.7, "angle")) / float64(n)
		r := Within(t, least, most, "radius")
		s, c := math.Sincos(angle)
		ring = append(ring, orb.Point{centre[0] + r*c, centre[1] + r*s})
	}
	return append(ring, ring[0])
}

func ToSegment(p, a, b orb.Point) float64 {
	ux, uy := b[0]-a[0], b[1]-a[1]
	s := 0.0
	if l := ux*ux + uy*uy; l > 0 {
		s = math.Max(0, math.Min(1, ((p[0]-a[0])*ux+(p[1]-a[1])*uy)/l))
	}
	return math.Hypot(p[0]-a[0]-s*ux, p[1]-a[1]-s*uy)
}

// EvenOdd reports whether a ray from p crosses the rings an odd number of times.
func EvenOdd(p orb.Point, rings ...orb.Ring) bool {
	in := false
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
				in = !in
			}
		}
	}
	return in
}

func RingOf(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

// Star is a ring about a place whose corners lie at random distances.
func Star(r *rand.Rand, at orb.Point, least, most float64, corners int) orb.Ring {
	var ring orb.Ring
	for i := range corners {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		d := least + (most-least)*r.Float64()
		ring = append(ring, orb.Point{at[0] + d*c, at[1] + d*s})
	}
	return append(ring, ring[0])
}

func Reversed(line []orb.Point) []orb.Point {
	out := append(orb.LineString{}, line...)
	out.Reverse()
	return out
}

// Box is a rectangle, counter-clockwise.
func Box(x0, y0, x1, y1 float64) orb.Polygon { return orb.Polygon{RingOf(x0, y0, x1, y1)} }
