package crs

import "math"

const (
	// nearbyDegree is the degree of the polynomials that stand for the projection near
	// the origin of a plane. Their next term is below 1e-12 m within nearbyReach.
	nearbyDegree = 6
	// nearbyReach is how far from the origin, in radians (2.9 km of latitude) and in
	// metres, they are used: farther than any layer is searched from most structures.
	nearbyReach, nearbyMetres = 0.00045, 2800
	// nearbyLatitude is where, in degrees, meridians run together too fast for that.
	nearbyLatitude = 75
)

// power is a power series without a constant, cut off behind nearbyDegree.
type power [nearbyDegree + 1]float64

func (p power) times(q power) (out power) {
	for i, a := range p {
		for j := 0; i+j <= nearbyDegree; j++ {
			out[i+j] += a * q[j]
		}
	}
	return out
}

// raised is a series with a constant to a real power, from f' p = n p' f.
func (p power) raised(n float64) (out power) {
	out[0] = math.Pow(p[0], n)
	for k := 1; k <= nearbyDegree; k++ {
		for i := 1; i <= k; i++ {
			out[k] += (n*float64(i) - float64(k-i)) * p[i] * out[k-i]
		}
		out[k] /= float64(k) * p[0]
	}
	return out
}

// integral is the series whose derivative p is.
func (p power) integral() (out power) {
	for k := 1; k <= nearbyDegree; k++ {
		out[k] = p[k-1] / float64(k)
	}
	return out
}

// in returns p as a series in another quantity, of which inner is the series in the
// same variable as p.
func (p power) in(inner power) (out power) {
	raised := inner
	for k := 1; k <= nearbyDegree; k++ {
		out[k] = p[k] / raised[k]
		for i := range p {
			p[i] -= out[k] * raised[i]
		}
		raised = raised.times(inner)
	}
	return out
}

func (p *power) at(x float64) float64 {
	sum := 0.0
	for k := nearbyDegree; k > 0; k-- {
		sum = (sum + p[k]) * x
	}
	return sum
}

func (p *power) atComplex(x, y float64) (re, im float64) {
	for k := nearbyDegree; k > 0; k-- {
		re += p[k]
		re, im = re*x-im*y, re*y+im*x
	}
	return re, im
}

// nearby is the transverse Mercator projection near a place of its meridian: northing
// plus i times easting is an analytic function of isometric latitude plus i times
// longitude, which on the meridian is the length of the meridian.
type nearby struct {
	isometric power // latitude, radians -> isometric latitude
	metres    power // isometric latitude and longitude -> metres
	angles    power // metres -> isometric latitude and longitude
	latitude  power // isometric latitude -> latitude
}

// newNearby expands the projection about a latitude in radians.
func newNearby(l *ellipsoid, lat float64) *nearby {
	e2 := l.e * l.e
	var sin, cos power
	s, c := math.Sincos(lat)
	next := [4]float64{s, c, -s, -c} // the sine and its derivatives
	factorial := 1.0
	for k := range sin {
		if k > 0 {
			factorial *= float64(k)
		}
		sin[k], cos[k] = next[k%4]/factorial, next[(k+1)%4]/factorial
	}
	w := sin.times(sin) // 1 - e2 sin2
	for k := range w {
		w[k] *= -e2
	}
	w[0]++
	isometric := w.times(cos).raised(-1)
	meridian := w.raised(-1.5)
	for k := range isometric {
		isometric[k] *= 1 - e2
		meridian[k] *= l.a * (1 - e2)
	}
	n := &nearby{isometric: isometric.integral()}
	identity := power{1: 1}
	n.metres = meridian.integral().in(n.isometric)
	n.angles = identity.in(n.metres)
	n.latitude = identity.in(n.isometric)
	return n
}
