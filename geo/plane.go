package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// WGS 84 defining constants (EPSG ellipsoid 7030).
const (
	semiMajor       = 6378137.0
	inverseFlat     = 298.257223563
	degree          = math.Pi / 180
	metresPerFoot   = 0.3048 // international foot, exact
	maxEdge         = 250.0  // metres, see subdivide
	metresPerDegree = semiMajor * degree
)

// Plane carries longitude and latitude into metres around one site and back:
// a transverse Mercator projection of WGS 84 with unit scale on the meridian
// through its origin. x grows east and y north of the origin.
//
// A distance of up to 300 ft taken anywhere within 5 km of the origin differs
// from the geodesic by less than 0.0001 ft, within 10 km by less than 0.0004 ft.
// The series is Krueger's to the sixth order in the third flattening, with the
// coefficients of Karney, "Transverse Mercator with an accuracy of a few
// nanometers", J. Geodesy 85 (2011), equations 35 and 36.
type Plane struct {
	lon0 float64 // radians
	y0   float64 // northing of the origin, metres
	lat0 float64 // degrees
}

var series = newKrueger()

type krueger struct {
	radius      float64 // rectifying radius
	e           float64 // first eccentricity
	alpha, beta [7]float64
}

func newKrueger() krueger {
	f := 1 / inverseFlat
	n := f / (2 - f)
	n2, n3, n4, n5, n6 := n*n, n*n*n, n*n*n*n, n*n*n*n*n, n*n*n*n*n*n
	return krueger{
		radius: semiMajor / (1 + n) * (1 + n2/4 + n4/64 + n6/256),
		e:      math.Sqrt(f * (2 - f)),
		alpha: [7]float64{
			1: n/2 - 2*n2/3 + 5*n3/16 + 41*n4/180 - 127*n5/288 + 7891*n6/37800,
			2: 13*n2/48 - 3*n3/5 + 557*n4/1440 + 281*n5/630 - 1983433*n6/1935360,
			3: 61*n3/240 - 103*n4/140 + 15061*n5/26880 + 167603*n6/181440,
			4: 49561*n4/161280 - 179*n5/168 + 6601661*n6/7257600,
			5: 34729*n5/80640 - 3418889*n6/1995840,
			6: 212378941 * n6 / 319334400,
		},
		beta: [7]float64{
			1: n/2 - 2*n2/3 + 37*n3/96 - n4/360 - 81*n5/512 + 96199*n6/604800,
			2: n2/48 + n3/15 - 437*n4/1440 + 46*n5/105 - 1118711*n6/3870720,
			3: 17*n3/480 - 37*n4/840 - 209*n5/4480 + 5569*n6/90720,
			4: 4397*n4/161280 - 11*n5/504 - 830251*n6/7257600,
			5: 4583*n5/161280 - 108847*n6/3991680,
			6: 20648693 * n6 / 638668800,
		},
	}
}

// NewPlane returns the plane whose origin is the position given.
func NewPlane(origin orb.Point) *Plane {
	p := &Plane{lon0: origin[0] * degree, lat0: origin[1]}
	p.y0 = p.Forward(origin)[1]
	return p
}

// Forward carries a position in degrees into the plane, in metres.
func (p *Plane) Forward(at orb.Point) orb.Point {
	lon := math.Remainder(at[0]*degree-p.lon0, 2*math.Pi)
	sin, cos := math.Sincos(at[1] * degree)
	if cos <= 0 { // a pole
		cos = 1e-300
	}
	// Conformal latitude, as its tangent.
	tan := sin / cos
	sigma := math.Sinh(series.e * math.Atanh(series.e*sin))
	tanConformal := tan*math.Sqrt(1+sigma*sigma) - sigma*math.Sqrt(1+tan*tan)

	sinLon, cosLon := math.Sincos(lon)
	xi := math.Atan2(tanConformal, cosLon)
	eta := math.Asinh(sinLon / math.Hypot(tanConformal, cosLon))
	x, y := eta, xi
	for j := 1; j <= 6; j++ {
		s, c := math.Sincos(2 * float64(j) * xi)
		x += series.alpha[j] * c * math.Sinh(2*float64(j)*eta)
		y += series.alpha[j] * s * math.Cosh(2*float64(j)*eta)
	}
	return orb.Point{series.radius * x, series.radius*y - p.y0}
}

// Inverse carries a point of the plane, in metres, back to degrees.
func (p *Plane) Inverse(at orb.Point) orb.Point {
	eta, xi := at[0]/series.radius, (at[1]+p.y0)/series.radius
	x, y := eta, xi
	for j := 1; j <= 6; j++ {
		s, c := math.Sincos(2 * float64(j) * xi)
		x -= series.beta[j] * c * math.Sinh(2*float64(j)*eta)
		y -= series.beta[j] * s * math.Cosh(2*float64(j)*eta)
	}
	sinhX := math.Sinh(x)
	sinY, cosY := math.Sincos(y)
	tanConformal := sinY / math.Hypot(sinhX, cosY)

	// Newton's method for the geographic latitude (Karney 2011, equations 19-21).
	e2 := series.e * series.e
	tan := tanConformal
	for range 5 {
		root := math.Sqrt(1 + tan*tan)
		sigma := math.Sinh(series.e * math.Atanh(series.e*tan/root))
		got := tan*math.Sqrt(1+sigma*sigma) - sigma*root
		step := (tanConformal - got) / math.Sqrt(1+got*got) *
			(1 + (1-e2)*tan*tan) / ((1 - e2) * root)
		tan += step
		if math.Abs(step) < 1e-15 {
			break
		}
	}
	lon := math.Remainder(p.lon0+math.Atan2(sinhX, cosY), 2*math.Pi)
	return orb.Point{lon / degree, math.Atan(tan) / degree}
}

// Window returns the bound in degrees that holds everything within reach
// metres of the bound given.
func Window(b orb.Bound, reach float64) orb.Bound {
	lat := math.Min(89, math.Max(math.Abs(b.Min[1]), math.Abs(b.Max[1])))
	// A degree of latitude is at least 0.993 of a degree of the equator.
	dy := reach / (0.993 * metresPerDegree)
	dx := reach / (0.993 * metresPerDegree * math.Cos(lat*degree))
	return orb.Bound{
		Min: orb.Point{b.Min[0] - dx, b.Min[1] - dy},
		Max: orb.Point{b.Max[0] + dx, b.Max[1] + dy},
	}
}

// subdivide returns the line with points added so that no edge is longer than
// maxEdge. RFC 7946 edges are straight in longitude and latitude: at 250 m such
// an edge leaves the straight line of the plane by 0.002 ft, at 1 km by 0.03 ft.
// Repeated points are dropped.
func subdivide(line []orb.Point) []orb.Point {
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
		length := math.Hypot((p[0]-q[0])*math.Cos(q[1]*degree), p[1]-q[1]) * metresPerDegree
		for n, k := math.Ceil(length/maxEdge), 1.0; k < n; k++ {
			t := k / n
			out = append(out, orb.Point{q[0] + t*(p[0]-q[0]), q[1] + t*(p[1]-q[1])})
		}
		out = append(out, p)
	}
	return out
}

// forwardAll carries a line in degrees into the plane, long edges subdivided.
func (p *Plane) forwardAll(line []orb.Point) []orb.Point {
	out := subdivide(line)
	for i := range out {
		out[i] = p.Forward(out[i])
	}
	return out
}
