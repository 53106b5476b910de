package geo

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
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
			drawn, err := LimitLines(lines, d, WaterSide, window)
			require.NoError(t, err)
			worst, length := 0.0, 0.0
			for _, line := range drawn {
				for i := 1; i < len(line); i++ {
					length += distance(line[i-1], line[i])
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
