package levels

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var inMetres = Stated{Metres, MSL, time.UTC}

// recordOf writes levels every so often as a table, and reads it.
func recordOf(step time.Duration, n int, level func(hours float64, i int) float64) (*Series, error) {
	var b strings.Builder
	b.WriteString("time,level\n")
	for i := range n {
		at := time.Duration(i) * step
		fmt.Fprintf(&b, "%s,%.4f\n", time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC).Add(at).Format(minuteLayout), level(at.Hours(), i))
	}
	return ReadSeries([]byte(b.String()), inMetres)
}

func tide(hours float64) float64 { return math.Sin(hours * 2 * math.Pi / 12.42) }

// Worked by hand with 1 m and 3 m an hour: at 9 h the tide is -0.987 m, at 8 h -0.787 m and at
// 10 h -0.940 m, so that a level beyond 3.213 m is a spike; the middle of the record is 0, and
// what lies more than 18.288 m (60 ft) from it is named as that.
func TestOneSpike(t *testing.T) {
	for spike, note := range map[float64]string{
		99.999: "1 levels lie more than 60 ft from the middle one, farther than any tide goes; they count as missing: 2020-01-01 09:00",
		17.2:   "1 levels are spikes, by more than 3.3 ft and 9.8 ft an hour beyond the levels beside them; they count as missing: 2020-01-01 09:00",
		3.22:   "are spikes", 3.20: "", 0: "", -4.93: "", -4.95: "are spikes",
	} {
		s, err := recordOf(time.Hour, 400, func(h float64, i int) float64 {
			if i == 9 {
				return spike
			}
			return tide(h)
		})
		require.NoError(t, err)
		if note == "" {
			require.Equal(t, 400, s.valid(), spike)
			require.Empty(t, s.Notes)
			continue
		}
		require.Equal(t, 399, s.valid(), spike)
		require.Contains(t, strings.Join(s.Notes, "; "), note)
		require.Contains(t, strings.Join(s.Notes, "; "), "1 of 400 levels are missing, for at most 1 h (from 2020-01-01 09:00)")
	}
}

// Several in a row are one spike up to three levels or an hour, to either side, and at the ends
// of a record; what stays longer is refused. The leap worked by hand: 9 m more than from -0.337 m
// to 0.162 m.
func TestSpikesInARow(t *testing.T) {
	six := 6 * time.Minute
	for _, c := range []struct {
		step     time.Duration
		at       []int
		by       float64
		dropped  int // -1: refused
		contains string
	}{
		{time.Hour, []int{50, 51}, 9, 2, "2 levels are spikes"},
		{time.Hour, []int{50, 51, 52}, 9, 3, "2020-01-03 02:00, 2020-01-03 03:00, 2020-01-03 04:00"},
		{time.Hour, []int{50, 51, 52, 53}, 9, -1, "the levels leap by 31.2 ft from line 51 to line 52"},
		{time.Hour, []int{50, 52, 54, 56, 58, 60}, -9, 6, "2020-01-03 02:00, 2020-01-03 04:00, 2020-01-03 06:00, 2020-01-03 08:00, 2020-01-03 10:00, and 1 more"},
		{time.Hour, []int{0}, 9, 1, "2020-01-01 00:00"},
		{time.Hour, []int{0, 1, 2}, 9, 3, "3 levels are spikes"},
		{time.Hour, []int{1}, 9, 1, "2020-01-01 01:00"},
		{time.Hour, []int{399}, 9, 1, "1 levels are spikes"},
		{time.Hour, []int{397, 398, 399}, 9, 3, "3 levels are spikes"},
		{six, []int{50}, 1.5, 1, "1 levels are spikes"},
		{six, []int{50}, 1.1, 0, ""},
		{six, []int{50, 51, 52, 53, 54, 55, 56, 57, 58, 59}, 9, 10, "and 5 more"},
		{six, []int{50, 51, 52, 53, 54, 55, 56, 57, 58, 59, 60}, 9, -1, "was the gauge or its zero moved?"},
	} {
		s, err := recordOf(c.step, 400, func(h float64, i int) float64 {
			for k, at := range c.at {
				if i == at && c.step == time.Hour && k == 1 && len(c.at) == 2 {
					return tide(h) - c.by // to the other side of the one before
				}
				if i == at {
					return tide(h) + c.by
				}
			}
			return tide(h)
		})
		if c.dropped < 0 {
			require.ErrorContains(t, err, c.contains, "%v", c)
			continue
		}
		require.NoError(t, err, "%v", c)
		require.Equal(t, 400-c.dropped, s.valid(), "%v: %v", c, s.Notes)
		require.Contains(t, strings.Join(s.Notes, "; "), c.contains)
	}
}

// What water does stays: a surge of 5 m that is over in four hours, a seiche of 1 m from trough
// to crest in half an hour, each upon a tide, wherever the readings fall.
func TestSurgeAndSeicheStay(t *testing.T) {
	for _, step := range []time.Duration{time.Hour, 6 * time.Minute} {
		n := int(20 * 24 * time.Hour / step)
		for shift := 0.0; shift < 1; shift += 0.1 {
			for name, level := range map[string]func(h float64) float64{
				"surge":  func(h float64) float64 { return tide(h)/2 + 5*math.Exp(-(h-100-shift)*(h-100-shift)/2) },
				"seiche": func(h float64) float64 { return tide(h) + 0.5*math.Sin((h+shift)*4*math.Pi) },
			} {
				s, err := recordOf(step, n, func(h float64, _ int) float64 { return level(h) })
				require.NoError(t, err, name)
				require.Equal(t, n, s.valid(), name)
				require.Empty(t, s.Notes, name)
			}
		}
	}
}

// Of the published records, one of a hurricane, no level is thrown out: 725 with one blank, 744.
func TestPublishedRecordsStay(t *testing.T) {
	storm := readSeries(t, "CO-OPS__8729108__wl.csv", Stated{Feet, MLLW, time.UTC})
	require.Equal(t, 724, storm.valid())
	require.Equal(t, 744, cora(t).valid())
	for _, s := range []*Series{storm, cora(t)} {
		require.NotContains(t, strings.Join(s.Notes, "; "), "spikes")
	}
}

// A published month with a spike on a high water has the mean high water that NOAA's calculator
// finds without (see TestDatumsOfARecord), within what a turn more or less makes of 58.
func TestSpikesMoveNoDatum(t *testing.T) {
	text, err := os.ReadFile(checks + "tadc_fernandina_cora_hourly_2022-10.csv")
	require.NoError(t, err)
	whole, err := cora(t).Reduce()
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	for _, spike := range []float64{99.999, 12, 5.7} {
		given := append([]string{}, lines...)
		for _, at := range []int{100, 300, 500} {
			cells := strings.Split(given[at], ",")
			given[at] = cells[0] + "," + strconv.FormatFloat(spike, 'f', -1, 64)
		}
		s, err := ReadSeries([]byte(strings.Join(given, "\n")), Stated{Metres, STND, time.UTC})
		require.NoError(t, err)
		require.Equal(t, 741, s.valid())
		r, err := s.Reduce()
		require.NoError(t, err)
		require.InDelta(t, whole.MHW, r.MHW, 0.01, spike)
		require.InDelta(t, whole.MLW, r.MLW, 0.01, spike)
	}
}
