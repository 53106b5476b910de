package geo

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestPlaneAgainstGeodesics measures the ten lines of testdata/published in a
// plane at their middle. Up to 1,000 ft the design asks for 0.01 ft per 500 ft.
// The four lines of 1,013 to 2,223 m are held to 0.01 ft as well: with unit
// scale at the origin the scale d metres off its meridian is 1 + d^2/2R^2, so
// over a line of length L centred there it adds at most L^3/(24 R^2), which for
// 2.3 km is 0.00004 ft; what remains is a geodesic taken for a straight line.
func TestPlaneAgainstGeodesics(t *testing.T) {
	for _, row := range table(t, "geodesics.csv") {
		t.Run(row["case"], func(t *testing.T) {
			a := orb.Point{number(t, row["lon1"]), number(t, row["lat1"])}
			b := orb.Point{number(t, row["lon2"]), number(t, row["lat2"])}
			want := number(t, row["metres"])
			p := NewPlane(middle(a, b))
			got := distance(p.Forward(a), p.Forward(b))
			require.InDelta(t, want, got, 0.01*ft*math.Min(1, want/(500*ft)))
			if want > 1000*ft {
				return
			}
			// The same from a plane whose origin lies 5 km off: a short line
			// stays within 0.01 ft per 500 ft anywhere at the site.
			off := NewPlane(orb.Point{a[0] - 0.05, a[1] + 0.03})
			got = distance(off.Forward(a), off.Forward(b))
			require.InDelta(t, want, got, 0.01*ft*want/(500*ft))
		})
	}
}

// TestShortGeodesic: Karney, "Algorithms for geodesics", J. Geodesy 87 (2013),
// table 3: a line of 5 m in the southern hemisphere.
func TestShortGeodesic(t *testing.T) {
	a, b := orb.Point{0, -30.12345}, orb.Point{0.00005, -30.12344}
	p := NewPlane(a)
	require.InDelta(t, 4.944208, distance(p.Forward(a), p.Forward(b)), 1e-6)
}

