package crs

import (
	"math"

	"github.com/paulmach/orb"
)

// WGS 84 defining constants (EPSG ellipsoid 7030).
const (
	semiMajor       = 6378137.0
	inverseFlat     = 298.257223563
	PerDegree       = math.Pi / 180
	MetresPerFoot   = 0.3048 // international foot, exact
	maxEdge         = 250.0  // metres, see subdivide
	MetresPerDegree = semiMajor * PerDegree
)

// Plane carries longitude and latitude into metres around one site and back:
// a transverse Mercator projection of WGS 84 with unit scale on the meridian
// through its origin. x grows east and y north of the origin.
//
// A distance of up to 300 ft taken anywhere within 5 km of the origin differs
// from the geodesic by less than 0.0001 ft, within 10 km by less than 0.0004 ft.
// See krueger for the series, and nearby for what stands for it near the origin.
type Plane struct {
	lon0 float64 // radians
	y0   float64 // northing of the origin, metres
	lat0 float64 // degrees
	near *nearby // the same near the origin; nil towards the poles
}

var series = newKrueger(wgs84)

// NewPlane returns the plane whose origin is the position given.
func NewPlane(origin orb.Point) *Plane {
	p := &Plane{lon0: origin[0] * PerDegree, lat0: origin[1]}
	_, p.y0 = series.forward(0, origin[1]*PerDegree)
	if math.Abs(origin[1]) <= nearbyLatitude {
		p.near = newNearby(&series.ellipsoid, origin[1]*PerDegree)
	}
	return p
}

// Forward carries a position in degrees into the plane, in metres.
func (p *Plane) Forward(at orb.Point) orb.Point {
	lon, lat := at[0]*PerDegree-p.lon0, at[1]*PerDegree
	if north := (at[1] - p.lat0) * PerDegree; p.near != nil && math.Abs(lon) < nearbyReach && math.Abs(north) < nearbyReach {
		y, x := p.near.metres.atComplex(p.near.isometric.at(north), lon)
		return orb.Point{x, y}
	}
	x, y := series.forward(math.Remainder(lon, 2*math.Pi), lat)
	return orb.Point{x, y - p.y0}
}

// Inverse carries a point of the plane, in metres, back to degrees.
func (p *Plane) Inverse(at orb.Point) orb.Point {
	if p.near != nil && math.Abs(at[0]) < nearbyMetres && math.Abs(at[1]) < nearbyMetres {
		isometric, lon := p.near.angles.atComplex(at[1], at[0])
		return orb.Point{math.Remainder(p.lon0+lon, 2*math.Pi) / PerDegree, p.lat0 + p.near.latitude.at(isometric)/PerDegree}
	}
	lon, lat := series.inverse(at[0], at[1]+p.y0)
	return orb.Point{math.Remainder(p.lon0+lon, 2*math.Pi) / PerDegree, lat / PerDegree}
}

// Window returns the bound in degrees that holds everything within reach
// metres of the bound given.
func Window(b orb.Bound, reach float64) orb.Bound {
	lat := math.Min(89, math.Max(math.Abs(b.Min[1]), math.Abs(b.Max[1])))
	// A degree of latitude is at least 0.993 of a degree of the equator.
	dy := reach / (0.993 * MetresPerDegree)
	dx := reach / (0.993 * MetresPerDegree * math.Cos(lat*PerDegree))
	return orb.Bound{
		Min: orb.Point{b.Min[0] - dx, b.Min[1] - dy},
		Max: orb.Point{b.Max[0] + dx, b.Max[1] + dy},
	}
}

// Subdivide returns the line with points added so that no edge is longer than
// maxEdge. RFC 7946 edges are straight in longitude and latitude: at 250 m such
// an edge leaves the straight line of the plane by 0.002 ft, at 1 km by 0.03 ft.
// Repeated points are dropped. A line that needs neither is returned itself.
func Subdivide(line []orb.Point) []orb.Point {
	whole := true
	for i := 1; i < len(line) && whole; i++ {
		whole = line[i] != line[i-1] && edgeLength(line[i-1], line[i]) <= maxEdge
	}
	if whole { // as most lines are
		return line
	}
	out := make([]orb.Point, 0, len(line))
	for i, p := range line {
		if i == 0 {
			out = append(out, p)
			continue
		}
		q := line[i-1]
		if p == q {
			continue
		}
		for n, k := math.Ceil(edgeLength(q, p)/maxEdge), 1.0; k < n; k++ {
			t := k / n
			out = append(out, orb.Point{q[0] + t*(p[0]-q[0]), q[1] + t*(p[1]-q[1])})
		}
		out = append(out, p)
	}
	return out
}

// edgeLength is about the length in metres of an edge in degrees.
func edgeLength(a, b orb.Point) float64 {
	dx, dy := (b[0]-a[0])*MetresPerDegree, (b[1]-a[1])*MetresPerDegree
	if dx*dx+dy*dy <= maxEdge*maxEdge { // at the equator it would be no longer
		return math.Sqrt(dx*dx + dy*dy)
	}
	return math.Hypot((b[0]-a[0])*math.Cos(a[1]*PerDegree), b[1]-a[1]) * MetresPerDegree
}

// ForwardAll carries a line in degrees into the plane, long edges subdivided.
func (p *Plane) ForwardAll(line []orb.Point) []orb.Point {
	cut := Subdivide(line)
	out := make([]orb.Point, len(cut))
	for i := range cut {
		out[i] = p.Forward(cut[i])
	}
	return out
}
