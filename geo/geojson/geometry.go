package geojson

import (
	"bytes"
	"fmt"
	"strconv"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
)

// wrongGeometry says what is wrong with a geometry and what to do.
type wrongGeometry struct{ wrong, remedy string }

// parseGeometry reads one GeoJSON geometry from valid JSON and returns it in
// degrees. Positions are checked: at least two numbers, finite, within the range
// of longitude and latitude or of the projection they are in. A third number is
// left alone: RFC 7946 makes it a height above the ellipsoid, never a tidal
// elevation.
//
// decimals is with how many digits behind the point it is written, see digits.
func parseGeometry(raw []byte, system *crs.System) (g orb.Geometry, decimals int, wrong *wrongGeometry) {
	all, err := members(raw)
	if err != nil {
		return nil, 0, &wrongGeometry{fmt.Sprintf("its geometry is %v", err), "write a GeoJSON geometry"}
	}
	named, twice := valueOf(all, "type")
	coordinates, again := valueOf(all, "coordinates")
	if twice || again {
		return nil, 0, &wrongGeometry{"its geometry has its type or its coordinates twice", "keep one: readers differ on which of them counts"}
	}
	kind := plainText(named)
	if kind == "GeometryCollection" {
		return nil, 0, &wrongGeometry{"its geometry is a GeometryCollection", "split it into features of one geometry each"}
	}
	c := &cursor{text: coordinates, projected: !system.IsDegrees()}
	switch kind {
	case "Point":
		g = c.position()
	case "MultiPoint":
		g = orb.MultiPoint(c.positions(1, "a multipoint"))
	case "LineString":
		g = orb.LineString(c.positions(2, "a line"))
	case "MultiLineString":
		g = orb.MultiLineString(list(c, func() orb.LineString { return c.positions(2, "a line") }))
	case "Polygon":
		g = c.polygon()
	case "MultiPolygon":
		g = orb.MultiPolygon(list(c, c.polygon))
	default:
		return nil, 0, &wrongGeometry{fmt.Sprintf("its geometry type is %q", kind), "use a Point, LineString, Polygon or their Multi forms"}
	}
	if c.bad == nil && isEmpty(g) {
		c.bad = &wrongGeometry{"its coordinates are empty", "draw it, or take the feature out"}
	}
	if c.bad != nil {
		return nil, 0, c.bad
	}
	if c.projected {
		if g, err = system.ToDegrees(g); err != nil {
			return nil, 0, &wrongGeometry{err.Error(), "give the layer's own system with --crs"}
		}
	}
	return g, c.digits.decimals(), nil
}

func isEmpty(g orb.Geometry) bool {
	switch g := g.(type) {
	case orb.MultiPoint:
		return len(g) == 0
	case orb.MultiLineString:
		return len(g) == 0
	case orb.MultiPolygon:
		return len(g) == 0
	case orb.Polygon:
		return len(g) == 0
	}
	return false
}

// cursor walks the text of a coordinates member. The first thing found wrong
// is kept; reading then runs on harmlessly.
type cursor struct {
	text []byte
	i    int
	bad  *wrongGeometry
	seen int // positions read

	digits    digits
	projected bool // the positions are in a projection
}

func (c *cursor) fail(wrong, remedy string) {
	if c.bad == nil {
		c.bad = &wrongGeometry{wrong, remedy}
	}
}

// open takes an opening bracket; anything else is a fault.
func (c *cursor) open() bool {
	c.i = skipSpace(c.text, c.i)
	if c.bad != nil || c.i >= len(c.text) || c.text[c.i] != '[' {
		c.fail("its coordinates do not have the brackets its geometry type needs", "compare RFC 7946, section 3.1")
		return false
	}
	c.i++
	return true
}

