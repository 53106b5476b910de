package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/area"
	"waterward/geo/flat"
)

// onLine is how near to a segment, in metres, a point taken from it lies at most: an
// edge of 250 m (see maxEdge) that is straight in one plane bends by so much in another,
// or in degrees.
const onLine = 0.005

// Courses returns the lines as walls, edge by edge, of which the left of front, a piece of
// them either way, is the start. The ends of front need not be vertices.
func (l *Lines) Courses(front []orb.Point) []area.Course {
	var out []area.Course
	front = l.atVertices(front)
	starts := map[flat.Edge]bool{}
	for i := 1; i < len(front); i++ {
		starts[flat.Edge{A: front[i-1], B: front[i]}] = true
	}
	for _, k := range l.use {
		s := &l.segs[k]
		points := []orb.Point{s.a}
		for _, end := range endsAlong(front, s) {
			if end != points[len(points)-1] && end != s.b {
				points = append(points, end)
			}
		}
		points = append(points, s.b)
		for i := 1; i < len(points); i++ {
			edge := points[i-1 : i+1]
			if starts[flat.Edge{A: edge[1], B: edge[0]}] {
				edge = []orb.Point{edge[1], edge[0]}
			}
			out = append(out, area.Course{Points: edge, Wall: true, Start: starts[flat.Edge{A: edge[0], B: edge[1]}]})
		}
	}
	return out
}

// Turned is a piece of the lines the way they run.
func (l *Lines) Turned(piece []orb.Point) []orb.Point {
	with := 0.0 // metres of it that run with the lines, less those that run against them
	for i := 1; i < len(piece); i++ {
		a, b := piece[i-1], piece[i]
		if f := l.Nearest(flat.Middle(a, b)); f.seg >= 0 {
			s := &l.segs[f.seg]
			with += math.Copysign(flat.Distance(a, b), flat.Dot(flat.Way(a, b), flat.Way(s.a, s.b)))
		}
	}
	out := append(orb.LineString{}, piece...)
	if with < 0 {
		out.Reverse()
	}
	return out
}

// atVertices moves the ends of a line that lie as good as on a vertex to it.
func (l *Lines) atVertices(line []orb.Point) []orb.Point {
	out := append([]orb.Point{}, line...)
	for _, k := range l.use {
		for _, v := range []orb.Point{l.segs[k].a, l.segs[k].b} {
			for _, i := range []int{0, len(out) - 1} {
				if len(out) > 0 && flat.Distance(out[i], v) <= onLine {
					out[i] = v
				}
			}
		}
	}
	return out
}

// endsAlong are the ends of a line that lie on a segment, in its direction.
func endsAlong(line []orb.Point, s *segment) []orb.Point {
	var out []orb.Point
	if len(line) == 0 {
		return nil
	}
	for _, p := range []orb.Point{line[0], line[len(line)-1]} {
		if planar.DistanceFromSegment(s.a, s.b, p) <= onLine {
			out = append(out, p)
		}
	}
	if len(out) == 2 && flat.Distance(s.a, out[1]) < flat.Distance(s.a, out[0]) {
		out[0], out[1] = out[1], out[0]
	}
	return out
}
