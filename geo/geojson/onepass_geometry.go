package geojson

import (
	"slices"

	"github.com/paulmach/orb"
)

// positions are those of one geometry, end to end.
type positions struct {
	points   []orb.Point
	lines    []int // where each list of them ends: a line, a ring, all of a multipoint
	areas    []int // where each list of lines ends, in lines: a polygon, all of a multiline
	brackets int   // around each position, and its own: 1 of a point, 4 of a multipolygon
	digits   digits
}

// inGeometry takes a member of the geometry.
func (p *featurePass) inGeometry(name []byte) bool {
	switch string(name) {
	case "type":
		if p.shape != nil || p.next() != '"' {
			return false
		}
		var ok bool
		p.shape, _, ok = p.quoted()
		return ok
	case "coordinates":
		return p.brackets == 0 && p.coordinates()
	case "crs":
		return false
	}
	return p.value()
}

// coordinates takes positions of any geometry: its type may stand behind them.
func (p *featurePass) coordinates() bool {
	first := p.i
	for p.take('[') {
		p.brackets++
	}
	p.i = first
	switch p.brackets {
	case 1:
		return p.position()
	case 2, 3, 4:
		return p.list(p.brackets)
	}
	return false
}

// list takes lists of positions within so many brackets.
func (p *featurePass) list(brackets int) bool {
	if !p.take('[') {
		return false
	}
	for {
		var ok bool
		if brackets == 2 {
			ok = p.position()
		} else {
			ok = p.list(brackets - 1)
		}
		if !ok {
			return false
		}
		if p.take(',') {
			continue
		}
		switch brackets {
		case 2:
			p.lines = append(p.lines, len(p.points))
		case 3:
			p.areas = append(p.areas, len(p.lines))
		}
		return p.take(']')
	}
}

// position takes one position: two numbers, and others that are left alone.
func (p *featurePass) position() bool {
	var at orb.Point
	if !p.take('[') {
		return false
	}
	for n := 0; ; n++ {
		p.next()
		v, decimals, ok := p.number()
		if !ok {
			return false
		}
		if n < len(at) {
			at[n] = v
			p.digits.take(n, v, decimals)
		}
		if p.take(',') {
			continue
		}
		if !p.take(']') || n == 0 {
			return false
		}
		break
	}
	p.points = append(p.points, at)
	return !p.crs.IsDegrees() || -180 <= at[0] && at[0] <= 180 && -90 <= at[1] && at[1] <= 90
}

// drawn is the geometry of this type of the positions, which it keeps; nil if they do
// not make one.
func (p *positions) drawn(shape string, points []orb.Point) orb.Geometry {
	const line, ring = 2, 4 // positions at least (RFC 7946, section 3.1)
	switch {
	case shape == "Point" && p.brackets == 1:
		return points[0]
	case shape == "MultiPoint" && p.brackets == 2:
		return orb.MultiPoint(points)
	case shape == "LineString" && p.brackets == 2 && len(points) >= line:
		return orb.LineString(points)
	case shape == "MultiLineString" && p.brackets == 3:
		if lines := parted[orb.LineString](points, p.lines, line); lines != nil {
			return orb.MultiLineString(lines)
		}
	case shape == "Polygon" && p.brackets == 3, shape == "MultiPolygon" && p.brackets == 4:
		rings := parted[orb.Ring](points, p.lines, ring)
		if rings == nil || slices.ContainsFunc(rings, func(r orb.Ring) bool { return r[0] != r[len(r)-1] }) {
			return nil
		}
		if p.brackets == 3 {
			return orb.Polygon(rings)
		}
		return orb.MultiPolygon(parted[orb.Polygon](rings, p.areas, 1))
	}
	return nil
}

// parted are the lists of at least so many things that end where it is said; nil if one
// is shorter.
func parted[List ~[]T, T any](all []T, ends []int, least int) []List {
	out, from := make([]List, len(ends)), 0
	for i, to := range ends {
		if to-from < least {
			return nil
		}
		out[i], from = List(all[from:to:to]), to
	}
	return out
}