// more reports whether another element follows, taking the comma before it, or
// takes the closing bracket.
func (c *cursor) more() bool {
	c.i = skipSpace(c.text, c.i)
	if c.bad != nil || c.i >= len(c.text) {
		return false
	}
	switch c.text[c.i] {
	case ']':
		c.i++
		return false
	case ',':
		c.i++
	}
	return true
}

func list[T any](c *cursor, read func() T) []T {
	var out []T
	if c.open() {
		for c.more() {
			out = append(out, read())
		}
	}
	return out
}

func (c *cursor) position() orb.Point {
	var p orb.Point
	n := 0
	if !c.open() {
		return p
	}
	c.seen++
	for ; c.more(); n++ {
		start := skipSpace(c.text, c.i)
		c.i = valueEnd(c.text, start)
		v, err := strconv.ParseFloat(string(c.text[start:c.i]), 64)
		if err != nil {
			c.fail(fmt.Sprintf("position %d holds %.20q, which is not a finite number", c.seen, c.text[start:c.i]), "give every position as longitude and latitude")
			return p
		}
		if n < 2 {
			p[n] = v
			c.digits.take(n, v, decimalsOf(c.text[start:c.i]))
		}
	}
	switch {
	case n < 2:
		c.fail(fmt.Sprintf("position %d has fewer than two numbers", c.seen), "give every position as longitude and latitude")
	case c.projected:
	case p[0] < -180 || p[0] > 180 || p[1] < -90 || p[1] > 90:
		remedy := "these are probably projected coordinates: say of which system with --crs LAYER=EPSG:n, or export the layer as longitude and latitude (RFC 7946)"
		if p[0] >= -90 && p[0] <= 90 && p[1] >= -180 && p[1] <= 180 {
			remedy = "latitude and longitude are probably swapped: GeoJSON puts longitude first"
		}
		c.fail(fmt.Sprintf("position %d is (%g, %g), which is not longitude and latitude", c.seen, p[0], p[1]), remedy)
	}
	return p
}

// mostDecimals is more than any number has: a float64 ends at 1e-324.
const mostDecimals = 400

// decimalsOf is how many digits behind the point a number of JSON says something
// by: 538805.0 is a whole number of a program that writes all with a point, and
// -7.46e1 has one.
func decimalsOf(number []byte) int {
	digits, exponent := number, 0
	if e := bytes.IndexAny(number, "eE"); e >= 0 {
		digits = number[:e]
		exponent, _ = strconv.Atoi(string(number[e+1:]))
	}
	_, behind, _ := bytes.Cut(digits, []byte("."))
	return telling(behind) - max(exponent, -mostDecimals)
}

// noiseFrom is the decimal from which digits may be what is left of binary arithmetic:
// the eleventh of a degree is a thousandth of a millimetre.
const noiseFrom = 11

// telling is how many of the digits behind the point say something: not zeros at the end,
// nor what binary arithmetic leaves of them, as in 30.000010000000001 and 29.999989999999999.
func telling(behind []byte) int {
	end, zero := len(behind), byte('0')
	if end > noiseFrom {
		if end = noiseFrom; behind[noiseFrom] >= '5' { // it rounds up, and so do nines before it
			zero = '9'
		}
	}
	for end > 0 && behind[end-1] == zero {
		end--
	}
	return end
}

func (c *cursor) positions(least int, what string) []orb.Point {
	out := list(c, c.position)
	if len(out) < least {
		c.fail(fmt.Sprintf("%s has %d positions where at least %d are needed", what, len(out), least), "draw it whole, or take the feature out")
	}
	return out
}

func (c *cursor) polygon() orb.Polygon {
	out := list(c, func() orb.Ring {
		ring := orb.Ring(c.positions(4, "a ring"))
		if c.bad == nil && ring[0] != ring[len(ring)-1] {
			c.fail("a ring is not closed: its last position is not its first", "repeat the first position at the end of every ring")
		}
		return ring
	})
	if len(out) == 0 {
		c.fail("its coordinates are empty", "draw it, or take the feature out")
	}
	return out
}
