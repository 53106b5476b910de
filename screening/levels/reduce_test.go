package levels

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// published reads the stations of testdata, NOAA's constituents and datums.
func published(t testing.TB) []*Station {
	t.Helper()
	raw, err := os.ReadFile(checks + "florida_noaa_stations.json")
	require.NoError(t, err)
	var file struct {
		Stations []struct {
			ID, Name     string
			Lat, Lon     float64
			Datums       map[Datum]float64 `json:"datums_m_above_STND"`
			Constituents [][]any           `json:"constituents_m_degGMT"`
		}
	}
	require.NoError(t, json.Unmarshal(raw, &file))
	require.Len(t, file.Stations, 14)
	var all []*Station
	for _, g := range file.Stations {
		s := &Station{ID: g.ID, Name: g.Name, Place: Place{g.Lon, g.Lat}, Epoch: Epoch{1983, 2001}, Datums: g.Datums}
		for _, c := range g.Constituents {
			s.Constituents = append(s.Constituents, Constituent{c[0].(string), c[1].(float64), c[2].(float64)})
		}
		require.NoError(t, s.check())
		all = append(all, s)
	}
	return all
}

func readSeries(t *testing.T, name string, stated Stated) *Series {
	t.Helper()
	text, err := os.ReadFile(checks + name)
	require.NoError(t, err)
	s, err := ReadSeries(text, stated)
	require.NoError(t, err)
	return s
}

// cora is a month of hourly levels near Fernandina Beach; its zero is not a
// datum of a station, so it is called station datum here.
func cora(t *testing.T) *Series {
	return readSeries(t, "tadc_fernandina_cora_hourly_2022-10.csv", Stated{Metres, STND, time.UTC})
}

// Source: NOAA's Tidal Analysis Datum Calculator (public code, commit c5cc518),
// first reduction with its default polynomial pick of its own sample series.
func TestDatumsOfARecord(t *testing.T) {
	const tolerance = 0.001 // m: the last digit recorded
	r, err := cora(t).Reduce()
	require.NoError(t, err)
	require.Equal(t, [2]int{60, 59}, [2]int{r.Highs, r.Lows})
	for _, c := range []struct {
		name           string
		got, published float64
	}{
		{"HWL", r.HWL, 1.504}, {"MHHW", r.MHHW, 1.197}, {"MHW", r.MHW, 1.093}, {"DTL", r.DTL, 0.343},
		{"MTL", r.MTL, 0.312}, {"MSL", r.MSL, 0.353}, {"MLW", r.MLW, -0.468}, {"MLLW", r.MLLW, -0.511},
		{"DHQ", r.DHQ, 0.104}, {"DLQ", r.DLQ, 0.043}, {"MN", r.MN, 1.561}, {"GT", r.GT, 1.707}, {"LWL", r.LWL, -0.836},
	} {
		require.InDelta(t, c.published, c.got, tolerance, c.name)
	}
}

// A person is shown the tides that were counted and the ranges too.
func TestDatumsOfARecordInPrint(t *testing.T) {
	table, err := cora(t).DatumTable("the record")
	require.NoError(t, err)
	var page strings.Builder
	require.NoError(t, table.Write(&page))
	require.Regexp(t, `tides +60 high and 59 low waters`, page.String())
	require.Regexp(t, `RANGE +ft +m`, page.String())
}

// Source: the datums NOAA accepted for 1983-2001, against a prediction of the
// same years from NOAA's constituents. A prediction knows no weather, which is
// what the tolerances allow.
func TestPredictedDatums(t *testing.T) {
	const ofHigh, ofLow = 0.07 * foot, 0.11 * foot
	for _, s := range published(t) {
		tide, err := s.Tide(MSL)
		require.NoError(t, err)
		series, err := tide.Years(1983, 2001)
		require.NoError(t, err)
		r, err := series.Reduce()
		require.NoError(t, err)
		above := func(d Datum) float64 { return s.Datums[d] - s.Datums[MSL] }
		require.InDelta(t, above(MHW), r.MHW, ofHigh, "MHW of %s", s)
		require.InDelta(t, above(MLLW), r.MLLW, ofLow, "MLLW of %s", s)
		t.Logf("%-40s %5d %5d MHHW %+.1f MHW %+.1f MLW %+.1f MLLW %+.1f mm", s, r.Highs, r.Lows, 1000*(r.MHHW-above(MHHW)), 1000*(r.MHW-above(MHW)), 1000*(r.MLW-above(MLW)), 1000*(r.MLLW-above(MLLW)))
	}
}

func BenchmarkNineteenYears(b *testing.B) {
	tide, err := published(b)[0].Tide(MSL)
	require.NoError(b, err)
	for b.Loop() {
		if _, err := tide.Years(1983, 2001); err != nil {
			b.Fatal(err)
		}
	}
}
