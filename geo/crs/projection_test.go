package crs

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/testdata/published"
)

const surveyFoot = 1200.0 / 3937 // metres, by definition; EPSG unit 9003

// TestPublishedProjections: worked examples of Snyder, "Map Projections - A
// Working Manual", USGS Professional Paper 1395 (1987), and of IOGP Guidance Note
// 7-2, to the digits printed there. Known second hand, from what other software
// is tested with; PROJ 9.1.1 gives the same.
func TestPublishedProjections(t *testing.T) {
	clarke1866 := newEllipsoid(6378206.4, 1/294.978698214)
	airy := newEllipsoid(6377563.396, 1/299.3249646)
	for _, c := range []struct {
		name     string
		plane    projection
		unit     float64
		origin   orb.Point // false, in the unit
		lon, lat float64
		want     orb.Point
		digit    float64 // last one printed
	}{
		{"Albers, Snyder p. 292", newAlbers(clarke1866, 23, -96, 29.5, 45.5), 1, orb.Point{}, -75, 35, orb.Point{1885472.7, 1535925.0}, 0.1},
		{"Lambert, Snyder p. 296", newLambert(clarke1866, 23, -96, 33, 45), 1, orb.Point{}, -75, 35, orb.Point{1894410.9, 1564649.5}, 0.1},
		{"transverse Mercator, Snyder p. 269", newTransverseMercator(clarke1866, 0, -75, 0.9996), 1, orb.Point{}, -73.5, 40.5, orb.Point{127106.5, 4484124.4}, 0.1},
		{"Lambert, Texas South Central on NAD27", newLambert(clarke1866, dm(27, 50), -99, dm(28, 23), dm(30, 17)), surveyFoot,
			orb.Point{2000000, 0}, -96, 28.5, orb.Point{2963503.91, 254759.80}, 0.01},
		{"transverse Mercator, British grid", newTransverseMercator(airy, 49, -2, 0.9996012717), 1,
			orb.Point{400000, -100000}, 0.5, 50.5, orb.Point{577274.98, 69740.49}, 0.01},
		{"Albers, Great Lakes", newAlbers(grs80, 45.568977, -84.455955, 42.122774, 49.01518), 1,
			orb.Point{1000000, 1000000}, -78.75, 42.75, orb.Point{1466493.492, 702903.006}, 0.001},
	} {
		t.Run(c.name, func(t *testing.T) {
			x, y := c.plane.forward(c.lon*PerDegree, c.lat*PerDegree)
			require.InDelta(t, c.want[0], x/c.unit+c.origin[0], 0.501*c.digit)
			require.InDelta(t, c.want[1], y/c.unit+c.origin[1], 0.501*c.digit)
			lon, lat := c.plane.inverse((c.want[0]-c.origin[0])*c.unit, (c.want[1]-c.origin[1])*c.unit)
			// A degree is 70 km or more there.
			require.InDelta(t, c.lon, lon/PerDegree, c.digit/70000)
			require.InDelta(t, c.lat, lat/PerDegree, c.digit/70000)
		})
	}
}

// TestPublishedScale: the scale printed with two of the examples, here the
// length of a short piece of meridian on the plane over that on the ellipsoid.
func TestPublishedScale(t *testing.T) {
	clarke1866 := newEllipsoid(6378206.4, 1/294.978698214)
	for _, c := range []struct {
		plane    projection
		lon, lat float64
		want     float64
	}{
		{newLambert(clarke1866, 23, -96, 33, 45), -75, 35, 0.9970171},
		{newTransverseMercator(clarke1866, 0, -75, 0.9996), -73.5, 40.5, 0.9997989},
	} {
		const half = 1e-5
		sin := math.Sin(c.lat * PerDegree)
		es := 1 - clarke1866.e*clarke1866.e*sin*sin
		radius := clarke1866.a * (1 - clarke1866.e*clarke1866.e) / (es * math.Sqrt(es)) // of curvature of the meridian
		x1, y1 := c.plane.forward(c.lon*PerDegree, c.lat*PerDegree-half)
		x2, y2 := c.plane.forward(c.lon*PerDegree, c.lat*PerDegree+half)
		require.InDelta(t, c.want, math.Hypot(x2-x1, y2-y1)/(2*half*radius), 0.6e-7)
	}
}

// TestCRSAgainstPROJ: five points for every projected system, over its area of
// use, both ways (testdata/published/projections.csv).
func TestCRSAgainstPROJ(t *testing.T) {
	seen := map[int]int{}
	for _, row := range published.Table(t, "projections.csv") {
		c, ok := byCode[int(published.Number(t, row["code"]))]
		require.True(t, ok, row["code"])
		seen[c.Code]++
		requireCRS(t, c, row["lon"], row["lat"], row["x"], row["y"], 0.0003)
	}
	for _, c := range known {
		if !c.IsDegrees() {
			require.Equal(t, 5, seen[c.Code], "EPSG:%d", c.Code)
		}
	}
}

