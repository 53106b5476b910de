package crs

import "math"

// projection carries longitude and latitude in radians into metres from its own
// origin, and back. Where the plane shows no place on the earth, inverse gives
// NaN.
type projection interface {
	forward(lon, lat float64) (x, y float64)
	inverse(x, y float64) (lon, lat float64)
}

// widestMercator is how far from its meridian, in metres, a transverse Mercator
// position is believed: so far Karney (2011) gives the series 5 nm.
const widestMercator = 3.9e6

type transverseMercator struct {
	*krueger
	lon0, y0, scale float64
	pole            float64 // northing of the pole from the equator, unit scale
}

// newTransverseMercator takes degrees.
func newTransverseMercator(l ellipsoid, lat0, lon0, scale float64) *transverseMercator {
	k := newKrueger(l)
	_, y0 := k.forward(0, lat0*PerDegree)
	return &transverseMercator{k, lon0 * PerDegree, y0, scale, k.radius * math.Pi / 2}
}

func (p *transverseMercator) forward(lon, lat float64) (x, y float64) {
	x, y = p.krueger.forward(math.Remainder(lon-p.lon0, 2*math.Pi), lat)
	return p.scale * x, p.scale * (y - p.y0)
}

func (p *transverseMercator) inverse(x, y float64) (lon, lat float64) {
	x, y = x/p.scale, y/p.scale+p.y0
	if math.Abs(x) > widestMercator || math.Abs(y) > p.pole {
		return math.NaN(), math.NaN()
	}
	lon, lat = p.krueger.inverse(x, y)
	return math.Remainder(p.lon0+lon, 2*math.Pi), lat
}

// cone is what the conic projections share: parallels are circles about a point
// north of the origin, meridians the rays from it.
type cone struct {
	lon0 float64
	n    float64 // angle on the plane for one of longitude
	rho0 float64 // radius of the parallel through the origin, metres
}

func (c *cone) plane(lon, rho float64) (x, y float64) {
	sin, cos := math.Sincos(c.n * math.Remainder(lon-c.lon0, 2*math.Pi))
	return rho * sin, c.rho0 - rho*cos
}

// polar returns the longitude and the radius of the parallel; NaN in the gap
// that opens where the cone is cut.
func (c *cone) polar(x, y float64) (lon, rho float64) {
	turn := math.Atan2(x, c.rho0-y) / c.n
	if math.Abs(turn) > math.Pi {
		return math.NaN(), math.NaN()
	}
	return math.Remainder(c.lon0+turn, 2*math.Pi), math.Hypot(x, c.rho0-y)
}

// lambert is the Lambert conformal conic with two standard parallels (Snyder,
// USGS Professional Paper 1395, section 15, with the isometric latitude in place
// of the logarithm of t).
type lambert struct {
	cone
	ellipsoid
	psi1, rho1 float64 // isometric latitude and radius of the first parallel
}

// newLambert takes degrees; both parallels north, and not the same.
func newLambert(l ellipsoid, lat0, lon0, parallel1, parallel2 float64) *lambert {
	p := &lambert{ellipsoid: l, psi1: l.isometric(parallel1 * PerDegree)}
	m1 := l.parallel(parallel1 * PerDegree)
	p.n = math.Log(m1/l.parallel(parallel2*PerDegree)) / (l.isometric(parallel2*PerDegree) - p.psi1)
	p.rho1 = l.a * m1 / p.n
	p.lon0, p.rho0 = lon0*PerDegree, p.rho(lat0*PerDegree)
	return p
}

func (p *lambert) rho(lat float64) float64 {
	return p.rho1 * math.Exp(p.n*(p.psi1-p.isometric(lat)))
}

func (p *lambert) forward(lon, lat float64) (x, y float64) { return p.plane(lon, p.rho(lat)) }

func (p *lambert) inverse(x, y float64) (lon, lat float64) {
	lon, rho := p.polar(x, y)
	return lon, p.geographic(math.Sinh(p.psi1 - math.Log(rho/p.rho1)/p.n))
}

// isometric returns the isometric latitude; lat in radians.
func (l *ellipsoid) isometric(lat float64) float64 { return math.Asinh(l.conformal(lat)) }

// parallel returns the radius of a parallel in semi-major axes; lat in radians.
func (l *ellipsoid) parallel(lat float64) float64 {
	sin, cos := math.Sincos(lat)
	return cos / math.Sqrt(1-l.e*l.e*sin*sin)
}

// albers is the Albers equal-area conic (Snyder, section 14).
type albers struct {
	cone
	ellipsoid
	c float64
}

// newAlbers takes degrees; both parallels north, and not the same.
func newAlbers(l ellipsoid, lat0, lon0, parallel1, parallel2 float64) *albers {
	p := &albers{ellipsoid: l}
	m1, m2 := l.parallel(parallel1*PerDegree), l.parallel(parallel2*PerDegree)
	q1, q2 := l.authalic(math.Sin(parallel1*PerDegree)), l.authalic(math.Sin(parallel2*PerDegree))
	p.n = (m1*m1 - m2*m2) / (q2 - q1)
	p.c = m1*m1 + p.n*q1
	p.lon0, p.rho0 = lon0*PerDegree, p.rho(lat0*PerDegree)
	return p
}

func (p *albers) rho(lat float64) float64 {
	return p.a / p.n * math.Sqrt(p.c-p.n*p.authalic(math.Sin(lat)))
}

func (p *albers) forward(lon, lat float64) (x, y float64) { return p.plane(lon, p.rho(lat)) }

func (p *albers) inverse(x, y float64) (lon, lat float64) {
	lon, rho := p.polar(x, y)
	rho *= p.n / p.a
	return lon, p.fromAuthalic((p.c - rho*rho) / p.n)
}

// authalic returns Snyder's q: the area from the equator to a parallel, given by
// the sine of its latitude, in units that make it 2 sin(lat) on a sphere.
func (l *ellipsoid) authalic(sin float64) float64 {
	es := l.e * sin
	return (1 - l.e*l.e) * (sin/(1-es*es) + math.Atanh(es)/l.e)
}

// fromAuthalic undoes authalic by Newton's method (Snyder, equation 3-16) and
// returns the latitude in radians; NaN beyond a pole.
func (l *ellipsoid) fromAuthalic(q float64) float64 {
	lat := math.Asin(q / l.authalic(1))
	for range 5 {
		sin, cos := math.Sincos(lat)
		es := 1 - l.e*l.e*sin*sin
		step := (q - l.authalic(sin)) * es * es / (2 * (1 - l.e*l.e) * cos)
		lat += step
		if math.Abs(step) < 1e-15 {
			break
		}
	}
	return lat
}

// edge is how far, in radians, past 180 degrees rounding may put the end of the
// world: 6 mm.
const edge = 1e-9

// webMercator takes the latitude of the ellipsoid for that of a sphere with its
// semi-major axis (EPSG method 1024).
type webMercator struct{ ellipsoid }

func (p *webMercator) forward(lon, lat float64) (x, y float64) {
	return p.a * lon, p.a * math.Asinh(math.Tan(lat))
}

func (p *webMercator) inverse(x, y float64) (lon, lat float64) {
	lon = x / p.a
	if past := math.Abs(lon) - math.Pi; past > 0 && past < edge {
		lon = math.Copysign(math.Pi, lon)
	}
	return lon, math.Atan(math.Sinh(y / p.a))
}
