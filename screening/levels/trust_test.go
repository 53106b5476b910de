package levels

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// sine is a record every six minutes of a tide of one constituent, 1 m about its datum.
func sine(days float64, keep func(level float64, high int) bool) *Series {
	s := &Series{Datum: MSL, Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), Step: 6 * time.Minute}
	for i := range int(days * 240) {
		turn := float64(i) / 10 / 12.4206
		level := math.Cos(2 * math.Pi * turn)
		if !keep(level, int(turn)) {
			level = math.NaN()
		}
		s.Levels = append(s.Levels, level)
	}
	return s
}

func all(float64, int) bool { return true }

// A tide of one constituent is below z of its amplitude for 1/2 + asin(z)/pi of the time:
// 40.3 % at -0.3, and 7.9 % at -0.9694. A gauge that falls dry there shows (40.3 - 7.9) /
// 92.1 = 35.2 %; with what is missing it can be anything from 32.4 to 40.3 %.
func TestMissingLowWatersAreInTheBounds(t *testing.T) {
	s := sine(60, func(level float64, _ int) bool { return level >= -0.9694 })
	e, err := s.Exposed()
	require.NoError(t, err)
	p, err := e.Percent(-0.3)
	require.NoError(t, err)
	require.InDelta(t, 35.2, p, 0.15)
	least, most := e.Bounds(p)
	require.InDelta(t, 32.4, least, 0.15)
	require.InDelta(t, 40.3, most, 0.15)
	_, err = s.Reduce()
	require.ErrorContains(t, err, "low waters stand at a gap of the record")
	// One low water in four lost leaves the rest to tell; a whole record has no doubt.
	_, err = sine(60, func(level float64, tide int) bool { return tide%4 != 0 || level >= -0.9694 }).Reduce()
	require.NoError(t, err)
	e, err = sine(60, all).Exposed()
	require.NoError(t, err)
	least, most = e.Bounds(40)
	require.Equal(t, [2]float64{40, 40}, [2]float64{least, most})
}

// From spring to neap tide are 14 days. Less decides nothing; up to a year the season may
// put levels half a foot off (common practice, no source), then 0.16 ft, as the worst of
// 14 stations of Florida, and nothing after nineteen years. What is predicted stands
// within 0.11 ft.
func TestHowLongARecordIs(t *testing.T) {
	e, err := sine(13.9, all).Exposed()
	require.NoError(t, err)
	require.Contains(t, e.Undecided(), "the record is 13.9 days long; at least 14 days")
	for days, feet := range map[float64]float64{14.1: 0.5, 364: 0.5, 366: 0.16, 18 * 365: 0.16, 20 * 365.25: 0} {
		e, err := sine(days, all).Exposed()
		require.NoError(t, err)
		require.Empty(t, e.Undecided())
		metres, of := e.HeightError()
		require.InDelta(t, feet, metres/foot, 1e-9, days)
		require.Contains(t, of, "the record of ")
	}
	s := sine(400, all)
	s.Predicted = true
	e, err = s.Exposed()
	require.NoError(t, err)
	metres, _ := e.HeightError()
	require.InDelta(t, 0.11, metres/foot, 1e-9)
}

// Levels the tide service itself marks are no levels: of five the first and the last two
// are left. O counts samples, and only in verified levels stands I, inferred, in its place.
func TestFlagsOfTheService(t *testing.T) {
	const header = "Date Time, Water Level, Sigma, O or I (for verified), F, R, L, Quality \n"
	rows := func(marks ...string) string {
		out := header
		for i, m := range marks {
			out += fmt.Sprintf("2018-10-09 %02d:00,%d,0.03,%s\n", i, i+1, m)
		}
		return out
	}
	s, err := ReadSeries([]byte(rows("1,0,0,0,p", "0,1,0,0,p", "0,0,1,0,p", "0,0,0,1,p", "1,0,0,0,v", "0,0,0,0,v", "3,0,0,0,p")), Stated{Metres, MLLW, time.UTC})
	require.NoError(t, err)
	require.Equal(t, []int{1, 6, 7}, present(s))
	require.Contains(t, strings.Join(s.Notes, "; "), "4 levels bear a flag of the service")
	s, err = ReadSeries([]byte("Date Time, Water Level, Sigma, I, L\n2018-10-09 00:00,1,0.03,0,0\n2018-10-09 01:00,2,0.03,1,0\n2018-10-09 02:00,3,0.03,0,1\n2018-10-09 03:00,4,0.03,0,0\n"), Stated{Metres, MLLW, time.UTC})
	require.NoError(t, err)
	require.Equal(t, []int{1, 4}, present(s))
}

// present are the levels that are there, in whole metres.
func present(s *Series) []int {
	var out []int
	for _, v := range s.Levels {
		if !math.IsNaN(v) {
			out = append(out, int(math.Round(v)))
		}
	}
	return out
}

// No shore has datums farther apart than 60 ft (see Highest), and no gauge a level of
// -9999; the zero of a gauge may lie anywhere.
func TestDatumsThatCannotBe(t *testing.T) {
	for rows, says := range map[string]string{
		"MHW,7\nNAVD88,-999\n": "NAVD88 at -304", "MHW,7\nNAVD88,68\n": "NAVD88 61 ft above MHW", "MHW,-9999\n": "no level of a gauge", "MHW,7\nNAVD88,66\nSTND,-90\n": "",
	} {
		_, err := ReadStation([]byte("station,A\nunit,feet\nepoch,1983-2001\n" + rows))
		if says == "" {
			require.NoError(t, err, rows)
			continue
		}
		require.ErrorContains(t, err, says, rows)
	}
	require.ErrorContains(t, Clump{Datum: MSL, Top: 99, Bottom: 0}.check(), "no tidal shore")
}
