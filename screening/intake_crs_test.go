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
