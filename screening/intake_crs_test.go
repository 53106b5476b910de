package screening

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/screening/job"
)

// zone18 is a bar of so many feet in UTM zone 18 on NAD83 (its projection is checked against
// PROJ in geo/crs).
func zone18(t *testing.T, properties string, from, to float64) string {
	system, err := job.ParseSystem("EPSG:26918")
	require.NoError(t, err)
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	var corners []string
	for _, c := range [][2]float64{{from, 3}, {to, 3}, {to, 9}, {from, 9}, {from, 3}} {
		at := system.Projected(plane.Inverse(orb.Point{c[0] * job.Foot, c[1] * job.Foot}))
		corners = append(corners, fmt.Sprintf("[%.4f,%.4f]", at[0], at[1]))
	}
	return fmt.Sprintf(`{"type":"Feature","properties":{%s},"geometry":{"type":"Polygon","coordinates":[[%s]]}}`, properties, strings.Join(corners, ","))
}

// collectionOf is what a test reads of an output.
type collectionOf struct {
	CRS      *json.RawMessage `json:"crs"`
	Features []struct {
		Geometry struct {
			Coordinates [][][2]float64 `json:"coordinates"`
		} `json:"geometry"`
	} `json:"features"`
}

// Positions are as they came where one system holds for all, which the output names; else
// they are degrees. Either way the output screens again to the same distances.
func TestOutputNamesItsSystem(t *testing.T) {
	degrees, metres := bar(`"id":"a"`+sill, 0, 60), zone18(t, `"id":"b"`+sill, 100, 160)
	for _, c := range []struct {
		name, proposals string
		files           map[string][]string
		collection      bool // names a system
		first           float64
	}{
		{"degrees", "one", map[string][]string{"one": {degrees}}, false, -74.6},
		{"metres", "{file: one, crs: EPSG:26918}", map[string][]string{"one": {metres}}, true, 538_600},
		{"metres in two files", "{file: [one, two], crs: EPSG:26918}", map[string][]string{"one": {metres}, "two": {zone18(t, `"id":"a"`+sill, 0, 60)}}, true, 538_600},
		{"both", "[one, {file: two, crs: EPSG:26918}]", map[string][]string{"one": {degrees}, "two": {metres}}, false, -74.6},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sent{files: c.files, proposals: c.proposals}
			_, measures, report, err := s.run(t)
			require.NoError(t, err)
			var got collectionOf
			require.NoError(t, json.Unmarshal(s.out["proposals.geojson"].Bytes(), &got))
			require.Equal(t, c.collection, got.CRS != nil)
			for _, f := range got.Features {
				require.InDelta(t, c.first, f.Geometry.Coordinates[0][0][0], 100)
			}
			again := sent{files: map[string][]string{"again": {}}, whole: s.out["proposals.geojson"].String(), proposals: "again"}
			_, second, _, err := again.run(t)
			require.NoError(t, err)
			for i := range measures {
				require.Equal(t, measures[i]["mhw_farthest_ft"], second[i]["mhw_farthest_ft"])
				require.Equal(t, "9.00", second[i]["mhw_farthest_ft"])
				require.Equal(t, "60.00", second[i]["overall_length_ft"])
			}
			require.Equal(t, c.collection, strings.Contains(s.out["measured.geojson"].String(), "urn:ogc:def:crs:EPSG::4269"))
			require.Equal(t, c.name == "both", strings.Contains(strings.Join(report.Warnings, "\n"), "may lie 8.04 ft apart")) // 2.45 m, geo/crs/datum.go
		})
	}
}

// A proposal that lies beside no tidal line is refused, with how far off they are: half a
// degree of latitude is 34.4 miles (110.85 km a degree at 30 N, WGS 84), and a zone of UTM
// is 6 degrees of longitude, 360 miles along that parallel. 1,230 ft past its end is past the line.
func TestAdrift(t *testing.T) {
	north := strings.ReplaceAll(bar(`"id":"a"`+sill, 0, 60), ",30.", ",30.5")
	for _, c := range []struct {
		name, proposals, feature string
		wrong                    []string
	}{
		{"half a degree off", "p", north, []string{"no tidal line is mapped within 1000 ft of it, and what is mapped of them begins 34.", " miles off; give the layers of its shore"}},
		{"in the next zone", "{file: p, crs: EPSG:26917}", zone18(t, `"id":"a"`+sill, 0, 60), []string{"begins 35", "it is read as EPSG:26917", "would lie beside them as EPSG:", "26918"}},
		{"in its own zone", "{file: p, crs: EPSG:26918}", zone18(t, `"id":"a"`+sill, 0, 60), nil},
		{"past the end of the line", "p", bar(`"id":"a"`+sill, 2000, 2060), []string{"what is mapped of them begins 12"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			summary, _, report, err := (&sent{files: map[string][]string{"p": {c.feature}}, proposals: c.proposals}).run(t)
			require.NoError(t, err)
			for _, text := range c.wrong {
				require.Contains(t, summary[0]["error"], text)
			}
			require.Equal(t, c.wrong == nil, summary[0]["error"] == "")
			require.Equal(t, c.wrong == nil, report.Unusable == 0)
		})
	}
}
