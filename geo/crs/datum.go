package crs

import "math"

// Datum is what longitudes and latitudes are counted on.
type Datum string

const (
	WGS84         Datum = "WGS 84"
	NAD83         Datum = "NAD83" // of 1986, or a realization not stated
	NAD83HARN     Datum = "NAD83(HARN)"
	NAD83NSRS2007 Datum = "NAD83(NSRS2007)"
	NAD83of2011   Datum = "NAD83(2011)"
)

// fromWGS84 adds up, in metres, the steps by which positions may move from WGS 84
// over the realizations of NAD83, newest first.
var fromWGS84 = map[Datum]float64{
	WGS84: 0,
	// ITRF2014 to NAD83(2011) by the transformation EPSG 8970 (PROJ 9.1.1): at
	// 2026.9 at most 1.11 m in Florida, 1.20 m in North Carolina and 1.26 m in
	// Virginia, growing 0.012 m a year.
	NAD83of2011: 1.3,
	// About 0.02 m on average by accounts of the adjustment of 2011, read second
	// hand; 0.05 m is our margin.
	NAD83NSRS2007: 1.35,
	// 0.1 m is what the registry allows for taking the two as one (EPSG 4461).
	NAD83HARN: 1.45,
	// 0.2 to 1.0 m by what is published with the grids that join the two, read
	// second hand.
	NAD83: 2.45,
}

// DatumShift returns the allowance, in metres, for taking positions on one datum
// as on the other: 0 for the same, else about the most that parts them on the
// coasts of Florida, North Carolina and Virginia until 2030. A layer called
// NAD83 and no more may be on the datum of 1986, so its allowance is wide; and of two
// that are called so one may be on that and the other on the newest.
func DatumShift(a, b Datum) float64 {
	if a == NAD83 && b == NAD83 {
		return fromWGS84[NAD83] - fromWGS84[NAD83of2011]
	}
	return math.Abs(fromWGS84[a] - fromWGS84[b])
}
