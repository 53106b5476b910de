package screening

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What an envelope is asked for is refused before anything is read, by its name.
func TestEnvelopeSettings(t *testing.T) {
	require.NoError(t, EnvelopeSource{}.settled().check(), "the defaults")
	ft := func(n float64) Distance { return Distance{n * foot, true} }
	for about, c := range map[string]struct {
		of    EnvelopeSource
		wrong string
	}{
		"no width":               {EnvelopeSource{Width: ft(0)}, "width is a length of more than 0"},
		"no length":              {EnvelopeSource{Least: ft(0)}, "least_length is a length of more than 0"},
		"the open sea":           {EnvelopeSource{Reach: ft(1000.1)}, "reach is more than 1000 ft"},
		"parcels behind others":  {EnvelopeSource{Tolerance: ft(300.1)}, "tolerance is more than 300 ft"},
		"what the tool draws":    {EnvelopeSource{Structure: map[string]string{"width_ft": "6"}}, "structure states no width_ft"},
		"what nothing ever asks": {EnvelopeSource{Structure: map[string]string{"colour": "grey"}}, "nothing reads a property colour"},
	} {
		t.Run(about, func(t *testing.T) {
			var fault *JobError
			require.ErrorAs(t, c.of.settled().check(), &fault)
			require.ErrorContains(t, fault, c.wrong)
		})
	}
	for _, c := range []EnvelopeSource{{Reach: ft(1000)}, {Tolerance: ft(300)}, {Tolerance: ft(0)}} {
		require.NoError(t, c.settled().check(), "at the limit")
	}
}
