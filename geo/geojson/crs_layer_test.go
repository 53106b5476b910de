package geojson

import (
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// An edge of a projected layer is straight in its system: the positions put into
// it lie on it there, no more than 250 m apart, and its ends are kept.
func TestProjectedEdgesStayStraight(t *testing.T) {
	system, err := crs.Parse("EPSG:6438")
	require.NoError(t, err)
	a, b := orb.Point{700000.25, 1500000.5}, orb.Point{709000.75, 1503000.25} // US survey feet
	text := fmt.Sprintf(`{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"EPSG:6438"}},"features":[
		{"type":"Feature","geometry":{"type":"LineString","coordinates":[[%f,%f],[%f,%f]]}}]}`, a[0], a[1], b[0], b[1])
	reader, err := NewReader("lines", strings.NewReader(text))
	require.NoError(t, err)
	f, err := reader.Next()
	require.NoError(t, err)
	require.Nil(t, f.Err)
	require.Equal(t, system, reader.CRS())
	require.Equal(t, system, f.CRS())
	line := f.Geometry.(orb.LineString)
	require.Len(t, line, 13) // 9486.7 ft are 2891.6 m, in 12 pieces
	plane := crs.NewPlane(line[0])
	for i, p := range line {
		at := system.Projected(p)
		require.InDelta(t, 0, flat.Cross(a, b, at)/flat.Distance(a, b), 0.001)
		if i > 0 {
			require.Less(t, flat.Distance(plane.Forward(line[i-1]), plane.Forward(p)), 250.1)
		}
	}
	require.InDelta(t, 0, flat.Distance(system.Projected(line[0]), a)+flat.Distance(system.Projected(line[12]), b), 0.001)
}

func TestTheSystemOfAFile(t *testing.T) {
	const point = `"features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[%s]}}]`
	system := func(name string) string { return fmt.Sprintf(`"crs":{"type":"name","properties":{"name":%q}},`, name) }
	degrees, utm := fmt.Sprintf(point, "-81,28"), fmt.Sprintf(point, "500000,3000000")
	for _, tt := range []struct {
		name, head, body, want, wrong string
	}{
		{"nothing said", "", degrees, "EPSG:4326", ""},
		{"null", `"crs":null,`, degrees, "EPSG:4326", ""},
		{"NAD83 in degrees", system("EPSG:4269"), degrees, "EPSG:4269", ""},
		{"the OGC's", system("urn:ogc:def:crs:OGC:1.3:CRS84"), degrees, "EPSG:4326", ""},
		{"a zone", system("urn:ogc:def:crs:EPSG::26917"), utm, "EPSG:26917", ""},
		{"unknown", system("EPSG:27700"), degrees, "", "its crs member: EPSG:27700 is not among"},
		{"a link", `"crs":{"type":"link","properties":{"href":"x"}},`, degrees, "", `its crs member: "" is not the name`},
		{"no object", `"crs":"EPSG:4326",`, degrees, "", "its crs member"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			reader, err := NewReader("a.geojson", strings.NewReader(`{"type":"FeatureCollection",`+tt.head+tt.body+"}"))
			require.NoError(t, err)
			f, err := reader.Next()
			if tt.wrong != "" {
				require.ErrorContains(t, err, tt.wrong)
				return
			}
			require.NoError(t, err)
			require.Nil(t, f.Err)
			require.True(t, strings.HasPrefix(reader.CRS().String(), tt.want), reader.CRS().String())
		})
	}
}

// What is given beats what the file says; what is plainly no longitude and
// latitude is told apart from what is only in the wrong order.
func TestGivenAndStray(t *testing.T) {
	text := `{"type":"FeatureCollection","features":[
		{"type":"Feature","geometry":{"type":"Point","coordinates":[500000,3000000]}},
		{"type":"Feature","geometry":{"type":"Point","coordinates":[28,-181]}},
		{"type":"Feature","geometry":{"type":"Point","coordinates":[28,-81]}},
		{"type":"Feature","geometry":{"type":"Point","coordinates":[27,-100]}}]}`
	reader, err := NewReader("a", strings.NewReader(text))
	require.NoError(t, err)
	for {
		if _, err := reader.Next(); err != nil {
			break
		}
	}
	require.Equal(t, orb.Bound{Min: orb.Point{28, -181}, Max: orb.Point{500000, 3000000}}, reader.Stray())
	utm, err := crs.Parse("EPSG:26917")
	require.NoError(t, err)
	reader, err = NewReader("a", strings.NewReader(text))
	require.NoError(t, err)
	reader.In(utm)
	f, err := reader.Next()
	require.NoError(t, err)
	require.InDelta(t, -81, f.Geometry.(orb.Point)[0], 1e-9, "the middle of zone 17")
	require.True(t, reader.Stray().IsEmpty())
}
