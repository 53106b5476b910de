package geo

import (
	"math"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"waterward/geo/flat/flattest"
)

// This file draws random shores and footprints, and holds plain forms of what
// the package does fast.

// drawWalk is a shore: a random walk whose heading turns by at most turn
// radians a step. With a large turn it is rough and crosses itself.
func drawWalk(t *rapid.T, turn float64) []orb.Point {
	n := rapid.IntRange(1, 25).Draw(t, "steps")
	p := orb.Point{flattest.Within(t, -60, 60, "x"), flattest.Within(t, -60, 60, "y")}
	heading := flattest.Within(t, -math.Pi, math.Pi, "heading")
	line := []orb.Point{p}
	for range n {
		heading += flattest.Within(t, -turn, turn, "turn")
		step := flattest.Within(t, 0.5, 25, "step")
		s, c := math.Sincos(heading)
		p = orb.Point{p[0] + step*c, p[1] + step*s}
		line = append(line, p)
	}
	return line
}

func drawRectangle(t *rapid.T) orb.Ring {
	centre := orb.Point{flattest.Within(t, -40, 40, "x"), flattest.Within(t, -40, 40, "y")}
	long, wide := flattest.Within(t, 1, 40, "length"), flattest.Within(t, 0.5, 10, "width")
	s, c := math.Sincos(flattest.Within(t, 0, math.Pi, "turn"))
	ring := flattest.RingOf(-long/2, -wide/2, long/2, wide/2)
	for i, p := range ring {
		ring[i] = orb.Point{centre[0] + p[0]*c - p[1]*s, centre[1] + p[0]*s + p[1]*c}
	}
	return ring
}

// drawStructure is a footprint of any of the forms a proposal can take, made
// the way proposals are: from degrees.
func drawStructure(t *rapid.T) *Footprint {
	degrees := func(line []orb.Point) []orb.Point {
		out := make([]orb.Point, len(line))
		for i, p := range line {
			out[i] = site.Inverse(p)
		}
		return out
	}
	var g orb.Geometry
	width := 0.0
	switch rapid.SampledFrom([]string{"strip", "rectangle", "holed", "disc", "parts", "line"}).Draw(t, "form") {
	case "strip":
		width = flattest.Within(t, 0.5, 8, "width")
		g = orb.LineString(degrees(drawWalk(t, 1)))
	case "rectangle":
		g = orb.Polygon{degrees(drawRectangle(t))}
	case "holed":
		hole := orb.Ring(degrees(flattest.DrawStar(t, orb.Point{}, 1, 4)))
		hole.Reverse()
		r := flattest.Within(t, 6, 30, "shell")
		g = orb.Polygon{degrees(flattest.RingOf(-r, -r, r, r)), hole}
	case "disc":
		width = flattest.Within(t, 0.5, 20, "diameter")
		g = orb.Point(degrees([]orb.Point{{0, 0}})[0])
	case "parts":
		width = flattest.Within(t, 0.5, 6, "width")
		var lines orb.MultiLineString
		for range rapid.IntRange(2, 4).Draw(t, "parts") {
			lines = append(lines, degrees(drawWalk(t, 0.5)))
		}
		g = lines
	case "line":
		g = orb.LineString(degrees(drawWalk(t, 1)))
	}
	fp, err := NewFootprint(g, width, width)
	if err != nil {
		t.Fatalf("a valid structure is refused: %v", err)
	}
	return fp
}

// gap is the least distance between two segments: the clamped minimum of a
// quadratic, refined from each end.
func gap(a, b, c, d orb.Point) float64 {
	best := math.Inf(1)
	for _, pair := range [][3]orb.Point{{a, c, d}, {b, c, d}, {c, a, b}, {d, a, b}} {
		best = math.Min(best, flattest.ToSegment(pair[0], pair[1], pair[2]))
	}
	// Do they cross? Solve a + s(b-a) = c + t(d-c).
	ux, uy, vx, vy := b[0]-a[0], b[1]-a[1], d[0]-c[0], d[1]-c[1]
	if det := ux*vy - uy*vx; det != 0 {
		s := ((c[0]-a[0])*vy - (c[1]-a[1])*vx) / det
		t := ((c[0]-a[0])*uy - (c[1]-a[1])*ux) / det
		if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			return 0
		}
	}
	return best
}

// covers reports whether a footprint holds p.
func (fp *Footprint) covers(p orb.Point) bool {
	for _, e := range fp.Elements {
		for _, polygon := range e.pieces {
			if flattest.EvenOdd(p, polygon...) {
				return true
			}
		}
	}
	return false
}

// areaCovers is covers for the areas that overlay works on.
func (fp *Footprint) areaCovers(p orb.Point) bool {
	for _, e := range fp.Elements {
		for _, polygon := range e.Areas {
			if flattest.EvenOdd(p, polygon...) {
				return true
			}
		}
	}
	return false
}

// eachEdge visits every edge of a footprint's outline.
func (fp *Footprint) eachEdge(visit func(a, b orb.Point)) {
	for i := range fp.Elements {
		e := &fp.Elements[i]
		for _, polygon := range e.pieces {
			for _, ring := range polygon {
				for j := 1; j < len(ring); j++ {
					visit(ring[j-1], ring[j])
				}
			}
		}
		for _, line := range e.Lines {
			for j := 1; j < len(line) && len(e.pieces) == 0; j++ {
				visit(line[j-1], line[j])
			}
		}
	}
}

// samples are points all over a footprint: on its outline and on a grid inside.
func (fp *Footprint) samples() []orb.Point {
	var out []orb.Point
	fp.eachEdge(func(a, b orb.Point) {
		for i := range 5 {
			f := float64(i) / 4
			out = append(out, orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])})
		}
	})
	const cells = 14
	for i := range cells {
		for j := range cells {
			p := orb.Point{
				fp.Bound.Min[0] + (float64(i)+0.37)/cells*(fp.Bound.Max[0]-fp.Bound.Min[0]),
				fp.Bound.Min[1] + (float64(j)+0.61)/cells*(fp.Bound.Max[1]-fp.Bound.Min[1]),
			}
			if fp.covers(p) {
				out = append(out, p)
			}
		}
	}
	return out
}
