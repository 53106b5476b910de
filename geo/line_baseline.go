package geo

import (
	"github.com/paulmach/orb"
	geom "github.com/twpayne/go-geom"

	"waterward/geo/flat"
)

// Baseline is a line with stations along it: an XYM line whose M is the
// distance from its start, in metres.
type Baseline struct{ line *geom.LineString }

// NewBaseline stations a line of the plane from its first point.
func NewBaseline(points []orb.Point) Baseline {
	ordinates := make([]float64, 0, 3*len(points))
	station := 0.0
	for i, p := range points {
		if i > 0 {
			station += flat.Distance(points[i-1], p)
		}
		ordinates = append(ordinates, p[0], p[1], station)
	}
	return Baseline{geom.NewLineStringFlat(geom.XYM, ordinates)}
}

// Station returns the station at place t (0..1) of an edge.
func (b Baseline) Station(edge int, t float64) float64 {
	from, to := b.line.Coord(edge), b.line.Coord(edge+1)
	return from[2] + t*(to[2]-from[2])
}

// Length is the station of the end, in metres.
func (b Baseline) Length() float64 { return b.line.Coord(b.line.NumCoords() - 1)[2] }

// At returns the point at a station; stations off the line give its ends.
func (b Baseline) At(station float64) orb.Point {
	i, t := b.line.Interpolate(station, b.line.Layout().MIndex())
	p := b.line.Coord(i)
	if t == 0 { // at the last vertex there is no next one
		return orb.Point{p[0], p[1]}
	}
	q := b.line.Coord(i + 1)
	return orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
}

// Between returns the piece of the line from one station to another.
func (b Baseline) Between(from, to float64) []orb.Point {
	out := []orb.Point{b.At(from)}
	for i := range b.line.NumCoords() {
		if c := b.line.Coord(i); c[2] > from && c[2] < to {
			out = append(out, orb.Point{c[0], c[1]})
		}
	}
	return append(out, b.At(to))
}
