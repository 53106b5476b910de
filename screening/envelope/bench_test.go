package envelope

import "testing"

// BenchmarkEnvelope works out every holding of the demo county.
func BenchmarkEnvelope(b *testing.B) {
	e, fronts := demoFronts(b)
	all := Holdings(fronts, len(e.Layers.Layer("parcels").Items))
	b.ReportAllocs()
	for b.Loop() {
		for _, h := range all {
			e.Work(h)
		}
	}
}
