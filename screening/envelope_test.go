package screening

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

func demoEnvelope(t testing.TB, workers int) sketchtest.Memory {
	return demoEnvelopeOf(t, Options{Workers: workers})
}

func demoEnvelopeOf(t testing.TB, options Options) sketchtest.Memory {
	out := sketchtest.Memory{}
	report, err := Envelope(t.Context(), sketchtest.DemoJob(t), sketchtest.Folder(sketchtest.DemoDir), out, options)
	require.NoError(t, err)
	require.Zero(t, report.Unusable, report.Messages)
	return out
}

// off is the area within so far of a riparian line of 60 ft on its one side, the shore
// straight: a strip, and a quarter of a circle round its end.
func off(d float64) float64 { return 60*d + math.Pi*d*d/4 }

// TestDemoEnvelopeByHand holds the envelopes of plain parcels against figures worked by
// hand from the drawn local feet: mean high water at y = 0, mean low water at y = 24, so
// that 30 ft beyond it is y = 54; riparian lines of 60 ft at both ends of a front;
// seagrass from y = 38 before A-17; canals 48 and 90 ft, a ditch 16 ft wide.
func TestDemoEnvelopeByHand(t *testing.T) {
	rows := sketchtest.Lots(t, demoEnvelopeOf(t, Options{Workers: 2, AllPaths: true}))
	require.Len(t, rows, 19)
	for _, c := range []struct {
		parcel, path       string
		area, reach, open  float64
		taken, takenByHand string
	}{
		{"0007-A11", "state_exemption", 200 * 10, 10, 200, "", ""},
		{"0007-A11", "federal_nwp-54", 200 * 54, 54, 200, "", ""},
		{"0007-A11", "lands_riparian-setback", 200*150 - 2*off(25), 150, 200, "neighbour 13.3 %", "2 x 1990.87 of 30000"},
		{"0007-A11", "county_small", 170 * 10, 10, 170, "neighbour 15.0 %", "30 of 200"},
		{"0007-A11", "county_general", 170 * 54, 54, 170, "neighbour 15.0 %", "30 of 200"},
		{"0007-A17", "county_general", 170 * 28, 28, 170, "seagrass 48.1 %; neighbour 15.0 %", "y 28 to 54 is 26 of 54"},
		{"0007-A17", "state_oyster-habitat", 0, 0, 0, "seagrass 100.0 %", "50 ft from y 38 is beyond the shore"},
		{"0007-A17", "federal_nwp-13", 200 * 38, 38, 200, "seagrass 74.7 %", "112 of 150"},
		{"0012-A21", "county_small", 110 * 8, 8, 110, "neighbour 21.4 %; narrow water 20.0 %", "a sixth of 48; 30 of 140, 2 of 10"},
		{"0031-A23", "federal_nwp-13", 100 * 45, 45, 100, "", ""},
		{"0024-A28", "state_exemption", 160 * 8, 8, 160, "", ""},
		{"0003-A24", "federal_nwp-54", 200 * 42, 42, 200, "", ""}, // low water 12 ft off the islet
	} {
		row, name := rows[c.parcel], c.parcel+" "+c.path
		value := func(column string) float64 {
			v, err := strconv.ParseFloat(row[c.path+"_"+column], 64)
			require.NoError(t, err, name)
			return v
		}
		require.InDelta(t, c.area, value("area_sqft"), math.Max(1, 0.0005*c.area), name)
		require.InDelta(t, c.reach, value("reach_ft"), 0.05, name)
		require.InDelta(t, c.open, value("open_ft"), 0.1, name)
		require.Equal(t, c.taken, sketchtest.Taken(row, c.path), name+": "+c.takenByHand)
	}
	// Unknown is not open: the lease survey stops short of the creek, the 2024 grass
	// survey leaves a block out, no low water is mapped in the ditch.
	require.Equal(t, "no data on shellfish_lease 100.0 %; neighbour 30.0 %", sketchtest.Taken(rows["0031-A23"], "county_small"))
	require.Equal(t, "0", rows["0031-A23"]["county_small_area_sqft"])
	require.Equal(t, "700", rows["0031-A23"]["county_small_unknown_sqft"])
	require.Equal(t, "no data on seagrass 100.0 %", sketchtest.Taken(rows["0007-A18"], "state_exemption"))
	require.Equal(t, "no data on mean low water 100.0 %", sketchtest.Taken(rows["0024-A28"], "federal_nwp-54"))
	require.Equal(t, "not known", rows["0024-A28"]["federal_title"])
	require.Equal(t, "Nationwide permit 54", rows["0024-A28"]["federal_could_be"])
	require.Equal(t, "needs information", rows["0024-A28"]["federal_certainty"])
	require.Empty(t, rows["0007-A11"]["federal_could_be"])
	require.NotContains(t, rows["0007-A11"], "state_riprap_area_sqft") // what is assumed is no riprap
}

