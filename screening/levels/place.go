package levels

import (
	"fmt"
	"math"
	"strings"
)

// Place is a position in degrees.
type Place struct{ Lon, Lat float64 }

// earthRadius is the mean radius in metres (IUGG, R1).
const earthRadius = 6371008.8

// Distance is the great-circle distance in metres on a sphere, within 0.5 % of
// the true one: it is printed and orders what is near, and decides nothing.
func (a Place) Distance(b Place) float64 {
	half := func(x, y float64) float64 {
		s := math.Sin(radians(y-x) / 2)
		return s * s
	}
	h := half(a.Lat, b.Lat) + math.Cos(radians(a.Lat))*math.Cos(radians(b.Lat))*half(a.Lon, b.Lon)
	return 2 * earthRadius * math.Asin(math.Min(1, math.Sqrt(h)))
}

func (a Place) onEarth() bool {
	return math.Abs(a.Lon) <= 180 && math.Abs(a.Lat) <= 90 // false for NaN
}

// ParsePlace reads "-74.59,30.0", longitude first.
func ParsePlace(text string) (*Place, error) {
	lon, lat, both := strings.Cut(text, ",")
	x, errX := parseNumber("longitude", lon)
	y, errY := parseNumber("latitude", lat)
	at := Place{x, y}
	if !both || errX != nil || errY != nil || !at.onEarth() {
		return nil, fmt.Errorf("%q is no place; write longitude and latitude in degrees, as -74.59,30.0", text)
	}
	return &at, nil
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
