package area

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/peterstace/simplefeatures/geom"

	"waterward/geo/flat"
)

// Error says what makes an area invalid.
type Error struct {
	Rule   string    // what is wrong, in words for those who draw
	Where  orb.Point // where, in the area's own coordinates
	Placed bool      // Where is known
}

func (e *Error) Error() string {
	where := ""
	if e.Placed {
		where = fmt.Sprintf(" at (%.9g, %.9g)", e.Where[0], e.Where[1])
	}
	return "its area is not valid: " + e.Rule + where
}

// Check reports what first makes an area invalid, as an *Error: a ring that
// crosses itself, a hole outside its shell, parts that overlap (OGC 06-103r4,
// section 6.1.11). Nothing is overlaid, and nothing classified, before it has
// passed.
func Check(area orb.MultiPolygon) (err error) {
	defer func() { // the check itself can panic on parts that all but touch
		if wrong := recover(); wrong != nil {
			err = &Error{Rule: "two of its parts all but touch"}
		}
	}()
	if surelyValid(area) {
		return nil
	}
	for _, polygon := range area {
		if err := toPolygon(polygon).Validate(); err != nil {
			return plainly(err, polygon)
		}
		if at, nested := nestedHoles(polygon[1:]); nested {
			return &Error{Rule: holesOverlap, Where: at, Placed: true}
		}
	}
	if len(area) > 1 {
		if err := toMultiPolygon(area).Validate(); err != nil {
			return plainly(err, nil)
		}
	}
	return nil
}

const (
	holesOverlap = "two of its holes overlap, or one lies inside the other"
	// Of these rules the library does not name the place.
	crossesItself = "a ring crosses or touches itself"
	cutApart      = "its holes cut it apart"
)

// brokenRules are what the library says of invalid areas, whose errors have no
// types, and what we say.
var brokenRules = []struct{ said, plain string }{
	{"polygon ring not simple", crossesItself},
	{"polygon has nested rings", holesOverlap},
	{"polygon interior ring outside of exterior ring", "a hole lies outside its shell"},
	{"polygon has disconnected interior", cutApart},
	{"polygon rings intersect at multiple points", "two of its rings cross, or touch in more than one place"},
	{"multipolygon child polygons touch at multiple points", "two of its parts overlap, or share an edge"},
	{"contains only one distinct XY value", "a ring has all its positions in one place"},
}

var placeSaid = regexp.MustCompile(`at or near \{(\S+) (\S+)\}`)

// plainly says what makes an area invalid in words for those who draw.
func plainly(err error, polygon orb.Polygon) *Error {
	text := err.Error()
	e := &Error{Rule: text}
	for _, rule := range brokenRules {
		if strings.Contains(text, rule.said) {
			e.Rule = rule.plain
		}
	}
	if e.Rule == crossesItself {
		for _, ring := range polygon {
			if e.Where, e.Placed = SelfMeeting(ring); e.Placed {
				break
			}
		}
		return e
	}
	if e.Rule == cutApart {
		e.Where, e.Placed = sharedVertex(polygon)
		return e
	}
	if at := placeSaid.FindStringSubmatch(text); at != nil {
		x, errX := strconv.ParseFloat(at[1], 64)
		y, errY := strconv.ParseFloat(at[2], 64)
		e.Where, e.Placed = orb.Point{x, y}, errX == nil && errY == nil
	}
	return e
}

// sharedVertex is the first vertex of one ring that is also one of another.
func sharedVertex(polygon orb.Polygon) (orb.Point, bool) {
	first := map[orb.Point]int{}
	for i, ring := range polygon {
		for _, p := range ring {
			if j, seen := first[p]; !seen {
				first[p] = i
			} else if j != i {
				return p, true
			}
		}
	}
	return orb.Point{}, false
}

// ToLineString is a line as the overlay library has it.
func ToLineString(points []orb.Point) geom.LineString {
	flat := make([]float64, 0, 2*len(points))
	for _, p := range points {
		flat = append(flat, p[0], p[1])
	}
	return geom.NewLineString(geom.NewSequence(flat, geom.DimXY))
}

func toPolygon(polygon orb.Polygon) geom.Polygon {
	rings := make([]geom.LineString, len(polygon))
	for i, ring := range polygon {
		rings[i] = ToLineString(ring)
	}
	return geom.NewPolygon(rings)
}

func toMultiPolygon(area orb.MultiPolygon) geom.MultiPolygon {
	parts := make([]geom.Polygon, len(area))
	for i, polygon := range area {
		parts[i] = toPolygon(polygon)
	}
	return geom.NewMultiPolygon(parts)
}

func fromSequence(s geom.Sequence) []orb.Point {
	out := make([]orb.Point, s.Length())
	for i := range out {
		xy := s.GetXY(i)
		out[i] = orb.Point{xy.X, xy.Y}
	}
	return out
}

// FromGeometry returns the polygons of a geometry.
func FromGeometry(g geom.Geometry) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, part := range g.Dump() {
		polygon, ok := part.AsPolygon()
		if !ok || polygon.IsEmpty() {
			continue
		}
		var rings orb.Polygon
		for _, s := range polygon.Coordinates() {
			rings = append(rings, fromSequence(s))
		}
		out = append(out, rings)
	}
	return out
}

// Perimeter is the length of the outer ring.
func Perimeter(polygon orb.Polygon) float64 {
	sum := 0.0
	for i := 1; i < len(polygon[0]); i++ {
		sum += flat.Distance(polygon[0][i-1], polygon[0][i])
	}
	return sum
}

// Of is the area of polygons less that of their holes, in the square of their unit.
func Of(polygons []orb.Polygon) float64 {
	sum := 0.0
	for _, polygon := range polygons {
		for i, ring := range polygon {
			a := math.Abs(planar.Area(ring))
			if i > 0 {
				a = -a
			}
			sum += a
		}
	}
	return sum
}
