package levels

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Two ways to one number: stepping by recurrence, and each level by itself from
// the formulae, over the turn of a year and at any step.
func TestStepsAgreeWithFormulae(t *testing.T) {
	const tolerance = 1e-6 // m: see restart
	stations := published(t)
	rapid.Check(t, func(t *rapid.T) {
		s := stations[rapid.IntRange(0, len(stations)-1).Draw(t, "station")]
		tide, err := s.Tide(MLLW)
		require.NoError(t, err)
		start := time.Date(rapid.IntRange(1980, 2050).Draw(t, "year"), 12, 31, rapid.IntRange(0, 23).Draw(t, "hour"), 0, 0, 0, time.UTC)
		step := time.Duration(rapid.IntRange(1, 60).Draw(t, "minutes")) * time.Minute
		levels := tide.levels(start, step, 700)
		for _, k := range []int{0, 1, 239, 240, 241, 699} {
			require.InDelta(t, tide.At(start.Add(time.Duration(k)*step)), levels[k], tolerance)
		}
	})
}

// Speeds in degrees an hour, SP 98 table 2, to its seven decimals (from memory,
// and each the sum of the hourly motions of table 1).
func TestSpeeds(t *testing.T) {
	const lastDigit = 1e-7
	for name, speed := range map[string]float64{
		"M2": 28.9841042, "S2": 30, "N2": 28.4397295, "K1": 15.0410686, "O1": 13.9430356, "K2": 30.0821373,
		"Q1": 13.3986609, "P1": 14.9589314, "L2": 29.5284789, "T2": 29.9589333, "R2": 30.0410667,
		"MF": 1.0980331, "MM": 0.5443747, "SSA": 0.0821373, "SA": 0.0410686, "M1": 14.4920521, "J1": 15.5854433,
	} {
		require.InDelta(t, speed, findConstituent(name).speed(), lastDigit, name)
	}
}

func TestPredict(t *testing.T) {
	at := time.Date(2001, 5, 1, 3, 0, 0, 0, time.UTC)
	// S2 is at its height at noon and midnight at Greenwich if its phase is 0:
	// at 3 h a quarter of its 12 h has gone.
	solar, err := newTide([]Constituent{{"S2", 0.5, 0}, {"MM", 0, 0}}, 2)
	require.NoError(t, err)
	for hours, level := range map[time.Duration]float64{0: 2, 3: 1.5, -3: 2.5} {
		require.InDelta(t, level, solar.At(at.Add(hours*time.Hour)), 1e-9)
	}
	for says, given := range map[string][]Constituent{
		`"XYZ" is not known here`: {{"XYZ", 1, 0}},
		"RHO is given twice":      {{"RHO", 1, 0}, {"RHO1", 1, 0}},
		"no harmonic constituent": {{"M2", 0, 0}},
		"an amplitude of -1 m":    {{"M2", -1, 0}},
		"a phase of NaN":          {{"M2", 1, math.NaN()}},
	} {
		_, err := newTide(given, 0)
		require.ErrorContains(t, err, says)
	}
	tide, err := newTide([]Constituent{{"M2", 1, 0}}, 0)
	require.NoError(t, err)
	_, err = tide.Series(at, at, time.Hour)
	require.ErrorContains(t, err, "an end after its start")
}

// At is the level at one time.
func (t *Tide) At(at time.Time) float64 { return t.level(at, nodeAt(midYear(at))) }

// level works every constituent out for itself.
func (t *Tide) level(at time.Time, n node) float64 {
	l, sum := longitudesAt(at), t.mean
	for _, p := range t.parts {
		sum += p.factor(n) * p.amplitude * math.Cos(p.angle(l, n))
	}
	return sum
}