// TestFloridaAgainstPROJ: nineteen places in Florida to 0.001 ft, in metres and
// in US survey feet (testdata/published/spcs_florida_check.csv). The feet there
// are the metres times 3937/1200, so the registry's rounded false easting in feet
// takes 0.0003 ft of that.
func TestFloridaAgainstPROJ(t *testing.T) {
	rows := published.Table(t, "spcs_florida_check.csv")
	require.Len(t, rows, 19)
	for _, row := range rows {
		for _, code := range strings.Split(row["epsg_m"], "/") {
			c, ok := byCode[int(published.Number(t, code))]
			require.True(t, ok, code)
			require.Equal(t, Metre, c.Unit)
			requireCRS(t, c, row["lon"], row["lat"], row["easting_m"], row["northing_m"], 0.001*MetresPerFoot)
		}
		if row["epsg_ftus"] == "" {
			continue
		}
		for _, code := range strings.Split(row["epsg_ftus"], "/") {
			c, ok := byCode[int(published.Number(t, code))]
			require.True(t, ok, code)
			require.Equal(t, SurveyFoot, c.Unit)
			requireCRS(t, c, row["lon"], row["lat"], row["easting_ftus"], row["northing_ftus"], 0.001*MetresPerFoot)
		}
	}
}

// requireCRS holds a system to a position and its coordinates, both ways, to so
// many metres on the plane and on the ground.
func requireCRS(t *testing.T, c *System, lon, lat, x, y string, metres float64) {
	t.Helper()
	at := orb.Point{published.Number(t, lon), published.Number(t, lat)}
	want := orb.Point{published.Number(t, x), published.Number(t, y)}
	require.LessOrEqual(t, flat.Distance(want, c.Projected(at))*c.Unit.Metres(), metres, "EPSG:%d at %v", c.Code, at)
	back, err := c.Degrees(want)
	require.NoError(t, err)
	off := math.Hypot((back[0]-at[0])*math.Cos(at[1]*PerDegree), back[1]-at[1]) * MetresPerDegree
	require.LessOrEqual(t, off, metres, "EPSG:%d from %v", c.Code, want)
}

// TestDegreesUndoesProjected holds by what a projection is.
func TestDegreesUndoesProjected(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(known).Draw(t, "system")
		at := orb.Point{
			rapid.Float64Range(c.area.Min[0], c.area.Max[0]).Draw(t, "lon"),
			rapid.Float64Range(c.area.Min[1], c.area.Max[1]).Draw(t, "lat"),
		}
		back, err := c.Degrees(c.Projected(at))
		require.NoError(t, err)
		require.InDelta(t, at[0], back[0], 1e-10, "EPSG:%d", c.Code)
		require.InDelta(t, at[1], back[1], 1e-10, "EPSG:%d", c.Code)
	})
}

// TestAnyCoordinates: what is no position is an error; what is taken for one
// comes back to the same coordinates, so that no far-off pair of numbers is read
// as a place elsewhere.
func TestAnyCoordinates(t *testing.T) {
	wide := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-5e7, 5e7), rapid.Float64Range(-500, 500),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, 0}))
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(known).Draw(t, "system")
		p := orb.Point{wide.Draw(t, "x"), wide.Draw(t, "y")}
		at, err := c.Degrees(p)
		if err != nil {
			require.Equal(t, orb.Point{}, at)
			return
		}
		require.True(t, at[0] >= -180 && at[0] <= 180 && at[1] >= -90 && at[1] <= 90, "%v", at)
		require.LessOrEqual(t, flat.Distance(p, c.Projected(at))*c.metres, 0.001, "EPSG:%d: %v", c.Code, at)
	})
}

// TestNoPlace: past what the series holds for, past the pole, in the gap of a
// cone, past its apex and past the ends of the Web Mercator map there is no
// place. A transverse Mercator taken once round the meridian would come back to
// where it was.
func TestNoPlace(t *testing.T) {
	tm := newTransverseMercator(grs80, dm(24, 20), -81, 0.999941177)
	round := tm.scale * 4 * tm.pole
	for _, c := range []struct {
		plane projection
		x, y  float64
	}{
		{tm, 4e6, 0}, {tm, -4e6, 0}, {tm, 0, 7.5e6}, {tm, 0, round}, {tm, 0, -round},
		{newLambert(grs80, 29, -84.5, 30.75, dm(29, 35)), 1000, 2e7},
		{newAlbers(grs80, 24, -84, 24, 31.5), -1000, 2e7},
		{newAlbers(grs80, 24, -84, 24, 31.5), 0, -4e7},
	} {
		lon, lat := c.plane.inverse(c.x, c.y)
		require.True(t, math.IsNaN(lon) || math.IsNaN(lat), "%T %g %g: %g %g", c.plane, c.x, c.y, lon, lat)
	}
	web := byCode[3857]
	_, err := web.Degrees(orb.Point{20037508.34, 0})
	require.NoError(t, err)
	end, err := web.Degrees(web.Projected(orb.Point{180, 1})) // rounds to just past 180
	require.NoError(t, err)
	require.Equal(t, 180.0, end[0])
	for _, p := range []orb.Point{{20037510, 0}, {-20037510, 0}, {0, 20050000}} {
		_, err := web.Degrees(p)
		require.Error(t, err, p)
	}
}

// TestDegreesDoesNotAllocate, for layers of millions of points.
func TestDegreesDoesNotAllocate(t *testing.T) {
	for _, c := range known {
		p := c.Projected(c.area.Center())
		require.Zero(t, testing.AllocsPerRun(10, func() {
			at, err := c.Degrees(p)
			if err != nil || c.Projected(at)[0] == 0 {
				p[0] = 0
			}
		}), c.Name)
	}
}

func BenchmarkDegrees(b *testing.B) {
	for _, code := range []int{6438, 6441, 6439, 3857, 6318} {
		c := byCode[code]
		p := c.Projected(c.area.Center())
		b.Run(c.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.Degrees(p)
			}
		})
	}
}
