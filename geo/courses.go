package geo

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// onLine is how near to a segment, in metres, a point taken from it lies at most: an
// edge of 250 m (see maxEdge) that is straight in one plane bends by so much in another,
// or in degrees.
const onLine = 0.005

// Courses returns the lines as courses, edge by edge where they are walls and
// front, a piece of them, is the start. The ends of front need not be vertices.
func (l *Lines) Courses(front []orb.Point, wall bool) []Course {
	var out []Course
	front = l.atVertices(front)
	starts := newEdgeSet(false)
	for i := 1; i < len(front); i++ {
		starts.add(front[i-1], front[i], startMark)
	}
	isStart := func(a, b orb.Point) bool {
		if byPosition(a, b) > 0 {
			a, b = b, a
		}
		_, ok := starts.marks[ringEdge{a, b}]
		return ok
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
			out = append(out, Course{Points: points[i-1 : i+1], Wall: wall, Start: isStart(points[i-1], points[i])})
		}
	}
	return out
}

// atVertices moves the ends of a line that lie as good as on a vertex to it.
func (l *Lines) atVertices(line []orb.Point) []orb.Point {
	out := append([]orb.Point{}, line...)
	for _, k := range l.use {
		for _, v := range []orb.Point{l.segs[k].a, l.segs[k].b} {
			for _, i := range []int{0, len(out) - 1} {
				if len(out) > 0 && distance(out[i], v) <= onLine {
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
	if len(out) == 2 && distance(s.a, out[1]) < distance(s.a, out[0]) {
		out[0], out[1] = out[1], out[0]
	}
	return out
}
