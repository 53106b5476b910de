package geo

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/peterstace/simplefeatures/geom"
)

// CheckArea reports what makes an area invalid: a ring that crosses itself, a
// hole outside its shell, parts that overlap. Nothing is overlaid, and nothing
// classified, before it has passed.
func CheckArea(area orb.MultiPolygon) (err error) {
	defer func() { // the check itself can panic on parts that all but touch
		if wrong := recover(); wrong != nil {
			err = fmt.Errorf("its area is not valid (%v)", wrong)
		}
	}()
	for _, polygon := range area {
		if err := toPolygon(polygon).Validate(); err != nil {
			return plainly(err)
		}
	}
	if len(area) > 1 {
		if err := toMultiPolygon(area).Validate(); err != nil {
			return plainly(err)
		}
	}
	return nil
}

var ringIndex = regexp.MustCompile(`^validating ring at index \d+: `)

// plainly says what makes an area invalid in words for those who draw.
func plainly(err error) error {
	text := ringIndex.ReplaceAllString(err.Error(), "")
	text = strings.Replace(text, "polygon ring not simple", "a ring crosses itself", 1)
	return fmt.Errorf("its area is not valid: %s", text)
}

func toLineString(points []orb.Point) geom.LineString {
	flat := make([]float64, 0, 2*len(points))
	for _, p := range points {
		flat = append(flat, p[0], p[1])
	}
	return geom.NewLineString(geom.NewSequence(flat, geom.DimXY))
}

func toPolygon(polygon orb.Polygon) geom.Polygon {
	rings := make([]geom.LineString, len(polygon))
	for i, ring := range polygon {
		rings[i] = toLineString(ring)
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

// fromGeometry returns the polygons of a geometry; lines and points that an
// overlay leaves where areas merely touch are dropped.
func fromGeometry(g geom.Geometry) orb.MultiPolygon {
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

// union joins polygons of the plane.
func union(polygons []orb.Polygon) (orb.MultiPolygon, error) {
	if len(polygons) == 1 {
		return polygons, nil
	}
	parts := make([]geom.Geometry, len(polygons))
	for i, p := range polygons {
		parts[i] = toPolygon(p).AsGeometry()
	}
	joined, err := geom.UnaryUnion(geom.NewGeometryCollection(parts).AsGeometry())
	if err != nil {
		return nil, fmt.Errorf("its parts cannot be joined: %w", err)
	}
	return fromGeometry(joined), nil
}

// sharedArea returns the area, in square metres, that two areas of the plane
// have in common. Parts of b may overlap one another.
func sharedArea(a, b []orb.Polygon) (float64, error) {
	joinedA, err := union(a)
	if err != nil {
		return 0, err
	}
	joinedB, err := union(b)
	if err != nil {
		return 0, err
	}
	shared, err := geom.Intersection(toMultiPolygon(joinedA).AsGeometry(), toMultiPolygon(joinedB).AsGeometry())
	if err != nil {
		return 0, fmt.Errorf("the shared area cannot be found: %w", err)
	}
	return shared.Area(), nil
}

// forwardArea carries an area in degrees into the plane.
func (p *Plane) forwardArea(area orb.MultiPolygon) []orb.Polygon {
	out := make([]orb.Polygon, 0, len(area))
	for _, polygon := range area {
		var rings orb.Polygon
		for _, ring := range polygon {
			rings = append(rings, p.forwardAll(ring))
		}
		out = append(out, rings)
	}
	return out
}

// containsPosition reports whether an area in degrees holds a position, its
// outline included.
func containsPosition(area orb.MultiPolygon, at orb.Point) bool {
	return area.Bound().Contains(at) && planar.MultiPolygonContains(area, at)
}

// perimeter is the length of the outer ring.
func perimeter(polygon orb.Polygon) float64 {
	sum := 0.0
	for i := 1; i < len(polygon[0]); i++ {
		sum += distance(polygon[0][i-1], polygon[0][i])
	}
	return sum
}

func areaOf(polygons []orb.Polygon) float64 {
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
