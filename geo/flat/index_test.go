package flat

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// The index finds what looking at every box finds, each once, in any number of boxes,
// and also along a line that goes on for ever.
func TestPackedFindsWhatTouches(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for _, n := range []int{0, 1, 2, 15, 16, 17, 255, 256, 257, 300, 5000} {
		boxes := make([]Box, n)
		for i := range boxes {
			x, y := math.Round(100*r.Float64()), 100*r.Float64()
			boxes[i] = Box{x, y, x + 3*r.Float64(), y + 3*r.Float64()}
		}
		index := NewIndex(n, func(i int) Box { return boxes[i] })
		for range 200 {
			x, y := 100*r.Float64(), 100*r.Float64()
			window := Box{x, y, x + 20*r.Float64(), y + 20*r.Float64()}
			if r.IntN(4) == 0 {
				window.MaxX, window.MaxY = math.Inf(1), window.MinY
			}
			want := map[int]bool{}
			for i := range boxes {
				if boxes[i].MinX <= window.MaxX && boxes[i].MaxX >= window.MinX && boxes[i].MinY <= window.MaxY && boxes[i].MaxY >= window.MinY {
					want[i] = true
				}
			}
			seen := 0
			all := index.Search(window, func(i int) bool {
				require.True(t, want[i])
				delete(want, i)
				seen++
				return true
			})
			require.True(t, all)
			require.Empty(t, want)
			if seen > 1 {
				left := 1
				require.False(t, index.Search(window, func(int) bool { left--; return left > 0 }), "told to stop")
				require.Zero(t, left)
			}
		}
	}
}

// BenchmarkPacked asks 100,000 boxes what touches a window that holds about 10.
func BenchmarkPacked(b *testing.B) {
	r := rand.New(rand.NewPCG(7, 8))
	boxes := make([]Box, 100_000)
	for i := range boxes {
		x, y := 1000*r.Float64(), 1000*r.Float64()
		boxes[i] = Box{x, y, x + 1, y + 1}
	}
	index := NewIndex(len(boxes), func(i int) Box { return boxes[i] })
	for b.Loop() {
		x, y := 1000*r.Float64(), 1000*r.Float64()
		index.Search(Box{x, y, x + 10, y + 10}, func(int) bool { return true })
	}
}
