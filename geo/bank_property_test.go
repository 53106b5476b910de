package geo

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat/flattest"
)

// randomShores draw shores of ten kinds, in feet, the water on their left, near the origin.
var randomShores = []struct {
	kind string
	draw func(r *rand.Rand) [][]orb.Point
}{
	{"straight", func(r *rand.Rand) [][]orb.Point { return [][]orb.Point{rough(r, straight, 0.5)} }},
	{"cove", func(r *rand.Rand) [][]orb.Point {
		radius := 40 + 80*r.Float64()
		line := shoreLine(-800, 0)
		for i := range 40 { // its far end is lower, so that no way only grazes it
			s, c := math.Sincos(math.Pi * float64(i) / 40)
			line = append(line, orb.Point{-radius * c, -radius * s})
		}
		return [][]orb.Point{append(line, orb.Point{800, 0})}
	}},
	{"canal", func(r *rand.Rand) [][]orb.Point {
		w := 12 + 60*r.Float64()
		return [][]orb.Point{rough(r, straight, 0.3), rough(r, shoreLine(900, w, -900, w+6), 0.3)}
	}},
	{"canal head", func(r *rand.Rand) [][]orb.Point {
		w := 12 + 60*r.Float64()
		return [][]orb.Point{rough(r, shoreLine(-600, 0, 30, 0, 30, w, -600, w), 0.3)}
	}},
	{"square corner", func(r *rand.Rand) [][]orb.Point {
		return [][]orb.Point{rough(r, shoreLine(-600, 0, 20, 0, 20, 600), 0.3)}
	}},
	{"acute corner", func(r *rand.Rand) [][]orb.Point {
		s, c := math.Sincos((30 + 40*r.Float64()) * math.Pi / 180)
		return [][]orb.Point{shoreLine(-60+600*c, 600*s, -60, 0, 540, 0)}
	}},
	{"spit", func(r *rand.Rand) [][]orb.Point {
		w, long := 4+30*r.Float64(), 30+100*r.Float64()
		return [][]orb.Point{rough(r, shoreLine(-600, 0, 0, 0, 0, long, w, long, w, 0, 600, 0), 0.3)}
	}},
	{"island", func(r *rand.Rand) [][]orb.Point {
		x, y, w, h := 40*r.Float64()-20, 20+30*r.Float64(), 3+80*r.Float64(), 3+40*r.Float64()
		return [][]orb.Point{rough(r, straight, 0.3), clockwise(x, y, x+w, y+h)}
	}},
	{"slips", func(r *rand.Rand) [][]orb.Point {
		line := shoreLine(-600, 0)
		for x := -150.0; x < 150; x += 50 + 40*r.Float64() {
			w, deep := 8+25*r.Float64(), 10+60*r.Float64()
			line = append(line, shoreLine(x, 0, x, -deep, x+w, -deep, x+w, 0)...)
		}
		return [][]orb.Point{append(line, orb.Point{600, 0})}
	}},
	{"groins", func(r *rand.Rand) [][]orb.Point {
		line := shoreLine(-600, 0)
		for x := -150.0; x < 150; x += 40 + 60*r.Float64() {
			long, lean := 10+60*r.Float64(), 10*r.Float64()-5
			line = append(line, shoreLine(x, 0, x+lean, long, x+lean+4, long, x+4, 0)...)
		}
		return [][]orb.Point{append(line, orb.Point{600, 0})}
	}},
}

// rough moves places of a line, 30 ft apart, by up to so many feet each way.
func rough(r *rand.Rand, line []orb.Point, by float64) []orb.Point {
	line = append([]orb.Point{}, cutEvery(30, line)...)
	for i := 1; i < len(line)-1; i++ {
		line[i] = orb.Point{line[i][0] + by*(2*r.Float64()-1), line[i][1] + by*(2*r.Float64()-1)}
	}
	return line
}

// TestHowAShoreIsDrawnIsNoMatter: however 500 shores of ten kinds are cut into features,
// digitised and given vertices, each in all of these ways, everything that is measured from
// them is the same.
func TestHowAShoreIsDrawnIsNoMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(81, 82))
	crossed := 0
	for n := range 500 {
		kind := randomShores[n%len(randomShores)]
		shore := kind.draw(r)
		sin, cos := math.Sincos(0.6*r.Float64() - 0.3)
		x, y := 60*r.Float64()-50, 3+12*r.Float64()
		long, wide := 10+60*r.Float64(), 3+12*r.Float64()
		var ring orb.Ring
		for _, p := range flattest.RingOf(0, 0, long, wide) {
			ring = append(ring, orb.Point{x + p[0]*cos - p[1]*sin, y + p[0]*sin + p[1]*cos})
		}
		fp := drawn([]orb.Polygon{{orb.Ring(inFeet(ring...))}})
		var first []float64
		var even bool
		ways := drawnWays(shore)
		for _, way := range []string{"as drawn", "cut", "reversed", "vertices", "all"} {
			bank := HomeBank(fp, ways[way])
			far, near, length := bank.Farthest(fp), bank.Nearest(fp), bank.Length()
			width, rock := bank.WidthAcross()
			got := []float64{
				far.High.Distance, far.Low.Distance, far.General.Distance, near.High.Distance, near.Low.Distance,
				length.Along, length.Across, length.General, length.Low, width.Distance, rock.Distance,
			}
			if way == "as drawn" {
				first, even = got, bank.Even
				if !bank.plain() {
					crossed++
				}
				continue
			}
			if even || bank.Even { // and so nothing is told
				require.Equal(t, even, bank.Even)
				continue
			}
			for i := range got {
				same := math.Abs(got[i]-first[i]) <= 0.01*ft || math.IsNaN(got[i]) && math.IsNaN(first[i]) || math.IsInf(got[i], 1) && math.IsInf(first[i], 1)
				require.True(t, same, fmt.Sprintf("shore %d, %s, %s, number %d: %g, then %g", n, kind.kind, way, i, first[i]/ft, got[i]/ft))
			}
		}
	}
	require.Greater(t, crossed, 40, "with another shore across")
}