// TestPlaneAgainstStatePlane takes a plane at the origin of a State Plane zone:
// it differs from the zone only by scale and false easting.
func TestPlaneAgainstStatePlane(t *testing.T) {
	const scale, falseEasting = 0.999941177, 200000 // EPSG
	meridians := map[string]float64{"East": -81, "West": -82}
	for i, row := range table(t, "state_plane.csv") {
		t.Run(fmt.Sprint(row["zone"], i), func(t *testing.T) {
			p := NewPlane(orb.Point{meridians[row["zone"]], 24 + 20.0/60})
			at := orb.Point{number(t, row["lon"]), number(t, row["lat"])}
			want := orb.Point{(number(t, row["easting"]) - falseEasting) / scale, number(t, row["northing"]) / scale}
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
		require.InDelta(t, 0, distance(at, p.Forward(degrees)), 1e-6, "metres")
	})
}

// TestLongEdgesStayStraightInDegrees: RFC 7946, section 3.1.1, makes an edge
// straight in longitude and latitude. Along a parallel its middle leaves the
// straight line of the plane by L^2 tan(lat) / 8N, N the radius of curvature
// in the prime vertical (worked by hand from the curvature of a parallel).
func TestLongEdgesStayStraightInDegrees(t *testing.T) {
	const lat = 27.76
	sin := math.Sin(lat * degree)
	f := 1 / inverseFlat
	n := semiMajor / math.Sqrt(1-f*(2-f)*sin*sin)
	for _, length := range []float64{1000, 2000, 5000} {
		half := length / 2 / (n * math.Cos(lat*degree)) / degree
		edge := []orb.Point{{-82.63 - half, lat}, {-82.63 + half, lat}}
		points := NewPlane(orb.Point{-82.63, lat}).forwardAll(edge)
		want := length * length * math.Tan(lat*degree) / (8 * n)
		bow := 0.0
		for _, p := range points {
			on, _ := project(points[0], points[len(points)-1], p)
			bow = math.Max(bow, distance(p, on))
		}
		require.InEpsilon(t, want, bow, 0.03, "%g m", length)
		for i := 1; i < len(points); i++ {
			require.LessOrEqual(t, distance(points[i-1], points[i]), maxEdge*1.005)
		}
	}
}

func TestSubdivideKeepsWhatWasDrawn(t *testing.T) {
	line := []orb.Point{{-82.63, 27.76}, {-82.63, 27.76}, {-82.629, 27.76}, {-82.629, 27.761}, {-82.629, 27.761}}
	require.Equal(t, []orb.Point{line[0], line[2], line[3]}, subdivide(line), "short edges stay, repeats go")
	require.Empty(t, subdivide(nil))
	require.Len(t, subdivide([]orb.Point{{1, 2}, {1, 2}}), 1)
}

// TestOneLayerEightDegreesWide builds one layer with a shore at either end and
// measures a structure some 500 ft across at each. The tip of the shore is the
// foot of every reach, so the true distances are geodesics from tip to corner
// (testdata/published/far_apart.csv; for the first row
// echo "30.3 -88 30.3002 -88.0001" | GeodSolve -i -p 6).
func TestOneLayerEightDegreesWide(t *testing.T) {
	// Corners of the structure and ends of the shore, degrees from the tip;
	// at the east end all is turned by 180 degrees.
	shore := []orb.Point{{-0.003, -0.0025}, {0, 0}, {0.003, -0.0025}}
	structure := []orb.Point{{-0.0001, 0.0002}, {0.0004, 0.0006}, {-0.0004, 0.0015}, {-0.0008, 0.0009}, {-0.0001, 0.0002}}
	placed := func(line []orb.Point, tip orb.Point, turn float64) []orb.Point {
		out := make([]orb.Point, len(line))
		for i, p := range line {
			out[i] = orb.Point{tip[0] + turn*p[0], tip[1] + turn*p[1]}
		}
		return out
	}
	tips := map[string]orb.Point{"west": {-88, 30.3}, "east": {-80, 25.7}}
	turns := map[string]float64{"west": 1, "east": -1}
	var b LayerBuilder
	b.AddLine(placed(shore, tips["west"], 1))
	b.AddLine(placed(shore, tips["east"], -1))
	layer := b.Build(true)
	bound, ok := layer.Bound()
	require.True(t, ok)
	require.InDelta(t, 8, bound.Max[0]-bound.Min[0], 0.01)
	for _, row := range table(t, "far_apart.csv") {
		t.Run(row["site"]+" "+row["reach"], func(t *testing.T) {
			fp, err := NewFootprint(orb.Polygon{placed(structure, tips[row["site"]], turns[row["site"]])}, 0, 0)
			require.NoError(t, err)
			degrees := orb.MultiPoint{fp.Plane.Inverse(fp.Bound.Min), fp.Plane.Inverse(fp.Bound.Max)}.Bound()
			lines := layer.Near(fp.Plane, Window(degrees, 1000*ft))
			require.Len(t, lines.ByItem(), 1, "the other end is not near")
			got := fp.Least(lines)
			if row["reach"] == "farthest" {
				got = fp.Farthest(lines)
			}
			require.InDelta(t, number(t, row["metres"]), got.Distance, 0.01*ft)
			require.Equal(t, row["site"], []string{"west", "east"}[lines.Item(got.Foot)])
		})
	}
}

// TestNearTheOrigin: the polynomials near the origin agree with the series of Krueger,
// which Karney (2011) gives 5 nm, to 10 nm anywhere within their reach, and back again.
func TestNearTheOrigin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := orb.Point{rapid.Float64Range(-180, 180).Draw(t, "lon"), rapid.Float64Range(-nearbyLatitude, nearbyLatitude).Draw(t, "lat")}
		p := NewPlane(origin)
		const reach = nearbyReach / degree * 0.999
		at := orb.Point{origin[0] + rapid.Float64Range(-reach, reach).Draw(t, "east"), origin[1] + rapid.Float64Range(-reach, reach).Draw(t, "north")}
		got := p.Forward(at)
		x, y := series.forward((at[0]-origin[0])*degree, at[1]*degree)
		require.InDelta(t, x, got[0], 1e-8)
		require.InDelta(t, y-p.y0, got[1], 1e-8)
		if math.Abs(got[0]) < nearbyMetres && math.Abs(got[1]) < nearbyMetres {
			back := p.Inverse(got)
			require.InDelta(t, 0, math.Remainder(at[0]-back[0], 360), 1e-13)
			require.InDelta(t, at[1], back[1], 1e-13)
		}
	})
}
