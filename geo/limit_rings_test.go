package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// octagon is an islet: eight corners on a circle round the origin, with the
// water on its left.
func octagon(radius float64) []orb.Point {
	var ring []orb.Point
	for i := range 8 {
		s, c := math.Sincos(-2 * math.Pi * float64(i) / 8)
		ring = append(ring, orb.Point{radius * c, radius * s})
	}
	return append(ring, ring[0])
}

func totalLength(lines [][]orb.Point) float64 {
	sum := 0.0
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			sum += flat.Distance(line[i-1], line[i])
		}
	}
	return sum
}

// TestLimitLinesRoundAnIslet: the line d outside a convex ring is as long as
// the ring and a circle of radius d (Steiner). Inside an octagon of inradius r
// it is the octagon of inradius r - d; where d is more than r there is none,
// though buffers of small closed lines are known to leave a false hole there
// (a general geometry engine's issue 876 has an octagon at d = 15).
func TestLimitLinesRoundAnIslet(t *testing.T) {
	window := orb.Bound{Min: orb.Point{-100, -100}, Max: orb.Point{100, 100}}
	for _, radius := range []float64{9, 10, 11, 25} {
		inradius := radius * math.Cos(math.Pi/8)
		side := 2 * radius * math.Sin(math.Pi/8)
		for _, d := range []float64{2, 8, 15, 30.48} {
			outside := 8*side + 2*math.Pi*d
			inside := math.Max(0, 16*math.Tan(math.Pi/8)*(inradius-d))
			for name, c := range map[string]struct {
				ring []orb.Point
				side LimitSide
				want float64
			}{
				"water outside": {octagon(radius), WaterSide, outside},
				"water inside":  {orb.LineString(flattest.Reversed(octagon(radius))), WaterSide, inside},
				"both sides":    {octagon(radius), BothSides, outside + inside},
			} {
				drawn := LimitLines(NewLines(c.ring), d, c.side, window)
				got := totalLength(drawn)
				require.InDelta(t, c.want, got, 0.002*outside, "%s, radius %g at %g m", name, radius, d)
				lines := NewLines(c.ring)
				for _, line := range drawn {
					for _, p := range line {
						require.InDelta(t, d, lines.Nearest(p).Distance, limitTolerance, "%s, radius %g at %g m", name, radius, d)
					}
				}
			}
		}
	}
}

// TestLimitLinesOnBothSides of a straight shore: two lines, without the caps
// round its ends. On the water side one. Worked by hand.
func TestLimitLinesOnBothSides(t *testing.T) {
	shore := NewLines([]orb.Point{{-50, 0}, {50, 0}})
	window := orb.Bound{Min: orb.Point{-200, -200}, Max: orb.Point{200, 200}}
	for side, want := range map[LimitSide]float64{BothSides: 200, WaterSide: 100} {
		drawn := LimitLines(shore, 9, side, window)
		require.InDelta(t, want, totalLength(drawn), 0.5)
		for _, line := range drawn {
			for _, p := range line {
				require.InDelta(t, 9, math.Abs(p[1]), limitTolerance)
				if side == WaterSide {
					require.Positive(t, p[1])
				}
			}
		}
	}
	none := LimitLines(NewLines(), 9, BothSides, window)
	require.Empty(t, none)
	far := LimitLines(shore, 9, BothSides, orb.Bound{Min: orb.Point{900, 900}, Max: orb.Point{950, 950}})
	require.Empty(t, far)
}
