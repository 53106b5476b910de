package front

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// county is a shore of so many kilometres in one line that winds to and fro, with a
// vertex every 5 m, and lots of 25 m along it: one in three reaches over the water,
// one ends on the shore's trend and one 15 ft short of it.
func county(kilometres int) *layers.Set {
	const row, pitch = 50_000.0, 400.0 // metres
	var shore []orb.Point
	var lots geo.LayerBuilder
	var items []layers.Attributes
	plane := crs.NewPlane(orb.Point{-81, 29})
	for done, k := 0.0, 0; done < float64(kilometres)*1000; k++ {
		length := math.Min(row, float64(kilometres)*1000-done)
		place := func(along, off float64) orb.Point {
			if k%2 == 1 { // back again, so that the water stays on the left
				along, off = row-along, -off
			}
			return plane.Inverse(orb.Point{along - row/2, float64(k)*pitch + off})
		}
		for s := 0.0; s < length; s += 5 {
			shore = append(shore, place(s, 3*math.Sin(s/17)+1.5*math.Sin(s/5.3+float64(k))))
		}
		for i, s := 0, 0.0; s+25 <= length; i, s = i+1, s+25 {
			y := []float64{10, 0, -15 * job.Foot}[i%3]
			lots.AddArea(orb.MultiPolygon{{{place(s, -60), place(s+25, -60), place(s+25, y), place(s+12, y-1), place(s, y), place(s, -60)}}})
			items = append(items, layers.Attributes{Label: fmt.Sprint(len(items))})
		}
		done += length
	}
	var high geo.LayerBuilder
	high.AddLine(shore)
	return &layers.Set{Named: map[string]*layers.Layer{
		"high_water": {Name: "high_water", Title: "the mean high water line", Geo: high.Build(true), Items: []layers.Attributes{{Stated: &layers.Stated{Side: 1}}}},
		"parcels":    {Name: "parcels", Title: "parcels", Geo: lots.Build(false), Items: items},
	}}
}

func BenchmarkFronts(b *testing.B) {
	m := county(1500)
	var before, after runtime.MemStats
	for b.Loop() {
		runtime.GC()
		runtime.ReadMemStats(&before)
		found, err := Find(context.Background(), m, job.DefaultRadius, job.ParcelTolerance, runtime.GOMAXPROCS(0))
		require.NoError(b, err)
		runtime.ReadMemStats(&after)
		b.ReportMetric(float64(len(found)), "fronts")
		b.ReportMetric(float64(after.TotalAlloc-before.TotalAlloc)/1e6, "MB-allocated")
		runtime.GC()
		runtime.ReadMemStats(&after)
		b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/1e6, "MB-kept")
		runtime.KeepAlive(found)
	}
}

func BenchmarkNotes(b *testing.B) {
	m := county(1500)
	fronts, err := Find(context.Background(), m, job.DefaultRadius, job.ParcelTolerance, runtime.GOMAXPROCS(0))
	require.NoError(b, err)
	for b.Loop() {
		notes, err := NotesOf(context.Background(), m, fronts, job.DefaultRadius, job.ParcelTolerance, runtime.GOMAXPROCS(0))
		require.NoError(b, err)
		b.ReportMetric(float64(len(notes.Without)), "without")
	}
}
