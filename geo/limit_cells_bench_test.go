package geo

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
)

// BenchmarkDivide parts a window along the shore, limits beside it and 40 beds.
func BenchmarkDivide(b *testing.B) {
	r := rand.New(rand.NewPCG(51, 52))
	shore := []orb.Point{{-60, 0}}
	for x := -58.0; x <= 60; x += 2 {
		shore = append(shore, orb.Point{x, r.Float64()})
	}
	window := orb.Bound{Min: orb.Point{-60, -5}, Max: orb.Point{60, 60}}
	courses := []area.Course{{Points: shore, Wall: true, Start: true}}
	add := func(lines *Lines, d float64) {
		rings, err := LimitRings(lines, d, window)
		require.NoError(b, err)
		for _, ring := range rings {
			courses = append(courses, area.Course{Points: ring})
		}
	}
	for _, d := range []float64{3, 9, 18, 45} {
		add(NewLines(shore), d)
	}
	for range 40 {
		bed := disc(orb.Point{120*r.Float64() - 60, 5 + 50*r.Float64()}, 1+2*r.Float64())[0]
		courses = append(courses, area.Course{Points: bed})
		add(NewLines(bed), 3)
	}
	b.ReportAllocs()
	for b.Loop() {
		_, err := area.Divide(courses, window)
		require.NoError(b, err)
	}
}
