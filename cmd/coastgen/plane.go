package main

import "math"

// point is a place in a strand's plane, in metres: the strand runs along x, and the
// water lies towards greater y.
type point struct{ x, y float64 }

func (a point) plus(b point) point       { return point{a.x + b.x, a.y + b.y} }
func (a point) minus(b point) point      { return point{a.x - b.x, a.y - b.y} }
func (a point) times(f float64) point    { return point{a.x * f, a.y * f} }
func (a point) dot(b point) float64      { return a.x*b.x + a.y*b.y }
func (a point) left() point              { return point{-a.y, a.x} }
func (a point) distance(b point) float64 { return math.Hypot(a.x-b.x, a.y-b.y) }

// fromSegment is the distance of p from the segment a b.
func (p point) fromSegment(a, b point) float64 {
	d := b.minus(a)
	t := p.minus(a).dot(d) / d.dot(d)
	return p.distance(a.plus(d.times(math.Max(0, math.Min(1, t)))))
}

// fromLine is the distance of p from a line.
func (p point) fromLine(line []point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		least = math.Min(least, p.fromSegment(line[i-1], line[i]))
	}
	return least
}

// length is the length of a line.
func length(line []point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += line[i].distance(line[i-1])
	}
	return sum
}

// plane lays a strand on the ellipsoid. Within the 300 m of the strand's axis where
// the shore lies, its scale is true to 3e-5: 0.015 ft in 500 ft.
type plane struct {
	lon, lat       float64 // of the strand's origin
	perLon, perLat float64 // metres in a degree
	cos, sin       float64 // of the strand's heading
}

// WGS 84.
const (
	semiMajor    = 6378137.0
	eccentricity = 0.00669437999014 // squared
)

func newPlane(lon, lat, heading float64) plane {
	s, c := math.Sincos(lat * math.Pi / 180)
	w := 1 - eccentricity*s*s
	sin, cos := math.Sincos(heading)
	return plane{
		lon: lon, lat: lat, cos: cos, sin: sin,
		perLon: math.Pi / 180 * c * semiMajor / math.Sqrt(w),
		perLat: math.Pi / 180 * semiMajor * (1 - eccentricity) / math.Pow(w, 1.5),
	}
}

// degrees are the longitude and latitude of a place.
func (p plane) degrees(a point) (lon, lat float64) {
	east, north := a.x*p.cos-a.y*p.sin, a.x*p.sin+a.y*p.cos
	return p.lon + east/p.perLon, p.lat + north/p.perLat
}

// waves is noise along a line: smooth between values drawn every so many metres.
type waves struct {
	seed          uint64
	every, height float64
}

func (w waves) at(x float64) float64 {
	i := math.Floor(x / w.every)
	t := smooth(x/w.every - i)
	return w.height * ((1-t)*w.draw(i) + t*w.draw(i+1))
}

// draw is a number from -1 to 1 that only the seed and i decide (splitmix64).
func (w waves) draw(i float64) float64 {
	z := w.seed + uint64(int64(i))*0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	z ^= z >> 31
	return float64(z>>11)/(1<<52) - 1
}

// smooth goes from 0 at 0 to 1 at 1, level at both ends.
func smooth(t float64) float64 {
	t = math.Max(0, math.Min(1, t))
	return t * t * (3 - 2*t)
}