// TestEnvelopesAreValidAreas: OGC 06-103r4, section 6.1.11, and of one type.
func TestEnvelopesAreValidAreas(t *testing.T) {
	r, err := geojson.NewReader("envelope.geojson", demoEnvelopeOf(t, Options{Workers: 2, AllPaths: true})["envelope.geojson"])
	require.NoError(t, err)
	n := 0
	for {
		f, err := r.Next()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		require.Nil(t, f.Err)
		require.NoError(t, area.Check(f.Geometry.(orb.MultiPolygon)), f.Number)
		n++
	}
	require.Greater(t, n, 100)
}

// TestCandidatesComeOutOnTheirPaths screens every candidate of the demo county as a
// proposal: each must come out on the path it was drawn for.
func TestCandidatesComeOutOnTheirPaths(t *testing.T) {
	out := demoEnvelope(t, 2)
	drawn := candidatesOf(t, out)
	j := sketchtest.DemoJob(t)
	j.Proposals = job.ProposalSources{{Files: job.FileList{"candidates.geojson"}}}
	screened := sketchtest.Memory{}
	report, err := Run(t.Context(), j, sketchtest.WithFile{Files: sketchtest.Folder(sketchtest.DemoDir), Name: "candidates.geojson", Text: out["candidates.geojson"].Bytes()}, screened, Options{Workers: 2})
	require.NoError(t, err)
	require.Zero(t, report.Unusable, report.Messages)
	rows := sketchtest.Rows(t, screened)
	require.Len(t, rows, len(drawn))
	answered := map[string]bool{} // lot and question
	for id, c := range drawn {
		row := rows[id]
		for _, authority := range []string{"state", "lands", "federal", "county"} {
			require.Equal(t, c[authority+"_path"], row[authority+"_path"], id)
			require.Equal(t, c[authority+"_certainty"], row[authority+"_certainty"], id)
		}
		for path := range strings.SplitSeq(c["for"], ", ") {
			authority, path, _ := strings.Cut(path, " ")
			require.Equal(t, path, row[authority+"_path"], id)
			require.Empty(t, row[authority+"_waiver"], id)
			answered[c["parcel_id"]+" "+authority+"_"+path] = true
		}
		if strings.HasSuffix(id, " joint") {
			answered[c["parcel_id"]+" together"] = true
		}
	}
	// Every path that something is said to fit on has one.
	fits := 0
	for id, lot := range sketchtest.Lots(t, out) {
		for column, text := range lot {
			if of, outcome := strings.CutSuffix(column, "_outcome"); outcome && text == "fits" {
				require.True(t, answered[id+" "+of], "%s %s", id, of)
				fits++
			}
		}
	}
	require.Greater(t, fits, 50)
}

// candidatesOf are the properties of an envelope's candidates, by id.
func candidatesOf(t *testing.T, out sketchtest.Memory) map[string]map[string]string {
	t.Helper()
	var file struct {
		Features []struct{ Properties map[string]any }
	}
	require.NoError(t, json.Unmarshal(out["candidates.geojson"].Bytes(), &file))
	made := map[string]map[string]string{}
	for _, f := range file.Features {
		row := map[string]string{}
		for name, value := range f.Properties {
			row[name] = fmt.Sprint(value)
		}
		made[row["id"]] = row
	}
	return made
}

func TestEnvelopesAreTheSameForAnyNumberOfWorkers(t *testing.T) {
	one, many := demoEnvelope(t, 1), demoEnvelope(t, 7)
	for name, text := range one {
		require.Equal(t, text.String(), many[name].String(), name)
	}
}
