package crs

import (
	"fmt"

	"github.com/paulmach/orb"
)

// zone is one projection with its area of use, and the grids laid on it. The
// registry lists a grid under one code for each datum; the numbers of all of
// them are shared. Parameters, codes and areas are those of the EPSG registry
// v10.076 as PROJ 9.1.1 holds it (projinfo EPSG:n).
type zone struct {
	name  string
	area  orb.Bound // degrees
	plane projection
	grids []grid
}

// grid is the unit and the false origin of coordinates on a projection. The
// false origin is stated in the unit, as in the registry: 656166.667 US survey
// feet are 0.1 mm more than 200000 m.
type grid struct {
	unit     Unit
	easting  float64
	northing float64
	codes    []code
}

type code struct {
	datum  Datum
	number int
}

// nad83 gives the codes under the four realizations of NAD83. Those met most
// come first (common practice, no source).
func nad83(plain, of2011, harn, nsrs2007 int) []code {
	return []code{{NAD83, plain}, {NAD83of2011, of2011}, {NAD83HARN, harn}, {NAD83NSRS2007, nsrs2007}}
}

func lonLat(west, south, east, north float64) orb.Bound {
	return orb.Bound{Min: orb.Point{west, south}, Max: orb.Point{east, north}}
}

var world = lonLat(-180, -90, 180, 90)

// dm is an angle of degrees and minutes, in degrees.
func dm(degrees, minutes float64) float64 { return degrees + minutes/60 }

var zones = []zone{
	{"Florida East", lonLat(-82.33, 24.41, -79.97, 30.83),
		newTransverseMercator(grs80, dm(24, 20), -81, 0.999941177), []grid{
			{Metre, 200000, 0, nad83(26958, 6437, 2777, 3511)},
			{SurveyFoot, 656166.667, 0, nad83(2236, 6438, 2881, 3512)}}},
	{"Florida West", lonLat(-83.34, 26.27, -81.13, 29.6),
		newTransverseMercator(grs80, dm(24, 20), -82, 0.999941177), []grid{
			{Metre, 200000, 0, nad83(26959, 6442, 2778, 3516)},
			{SurveyFoot, 656166.667, 0, nad83(2237, 6443, 2882, 3517)}}},
	{"Florida North", lonLat(-87.63, 29.21, -82.04, 31.01),
		newLambert(grs80, 29, -dm(84, 30), dm(30, 45), dm(29, 35)), []grid{
			{Metre, 600000, 0, nad83(26960, 6440, 2779, 3514)},
			{SurveyFoot, 1968500, 0, nad83(2238, 6441, 2883, 3515)}}},
	{"Florida GDL Albers", lonLat(-87.63, 24.41, -79.97, 31.01),
		newAlbers(grs80, 24, -84, 24, dm(31, 30)), []grid{
			{Metre, 400000, 0, nad83(3086, 6439, 3087, 3513)}}},
	{"North Carolina", lonLat(-84.33, 33.83, -75.38, 36.59),
		newLambert(grs80, dm(33, 45), -79, dm(36, 10), dm(34, 20)), []grid{
			{Metre, 609601.22, 0, nad83(32119, 6542, 3358, 3631)},
			{SurveyFoot, 2000000, 0, nad83(2264, 6543, 3404, 3632)}}},
	{"Virginia North", lonLat(-80.06, 37.77, -76.51, 39.46),
		newLambert(grs80, dm(37, 40), -dm(78, 30), dm(39, 12), dm(38, 2)), []grid{
			{Metre, 3500000, 2000000, nad83(32146, 6592, 2853, 3685)},
			{SurveyFoot, 11482916.667, 6561666.667, nad83(2283, 6593, 2924, 3686)}}},
	{"Virginia South", lonLat(-83.68, 36.54, -75.31, 38.28),
		newLambert(grs80, dm(36, 20), -dm(78, 30), dm(37, 58), dm(36, 46)), []grid{
			{Metre, 3500000, 1000000, nad83(32147, 6594, 2854, 3687)},
			{SurveyFoot, 11482916.667, 3280833.333, nad83(2284, 6595, 2925, 3688)}}},
	{"Web Mercator", lonLat(-180, -85.06, 180, 85.06), &webMercator{wgs84}, []grid{{Metre, 0, 0, []code{{WGS84, 3857}}}}},
	// The registry's areas of NAD83 go on past 180 degrees west, to the Aleutians
	// and Guam.
	{"longitude and latitude", world, nil, []grid{{Degree, 0, 0, []code{{WGS84, 4326}}}}},
	{"longitude and latitude", lonLat(-180, 14.92, -40.73, 86.45), nil, []grid{{Degree, 0, 0, []code{{NAD83, 4269}}}}},
	{"longitude and latitude", lonLat(-180, 14.92, -63.88, 74.71), nil, []grid{{Degree, 0, 0, []code{{NAD83of2011, 6318}}}}},
	{"longitude and latitude", lonLat(-180, -14.59, -64.51, 71.4), nil, []grid{{Degree, 0, 0, []code{{NAD83HARN, 4152}}}}},
	{"longitude and latitude", lonLat(-180, 14.92, -63.88, 74.71), nil, []grid{{Degree, 0, 0, []code{{NAD83NSRS2007, 4759}}}}},
}

// utm returns the zones 15 to 20 north. The registry bounds each by its
// meridians and, for the datum, by latitude; NAD83(2011) has no zone 20, whose
// number, 6349, is a system with heights.
func utm() []zone {
	latitudes := []struct {
		datum        Datum
		first        int // code of zone 15
		south, north []float64
	}{
		{NAD83, 26915, []float64{25.61, 23.97, 23.81, 28.28, 14.92, 15.63}, []float64{84, 84, 84, 84, 84, 84}},
		{NAD83of2011, 6344, []float64{25.61, 23.97, 23.81, 28.28, 33.61}, []float64{49.38, 48.32, 46.13, 45.03, 47.47}},
		{NAD83HARN, 3745, []float64{28.42, 28.85, 24.41, 33.84, 40.96}, []float64{49.38, 48.32, 46.13, 45.03, 47.47}},
		{NAD83NSRS2007, 3722, []float64{25.61, 23.97, 23.81, 28.28, 33.61}, []float64{49.38, 48.32, 46.13, 45.03, 47.47}},
		{WGS84, 32615, make([]float64, 6), []float64{84, 84, 84, 84, 84, 84}},
	}
	var out []zone
	for _, at := range latitudes {
		figure := grs80
		if at.datum == WGS84 {
			figure = wgs84
		}
		for i := range at.south {
			west := -96 + 6*float64(i)
			out = append(out, zone{
				fmt.Sprintf("UTM zone %d north", 15+i),
				lonLat(west, at.south[i], west+6, at.north[i]),
				newTransverseMercator(figure, 0, west+3, 0.9996),
				[]grid{{Metre, 500000, 0, []code{{at.datum, at.first + i}}}},
			})
		}
	}
	return out
}
