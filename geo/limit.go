package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
)

const (
	// limitQuadrant is how many chords make a quarter circle of a limit line:
	// at 100 ft they lie at most 0.008 ft inside the arc.
	limitQuadrant = 64
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
// and cleared of its end caps. It is for drawing; no decision is taken from it.
func LimitLines(lines *Lines, d float64, side LimitSide, window orb.Bound) ([][]orb.Point, error) {
	near := lines.where(func(_ int32, s *segment) bool {
		return orb.MultiPoint{s.a, s.b}.Bound().Pad(d).Intersects(window)
	})
	if near.Empty() || d <= 0 {
		return nil, nil
	}
	chains, _ := near.chains()
	var parts []geom.LineString
	for _, c := range chains {
		parts = append(parts, toLineString(near.points(c)))
	}
	buffer, err := geom.Buffer(geom.NewMultiLineString(parts).AsGeometry(), d,
		geom.BufferQuadSegments(limitQuadrant), geom.BufferSimplifyFactor(0))
	if err != nil {
		return nil, err
	}
	wanted := func(a, b orb.Point) bool {
		mid := middle(a, b)
		if !window.Contains(mid) {
			return false
		}
		signed, foot := lines.Signed(mid)
		if side == WaterSide && signed < 0 || lines.ends(foot) {
			return false
		}
		return math.Abs(foot.Distance-d) <= bufferError*d
	}
	var out [][]orb.Point
	for _, polygon := range fromGeometry(buffer) {
		for _, ring := range polygon {
			for _, piece := range pieces(ring, wanted) {
				out = append(out, lines.atDistance(piece, d))
			}
		}
	}
	return out, nil
}

// atDistance moves the vertices of a line that runs about d from the lines to
// exactly d, and adds vertices where an edge between them still lies off.
func (l *Lines) atDistance(line []orb.Point, d float64) []orb.Point {
	move := func(p orb.Point) orb.Point {
		for range 3 { // a second foot can take over on the way
			f := l.Nearest(p)
			if f.Distance == 0 {
				break
			}
			s := d / f.Distance
			p = orb.Point{f.At[0] + s*(p[0]-f.At[0]), f.At[1] + s*(p[1]-f.At[1])}
		}
		return p
	}
	out := []orb.Point{move(line[0])}
	var to func(q orb.Point, depth int)
	to = func(q orb.Point, depth int) {
		mid := middle(out[len(out)-1], q)
		if depth > 0 && math.Abs(l.Nearest(mid).Distance-d) > limitTolerance/2 {
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

// pieces returns the longest strings of wanted edges of a ring.
func pieces(ring orb.Ring, wanted func(a, b orb.Point) bool) [][]orb.Point {
	n := len(ring) - 1
	keep := make([]bool, n)
	start := 0
	for i := range keep {
		keep[i] = wanted(ring[i], ring[i+1])
		if !keep[i] {
			start = i // begin behind an unwanted edge, so that no piece is split
		}
	}
	var out [][]orb.Point
	var piece []orb.Point
	for i := range n {
		k := (start + i) % n
		if !keep[k] {
			if piece != nil {
				out = append(out, piece)
			}
			piece = nil
			continue
		}
		if piece == nil {
			piece = []orb.Point{ring[k]}
		}
		piece = append(piece, ring[k+1])
	}
	if piece != nil {
		out = append(out, piece)
	}
	return out
}
