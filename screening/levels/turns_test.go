package levels

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Worked by hand by the rule of NOAA's Tidal Analysis Datum Calculator
// (tides.py, Check_Tides).
func TestWhichTurnsAreTides(t *testing.T) {
	at := func(hours, level float64, high bool) Turn {
		return Turn{time.Unix(0, 0).UTC().Add(time.Duration(hours * float64(time.Hour))), level, high}
	}
	for name, c := range map[string]struct{ turns, kept []Turn }{
		"tides":               {[]Turn{at(0, 1, true), at(6, 0, false), at(12, 1, true)}, []Turn{at(0, 1, true), at(6, 0, false), at(12, 1, true)}},
		"two hours are apart": {[]Turn{at(0, 1, true), at(2, 0, false)}, []Turn{at(0, 1, true), at(2, 0, false)}},
		"sooner is neither":   {[]Turn{at(0, 1, true), at(1.9, 0, false), at(8, 1, true)}, []Turn{at(8, 1, true)}},
		"too small a rise":    {[]Turn{at(0, 1, true), at(4, 0.971, false), at(8, 1, true)}, []Turn{at(8, 1, true)}},
		"alike and soon":      {[]Turn{at(0, 1, true), at(1, 2, true), at(6, 0, false)}, []Turn{at(0, 1, true), at(6, 0, false)}},
		"none":                {nil, nil},
	} {
		require.Equal(t, c.kept, tides(c.turns), name)
	}
}

// A prediction read as an observed record, with ripples of 2 cm and gaps of two
// hours and two days, keeps its datums: what an observed record is put through
// takes waves out and leaves tides in. The filter and the fit lose some
// millimetres at the turns (15 mm allowed; no source).
func TestRipplesAndGapsLeaveDatums(t *testing.T) {
	const tolerance = 0.015 // m
	tide, err := published(t)[0].Tide(MSL)
	require.NoError(t, err)
	s, err := tide.Years(1992, 1992)
	require.NoError(t, err)
	smooth, err := s.Reduce()
	require.NoError(t, err)
	s.Predicted = false
	for i := range s.Levels {
		s.Levels[i] += 0.02 * math.Sin(float64(i)*2*math.Pi/3.7) // 22 minutes
		if i%5000 < 20 || (i > 40000 && i < 40480) {
			s.Levels[i] = math.NaN()
		}
	}
	rough, err := s.Reduce()
	require.NoError(t, err)
	require.Len(t, s.turns(), 2)
	require.InDelta(t, smooth.Highs, rough.Highs, 5) // those of two days
	for name, pair := range map[string][2]float64{"MHHW": {smooth.MHHW, rough.MHHW}, "MHW": {smooth.MHW, rough.MHW}, "MLW": {smooth.MLW, rough.MLW}, "MLLW": {smooth.MLLW, rough.MLLW}} {
		t.Logf("%s %+.1f mm", name, 1000*(pair[1]-pair[0]))
		require.InDelta(t, pair[0], pair[1], tolerance, name)
	}
}
