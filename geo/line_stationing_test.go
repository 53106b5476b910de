package geo

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat"
)

// Stations are those that going along the whole line finds, on lines that cross and
// touch themselves, of points on them, beside them and off them.
func TestStationingFindsWhatTheBaselineDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	on := 0
	for range 200 {
		line := []orb.Point{{0, 0}}
		for range 1 + r.IntN(30) {
			last := line[len(line)-1]
			line = append(line, orb.Point{last[0] + float64(r.IntN(7)-3), last[1] + float64(r.IntN(7)-3)})
		}
		base, stations := NewBaseline(line), NewStationing(line)
		for range 50 {
			p := base.At(base.Length() * r.Float64())
			if r.IntN(2) == 0 {
				p = orb.Point{p[0] + 2*onLine*(r.Float64()-0.5), p[1] + 2*onLine*(r.Float64()-0.5)}
			}
			want, isOn := base.stationOf(p)
			got, ok := stations.Of(p)
			require.Equal(t, isOn, ok)
			require.Equal(t, want, got)
			if ok {
				on++
			}
		}
	}
	require.Greater(t, on, 1000)
}

// stationOf looks at every edge of the line.
func (b Baseline) stationOf(p orb.Point) (float64, bool) {
	for i := range b.line.NumCoords() - 1 {
		from, to := b.line.Coord(i), b.line.Coord(i+1)
		q, t := flat.Project(orb.Point{from[0], from[1]}, orb.Point{to[0], to[1]}, p)
		if flat.Distance(p, q) <= onLine {
			return b.Station(i, t), true
		}
	}
	return 0, false
}
