package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// insideRight is the outline of a rectangle in feet with its inside on the right.
func insideRight(x0, y0, x1, y1 float64) []orb.Point {
	return []orb.Point{
		{x0 * ft, y0 * ft}, {x0 * ft, y1 * ft}, {x1 * ft, y1 * ft}, {x1 * ft, y0 * ft}, {x0 * ft, y0 * ft},
	}
}

// Worked by hand, in feet. The shore is y = 0 with the water above.
func TestFronting(t *testing.T) {
	shore := []orb.Point{{-500 * ft, 0}, {500 * ft, 0}}
	for _, tt := range []struct {
		name              string
		sill              *Footprint
		marsh             [][]orb.Point
		behind            float64
		farthest, standOf float64 // -1: none of it lies before the marsh
	}{
		{"before all of it", boxFeet(-30, 10, 30, 16), [][]orb.Point{insideRight(-60, -5, 60, 6)}, 30, 10, 4},
		{"beside it", boxFeet(2, 10, 62, 16), [][]orb.Point{insideRight(-60, -5, 0, 6)}, 30, -1, -1},
		{"past its end with half", boxFeet(-30, 10, 30, 16), [][]orb.Point{insideRight(-60, -5, 0, 6)}, 30, 10, 4},
		{"across a gap between two", boxFeet(-30, 10, 30, 16), [][]orb.Point{insideRight(-60, -5, -8, 6), insideRight(8, -5, 60, 6)}, 30, 10, 4},
		{"behind the shore", boxFeet(-30, 10, 30, 16), [][]orb.Point{insideRight(-60, -20, 60, -5)}, 30, 21, 15},
		{"too far behind the shore", boxFeet(-30, 10, 30, 16), [][]orb.Point{insideRight(-60, -20, 60, -5)}, 4, -1, -1},
		{"within it in part", boxFeet(-30, 4, 30, 10), [][]orb.Point{insideRight(-60, -5, 60, 6)}, 30, 4, -2},
		{"oblique", alone(Element{Areas: []orb.Polygon{{{{-30 * ft, 10 * ft}, {30 * ft, 16 * ft}, {30 * ft, 20 * ft}, {-30 * ft, 14 * ft}, {-30 * ft, 10 * ft}}}}}),
			[][]orb.Point{insideRight(-60, -5, 60, 6)}, 30, 14, 10},
	} {
		t.Run(tt.name, func(t *testing.T) {
			bank := HomeBank(tt.sill, NewLines(shore))
			outline, landward := bank.Fronting(tt.sill, NewLines(tt.marsh...), tt.behind*ft)
			require.Equal(t, tt.farthest < 0, outline == nil)
			if outline == nil {
				require.Nil(t, landward)
				return
			}
			require.InDelta(t, tt.farthest, outline.Farthest(NewLines(tt.marsh...)).Distance/ft, 0.0015)
			require.InDelta(t, tt.standOf, landward.Farthest(NewLines(tt.marsh...)).Distance/ft, 0.0015)
		})
	}
}

// In a narrow creek the marsh of the far bank is not that of the near one, even
// where the far bank is taken for the other leg of one shore.
func TestBesideLeavesOutTheFarBank(t *testing.T) {
	creek := []orb.Point{{-500 * ft, 0}, {500 * ft, 0}, {500 * ft, 40 * ft}, {-500 * ft, 40 * ft}}
	fp := boxFeet(-30, 10, 30, 16)
	bank := HomeBank(fp, NewLines(creek))
	far, near := insideRight(-60, 36, 60, 60), insideRight(-60, -5, 60, 6)
	require.True(t, bank.Beside(NewLines(far)).Empty())
	require.Len(t, bank.Beside(NewLines(near, far)).use, 4)
}
