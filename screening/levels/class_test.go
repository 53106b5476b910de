package levels

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// classOf is the class of a station's tide by its F, the definition of the classes.
func classOf(s *Station) Class {
	size := map[string]float64{}
	for _, c := range s.Constituents {
		size[c.Name] = c.Amplitude
	}
	switch f := (size["K1"] + size["O1"]) / (size["M2"] + size["S2"]); {
	case f < 0.25:
		return Semidiurnal
	case f < 1.5:
		return MixedSemidiurnal
	case f < 3:
		return MixedDiurnal
	}
	return Diurnal
}

// Worked by hand from the published constituents: F is 0.18 at Fernandina
// Beach, 0.64 at Key West, 11 at Pensacola.
func TestClassOfTide(t *testing.T) {
	want := map[string]Class{"8720030": Semidiurnal, "8724580": MixedSemidiurnal, "8729840": Diurnal}
	found := 0
	for _, s := range published(t) {
		c := classOf(s)
		if w, known := want[s.ID]; known {
			require.Equal(t, w, c, s.String())
			found++
		}
		read, err := ParseClass(string(c))
		require.NoError(t, err)
		require.Equal(t, c, read)
	}
	require.Equal(t, len(want), found)
	_, err := ParseClass("twice a day")
	require.ErrorContains(t, err, "is not a class of tide")
}

// Source: NOAA's constituents of 14 stations, predicted every hour of
// 1983-2001. The rough table is of one year and 207 stations, and must hold
// within what it says of itself, at every datum and between them.
func TestRoughExposureAgainstPrediction(t *testing.T) {
	worst := 0.0
	for _, s := range published(t) {
		tide, err := s.Tide(MLLW)
		require.NoError(t, err)
		series, err := tide.Series(time.Date(1983, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2002, 1, 1, 0, 0, 0, 0, time.UTC), time.Hour)
		require.NoError(t, err)
		exact, err := series.Exposure()
		require.NoError(t, err)
		require.Empty(t, exact.Undecided())
		require.Equal(t, Predicted, exact.Way)
		rough, err := s.roughExposure(classOf(s), MLLW)
		require.NoError(t, err)
		require.NotEmpty(t, rough.Undecided())
		require.Equal(t, FromDatums, rough.Way)
		highest, err := s.Convert(0, MHHW, MLLW)
		require.NoError(t, err)
		for k := range 21 {
			z := highest * float64(k) / 20
			p, err := rough.Percent(z)
			require.NoError(t, err)
			q, err := exact.Percent(z)
			require.NoError(t, err)
			require.InDelta(t, q, p, rough.Points, "%s at %.3f m", s, z)
			worst = math.Max(worst, math.Abs(p-q))
			back, err := rough.elevation(p)
			require.NoError(t, err)
			require.InDelta(t, z, back, 1e-9)
		}
	}
	t.Logf("worst %.1f points", worst)
}

func TestRoughExposureKnowsItsEnds(t *testing.T) {
	s := published(t)[0]
	e, err := s.roughExposure(Semidiurnal, MLLW)
	require.NoError(t, err)
	_, err = e.Percent(-0.001)
	require.ErrorContains(t, err, "below MLLW")
	_, err = e.Percent(3)
	require.ErrorContains(t, err, "above MHHW")
	_, err = e.elevation(7)
	require.ErrorContains(t, err, "below MLLW")
	_, err = e.elevation(93)
	require.ErrorContains(t, err, "above MHHW")
	e, err = s.roughExposure(Diurnal, MLLW)
	require.NoError(t, err)
	targets := e.Targets()
	require.Contains(t, targets[0].Unknown, "10 % of the time")
	require.Empty(t, targets[1].Unknown)
	_, err = s.roughExposure("", MLLW)
	require.ErrorContains(t, err, "class of tide is not stated")
	_, err = (&Station{ID: "1", Datums: map[Datum]float64{MLLW: 0, MLW: 0, MSL: 1, MHW: 2, MHHW: 3}}).roughExposure(Diurnal, MLLW)
	require.ErrorContains(t, err, "MLW no higher than MLLW")
	_, err = (&Station{ID: "1", Datums: map[Datum]float64{MLLW: 0}}).roughExposure(Diurnal, MLLW)
	require.ErrorContains(t, err, "station 1 has no MLW")
}
