package flat

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// slowOrientation works the determinant out with numbers long enough to round nothing:
// 53 bits and a difference of exponents of 900, twice over for products.
func slowOrientation(a, b, p orb.Point) int {
	const bits = 1000
	product := func(a, b, c, d float64) *big.Float {
		difference := func(x, y float64) *big.Float {
			return new(big.Float).SetPrec(bits).Sub(big.NewFloat(x), big.NewFloat(y))
		}
		return new(big.Float).SetPrec(2*bits).Mul(difference(a, b), difference(c, d))
	}
	return product(a[0], p[0], b[1], p[1]).Cmp(product(a[1], p[1], b[0], p[0]))
}

// Points on a line, or next to it in the last bits, far from the origin and near it,
// of one size or of many.
func TestOrientationIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	seen := map[int]int{}
	for range 200_000 {
		size := math.Ldexp(1, r.IntN(60)-30)
		if r.IntN(10) == 0 {
			size = math.Ldexp(1, r.IntN(800)-400)
		}
		coordinate := func() float64 {
			v := size * (r.Float64() - 0.5)
			switch r.IntN(6) {
			case 0:
				v = size * float64(r.IntN(8))
			case 1:
				v = math.Ldexp(v, -r.IntN(400))
			}
			return v
		}
		a, b := orb.Point{coordinate(), coordinate()}, orb.Point{coordinate(), coordinate()}
		share := float64(r.IntN(9)-4) / 4
		p := orb.Point{a[0] + share*(b[0]-a[0]), a[1] + share*(b[1]-a[1])}
		for range r.IntN(4) {
			k := r.IntN(2)
			if p[k] == 0 { // the next number is 1,074 powers of two away
				continue
			}
			p[k] = math.Nextafter(p[k], math.Inf(2*r.IntN(2)-1))
		}
		want := slowOrientation(a, b, p)
		seen[want]++
		require.Equal(t, want, Orientation(a, b, p), "%v %v %v", a, b, p)
		require.Equal(t, want, exactOrientation(a, b, p), "%v %v %v", a, b, p)
	}
	for _, sign := range []int{-1, 0, 1} {
		require.Greater(t, seen[sign], 10_000)
	}
}

func BenchmarkExactOrientation(b *testing.B) {
	for b.Loop() {
		exactOrientation(orb.Point{0.1, 0.1}, orb.Point{0.3, 0.3}, orb.Point{0.7, 0.7})
	}
}
