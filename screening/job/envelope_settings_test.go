package job

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What an envelope is asked for is refused before anything is read, by its name.
func TestEnvelopeSettings(t *testing.T) {
	require.NoError(t, Envelope{}.Settled().check(), "the defaults")
	ft := func(n float64) Distance { return Distance{n * Foot, true} }
	for about, c := range map[string]struct {
		of    Envelope
		wrong string
	}{
		"no width":               {Envelope{Width: ft(0)}, "width is a length of more than 0"},
		"no length":              {Envelope{Least: ft(0)}, "least_length is a length of more than 0"},
		"the open sea":           {Envelope{Reach: ft(1000.1)}, "reach is more than 1000 ft"},
		"parcels behind others":  {Envelope{Tolerance: ft(300.1)}, "tolerance is more than 300 ft"},
		"what the tool draws":    {Envelope{Structure: map[string]string{"width_ft": "6"}}, "structure states no width_ft"},
		"what nothing ever asks": {Envelope{Structure: map[string]string{"colour": "grey"}}, "nothing reads a property colour"},
	} {
		t.Run(about, func(t *testing.T) {
			var fault *Error
			require.ErrorAs(t, c.of.Settled().check(), &fault)
			require.ErrorContains(t, fault, c.wrong)
		})
	}
	for _, c := range []Envelope{{Reach: ft(1000)}, {Tolerance: ft(300)}, {Tolerance: ft(0)}} {
		require.NoError(t, c.Settled().check(), "at the limit")
	}
}
