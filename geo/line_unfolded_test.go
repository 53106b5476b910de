package geo

import (
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// TestDrawnAgain: a shore of which a stretch is drawn again, by a second feature or by one
// that goes back over itself, is the same shore; land of no width is land. Worked by hand,
// in feet.
func TestDrawnAgain(t *testing.T) {
	for name, c := range map[string]struct {
		shore     [][]orb.Point
		far, bank float64
	}{
		"once":                   {[][]orb.Point{shoreLine(-800, 0, 800, 0)}, 9, 60},
		"two features":           {[][]orb.Point{shoreLine(-800, 0, 40, 0), shoreLine(20, 0, 800, 0)}, 9, 60},
		"the later first":        {[][]orb.Point{shoreLine(20, 0, 800, 0), shoreLine(-800, 0, 40, 0)}, 9, 60},
		"one within the other":   {[][]orb.Point{shoreLine(20, 0, 40, 0), shoreLine(-800, 0, 800, 0)}, 9, 60},
		"three features":         {[][]orb.Point{shoreLine(-800, 0, 40, 0), shoreLine(20, 0, 800, 0), shoreLine(10, 0, 50, 0)}, 9, 60},
		"with vertices":          {[][]orb.Point{shoreLine(-800, 0, 5, 0, 25, 0, 40, 0), shoreLine(20, 0, 33, 0, 800, 0)}, 9, 60},
		"round a corner":         {[][]orb.Point{shoreLine(-800, 0, 30, 0, 30, -20), shoreLine(10, 0, 30, 0, 30, -20, 800, -20)}, 29, 80},
		"back over itself":       {[][]orb.Point{shoreLine(-800, 0, 40, 0, 10, 0, 800, 0)}, 9, 60},
		"back over itself twice": {[][]orb.Point{shoreLine(-800, 0, 40, 0, 10, 0, 50, 0, 5, 0, 800, 0)}, 9, 60},
		"back round a corner":    {[][]orb.Point{shoreLine(-800, 0, 30, 0, 30, -20, 40, -20, 30, -20, 30, 0, 30, -20, 800, -20)}, 29, 80},
		"a wall of no width":     {[][]orb.Point{shoreLine(-800, 0, 30, 0, 30, 2, 30, 0, 800, 0)}, 9, 64},
	} {
		for _, side := range []int{1, -1} {
			lines := make([][]orb.Point, len(c.shore))
			for i := range lines {
				if lines[i] = inFeet(c.shore[i]...); side < 0 {
					slices.Reverse(lines[i])
				}
			}
			faced, unsettled := NewLines(lines...).FaceWater(Evidence{Stated: func(int) int { return side }})
			require.Empty(t, unsettled)
			require.Len(t, faced.chains(), 1, name)
			fp := boxFeet(0, 3, 60, 9)
			bank := HomeBank(fp, faced)
			require.False(t, bank.Unmapped(), name)
			requireFeet(t, c.bank, bank.Length().Along, name)
			requireFeet(t, c.far, bank.Farthest(fp).High.Distance, name)
		}
	}
}
