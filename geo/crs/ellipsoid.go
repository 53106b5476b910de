package crs

import "math"

// ellipsoid is the figure of the earth a position or a projection refers to.
type ellipsoid struct {
	a, f float64 // semi-major axis in metres, flattening
	e    float64 // first eccentricity
}

// EPSG ellipsoids 7030 and 7019.
var (
	wgs84 = newEllipsoid(semiMajor, 1/inverseFlat)
	grs80 = newEllipsoid(6378137, 1/298.257222101)
)

func newEllipsoid(a, f float64) ellipsoid {
	return ellipsoid{a, f, math.Sqrt(f * (2 - f))}
}

// conformal returns the tangent of the conformal latitude; lat in radians.
func (l *ellipsoid) conformal(lat float64) float64 {
	sin, cos := math.Sincos(lat)
	if cos <= 0 { // a pole
		cos = 1e-300
	}
	tan := sin / cos
	sigma := math.Sinh(l.e * math.Atanh(l.e*sin))
	return tan*math.Sqrt(1+sigma*sigma) - sigma*math.Sqrt(1+tan*tan)
}

// geographic returns the latitude, in radians, whose conformal latitude has the
// tangent given, by Newton's method (Karney 2011, equations 19-21).
func (l *ellipsoid) geographic(tanConformal float64) float64 {
	e2 := l.e * l.e
	tan := tanConformal
	for range 5 {
		root := math.Sqrt(1 + tan*tan)
		sigma := math.Sinh(l.e * math.Atanh(l.e*tan/root))
		got := tan*math.Sqrt(1+sigma*sigma) - sigma*root
		step := (tanConformal - got) / math.Sqrt(1+got*got) *
			(1 + (1-e2)*tan*tan) / ((1 - e2) * root)
		tan += step
		if math.Abs(step) < 1e-15 {
			break
		}
	}
	return math.Atan(tan)
}

// krueger is the transverse Mercator projection of an ellipsoid with unit scale
// on its meridian: Krueger's series to the sixth order in the third flattening,
// with the coefficients of Karney, "Transverse Mercator with an accuracy of a
// few nanometers", J. Geodesy 85 (2011), equations 35 and 36.
type krueger struct {
	ellipsoid
	radius      float64 // rectifying radius
	alpha, beta [7]float64
}

func newKrueger(l ellipsoid) *krueger {
	n := l.f / (2 - l.f)
	n2, n3, n4, n5, n6 := n*n, n*n*n, n*n*n*n, n*n*n*n*n, n*n*n*n*n*n
	return &krueger{
		ellipsoid: l,
		radius:    l.a / (1 + n) * (1 + n2/4 + n4/64 + n6/256),
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

// forward returns metres east of the meridian and north of the equator; lon is
// counted from the meridian, both angles in radians.
func (k *krueger) forward(lon, lat float64) (x, y float64) {
	tanConformal := k.conformal(lat)
	sinLon, cosLon := math.Sincos(lon)
	xi := math.Atan2(tanConformal, cosLon)
	eta := math.Asinh(sinLon / math.Hypot(tanConformal, cosLon))
	x, y = eta, xi
	for j := 1; j <= 6; j++ {
		s, c := math.Sincos(2 * float64(j) * xi)
		x += k.alpha[j] * c * math.Sinh(2*float64(j)*eta)
		y += k.alpha[j] * s * math.Cosh(2*float64(j)*eta)
	}
	return k.radius * x, k.radius * y
}

// inverse undoes forward.
func (k *krueger) inverse(x, y float64) (lon, lat float64) {
	eta, xi := x/k.radius, y/k.radius
	x, y = eta, xi
	for j := 1; j <= 6; j++ {
		s, c := math.Sincos(2 * float64(j) * xi)
		x -= k.beta[j] * c * math.Sinh(2*float64(j)*eta)
		y -= k.beta[j] * s * math.Cosh(2*float64(j)*eta)
	}
	sinhX := math.Sinh(x)
	sinY, cosY := math.Sincos(y)
	return math.Atan2(sinhX, cosY), k.geographic(sinY / math.Hypot(sinhX, cosY))
}
