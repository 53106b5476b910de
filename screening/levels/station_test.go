package levels

import (
	"encoding/csv"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Fernandina Beach as the tide service gives it, figures from its published
// datums of 1983-2001 in metres, some of them as text.
const fernandina = `{"accepted":"Apr 17 2003","superseded":"","epoch":"1983-2001","units":"meters","OrthometricDatum":"NAVD88",
"datums":[{"name":"STND","description":"Station Datum","value":0.0},{"name":"MHHW","value":"2.517"},{"name":"MHW","value":2.410},
{"name":"DTL","value":1.517},{"name":"MTL","value":1.493},{"name":"MSL","value":1.522},{"name":"MLW","value":0.575},{"name":"MLLW","value":0.518},
{"name":"GT","value":1.999},{"name":"HWI","value":""},{"name":"NAVD88","value":1.683}],"LAT":0.009,"HAT":3.039}`

func TestStationOfTheService(t *testing.T) {
	s, err := ReadStation([]byte(fernandina))
	require.NoError(t, err)
	require.Equal(t, Epoch{1983, 2001}, s.Epoch)
	require.Equal(t, "Apr 17 2003", s.Accepted)
	require.Len(t, s.Datums, 9)
	for _, c := range []struct {
		value    float64
		from, to Datum
		want     float64
	}{ // differences by hand
		{0, MHW, NAVD88, 0.727}, {1, NAVD88, MLLW, 2.165}, {0, MLLW, MHHW, -1.999}, {0.3, MSL, MSL, 0.3}, {0, STND, MTL, -1.493},
	} {
		got, err := s.Convert(c.value, c.from, c.to)
		require.NoError(t, err)
		require.InDelta(t, c.want, got, 1e-12)
	}
	s, err = ReadStation([]byte(strings.Replace(fernandina, `"superseded":""`, `"superseded":false`, 1)))
	require.NoError(t, err)
	require.Len(t, s.Datums, 9)
	whole := `{"count":1,"stations":[{"id":"8720030","name":"Fernandina Beach","lat":30.6714,"lng":-81.4658,"datums":` + fernandina +
		`,"harmonicConstituents":{"units":"feet","HarmonicConstituents":[{"number":1,"name":"M2","amplitude":1,"phase_GMT":33.7,"phase_local":1,"speed":28.98}]}}]}`
	s, err = ReadStation([]byte(whole))
	require.NoError(t, err)
	require.Equal(t, "station 8720030 Fernandina Beach", s.String())
	require.Equal(t, Place{-81.4658, 30.6714}, s.Place)
	require.Equal(t, []Constituent{{"M2", 0.3048, 33.7}}, s.Constituents)
	alone, err := ReadConstituents([]byte(`{"units":"meters","HarmonicConstituents":[{"name":"M2","amplitude":"0.87","phase_GMT":33.7}]}`))
	require.NoError(t, err)
	require.Equal(t, []Constituent{{"M2", 0.87, 33.7}}, alone)
}

func TestStationInFeetEqualsMetres(t *testing.T) {
	s, err := ReadStation([]byte("datum,value\n# a sheet\nstation,1\nname,Pier\nlon,-81\nlat,30\nunit,feet\nepoch,1983-2001\nMHW,5\nMLW,1\nnavd,2.5\nM2,2,30\n"))
	require.NoError(t, err)
	got, err := s.Convert(0, MHW, NAVD88)
	require.NoError(t, err)
	require.InDelta(t, 2.5*0.3048, got, 1e-12)
	require.InDelta(t, 2*0.3048, s.Constituents[0].Amplitude, 1e-12)
	_, err = s.Convert(0, MHW, MSL)
	require.EqualError(t, err, "station 1 Pier has no MSL")
	_, err = s.Tide(MLW)
	require.ErrorContains(t, err, "has no MSL")
	delete(s.Datums, NAVD88)
	_, err = s.Convert(0, NAVD88, MHW)
	require.ErrorContains(t, err, "no tie to NAVD88")
	all := s.InAll(1, MHW)
	require.Len(t, all, len(datums))
	for _, e := range all {
		require.Equal(t, math.IsNaN(e.Metres), e.Unknown != "", e.Datum)
		require.Equal(t, e.Datum != MHW && e.Datum != MLW, e.Unknown != "", e.Datum)
	}
}

func TestStationsRefused(t *testing.T) {
	service := func(old, changed string) string { return strings.Replace(fernandina, old, changed, 1) }
	for _, c := range []struct{ text, says string }{
		{"{MHW,1", "this is not the JSON"},
		{`{"error":{"message":"not found"}}`, "answered with an error"},
		{`{"stations":[{"id":"1"},{"id":"2"}]}`, "there are 2 stations"},
		{`{"stations":[{"id":"1"}]}`, "station 1 has no list of datums"},
		{`{"epoch":"1983-2001","units":"feet"}`, "no list of datums"},
		{service(`"units":"meters"`, `"units":""`), "no unit"},
		{service(`"units":"meters"`, `"units":"fathoms"`), `"fathoms" is not a unit`},
		{service("1983-2001", "present"), `"present" is not an epoch`},
		{service(`"superseded":""`, `"superseded":"Apr 17 2003"`), "were superseded"},
		{service("2.410", `"high"`), `"high" is not a number`},
		{service("2.410", "0.1"), "MTL above MHW"},
		{service(`"name":"MLW"`, `"name":"MHW"`), "MHW is given twice"},
	} {
		_, err := ReadStation([]byte(c.text))
		require.ErrorContains(t, err, c.says, c.text)
	}
	const good = "unit,feet\nepoch,1983-2001\nMHW,5\n"
	for _, c := range []struct{ text, says string }{
		{"epoch,1983-2001\nMHW,5\n", "no unit is stated"},
		{"unit,feet\nMHW,5\n", "no epoch is stated"},
		{"unit,feet\nepoch,1983-2001\n", "gives none of"},
		{good + "MHW,6\n", `line 4: "MHW" is given twice`},
		{good + "MHQ,6\n", `line 4: "MHQ" is no datum`},
		{good + "MLW,low\n", `line 4: MLW: "low" is not a number`},
		{good + "MLW\n", `line 4: "MLW" has no value`},
		{good + "M2,1\n", "needs an amplitude and a phase"},
		{good + "MLW,7\n", "MLW above MHW"},
		{good + "lat,300\nlon,0\n", "no place"},
	} {
		_, err := ReadStation([]byte(c.text))
		require.ErrorContains(t, err, c.says, c.text)
	}
}

func TestEpochsDoNotMix(t *testing.T) {
	now := Epoch{1983, 2001}
	require.NoError(t, now.Same(Epoch{1983, 2001}))
	require.ErrorContains(t, now.Same(Epoch{2012, 2016}), "epochs 1983-2001 and 2012-2016")
	require.ErrorContains(t, now.Same(Epoch{}), "not stated")
}

// A degree of latitude on a sphere of 6371008.8 m is 111195.08 m, by hand.
func TestNearestStation(t *testing.T) {
	a, b, c := &Station{Place: Place{-81, 30}}, &Station{Place: Place{-81, 29}}, &Station{Place: Place{math.NaN(), math.NaN()}}
	s, d := Nearest([]*Station{c, a, b}, Place{-81, 28})
	require.Same(t, b, s)
	require.InDelta(t, 111195.08, d, 0.01)
	s, _ = Nearest([]*Station{c}, Place{-81, 28})
	require.Nil(t, s)
}

// The demo's station, against a working that shares nothing with this package: see
// exposed_ts01.py beside the table. It takes the nodal factors to their first harmonic,
// which leaves a few hundredths of a point.
func TestTimeExposedAtTheDemosStation(t *testing.T) {
	text, err := os.ReadFile("../../testdata/marrowby/ts01.csv")
	require.NoError(t, err)
	s, err := ReadStation(text)
	require.NoError(t, err)
	tide, err := s.Tide(NAVD88)
	require.NoError(t, err)
	series, err := tide.Years(1983, 2001)
	require.NoError(t, err)
	e, err := series.Exposure()
	require.NoError(t, err)
	file, err := os.Open("../../testdata/levels/exposed_ts01.csv")
	require.NoError(t, err)
	defer file.Close()
	table := csv.NewReader(file)
	table.Comment = '#'
	rows, err := table.ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 18)
	for _, row := range rows[1:] {
		at, err := parseNumber("elevation", row[0])
		require.NoError(t, err)
		want, err := parseNumber("percent", row[1])
		require.NoError(t, err)
		got, err := e.Percent(Feet.Metres(at))
		require.NoError(t, err)
		require.InDelta(t, want, got, 0.03, row[0])
	}
}
