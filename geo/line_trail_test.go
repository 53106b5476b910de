package geo

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// A trail has the feet that asking all lines has, along walks on a grid of lines where
// feet often tie, with short steps and with jumps.
func TestTrailHasTheFeetOfTheLines(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 50 {
		var lines [][]orb.Point
		for range 1 + r.IntN(40) {
			line := []orb.Point{{float64(r.IntN(40)), float64(r.IntN(40))}}
			for range 1 + r.IntN(20) {
				last := line[len(line)-1]
				line = append(line, orb.Point{last[0] + float64(r.IntN(5)-2), last[1] + float64(r.IntN(5)-2)})
			}
			lines = append(lines, line)
		}
		all := NewLines(lines...)
		trail := NewTrail(all)
		at := orb.Point{20, 20}
		for range 500 {
			step := 1.0
			if r.IntN(20) == 0 {
				step = 40
			}
			at = orb.Point{at[0] + step*(r.Float64()-0.5), at[1] + step*(r.Float64()-0.5)}
			if r.IntN(3) == 0 {
				at = orb.Point{float64(int(at[0])), float64(int(at[1]))}
			}
			require.Equal(t, all.Nearest(at), trail.Nearest(at))
		}
	}
}
