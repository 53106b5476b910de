package levels

import (
	"math"
	"time"
)

// The formulae of this file are those of P. Schureman, Manual of Harmonic
// Analysis and Prediction of Tides, US Coast and Geodetic Survey Special
// Publication 98 (1940): mean longitudes from its table 1, the rest from
// paragraphs 20 to 146. Angles are in degrees unless said otherwise.

// longitudes are the mean longitudes that make up every equilibrium argument.
type longitudes [5]float64

// The order of longitudes, and of the multiples a constituent has of them.
const (
	sunHour      = iota // T, hour angle of the mean sun at Greenwich
	moon                // s
	sun                 // h
	lunarPerigee        // p
	solarPerigee        // p1
)

// hourly are the degrees each longitude moves in a mean solar hour.
var hourly = longitudes{15, perCentury(1336, 1108411.20), perCentury(0, 129602768.13), perCentury(11, 392515.94), perCentury(0, 6189.03)}

// century is a Julian century in hours.
const century = 36525 * 24

func perCentury(turns, seconds float64) float64 { return (turns*360 + seconds/3600) / century }

// noon1899 is Greenwich mean noon of 31 December 1899, from which the mean
// longitudes are counted.
var noon1899 = time.Date(1899, 12, 31, 12, 0, 0, 0, time.UTC)

func centuries(at time.Time) float64 {
	return float64(at.Unix()-noon1899.Unix()) / 3600 / century
}

func dms(degrees, minutes, seconds float64) float64 { return degrees + minutes/60 + seconds/3600 }

func longitudesAt(at time.Time) longitudes {
	t := centuries(at)
	ofDay := float64(at.Unix()%86400)/3600 + float64(at.Nanosecond())/3.6e12
	grow := func(start float64, of int, square, cube float64) float64 {
		return math.Mod(start+hourly[of]*century*t+square/3600*t*t+cube/3600*t*t*t, 360)
	}
	return longitudes{
		sunHour:      180 + 15*ofDay,
		moon:         grow(dms(270, 26, 14.72), moon, 9.09, 0.0068),
		sun:          grow(dms(279, 41, 48.04), sun, 1.089, 0),
		lunarPerigee: grow(dms(334, 19, 40.87), lunarPerigee, -37.24, -0.045),
		solarPerigee: grow(dms(281, 13, 15.0), solarPerigee, 1.63, 0.012),
	}
}

// node is what the moon's ascending node does to the constituents: slow over
// 18.6 years, and so taken once for a stretch of time.
type node struct {
	i                    float64 // obliquity of the moon's orbit, radians
	nu                   float64 // radians, for the factors
	shifts               [6]float64
	perigee              float64 // P, longitude of lunar perigee from the intersection, radians
	sinI, sin2I, tanHalf float64
}

// The order of node.shifts, of which u is made up.
const (
	xi          = iota // longitude in the moon's orbit of its intersection with the equator
	nu                 // right ascension of the intersection
	nuPrime            // of the combined K1
	twoNuSecond        // of the combined K2
	qAngle             // Q, of M1
	rAngle             // R, of L2
)

func nodeAt(at time.Time) node {
	t := centuries(at)
	turned := dms(259, 10, 57.12) - (5*360+dms(0, 0, 482912.63))*t + dms(0, 0, 7.58)*t*t + dms(0, 0, 0.008)*t*t*t
	half := radians(math.Remainder(turned, 360)) / 2
	n := node{i: math.Acos(0.91370 - 0.03569*math.Cos(2*half))}
	above, below := math.Atan(1.01883*math.Tan(half)), math.Atan(0.64412*math.Tan(half))
	x := 2*half - above - below
	n.nu = above - below
	n.sinI, n.sin2I, n.tanHalf = math.Sin(n.i), math.Sin(2*n.i), math.Tan(n.i/2)
	n.perigee = radians(longitudesAt(at)[lunarPerigee]) - x
	sin2P, cos2P := math.Sincos(2 * n.perigee)
	n.shifts = [6]float64{
		xi:          x,
		nu:          n.nu,
		nuPrime:     math.Atan2(n.sin2I*math.Sin(n.nu), n.sin2I*math.Cos(n.nu)+0.3347),
		twoNuSecond: math.Atan2(n.sinI*n.sinI*math.Sin(2*n.nu), n.sinI*n.sinI*math.Cos(2*n.nu)+0.0727),
		qAngle:      math.Atan2(0.483*math.Sin(n.perigee), math.Cos(n.perigee)),
		rAngle:      math.Atan2(sin2P, 1/(6*n.tanHalf*n.tanHalf)-cos2P),
	}
	for k := range n.shifts {
		n.shifts[k] *= 180 / math.Pi
	}
	return n
}
