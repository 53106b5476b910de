package geo

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// TestNearestAgainstEveryPair compares with the least over all pairs of edges.
func TestNearestAgainstEveryPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fp := drawStructure(t)
		shores := drawShores(t)
		lines := NewLines(shores...)
		want := math.Inf(1)
		for _, shore := range shores {
			for i := 1; i < len(shore); i++ {
				if fp.covers(shore[i]) || fp.covers(shore[i-1]) {
					want = 0
				}
				fp.eachEdge(func(a, b orb.Point) { want = math.Min(want, gap(a, b, shore[i-1], shore[i])) })
			}
		}
		got := fp.Nearest(lines)
		require.InDelta(t, want, got.Distance, 1e-9+fp.chords())
		require.InDelta(t, got.Distance, flat.Distance(got.At, got.Foot.At), 1e-9, "between its witness points")
		require.InDelta(t, 0, lines.Nearest(got.Foot.At).Distance, 1e-9, "its foot lies on the lines")
		at := orb.Point{flattest.Within(t, -80, 80, "x"), flattest.Within(t, -80, 80, "y")}
		least := math.Inf(1)
		for _, shore := range shores {
			for i := 1; i < len(shore); i++ {
				least = math.Min(least, flattest.ToSegment(at, shore[i-1], shore[i]))
			}
		}
		require.InDelta(t, least, lines.Nearest(at).Distance, 1e-9, "of a single point")
	})
}

// chords is how far the outlines of discs, which the tests look at, may lie inside the
// circles that are measured from.
func (fp *Footprint) chords() float64 {
	if slices.ContainsFunc(fp.Elements, func(e Element) bool { return e.IsDisc() }) {
		return arcTolerance
	}
	return 0
}

func drawShores(t *rapid.T) [][]orb.Point {
	var out [][]orb.Point
	for range rapid.IntRange(1, 3).Draw(t, "shores") {
		out = append(out, drawWalk(t, rapid.SampledFrom([]float64{0.2, 1, 3}).Draw(t, "roughness")))
	}
	return out
}

// TestFarthestUnsignedBoundsEverySample: no sampled point of the footprint may
// lie farther off than what is found, and what is found is taken at a place of
// the footprint.
func TestFarthestUnsignedBoundsEverySample(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fp := drawStructure(t)
		lines := NewLines(drawShores(t)...)
		got := fp.FarthestUnsigned(lines)
		for _, p := range fp.samples() {
			require.LessOrEqual(t, lines.Nearest(p).Distance, got.Distance+tolerance, "at %v", p)
		}
		requireTaken(t, fp, lines, got, got.Distance)
		require.InDelta(t, lines.Nearest(got.At).Distance, got.Distance, 1e-9)
	})
}

// requireTaken checks that a reach is a distance the lines give at a point of
// the footprint: so it is never above the true greatest distance.
func requireTaken(t require.TestingT, fp *Footprint, lines *Lines, got Reach, unsigned float64) {
	require.InDelta(t, math.Abs(unsigned), flat.Distance(got.At, got.Foot.At), 1e-9, "between its witness points")
	off := math.Inf(1)
	fp.eachEdge(func(a, b orb.Point) { off = math.Min(off, flattest.ToSegment(got.At, a, b)) })
	if off > 1e-7+fp.chords() {
		require.True(t, fp.covers(got.At), "%v is no point of the footprint", got.At)
	}
}

// requireSignedExtremes checks Farthest and Least against samples.
func requireSignedExtremes(t require.TestingT, fp *Footprint, lines *Lines) {
	far, least := fp.Farthest(lines), fp.Least(lines)
	for _, p := range fp.samples() {
		signed, _ := lines.Signed(p)
		require.LessOrEqual(t, signed, far.Distance+tolerance, "waterward at %v", p)
		require.GreaterOrEqual(t, signed, least.Distance-tolerance, "landward at %v", p)
	}
	for _, r := range []Reach{far, least} {
		requireTaken(t, fp, lines, r, r.Distance)
		if r.Distance != 0 {
			signed, _ := lines.Signed(r.At)
			require.InDelta(t, r.Distance, signed, 1e-6, "at %v", r.At)
		}
	}
	require.LessOrEqual(t, least.Distance, far.Distance+1e-9)
}

// TestSignedExtremesOnWholeShores: shores that pass the site from edge to edge,
// and closed ones, neither crossing itself: their sides change only on them.
func TestSignedExtremesOnWholeShores(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fp := drawStructure(t)
		var shore []orb.Point
		if rapid.Bool().Draw(t, "closed") {
			shore = flattest.DrawStar(t, orb.Point{flattest.Within(t, -50, 50, "x"), flattest.Within(t, -50, 50, "y")}, 2, 60)
		} else {
			// Far beyond both ends of anything drawn, east as far as west.
			shore = []orb.Point{{-5000, flattest.Within(t, -30, 30, "y")}}
			x := flattest.Within(t, -80, -40, "x")
			for range rapid.IntRange(1, 25).Draw(t, "steps") {
				shore = append(shore, orb.Point{x, flattest.Within(t, -30, 30, "y")})
				x += flattest.Within(t, 0.01, 12, "step")
			}
			shore = append(shore, orb.Point{5000, flattest.Within(t, -30, 30, "y")})
		}
		if rapid.Bool().Draw(t, "turned") {
			orb.LineString(shore).Reverse()
		}
		requireSignedExtremes(t, fp, NewLines(shore))
	})
}

// TestSideAgainstEvenOdd: the left of a counter-clockwise ring is its inside.
func TestSideAgainstEvenOdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := flattest.DrawStar(t, orb.Point{}, 1, 60)
		lines := NewLines(ring)
		turned := append(orb.Ring{}, ring...)
		turned.Reverse()
		for range 40 {
			p := orb.Point{flattest.Within(t, -70, 70, "x"), flattest.Within(t, -70, 70, "y")}
			f := lines.Nearest(p)
			if f.Distance < 1e-9 {
				continue // on the ring there is no side
			}
			want := -1.0
			if flattest.EvenOdd(p, ring) {
				want = 1
			}
			require.Equal(t, want, lines.side(p, f), "at %v", p)
			signed, _ := NewLines(turned).Signed(p)
			require.InDelta(t, -want*f.Distance, signed, 1e-9, "the other way round")
		}
	})
}
