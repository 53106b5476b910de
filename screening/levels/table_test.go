package levels

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestDecimals(t *testing.T) {
	for _, c := range []struct {
		v      float64
		places int
		want   string
	}{{-0.004, 2, "0.00"}, {-0.006, 2, "-0.01"}, {0, 0, "0"}, {-0.4, 0, "0"}, {-10, 0, "-10"}, {math.NaN(), 2, "unknown"}} {
		require.Equal(t, c.want, decimal(c.v, c.places))
	}
	raw, err := json.Marshal([]figure{figure(math.NaN()), 0.1 + 0.2})
	require.NoError(t, err)
	require.Equal(t, "[null,0.3000]", string(raw))
}

// Worked by hand: 0 to 9.9 ft is 20 steps of half a foot, and 50 of a fifth.
func TestElevationsOfATable(t *testing.T) {
	s := &Series{Datum: STND, Step: time.Minute, Levels: []float64{0, Feet.Metres(9.9)}}
	table, err := s.ExposureTable("x", nil, Asked{})
	require.NoError(t, err)
	require.Len(t, table.Rows, 21)
	require.Equal(t, figure(0.5), table.Rows[1].Feet)
	require.Equal(t, figure(100), table.Rows[20].Percent)
	table, err = s.ExposureTable("x", nil, Asked{Every: Every{0.5, Metres}})
	require.NoError(t, err)
	require.Len(t, table.Rows, 8) // 9.9 ft are 3.02 m
	_, err = s.ExposureTable("x", nil, Asked{Every: Every{0.0001, Feet}})
	require.ErrorContains(t, err, "99001 rows, and 10000 is the most")
	flat := &Series{Datum: STND, Step: time.Minute, Levels: []float64{0.1, 0.1}}
	table, err = flat.ExposureTable("x", nil, Asked{})
	require.NoError(t, err)
	require.Len(t, table.Rows, 2)
}

// A level recorded as 0.3 ft is not below the row of 0.3 ft, though 3 x 0.1 is a
// little more than 0.3.
func TestRowsStandOnRecordedLevels(t *testing.T) {
	s := &Series{Datum: STND, Step: time.Minute, Levels: []float64{Feet.Metres(0.1), Feet.Metres(0.3), Feet.Metres(0.6), Feet.Metres(0.7)}}
	table, err := s.ExposureTable("x", nil, Asked{Every: Every{0.1, Feet}})
	require.NoError(t, err)
	var percents []figure
	for _, r := range table.Rows {
		percents = append(percents, r.Percent)
	}
	require.Equal(t, []figure{0, 25, 25, 50, 50, 50, 75}, percents[:7])
}

// Worked by hand: a record above MLLW at a station whose MLLW lies 2 ft below
// NAVD88.
func TestARecordAboveAnotherDatum(t *testing.T) {
	station := &Station{ID: "1", Epoch: Epoch{1983, 2001}, Datums: map[Datum]float64{MLLW: 0, NAVD88: Feet.Metres(2)}}
	s := &Series{Datum: MLLW, Step: time.Minute, Levels: []float64{0, 0, 0, Feet.Metres(4)}}
	table, err := s.ExposureTable("x", station, Asked{Above: NAVD88, Crest: &Mark{"3 ft", Feet.Metres(3), MLLW}})
	require.NoError(t, err)
	require.Equal(t, NAVD88, table.Datum)
	require.InDelta(t, -2, float64(table.Rows[0].Feet), 1e-9)
	require.InDelta(t, 1, float64(table.Crest.Feet), 1e-9)
	require.Equal(t, figure(75), table.Crest.Percent)
	require.Equal(t, 0.0, s.Levels[0], "the record itself stays as it is")
	_, err = s.ExposureTable("x", nil, Asked{Above: NAVD88})
	require.ErrorContains(t, err, "nothing ties that to NAVD88; give the station too")
	table, err = s.ExposureTable("x", nil, Asked{Crest: &Mark{"3 ft", 1, NAVD88}})
	require.NoError(t, err)
	require.Contains(t, table.Crest.Unknown, "nothing ties NAVD88 to MLLW")
	// Oysters in the datum of the record need no station to tie them to it.
	table, err = s.ExposureTable("x", nil, Asked{Site: &Place{-82, 28}, Clumps: []Clump{{Place: Place{-82, 28}, Top: 1, Bottom: 0, Datum: MLLW}}})
	require.NoError(t, err)
	require.Equal(t, 1, table.Living.Count)
	_, err = s.ExposureTable("x", station, Asked{Above: MHW})
	require.ErrorContains(t, err, "station 1 has no MHW")
}

// What a table of a prediction says is read back as the same levels.
func TestSeriesAsATable(t *testing.T) {
	tide, err := published(t)[0].Tide(MLLW)
	require.NoError(t, err)
	start := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	s, err := tide.Series(start, start.Add(24*time.Hour), 6*time.Minute)
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, s.WriteCSV(&page, Feet))
	back, err := ReadSeries(page.Bytes(), Stated{Feet, MLLW, time.UTC})
	require.NoError(t, err)
	require.Equal(t, s.Start, back.Start)
	require.Equal(t, s.Step, back.Step)
	require.InDeltaSlice(t, s.Levels, back.Levels, 0.0005*foot+1e-9) // three decimals
	page.Reset()
	s, err = tide.Series(start.Add(time.Second), start.Add(time.Minute), 30*time.Second)
	require.NoError(t, err)
	require.NoError(t, s.WriteCSV(&page, Metres))
	require.Contains(t, page.String(), "\n2026-11-25T00:00:31Z,")
}

func TestStationWithoutTheUsualDatums(t *testing.T) {
	s := &Station{ID: "1", Datums: map[Datum]float64{MHW: 2, MLW: 1}}
	table := s.DatumTable(nil, nil)
	require.Equal(t, []Datum{MHW}, table.Above)
	require.Equal(t, MHW, s.countedFrom()[0])
	var page strings.Builder
	require.NoError(t, table.Write(&page))
	require.Equal(t, 1, strings.Count(page.String(), "station 1 has no MLLW"))
	require.Regexp(t, `MLW +-3\.28 +-1\.000`, page.String())
	require.Regexp(t, `MLLW +unknown +unknown`, page.String())
	table = s.DatumTable([]Datum{MLLW}, nil)
	for _, row := range table.Rows { // not even MLLW above itself
		require.Contains(t, row.Heights[0].Unknown, "station 1 has no", row.Name)
	}
}
