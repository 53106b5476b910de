package geo

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"

	"waterward/geo/area"
	"waterward/geo/crs"
	"waterward/geo/flat"
)

const (
	// limitQuadrant is how many chords make a quarter circle of a buffer; where
	// they lie too far inside the arc, atDistance adds to them.
	limitQuadrant = 16
	// limitTolerance is how far, in metres, a drawn limit line may lie from
	// its true place (0.05 ft).
	limitTolerance = 0.05 * crs.MetresPerFoot
	// bufferError is how far, as a share of the distance, the outline of a
	// buffer may lie off before it is taken for the remains of a fold or of a
	// false hole: buffers drawn so were seen to err by 0.11 %.
	bufferError = 0.005
)

// LimitRings draws what [LimitLines] does as closed rings, on both sides and round the
// ends of what is near the window, for parting the plane: a limit line may have gaps,
// a ring has none.
func LimitRings(lines *Lines, d float64, window orb.Bound) ([][]orb.Point, error) {
	near := lines.meeting(window.Pad(d * (1 + 2*bufferError)))
	if near.Empty() || d <= 0 {
		return nil, nil
	}
	if rings, closed := closedLimit(near, d); closed {
		return rings, nil
	}
	return near.bufferRings(d)
}

// bufferRings are the outlines of what lies within d of the lines, closed: those of a
// buffer, every vertex moved to d.
func (l *Lines) bufferRings(d float64) ([][]orb.Point, error) {
	buffer, err := l.buffer(d)
	if err != nil {
		return nil, err
	}
	var out [][]orb.Point
	for _, polygon := range buffer {
		for _, ring := range polygon {
			ring = l.atDistance(ring, d)
			ring[len(ring)-1] = ring[0]
			out = append(out, ring)
		}
	}
	return out, nil
}

// buffer is the area within d of the lines, as a buffer draws it.
func (l *Lines) buffer(d float64) ([]orb.Polygon, error) {
	var parts []geom.LineString
	for _, c := range l.chains() {
		parts = append(parts, area.ToLineString(l.points(c)))
	}
	return buffered(parts, d)
}

// fewLines is how many lines are buffered in one step: the outlines of many that lie
// closer than the distance cross one another so often that time and memory run out.
const fewLines = 16

// buffered returns the buffer of lines: of many, those of either half, joined.
func buffered(lines []geom.LineString, d float64) ([]orb.Polygon, error) {
	if len(lines) <= fewLines {
		buffer, err := geom.Buffer(geom.NewMultiLineString(lines).AsGeometry(), d,
			geom.BufferQuadSegments(limitQuadrant), geom.BufferSimplifyFactor(0))
		return area.FromGeometry(buffer), err
	}
	all := geom.NewMultiLineString(lines).Envelope()
	middle := func(l geom.LineString) float64 {
		at, _ := l.Envelope().Center().XY()
		if all.Width() > all.Height() {
			return at.X
		}
		return at.Y
	}
	slices.SortStableFunc(lines, func(a, b geom.LineString) int { return cmp.Compare(middle(a), middle(b)) })
	one, err := buffered(lines[:len(lines)/2], d)
	if err != nil {
		return nil, err
	}
	other, err := buffered(lines[len(lines)/2:], d)
	if err != nil {
		return nil, err
	}
	return area.Union(slices.Concat(one, other))
}

// atDistance moves the vertices of a line that runs about d from the lines to
// exactly d, and adds vertices where an edge between them still lies off.
func (l *Lines) atDistance(line []orb.Point, d float64) []orb.Point {
	move := func(p orb.Point) orb.Point {
		for range 50 { // where two feet tie they take turns, and the steps shrink
			f := l.Nearest(p)
			if f.Distance == 0 || math.Abs(f.Distance-d) < limitTolerance/10 {
				break
			}
			s := d / f.Distance
			p = orb.Point{f.At[0] + s*(p[0]-f.At[0]), f.At[1] + s*(p[1]-f.At[1])}
		}
		return p
	}
	out := []orb.Point{move(line[0])}
	off := func(p orb.Point) bool { return math.Abs(l.Nearest(p).Distance-d) > limitTolerance/2 }
	var to func(q orb.Point, depth int)
	to = func(q orb.Point, depth int) {
		last := out[len(out)-1]
		mid := flat.Middle(last, q)
		// The quarters too: an edge across a kink can be right in its middle.
		if depth > 0 && (off(mid) || off(flat.Middle(last, mid)) || off(flat.Middle(mid, q))) {
			to(move(mid), depth-1)
			to(q, depth-1)
			return
		}
		out = append(out, q)
	}
	for _, p := range line[1:] {
		to(move(p), 6)
	}
	return out
}
