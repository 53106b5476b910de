package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const foot = 0.3048

func stated(line, footprint float64) []Accuracy {
	return []Accuracy{{Of: "the line", Line: line * foot, Footprint: footprint * foot}}
}

// JCGM 106 style one-sided tolerance; figures worked by hand with the normal
// quantile 1.6449 and the 95 % radial factor 2.4477 of FGDC-STD-007.3-1998.
func TestGuard(t *testing.T) {
	for _, tt := range []struct{ line, footprint, tolerance float64 }{
		{3, 1, 2.1251},
		{1, 1, 0.9504},
		{10, 1, 6.7537},
		{0, 0, 0},
	} {
		tolerance, unstated := stated(tt.line, tt.footprint)[0].Tolerance()
		require.Empty(t, unstated)
		require.InDelta(t, tt.tolerance, tolerance/foot, 5e-5, "%v and %v ft", tt.line, tt.footprint)
	}
}

func TestGuardListsWhatIsUnstated(t *testing.T) {
	const line, footprint = "the accuracy of MHW-2 is not stated", "the accuracy of the proposal is not stated"
	nan := math.NaN()
	whole, _ := Accuracy{Line: 3}.Tolerance()
	for _, tt := range []struct {
		accuracy  Accuracy
		tolerance float64
		unstated  []string
	}{
		{Accuracy{Line: 3, Footprint: nan}, whole, []string{footprint}},
		{Accuracy{Of: "MHW-2", Line: nan, Footprint: 3}, whole, []string{line}},
		{Accuracy{Of: "MHW-2", Line: nan, Footprint: nan}, 0, []string{line, footprint}},
		{Accuracy{Of: "MHW-2", Line: nan, Footprint: nan, Bias: -0.5}, 0.5, []string{line, footprint}},
	} {
		tolerance, unstated := tt.accuracy.Tolerance()
		require.InDelta(t, tt.tolerance, tolerance, 1e-12)
		require.Equal(t, tt.unstated, unstated)
	}
}

// A datum mismatch shifts everything one way, so it adds in full.
func TestBiasAddsLinearly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Accuracy{
			Line:      rapid.Float64Range(0, 50).Draw(t, "line"),
			Footprint: rapid.Float64Range(0, 50).Draw(t, "footprint"),
		}
		bias := rapid.Float64Range(-5, 5).Draw(t, "bias")
		without, _ := a.Tolerance()
		a.Bias = bias
		with, _ := a.Tolerance()
		require.InDelta(t, without+math.Abs(bias), with, 1e-9)
	})
}

// Heights have one axis: by NSSDA a vertical figure at 95 % is 1.9600 standard
// deviations, so 0.3 and 0.4 ft together leave 1.6449 x 0.5 / 1.96 = 0.4196 ft. A part
// that is not stated is said.
func TestGuardOfHeights(t *testing.T) {
	tolerance, unstated := Accuracy{Line: 0.3, Footprint: 0.4, OfHeights: true}.Tolerance()
	require.InDelta(t, 0.4196, tolerance, 5e-5)
	require.Empty(t, unstated)
	tolerance, unstated = Accuracy{Of: "MHW-2", Line: math.NaN(), Footprint: 0.4, OfHeights: true}.Tolerance()
	require.InDelta(t, 0.3357, tolerance, 5e-5)
	require.Equal(t, []string{"the vertical accuracy of MHW-2 is not stated"}, unstated)
	_, unstated = Accuracy{Line: 0.3, Footprint: math.NaN(), OfHeights: true}.Tolerance()
	require.Equal(t, []string{"the vertical accuracy of the proposal's elevations is not stated"}, unstated)
}
