package levels

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var inFeet = Stated{Feet, MLLW, time.UTC}

// The forms of the tide service's tables; those of the first four are the
// service's own headers.
func TestRecordsRead(t *testing.T) {
	for name, text := range map[string]string{
		"water level":   "Date Time, Water Level, Sigma, O or I (for verified), F, R, L, Quality \n2018-10-09 00:00,2.0,0.036,1,0,0,0,p\n2018-10-09 00:06,3.0,,1,0,0,0,p\n",
		"hourly height": "Date Time, Water Level, Sigma, I, L\r\n2018-10-09 00:00,2.0,0.036,0,0\r\n2018-10-09 00:06,3.0,0.036,0,0\r\n",
		"prediction":    "Date Time, Prediction\n2018-10-09 00:00,2.0\n2018-10-09 00:06,3.0\n",
		"iso":           "time,val\n2018-10-09T00:00:00Z,2.0\n2018-10-09T00:06:00Z,3.0\n",
		"slashes":       "time,val\n10/9/2018 0:00,2.0\n10/9/2018 0:06,3.0\n",
		"unordered":     "time,val\n10/9/2018 0:06,3.0\n10/9/2018 0:00,2.0\n",
		"repeated":      "time,val\n10/9/2018 0:00,2.0\n10/9/2018 0:06,\n10/9/2018 0:06,3.0\n10/9/2018 0:06,3.0\n",
	} {
		s, err := ReadSeries([]byte(text), inFeet)
		require.NoError(t, err, name)
		require.Equal(t, time.Date(2018, 10, 9, 0, 0, 0, 0, time.UTC), s.Start, name)
		require.Equal(t, 6*time.Minute, s.Step, name)
		require.InDeltaSlice(t, []float64{0.6096, 0.9144}, s.Levels, 1e-12, name) // feet of 0.3048 m
		require.Equal(t, name == "unordered" || name == "repeated", len(s.Notes) == 1, "%s: %v", name, s.Notes)
	}
	zone, err := ParseZone("-5")
	require.NoError(t, err)
	s, err := ReadSeries([]byte("time,val\n2018-10-09 00:00,1\n2018-10-09 01:00,2\n"), Stated{Metres, MSL, zone})
	require.NoError(t, err)
	require.Equal(t, time.Date(2018, 10, 9, 5, 0, 0, 0, time.UTC), s.Start)
}

func TestRecordsRefused(t *testing.T) {
	const head = "time,val\n"
	five := time.FixedZone("-5", -5*3600)
	for _, c := range []struct {
		text   string
		stated Stated
		says   string
	}{
		{head, Stated{"", MLLW, time.UTC}, "no unit"},
		{head, Stated{Feet, "", time.UTC}, "no datum"},
		{head, Stated{Feet, MLLW, nil}, "no time zone"},
		{"", inFeet, "empty"},
		{"Error: No data was found. This product may not be offered at this station at the requested time.\n", inFeet, `answer "Error: No data was found.`},
		{`{"error":{"message":"No data was found."}}`, inFeet, "answer"},
		{`{"data":[]}`, inFeet, "not a table"},
		{"Date Time,Sigma\n2018-10-09 00:00,1\n", inFeet, `header "Date Time,Sigma" names no level`},
		{"when,Water Level\n2018-10-09 00:00,1\n", inFeet, "names no level"},
		{head + "2018-10-09 00:00,1\n", inFeet, "1 rows"},
		{head + "2018-10-09 00:00,1\n2018-10-09 00:00,1\n", inFeet, "one time"},
		{head + "2018-10-09 00:00,1\n2018-10-09 00:00,2\n", inFeet, "lines 2 and 3 give two levels for 2018-10-09 00:00"},
		{head + "2018-10-09 00:00,1\n13/10/2018 0:00,2\n", inFeet, `line 3: "13/10/2018 0:00" is not a time`},
		{head + "2018-10-09 00:00,1\n2018-10-09 00:06\n", inFeet, "line 3 has 1 columns"},
		{head + "2018-10-09T00:00Z,1\n2018-10-09 00:06,2\n", inFeet, "line 2 says its zone and that on line 3 does not"},
		{head + "2018-10-09T00:00Z,1\n2018-10-09T00:06Z,2\n", Stated{Feet, MLLW, five}, "state GMT"},
		{head + "2018-10-09 00:00,1\n2018-10-09 00:06,1\n2081-10-09 00:12,1\n", inFeet, "one of its times is wrong"},
	} {
		_, err := ReadSeries([]byte(c.text), c.stated)
		require.ErrorContains(t, err, c.says, c.text)
	}
}

