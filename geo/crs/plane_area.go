package crs

import "github.com/paulmach/orb"

// ForwardArea carries an area in degrees into the plane.
func (p *Plane) ForwardArea(area orb.MultiPolygon) []orb.Polygon {
	out := make([]orb.Polygon, 0, len(area))
	for _, polygon := range area {
		var rings orb.Polygon
		for _, ring := range polygon {
			rings = append(rings, p.ForwardAll(ring))
		}
		out = append(out, rings)
	}
	return out
}
