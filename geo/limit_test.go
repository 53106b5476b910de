package geo

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
	"waterward/geo/flat"
)

// wildShore is an invented shore: a random walk east, some of it rough.
func wildShore(r *rand.Rand, n int, rough float64) []orb.Point {
	line := []orb.Point{{-300, 0}}
	for range n {
		p := line[len(line)-1]
		line = append(line, orb.Point{p[0] + 600/float64(n), p[1]*0.97 + rough*(r.Float64()-0.5)})
	}
	return line
}

// TestLimitLinesLieWhereTheySay samples drawn limit lines with the exact
// distance: nothing may be more than 0.05 ft out of place, on the wrong side,
// or missing where the exact distance says there is a limit.
func TestLimitLinesLieWhereTheySay(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	window := orb.Bound{Min: orb.Point{-100, -100}, Max: orb.Point{100, 100}}
	for trial := range 60 {
		lines := NewLines(wildShore(r, 40+trial*4, float64(trial%6)*3))
		for _, d := range []float64{3.048, 9.144, 30.48} {
			drawn := LimitLines(lines, d, WaterSide, window)
			worst, length := 0.0, 0.0
			for _, line := range drawn {
				for i := 1; i < len(line); i++ {
					length += flat.Distance(line[i-1], line[i])
					for _, f := range []float64{0, 0.25, 0.5, 0.75, 1} {
						p := orb.Point{line[i-1][0] + f*(line[i][0]-line[i-1][0]), line[i-1][1] + f*(line[i][1]-line[i-1][1])}
						signed, _ := lines.Signed(p)
						worst = math.Max(worst, math.Abs(signed-d))
					}
				}
			}
			require.LessOrEqual(t, worst, limitTolerance, "trial %d at %g m", trial, d)
			require.Greater(t, length, 180.0, "trial %d at %g m: the limit line has holes", trial, d)
		}
	}
}

// TestLimitLinesLeaveNothingOut compares with the buffers of the geometry library (a
// port of JTS), whose vertices are moved to the exact distance: every one of them lies on
// a limit ring, where those close, and but for those round free ends on a limit line, to
// within how far apart pieces of one may meet.
func TestLimitLinesLeaveNothingOut(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	window := orb.Bound{Min: orb.Point{-100, -100}, Max: orb.Point{100, 100}}
	inner := window.Pad(-1)
	asked, closed := 0, 0
	for trial := range 60 {
		shore := wildShore(r, 30+trial*4, float64(trial%6)*4)
		lines := NewLines(shore, octagon(5+float64(trial%9)), []orb.Point{{-80, -60}, {-20, -50}, {-10, -90}})
		for _, d := range []float64{1.5, 9.144, 22} {
			drawn := NewLines(LimitLines(lines, d, BothSides, window)...)
			near := lines.meeting(window.Pad(d * 1.01))
			outlines, err := near.bufferRings(d)
			require.NoError(t, err)
			rings, whole := closedLimit(near, d)
			if whole {
				closed++
			}
			own := NewLines(rings...)
			for _, ring := range outlines {
				require.Equal(t, ring[0], ring[len(ring)-1])
				for _, p := range ring {
					f := lines.Nearest(p)
					if !inner.Contains(p) || math.Abs(f.Distance-d) > limitTolerance/5 {
						continue // the remains of a fold of the buffer
					}
					if whole {
						require.Less(t, own.Nearest(p).Distance, limitJoin, "ring, trial %d at %g m: %v", trial, d, p)
					}
					if lines.ends(f) {
						continue
					}
					asked++
					require.Less(t, drawn.Nearest(p).Distance, limitJoin, "trial %d at %g m: %v", trial, d, p)
				}
			}
		}
	}
	require.Greater(t, asked, 10000)
	require.Greater(t, closed, 100)
}

// TestBuffersOfManyLinesAreJoined: lines 10 m long, 1 m apart, within 1 m of which lie a
// rectangle and at either end half a disc for each, of which only neighbours overlap, in a
// lens. Worked by hand.
func TestBuffersOfManyLinesAreJoined(t *testing.T) {
	const n = 5 * fewLines
	var lines [][]orb.Point
	for i := range n {
		lines = append(lines, []orb.Point{{0, float64(i)}, {10, float64(i)}})
	}
	buffer, err := NewLines(lines...).buffer(1)
	require.NoError(t, err)
	require.Len(t, buffer, 1)
	lens := 2*math.Pi/3 - math.Sqrt(3)/2
	want := 10*(n+1) + n*math.Pi - (n-1)*lens
	require.InEpsilon(t, want, area.Of(buffer), 0.002, "chords leave a six-hundredth of a disc out")
}
