package crs

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestKnownSystems(t *testing.T) {
	codes, names := map[int]bool{}, map[string]bool{}
	for _, c := range known {
		require.False(t, codes[c.Code], "EPSG:%d twice", c.Code)
		require.False(t, names[c.Name], "%s twice", c.Name)
		require.NotContains(t, unusable, c.Code)
		codes[c.Code], names[c.Name] = true, true
		found, ok := byCode[c.Code]
		require.True(t, ok)
		require.Same(t, c, found)
	}
	c, ok := byCode[6438]
	require.True(t, ok)
	require.Equal(t, "Florida East, NAD83(2011), US survey foot", c.Name)
	require.Equal(t, NAD83of2011, c.Datum)
	require.Equal(t, SurveyFoot, c.Unit)
	_, ok = byCode[6349]
	require.False(t, ok, "no UTM zone 20 on NAD83(2011)")
}

// TestFloridaEastOrigin: the traps of the zone's numbers. The origin lies at 24
// degrees 20 minutes, not 24.2; the false easting is in feet what the registry
// says, not what it says in metres; 6437 is metres and 6438 feet.
func TestFloridaEastOrigin(t *testing.T) {
	origin := orb.Point{-81, 24 + 20.0/60}
	for code, easting := range map[int]float64{26958: 200000, 6437: 200000, 2236: 656166.667, 6438: 656166.667} {
		c := byCode[code]
		got := c.Projected(origin)
		require.InDelta(t, easting, got[0], 1e-8)
		require.InDelta(t, 0, got[1], 1e-8)
	}
}

func TestParseCRSName(t *testing.T) {
	for name, want := range map[string]int{
		"EPSG:6438": 6438, " epsg:6438 ": 6438, "6438": 6438,
		"urn:ogc:def:crs:EPSG::2236": 2236, "urn:ogc:def:crs:EPSG:9.8.5:2236": 2236, "URN:OGC:DEF:CRS:EPSG::4326": 4326,
		"http://www.opengis.net/def/crs/EPSG/0/26917": 26917, "https://www.opengis.net/def/crs/EPSG/0/4269": 4269,
		"OGC:1.3:CRS84": 4326, "urn:ogc:def:crs:OGC:1.3:CRS84": 4326, "OGC:CRS84": 4326,
		"http://www.opengis.net/def/crs/OGC/1.3/CRS84": 4326, "urn:ogc:def:crs:OGC:1.3:CRS83": 4269,
		"EPSG:3857": 3857, "EPSG:900913": 3857, "102100": 3857, "ESRI:102113": 3857,
	} {
		c, err := Parse(name)
		require.NoError(t, err, name)
		require.Equal(t, want, c.Code, name)
	}
	for name, says := range map[string]string{
		"EPSG:32021":                   "EPSG:32021 is not among the coordinate systems known here, which are longitude and latitude (EPSG:4326,",
		"EPSG:4978":                    "centre of the earth",
		"urn:ogc:def:crs:EPSG::6319":   "its horizontal part is EPSG:6318",
		"EPSG:6349":                    "its horizontal part is EPSG:6318",
		"EPSG:5703":                    "name the horizontal system",
		"EPSG:3359":                    "EPSG:3404",
		"EPSG:4267":                    "NAD27",
		"EPSG:-1":                      "not among",
		"":                             `"" is not the name`,
		"EPSG:":                        "write it as EPSG:n",
		"NAD83 / Florida East":         "write it as EPSG:n",
		"OGC:CRS27":                    "write it as EPSG:n",
		"ESRI:6438":                    "write it as EPSG:n",
		"EPSG:99999999999999999999999": "write it as EPSG:n",
		"urn:ogc:def:crs,crs:EPSG::6318,crs:EPSG::5703": "write it as EPSG:n",
	} {
		c, err := Parse(name)
		require.ErrorContains(t, err, says, name)
		require.Nil(t, c)
	}
	rapid.Check(t, func(t *rapid.T) {
		c, err := Parse(rapid.String().Draw(t, "name"))
		require.True(t, (c == nil) != (err == nil))
	})
}

// TestDegreesAreLongitudeFirst, whatever the registry says of EPSG:4326.
func TestDegreesAreLongitudeFirst(t *testing.T) {
	for _, code := range []int{4326, 4269, 4152, 4759, 6318} {
		c, ok := byCode[code]
		require.True(t, ok)
		require.True(t, c.IsDegrees())
		got, err := c.Degrees(orb.Point{-82.6269, 27.7606})
		require.NoError(t, err)
		require.Equal(t, orb.Point{-82.6269, 27.7606}, got)
		_, err = c.Degrees(orb.Point{27.7606, -92.6269})
		require.Error(t, err)
	}
}

func TestNoPosition(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range known {
		for _, p := range []orb.Point{{nan, 0}, {0, nan}, {inf, 0}, {0, -inf}, {inf, inf}, {1e12, 1e12}, {-1e300, 1e300}} {
			_, err := c.Degrees(p)
			require.Error(t, err, "EPSG:%d %v", c.Code, p)
		}
	}
	c := byCode[6438]
	_, err := c.Degrees(orb.Point{425000, 31246186})
	// The corners of the area of use by cs2cs, PROJ 9.1.1.
	require.EqualError(t, err, "425000, 31246186 is no position in EPSG:6438 (Florida East, NAD83(2011), US survey foot), "+
		"where x runs from 213590 to 998906 and y from 27859 to 2364275; is the layer in another coordinate system?")
}

