package levels

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Source: counted and summed with awk from NOAA's sample series of 744 hourly
// levels (TADC repository, commit c5cc518).
func TestExposureOfHourlyRecord(t *testing.T) {
	const lastDigit = 0.00005 + 1e-9 // points: figures are recorded with four decimals
	s := cora(t)
	require.Equal(t, 744, s.valid())
	require.Equal(t, 1.0, s.coverage())
	counting, err := s.Exposure()
	require.NoError(t, err)
	crossing, err := s.crossedExposure()
	require.NoError(t, err)
	require.Equal(t, [2]Way{Counted, Crossed}, [2]Way{counting.Way, crossing.Way})
	for _, c := range []struct {
		z              float64
		below          int
		count, between float64
	}{
		{-0.25, 163, 21.9086, 20.7145},
		{0, 259, 34.8118, 33.9548},
		{0.353202, 361, 48.5215, 48.9283}, // its MSL
		{0.5, 411, 55.2419, 55.2508},
		{1.092685, 659, 88.5753, 88.6100}, // its MHW
	} {
		p, err := counting.Percent(c.z)
		require.NoError(t, err)
		require.InDelta(t, c.count, p, lastDigit, "counted at %g", c.z)
		require.InDelta(t, float64(c.below), p*744/100, 1e-9)
		p, err = crossing.Percent(c.z)
		require.NoError(t, err)
		require.InDelta(t, c.between, p, lastDigit, "crossed at %g", c.z)
	}
}

// Source: counted with awk from the file of NOAA's data service (Panama City,
// 9 to 12 October 2018, feet above MLLW, GMT), with one level blank.
func TestExposureOfSixMinuteRecord(t *testing.T) {
	s := readSeries(t, "CO-OPS__8729108__wl.csv", Stated{Feet, MLLW, time.UTC})
	require.Len(t, s.Levels, 725)
	require.Equal(t, 724, s.valid())
	require.Equal(t, 6*time.Minute, s.Step)
	require.InDelta(t, 724.0/725, s.coverage(), 1e-12)
	require.Equal(t, []string{"1 of 725 levels are missing, for at most 6 min (from 2018-10-10 18:18)"}, s.Notes)
	require.InDelta(t, 2.98232, Feet.from(s.Mean()), 0.000005) // the last digit recorded
	highest := 0
	for i, v := range s.Levels {
		if v > s.Levels[highest] {
			highest = i
		}
	}
	require.InDelta(t, 6.647, Feet.from(s.Levels[highest]), 1e-9)
	require.Equal(t, time.Date(2018, 10, 10, 18, 6, 0, 0, time.UTC), s.Start.Add(time.Duration(highest)*s.Step))
	e, err := s.Exposure()
	require.NoError(t, err)
	for feet, below := range map[float64]int{2.0: 100, 2.5: 243, 3.0: 383, 3.5: 540, 4.0: 634} {
		p, err := e.Percent(Feet.Metres(feet))
		require.NoError(t, err)
		require.InDelta(t, 100*float64(below)/724, p, 1e-9, "%g ft", feet)
	}
}

// Worked by hand: four levels 0, 1, 1, 3 m at even steps, so three steps: one
// rising a metre, one level at 1, one rising two metres.
func TestExposureByHand(t *testing.T) {
	s := &Series{Datum: STND, Step: time.Hour, Levels: []float64{0, 1, 1, 3}}
	counting, err := s.Exposure()
	require.NoError(t, err)
	crossing, err := s.crossedExposure()
	require.NoError(t, err)
	for _, c := range []struct{ z, count, cross float64 }{
		{0, 0, 0}, {0.5, 25, 100 * 0.5 / 3}, {1, 25, 100.0 / 3}, {2, 75, 100 * 2.5 / 3}, {3, 75, 100}, {4, 100, 100},
	} {
		p, _ := counting.Percent(c.z)
		require.InDelta(t, c.count, p, 1e-9, "counted at %g", c.z)
		p, _ = crossing.Percent(c.z)
		require.InDelta(t, c.cross, p, 1e-9, "crossed at %g", c.z)
	}
	z, err := counting.elevation(25)
	require.NoError(t, err)
	require.Equal(t, 1.0, z) // exposed for 25 %; anything above, for 75 %
	z, err = crossing.elevation(50)
	require.NoError(t, err)
	require.InDelta(t, 1.0, z, fine) // 33 % at 1 m and 67 % just above
	for _, percent := range []float64{0, 100, -1, math.NaN()} {
		_, err = counting.elevation(percent)
		require.ErrorContains(t, err, "more than 0 and less than 100")
	}
	_, err = counting.Percent(math.NaN())
	require.Error(t, err)
}

// A property: exposure never falls with elevation, and the elevation of an
// exposure is exposed no more than that, while what is above it is.
func TestExposureTurnsAbout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := &Series{Datum: STND, Step: time.Hour, Levels: rapid.SliceOfN(rapid.Float64Range(-3, 3), 2, 60).Draw(t, "levels")}
		percent := rapid.Float64Range(0.5, 99.5).Draw(t, "percent")
		for _, expose := range []func() (*Exposure, error){s.Exposure, s.crossedExposure} {
			e, err := expose()
			require.NoError(t, err)
			z, err := e.elevation(percent)
			require.NoError(t, err)
			at, _ := e.Percent(z)
			over, _ := e.Percent(z + 2*fine)
			require.LessOrEqual(t, at, percent+1e-9)
			require.GreaterOrEqual(t, over, percent-1e-9)
			a, b := rapid.Float64Range(-4, 4).Draw(t, "a"), rapid.Float64Range(-4, 4).Draw(t, "b")
			low, _ := e.Percent(min(a, b))
			high, _ := e.Percent(max(a, b))
			require.LessOrEqual(t, low, high)
		}
	})
}

// Common practice (see BandLimits): what survives and what is best include
// their limits.
func TestBandLimits(t *testing.T) {
	for _, c := range []struct {
		percent float64
		band    Band
	}{
		{0, TooLow}, {math.Nextafter(10, 0), TooLow}, {10, LowMargin}, {math.Nextafter(20, 0), LowMargin}, {20, BestGrowth},
		{40, BestGrowth}, {math.Nextafter(40, 100), HighMargin}, {55, HighMargin}, {math.Nextafter(55, 100), TooHigh}, {100, TooHigh},
	} {
		require.Equal(t, c.band, BandOf(c.percent), "%v", c.percent)
	}
	e, err := cora(t).crossedExposure()
	require.NoError(t, err)
	var z []float64
	for _, target := range e.Targets() {
		require.Empty(t, target.Unknown)
		require.Equal(t, STND, target.Datum)
		z = append(z, target.Metres)
	}
	require.True(t, slices.IsSorted(z))
	// The record of TestExposureOfHourlyRecord is exposed for 20.7, 34.0 and
	// 55.3 % at these elevations.
	require.Less(t, z[1], -0.25)
	require.Greater(t, z[2], 0.0)
	require.Less(t, z[3], 0.5)
}
