package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	hourly    = "../../testdata/levels/tadc_fernandina_cora_hourly_2022-10.csv"
	sixMinute = "../../testdata/levels/CO-OPS__8729108__wl.csv"
)

// asked runs a command that must succeed and returns what it prints.
func asked(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code := run(context.Background(), append([]string{"waterward", "levels"}, args...), strings.NewReader(""), &stdout, &stderr)
	require.Equal(t, exitDone, code, stderr.String())
	return stdout.String()
}

// exposedAt is a column of the CSV by another.
func exposedAt(t *testing.T, page, elevation string) map[string]string {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(page)).ReadAll()
	require.NoError(t, err)
	at := map[string]int{}
	for k, name := range all[0] {
		at[name] = k
	}
	found := map[string]string{}
	for _, row := range all[1:] {
		found[row[at[elevation]]] = row[at["exposed_pct"]]
	}
	return found
}

// Source: counted with awk from the file of NOAA's data service: 100, 243, 383,
// 540 and 634 of 724 levels lie lower.
func TestExposureOfAGaugeRecord(t *testing.T) {
	page := asked(t, "exposure", "--record", sixMinute, "--unit", "feet", "--datum", "MLLW", "--zone", "GMT", "--every", "0.5 ft", "--csv")
	found := exposedAt(t, page, "elevation_ft")
	for feet, percent := range map[string]string{"2.000": "13.81", "2.500": "33.56", "3.000": "52.90", "3.500": "74.59", "4.000": "87.57"} {
		require.Equal(t, percent, found[feet], feet)
	}
	require.Contains(t, page, "observed, counting levels")
	text := asked(t, "exposure", "--record", sixMinute, "--unit", "feet", "--datum", "MLLW", "--zone", "GMT")
	require.Contains(t, text, "99.9 %, 724 of 725 levels")
	require.Contains(t, text, "no datums of the site are shown: the record is 3.021 days long")
}

// Source: summed with awk from NOAA's sample series, its levels joined by
// straight lines.
func TestExposureOfAnHourlyRecord(t *testing.T) {
	page := asked(t, "exposure", "--record", hourly, "--unit", "m", "--datum", "STND", "--zone", "GMT", "--every", "0.25 m", "--csv")
	found := exposedAt(t, page, "elevation_m")
	for metres, percent := range map[string]string{"-0.2500": "20.71", "0.0000": "33.95", "0.5000": "55.25"} {
		require.Equal(t, percent, found[metres], metres)
	}
	require.Contains(t, page, "observed, linear between levels")
}

// Source: NOAA's Tidal Analysis Datum Calculator (public code, commit c5cc518),
// first reduction of its own sample series.
func TestDatumsOfAnHourlyRecord(t *testing.T) {
	var table struct {
		Record struct {
			Coverage float64 `json:"coverage_pct"`
			High     int     `json:"high_waters"`
			Low      int     `json:"low_waters"`
		}
		Datums, Ranges []struct {
			Name    string
			Heights []struct{ M float64 }
		}
	}
	page := asked(t, "datums", "--record", hourly, "--unit", "m", "--datum", "STND", "--zone", "GMT", "--json")
	require.NoError(t, json.Unmarshal([]byte(page), &table))
	require.Equal(t, 100.0, table.Record.Coverage)
	require.Equal(t, [2]int{60, 59}, [2]int{table.Record.High, table.Record.Low})
	want := map[string]float64{
		"HWL": 1.504, "MHHW": 1.197, "MHW": 1.093, "DTL": 0.343, "MTL": 0.312, "MSL": 0.353, "MLW": -0.468, "MLLW": -0.511,
		"DHQ": 0.104, "DLQ": 0.043, "MN": 1.561, "GT": 1.707, "LWL": -0.836,
	}
	for _, row := range append(table.Datums, table.Ranges...) {
		require.InDelta(t, want[row.Name], row.Heights[0].M, 0.001, row.Name)
		delete(want, row.Name)
	}
	require.Empty(t, want)
}

// serviceFiles are the two answers of the tide service on a station, from its
// published datums and constituents (metres above station datum).
func serviceFiles(t *testing.T, id string) (datums, constituents string) {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/levels/florida_noaa_stations.json")
	require.NoError(t, err)
	var file struct {
		Stations []struct {
			ID           string
			Datums       map[string]float64 `json:"datums_m_above_STND"`
			Constituents [][3]any           `json:"constituents_m_degGMT"`
		}
	}
	require.NoError(t, json.Unmarshal(raw, &file))
	type object = map[string]any
	dir := t.TempDir()
	write := func(name string, of object) string {
		raw, err := json.Marshal(of)
		require.NoError(t, err)
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, raw, 0o666))
		return path
	}
	for _, s := range file.Stations {
		if s.ID != id {
			continue
		}
		var levels, tides []object
		for name, v := range s.Datums {
			levels = append(levels, object{"name": name, "value": v})
		}
		for _, c := range s.Constituents {
			tides = append(tides, object{"name": c[0], "amplitude": c[1], "phase_GMT": c[2]})
		}
		return write("datums.json", object{"units": "meters", "epoch": "1983-2001", "datums": levels}),
			write("harcon.json", object{"units": "meters", "HarmonicConstituents": tides})
	}
	t.Fatalf("no station %s", id)
	return "", ""
}

// Source: the class table of 207 stations of Florida (screening/levels) puts a
// semidiurnal tide at its five datums at these percentages, and a station may
// lie two of its standard deviations from them (5.8 points at most).
func TestPredictedExposureOfAStation(t *testing.T) {
	const spread = 2 * 5.8
	datums, constituents := serviceFiles(t, "8720030")
	for datum, percent := range map[string]float64{"MLLW": 7.5, "MLW": 10.7, "MSL": 49.8, "MHW": 89.2, "MHHW": 92.2} {
		var table struct {
			Way, Years string
			Crest      struct {
				Percent float64 `json:"exposed_pct"`
				Ft      float64
			}
		}
		page := asked(t, "exposure", "--station", datums, "--constituents", constituents, "--above", datum, "--crest", "0 ft", "--crest-datum", datum, "--json")
		require.NoError(t, json.Unmarshal([]byte(page), &table))
		require.Equal(t, "1983-2001", table.Years)
		require.Equal(t, "predicted from constituents", table.Way)
		require.Zero(t, table.Crest.Ft)
		require.InDelta(t, percent, table.Crest.Percent, spread, datum)
	}
}
