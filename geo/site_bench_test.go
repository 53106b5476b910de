package geo

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat/flattest"
)

// The benchmarks of what one site costs: a shore of 120 edges over 600 m, rough by a
// metre, and a reef of three pieces before it.
func benchSite() (*Footprint, *Lines) {
	shore := NewLines(wildShore(rand.New(rand.NewPCG(3, 4)), 120, 2))
	reef := orb.MultiPolygon{}
	for _, x := range []float64{-30, -5, 20} {
		var ring orb.Ring
		for _, p := range flattest.RingOf(x, 12, x+20, 15) {
			ring = append(ring, site.Inverse(p))
		}
		reef = append(reef, orb.Polygon{ring})
	}
	fp, err := NewFootprint(reef, 0, 0)
	if err != nil {
		panic(err)
	}
	return fp, shore
}

func BenchmarkNearest(b *testing.B) {
	fp, shore := benchSite()
	for b.Loop() {
		fp.Nearest(shore)
	}
}

func BenchmarkFarthest(b *testing.B) {
	fp, shore := benchSite()
	for b.Loop() {
		fp.Farthest(shore)
	}
}

func BenchmarkLandwardEdge(b *testing.B) {
	fp, shore := benchSite()
	for b.Loop() {
		fp.landwardEdge(shore)
	}
}

func BenchmarkHomeBank(b *testing.B) {
	fp, shore := benchSite()
	for b.Loop() {
		HomeBank(fp, shore)
	}
}

func BenchmarkLongestRun(b *testing.B) {
	fp, _ := benchSite()
	for b.Loop() {
		fp.LongestRun(5 * ft)
	}
}

func BenchmarkLimitLines(b *testing.B) {
	fp, shore := benchSite()
	for b.Loop() {
		LimitLines(shore, 30*ft, WaterSide, fp.Bound.Pad(100*ft))
	}
}

// BenchmarkSharedArea overlays the reef with a bed of 64 vertices.
func BenchmarkSharedArea(b *testing.B) {
	fp, _ := benchSite()
	var ring orb.Ring
	for _, p := range arc(orb.Point{0, 13}, orb.Point{15, 0}, 6.2) {
		ring = append(ring, site.Inverse(p))
	}
	var builder LayerBuilder
	builder.AddArea(orb.MultiPolygon{{append(ring, ring[0])}})
	layer := builder.Build(false)
	for b.Loop() {
		if area, err := fp.SharedArea(layer, []int{0}); err != nil || area == 0 {
			b.Fatal(area, err)
		}
	}
}

// BenchmarkNear carries what lies within 1,000 ft of a site into its plane, of a shore
// of 20,000 edges.
func BenchmarkNear(b *testing.B) {
	fp, _ := benchSite()
	var line orb.LineString
	for _, p := range wildShore(rand.New(rand.NewPCG(3, 4)), 20_000, 2) {
		line = append(line, site.Inverse(orb.Point{p[0] * 100, p[1]}))
	}
	var builder LayerBuilder
	builder.AddLine(line)
	layer := builder.Build(true)
	window := crs.Window(orb.MultiPoint{fp.Plane.Inverse(fp.Bound.Min), fp.Plane.Inverse(fp.Bound.Max)}.Bound(), 1000*ft)
	for b.Loop() {
		if layer.Near(fp.Plane, window).Empty() {
			b.Fatal("nothing is near")
		}
	}
}