// TestFarOutside: a layer of the whole Gulf may be in a zone of Florida's, one of
// California is not.
func TestFarOutside(t *testing.T) {
	c := byCode[6438]
	_, err := c.Degrees(c.Projected(orb.Point{-95.4, 29.8}))
	require.NoError(t, err)
	_, err = c.Degrees(c.Projected(orb.Point{-118.2, 34}))
	require.Error(t, err)
}

// TestCRSMeeting: a bay of the west coast of Florida, in the systems its layers
// come in, found by its coordinates alone. The eastings and northings of the
// place are those of testdata/published/spcs_florida_check.csv and, for UTM and
// Web Mercator, of cs2cs (PROJ 9.1.1).
func TestCRSMeeting(t *testing.T) {
	near := lonLat(-82.7, 27.7, -82.55, 27.85)
	for _, c := range []struct {
		name string
		at   orb.Point
		want []int
	}{
		{"Florida West, feet", orb.Point{453424.741, 1246186.158}, []int{2237, 6443, 2882, 3517}},
		{"Florida West, metres", orb.Point{138204.137, 379838.301}, []int{26959, 6442, 2778, 3516}},
		{"Florida Albers", orb.Point{535066.966, 417961.357}, []int{3086, 6439, 3087, 3513}},
		{"UTM zone 17", orb.Point{339674.68, 3071743.66}, []int{26917, 6346, 3747, 3724, 32617}},
		{"Web Mercator", orb.Point{-9197984.43, 3218824.32}, []int{3857}},
		{"degrees", orb.Point{-82.6269, 27.7606}, []int{4326, 4269, 6318, 4152, 4759}},
	} {
		half := 1000.0
		if c.name == "degrees" {
			half = 0.01
		}
		var got []int
		for _, found := range Meeting(c.at.Bound().Pad(half), near) {
			got = append(got, found.Code)
		}
		require.Equal(t, c.want, got, c.name)
	}
	require.Empty(t, Meeting(orb.Point{5, 5}.Bound().Pad(1), near))
	require.Empty(t, Meeting(orb.Bound{Min: orb.Point{math.NaN(), math.NaN()}, Max: orb.Point{math.NaN(), math.NaN()}}, near))
	require.Empty(t, Meeting(orb.Point{453424, 1246186}.Bound().Pad(-10), near), "an empty layer")
	require.Empty(t, Meeting(orb.Point{453424, 1246186}.Bound(), near.Center().Bound().Pad(-0.1)))
}

// TestCRSMeetingOrder: worked by hand from where the zones lie.
func TestCRSMeetingOrder(t *testing.T) {
	codes := func(raw, near orb.Bound) []int {
		var out []int
		for _, c := range Meeting(raw, near) {
			out = append(out, c.Code)
		}
		return out
	}
	// All of Florida in Albers metres, and a bay in its south-east: read in the
	// East zone, the middle of the layer would lie nearer to the bay, but most
	// of it outside the zone.
	got := codes(lonLat(50000, 60000, 790000, 770000), lonLat(-80.3, 25.65, -80.1, 25.85))
	require.Equal(t, []int{3086, 6439, 3087, 3513, 26958, 6437, 2777, 3511}, got)
	// A layer about the middle of the West zone, near a place that lies in the
	// East zone too: both hold all of it, but the West zone puts it there.
	got = codes(lonLat(140000, 290000, 260000, 410000), lonLat(-82.4, 27, -81.5, 28))
	require.Equal(t, []int{26959, 6442, 2778, 3516, 26958, 6437, 2777, 3511}, got[:8])
}

// TestCRSMeetingLeavesOut systems outside their area of use, and degrees where
// the layer holds what can be none, though its bound holds the place.
func TestCRSMeetingLeavesOut(t *testing.T) {
	east := byCode[6438]
	require.Empty(t, Meeting(east.Projected(orb.Point{-82.5, 27.75}).Bound(), lonLat(-82.7, 27.7, -82.4, 27.8)))
	// Web Mercator, with one position of noughts.
	found := Meeting(lonLat(-9197984, 0, 0, 3218824), lonLat(-82.7, 27.7, -82.55, 27.85))
	require.Len(t, found, 1)
	require.Equal(t, 3857, found[0].Code)
}

// TestDatumShift: the figures are those beside fromWGS84.
func TestDatumShift(t *testing.T) {
	all := []Datum{WGS84, NAD83, NAD83HARN, NAD83NSRS2007, NAD83of2011}
	for _, a := range all {
		if a == NAD83 { // of which realization nobody says
			require.InDelta(t, 1.15, DatumShift(a, a), 1e-12)
		} else {
			require.Zero(t, DatumShift(a, a))
		}
		for _, b := range all {
			require.Equal(t, DatumShift(a, b), DatumShift(b, a))
			require.LessOrEqual(t, DatumShift(a, b), 2.45)
			if a != b {
				require.Greater(t, DatumShift(a, b), 0.04)
			}
		}
	}
	require.InDelta(t, 1.3, DatumShift(WGS84, NAD83of2011), 1e-12)
	require.InDelta(t, 1.0, DatumShift(NAD83, NAD83HARN), 1e-12)
	require.InDelta(t, 0.1, DatumShift(NAD83HARN, NAD83NSRS2007), 1e-12)
}
