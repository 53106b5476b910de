package crs

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// ToDegrees returns a geometry of the system in degrees. Its edges are straight in
// the system, so long ones are cut before they are carried over, as those that
// are straight in degrees are before they are carried into a site's plane.
func (c *System) ToDegrees(g orb.Geometry) (orb.Geometry, error) {
	var wrong error
	point := func(p orb.Point) orb.Point {
		at, err := c.Degrees(p)
		if err != nil && wrong == nil {
			wrong = err
		}
		return at
	}
	line := func(in []orb.Point) []orb.Point {
		out := make([]orb.Point, 0, len(in))
		for i, p := range in {
			if i > 0 {
				n := math.Ceil(flat.Distance(in[i-1], p) * c.metres / maxEdge)
				for k := 1.0; k < n; k++ {
					out = append(out, point(flat.At(in[i-1], p, 0, n, k)))
				}
			}
			out = append(out, point(p))
		}
		return out
	}
	polygon := func(in orb.Polygon) orb.Polygon {
		out := make(orb.Polygon, len(in))
		for i, ring := range in {
			out[i] = line(ring)
		}
		return out
	}
	switch in := g.(type) {
	case orb.Point:
		g = point(in)
	case orb.MultiPoint:
		out := make(orb.MultiPoint, len(in))
		for i, p := range in {
			out[i] = point(p)
		}
		g = out
	case orb.LineString:
		g = orb.LineString(line(in))
	case orb.MultiLineString:
		out := make(orb.MultiLineString, len(in))
		for i, l := range in {
			out[i] = line(l)
		}
		g = out
	case orb.Polygon:
		g = polygon(in)
	case orb.MultiPolygon:
		out := make(orb.MultiPolygon, len(in))
		for i, p := range in {
			out[i] = polygon(p)
		}
		g = out
	}
	return g, wrong
}