func TestZones(t *testing.T) {
	for text, hours := range map[string]float64{"GMT": 0, "utc": 0, "EST": -5, "-6": -6, "UTC-05:00": -5, "GMT+1": 1, "-3:30": -3.5} {
		zone, err := ParseZone(text)
		require.NoError(t, err, text)
		_, offset := time.Time{}.In(zone).Zone()
		require.Equal(t, hours*3600, float64(offset), text)
	}
	for _, text := range []string{"", "EDT", "local", "America/New_York", "5", "-13", "UTC-"} {
		_, err := ParseZone(text)
		require.ErrorContains(t, err, "GMT", text)
	}
}

// tableOf writes hourly levels as a table; "" leaves a level out.
func tableOf(hours int, level func(hour int) string) string {
	var b strings.Builder
	b.WriteString("Date Time, Water Level\n")
	for h := range hours {
		fmt.Fprintf(&b, "%s,%s\n", time.Date(2020, 1, 1, h, 0, 0, 0, time.UTC).Format("2006-01-02 15:04"), level(h))
	}
	return b.String()
}

func wave(h int) string { return fmt.Sprintf("%.4f", math.Sin(float64(h)*2*math.Pi/12.42)) }

// What is wrong with a record is counted and said, or the record is refused:
// coverage is of 400 levels, worked by hand.
func TestCoverage(t *testing.T) {
	for _, c := range []struct {
		name    string
		level   func(h int) string
		valid   int
		note    string
		refused bool
	}{
		{"whole", wave, 400, "", false},
		{"ten in a hundred blank", func(h int) string {
			if h%10 == 5 {
				return ""
			}
			return wave(h)
		}, 360, "40 of 400 levels are missing, for at most 1 h (from 2020-01-01 05:00)", false},
		{"one more", func(h int) string {
			if h%10 == 5 || h == 201 {
				return ""
			}
			return wave(h)
		}, 359, "41 of 400", true},
		{"a gap of two days", func(h int) string {
			if h >= 100 && h < 148 {
				return ""
			}
			return wave(h)
		}, 352, "48 of 400 levels are missing, for at most 2 days (from 2020-01-05 04:00)", true},
		{"spreadsheet error", func(h int) string {
			if h == 7 || h == 9 {
				return "#VALUE!"
			}
			return wave(h)
		}, 398, `2 levels are no level, the first "#VALUE!" on line 9`, false},
		{"number for nothing", func(h int) string {
			if h == 7 {
				return "-9999.99"
			}
			return wave(h)
		}, 399, `1 levels are no level, the first "-9999.99" on line 9`, false},
		{"a day on one level", func(h int) string {
			if h >= 100 && h < 124 {
				return "0.5"
			}
			return wave(h)
		}, 376, "the gauge stood still for 24 h", false},
		{"flat", func(int) string { return "1.0" }, 0, "the gauge stood still for 16.67 days", true},
	} {
		s, err := ReadSeries([]byte(tableOf(400, c.level)), Stated{Metres, MSL, time.UTC})
		require.NoError(t, err, c.name)
		require.Equal(t, c.valid, s.valid(), c.name)
		require.Len(t, s.Levels, 400, c.name)
		require.Contains(t, strings.Join(s.Notes, "; "), c.note, c.name)
		_, exposed := s.Exposure()
		_, crossed := s.crossedExposure()
		_, reduced := s.Reduce()
		for _, err := range []error{exposed, crossed, reduced} {
			if c.refused {
				require.ErrorContains(t, err, "at least 90 % is needed", c.name)
			} else {
				require.NoError(t, err, c.name)
			}
		}
	}
}

// Worked by hand: readings at 0, 10, 20, 35 and 40 minutes of a level rising 1 m
// an hour stand for it at every ten.
func TestUnevenSteps(t *testing.T) {
	s, err := ReadSeries([]byte("time,val\n2020-01-01 00:00,0\n2020-01-01 00:10,0.1666667\n2020-01-01 00:20,0.3333333\n2020-01-01 00:35,0.5833333\n2020-01-01 00:40,0.6666667\n"), Stated{Metres, MSL, time.UTC})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{0, 1.0 / 6, 2.0 / 6, 3.0 / 6, 4.0 / 6}, s.Levels, 1e-6)
	require.Contains(t, s.Notes[0], "the steps are uneven; 1 of 5 levels")
}

func TestRecordsWithoutTide(t *testing.T) {
	s, err := ReadSeries([]byte(tableOf(200, wave)), Stated{Metres, MSL, time.UTC})
	require.NoError(t, err)
	_, err = s.Reduce()
	require.ErrorContains(t, err, "8.333 days long; datums need 14 days")
	s, err = ReadSeries([]byte(tableOf(400, func(h int) string { return fmt.Sprint(float64(h) / 100) })), Stated{Metres, MSL, time.UTC})
	require.NoError(t, err)
	_, err = s.Reduce()
	require.ErrorContains(t, err, "no tide to speak of")
}
