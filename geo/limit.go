package geo

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
	"github.com/peterstace/simplefeatures/geom"
)

const (
	// limitQuadrant is how many chords make a quarter circle of a buffer; where
	// they lie too far inside the arc, atDistance adds to them.
	limitQuadrant = 16
	// limitTolerance is how far, in metres, a drawn limit line may lie from
	// its true place (0.05 ft).
	limitTolerance = 0.05 * metresPerFoot
	// bufferError is how far, as a share of the distance, the outline of a
	// buffer may lie off before it is taken for the remains of a fold or of a
	// false hole: buffers drawn so were seen to err by 0.11 %.
	bufferError = 0.005
)

// LimitSide says which side of the lines a limit line is drawn on.
type LimitSide int

const (
	WaterSide LimitSide = iota // the left of lines faced to the water
	BothSides
)

// LimitLines draws where the points at a distance (metres) from the lines lie,
// within a window of the plane: the outline of a two-sided buffer, cut by side
// and cleared of its end caps. It shows where to look: whether a place meets a limit
// is measured there.
func LimitLines(lines *Lines, d float64, side LimitSide, window orb.Bound) ([][]orb.Point, error) {
	within := window.Pad(d * (1 + 2*bufferError)) // of what can bear on the window
	near := lines.meeting(within)
	buffer, err := near.buffer(d)
	if err != nil {
		return nil, err
	}
	wanted := func(a, b orb.Point) bool {
		signed, foot := near.Signed(middle(a, b))
		if side == WaterSide && signed < 0 || near.ends(foot) {
			return false
		}
		return math.Abs(foot.Distance-d) <= bufferError*d
	}
	var out [][]orb.Point
	for _, polygon := range buffer {
		for _, ring := range polygon {
			var found [][]orb.Point
			for _, line := range clip.LineString(window, orb.LineString(ring)) {
				found = append(found, pieces(line, wanted)...)
			}
			for _, piece := range overSeam(found) {
				out = append(out, near.atDistance(piece, d))
			}
		}
	}
	return out, nil
}

// LimitRings draws the same as closed rings, on both sides and round the ends of
// what is near the window, for parting the plane: a limit line may have gaps, a
// ring has none.
func LimitRings(lines *Lines, d float64, window orb.Bound) ([][]orb.Point, error) {
	near := lines.meeting(window.Pad(d * (1 + 2*bufferError)))
	buffer, err := near.buffer(d)
	if err != nil {
		return nil, err
	}
	var out [][]orb.Point
	for _, polygon := range buffer {
		for _, ring := range polygon {
			ring = near.atDistance(ring, d)
			ring[len(ring)-1] = ring[0]
			out = append(out, ring)
		}
	}
	return out, nil
}

// meeting keeps the segments that may meet a bound.
func (l *Lines) meeting(b orb.Bound) *Lines {
	return l.where(func(_ int32, s *segment) bool { return orb.MultiPoint{s.a, s.b}.Bound().Intersects(b) })
}

// buffer is the area within d of the lines, as a buffer draws it.
func (l *Lines) buffer(d float64) (orb.MultiPolygon, error) {
	if l.Empty() || d <= 0 {
		return nil, nil
	}
	chains, _ := l.chains()
	var parts []geom.LineString
	for _, c := range chains {
		parts = append(parts, toLineString(l.points(c)))
	}
	buffer, err := buffered(parts, d)
	if err != nil {
		return nil, err
	}
	return fromGeometry(buffer), nil
}

// fewLines is how many lines are buffered in one step: the outlines of many that lie
// closer than the distance cross one another so often that time and memory run out.
const fewLines = 16

// buffered returns the buffer of lines: of many, those of either half, joined.
func buffered(lines []geom.LineString, d float64) (geom.Geometry, error) {
	if len(lines) <= fewLines {
		return geom.Buffer(geom.NewMultiLineString(lines).AsGeometry(), d,
			geom.BufferQuadSegments(limitQuadrant), geom.BufferSimplifyFactor(0))
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
		return one, err
	}
	other, err := buffered(lines[len(lines)/2:], d)
	if err != nil {
		return other, err
	}
	return geom.Union(one, other)
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
		mid := middle(last, q)
		// The quarters too: an edge across a kink can be right in its middle.
		if depth > 0 && (off(mid) || off(middle(last, mid)) || off(middle(mid, q))) {
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

// ends reports whether the foot is the end of a line, mapped or cut.
func (l *Lines) ends(f Foot) bool {
	s := &l.segs[f.seg]
	return f.t == 0 && s.prev < 0 || f.t == 1 && s.next < 0
}

// overSeam joins the last piece of a ring to the first where they meet at its seam.
func overSeam(found [][]orb.Point) [][]orb.Point {
	n := len(found) - 1
	if n < 1 || found[n][len(found[n])-1] != found[0][0] {
		return found
	}
	found[0] = append(found[n], found[0][1:]...)
	return found[:n]
}

// pieces returns the longest strings of wanted edges of a line.
func pieces(line []orb.Point, wanted func(a, b orb.Point) bool) [][]orb.Point {
	var out [][]orb.Point
	var piece []orb.Point
	for i := 1; i < len(line); i++ {
		if !wanted(line[i-1], line[i]) {
			if piece != nil {
				out = append(out, piece)
			}
			piece = nil
			continue
		}
		if piece == nil {
			piece = []orb.Point{line[i-1]}
		}
		piece = append(piece, line[i])
	}
	if piece != nil {
		out = append(out, piece)
	}
	return out
}
