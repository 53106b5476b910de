package crs

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/testdata/published"
)

// TestPlaneAgainstGeodesics measures the ten lines of testdata/published in a
// plane at their middle. Up to 1,000 ft the design asks for 0.01 ft per 500 ft.
// The four lines of 1,013 to 2,223 m are held to 0.01 ft as well: with unit
// scale at the origin the scale d metres off its meridian is 1 + d^2/2R^2, so
// over a line of length L centred there it adds at most L^3/(24 R^2), which for
// 2.3 km is 0.00004 ft; what remains is a geodesic taken for a straight line.
func TestPlaneAgainstGeodesics(t *testing.T) {
	for _, row := range published.Table(t, "geodesics.csv") {
		t.Run(row["case"], func(t *testing.T) {
			a := orb.Point{published.Number(t, row["lon1"]), published.Number(t, row["lat1"])}
			b := orb.Point{published.Number(t, row["lon2"]), published.Number(t, row["lat2"])}
			want := published.Number(t, row["metres"])
			p := NewPlane(flat.Middle(a, b))
			got := flat.Distance(p.Forward(a), p.Forward(b))
			require.InDelta(t, want, got, 0.01*MetresPerFoot*math.Min(1, want/(500*MetresPerFoot)))
			if want > 1000*MetresPerFoot {
				return
			}
			// The same from a plane whose origin lies 5 km off: a short line
			// stays within 0.01 ft per 500 ft anywhere at the site.
			off := NewPlane(orb.Point{a[0] - 0.05, a[1] + 0.03})
			got = flat.Distance(off.Forward(a), off.Forward(b))
			require.InDelta(t, want, got, 0.01*MetresPerFoot*want/(500*MetresPerFoot))
		})
	}
}

// TestShortGeodesic: Karney, "Algorithms for geodesics", J. Geodesy 87 (2013),
// table 3: a line of 5 m in the southern hemisphere.
func TestShortGeodesic(t *testing.T) {
	a, b := orb.Point{0, -30.12345}, orb.Point{0.00005, -30.12344}
	p := NewPlane(a)
	require.InDelta(t, 4.944208, flat.Distance(p.Forward(a), p.Forward(b)), 1e-6)
}

// TestPlaneAgainstStatePlane takes a plane at the origin of a State Plane zone:
// it differs from the zone only by scale and false easting.
func TestPlaneAgainstStatePlane(t *testing.T) {
	const scale, falseEasting = 0.999941177, 200000 // EPSG
	meridians := map[string]float64{"East": -81, "West": -82}
	for i, row := range published.Table(t, "state_plane.csv") {
		t.Run(fmt.Sprint(row["zone"], i), func(t *testing.T) {
			p := NewPlane(orb.Point{meridians[row["zone"]], 24 + 20.0/60})
			at := orb.Point{published.Number(t, row["lon"]), published.Number(t, row["lat"])}
			want := orb.Point{(published.Number(t, row["easting"]) - falseEasting) / scale, published.Number(t, row["northing"]) / scale}
			got := p.Forward(at)
			require.InDelta(t, want[0], got[0], 1e-4)
			require.InDelta(t, want[1], got[1], 1e-4)
			back := p.Inverse(want)
			require.InDelta(t, at[0], back[0], 2e-9)
			require.InDelta(t, at[1], back[1], 2e-9)
		})
	}
}

func TestInverseUndoesForward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := orb.Point{rapid.Float64Range(-180, 180).Draw(t, "lon"), rapid.Float64Range(-80, 80).Draw(t, "lat")}
		p := NewPlane(origin)
		at := orb.Point{rapid.Float64Range(-20000, 20000).Draw(t, "x"), rapid.Float64Range(-20000, 20000).Draw(t, "y")}
		degrees := p.Inverse(at)
		again := p.Inverse(p.Forward(degrees))
		require.InDelta(t, 0, math.Remainder(degrees[0]-again[0], 360), 1e-9)
		require.InDelta(t, degrees[1], again[1], 1e-9)
		require.InDelta(t, 0, flat.Distance(at, p.Forward(degrees)), 1e-6, "metres")
	})
}

// TestLongEdgesStayStraightInDegrees: RFC 7946, section 3.1.1, makes an edge
// straight in longitude and latitude. Along a parallel its middle leaves the
// straight line of the plane by L^2 tan(lat) / 8N, N the radius of curvature
// in the prime vertical (worked by hand from the curvature of a parallel).
func TestLongEdgesStayStraightInDegrees(t *testing.T) {
	const lat = 27.76
	sin := math.Sin(lat * PerDegree)
	f := 1 / inverseFlat
	n := semiMajor / math.Sqrt(1-f*(2-f)*sin*sin)
	for _, length := range []float64{1000, 2000, 5000} {
		half := length / 2 / (n * math.Cos(lat*PerDegree)) / PerDegree
		edge := []orb.Point{{-82.63 - half, lat}, {-82.63 + half, lat}}
		points := NewPlane(orb.Point{-82.63, lat}).ForwardAll(edge)
		want := length * length * math.Tan(lat*PerDegree) / (8 * n)
		bow := 0.0
		for _, p := range points {
			on, _ := flat.Project(points[0], points[len(points)-1], p)
			bow = math.Max(bow, flat.Distance(p, on))
		}
		require.InEpsilon(t, want, bow, 0.03, "%g m", length)
		for i := 1; i < len(points); i++ {
			require.LessOrEqual(t, flat.Distance(points[i-1], points[i]), maxEdge*1.005)
		}
	}
}

func TestSubdivideKeepsWhatWasDrawn(t *testing.T) {
	line := []orb.Point{{-82.63, 27.76}, {-82.63, 27.76}, {-82.629, 27.76}, {-82.629, 27.761}, {-82.629, 27.761}}
	require.Equal(t, []orb.Point{line[0], line[2], line[3]}, Subdivide(line), "short edges stay, repeats go")
	require.Empty(t, Subdivide(nil))
	require.Len(t, Subdivide([]orb.Point{{1, 2}, {1, 2}}), 1)
}

// TestNearTheOrigin: the polynomials near the origin agree with the series of Krueger,
// which Karney (2011) gives 5 nm, to 10 nm anywhere within their reach, and back again.
func TestNearTheOrigin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := orb.Point{rapid.Float64Range(-180, 180).Draw(t, "lon"), rapid.Float64Range(-nearbyLatitude, nearbyLatitude).Draw(t, "lat")}
		p := NewPlane(origin)
		const reach = nearbyReach / PerDegree * 0.999
		at := orb.Point{origin[0] + rapid.Float64Range(-reach, reach).Draw(t, "east"), origin[1] + rapid.Float64Range(-reach, reach).Draw(t, "north")}
		got := p.Forward(at)
		x, y := series.forward((at[0]-origin[0])*PerDegree, at[1]*PerDegree)
		require.InDelta(t, x, got[0], 1e-8)
		require.InDelta(t, y-p.y0, got[1], 1e-8)
		if math.Abs(got[0]) < nearbyMetres && math.Abs(got[1]) < nearbyMetres {
			back := p.Inverse(got)
			require.InDelta(t, 0, math.Remainder(at[0]-back[0], 360), 1e-13)
			require.InDelta(t, at[1], back[1], 1e-13)
		}
	})
}
