package screening

import "testing"

// BenchmarkEnvelope works out every holding of the demo county.
func BenchmarkEnvelope(b *testing.B) {
	e, fronts := demoFronts(b)
	all := holdings(fronts, len(e.layers.layer("parcels").items))
	b.ReportAllocs()
	for b.Loop() {
		for _, h := range all {
			e.work(h)
		}
	}
}
