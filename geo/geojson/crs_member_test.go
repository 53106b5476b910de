package geojson

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
)

// GeoJSON of 2008 (section 3) let a crs member stand on any object, wherever among its
// members; it holds for what is in it.
func TestACRSMemberOnAnyObject(t *testing.T) {
	const (
		utm  = `"crs":{"type":"name","properties":{"name":"EPSG:26917"}}`
		nad  = `"crs":{"type":"name","properties":{"name":"EPSG:4269"}}`
		wgs  = `"crs":{"type":"name","properties":{"name":"EPSG:4326"}}`
		far  = `"geometry":{"type":"LineString","coordinates":[[500000,3100000],[500100,3100000]]}`
		here = `"geometry":{"type":"LineString","coordinates":[[-81,28],[-81,28.1]]}`
	)
	feature := func(members ...string) string {
		return `{"type":"Feature","properties":{},` + strings.Join(members, ",") + `}`
	}
	collection := func(members ...string) string {
		return `{"type":"FeatureCollection",` + strings.Join(members, ",") + `}`
	}
	for _, c := range []struct {
		name, text string
		codes      []int  // of the features
		wrong      string // of the file, or of the last feature
	}{
		{"feature", feature(utm, far), []int{26917}, ""},
		{"behind the geometry", feature(far, utm), []int{26917}, ""},
		{"geometry", feature(strings.Replace(far, `"type"`, utm+`,"type"`, 1)), []int{26917}, ""},
		{"datum of a feature", feature(here, nad), []int{4269}, ""},
		{"each line", feature(utm, far) + "\n" + feature(utm, far), []int{26917, 26917}, ""},
		{"one line", feature(utm, far) + "\n" + feature(far), []int{26917, 26917}, ""},
		{"lines of two", feature(utm, far) + "\n" + feature(nad, here), []int{26917, 4269}, "its crs is"},
		{"a later line", feature(here) + "\n" + feature(nad, here), []int{4326, 4269}, "its crs is"},
		{"collection", collection(nad, `"features":[`+feature(here)+`]`), []int{4269}, ""},
		{"feature and geometry", feature(nad, strings.Replace(here, `"type"`, nad+`,"type"`, 1)), []int{4269}, ""},
		{"feature against its geometry", feature(utm, strings.Replace(here, `"type"`, nad+`,"type"`, 1)), []int{4326}, "only one can be meant"},
		{"feature against its collection", collection(nad, `"features":[`+feature(wgs, here)+`,`+feature(here)+`]`), []int{4326, 4269}, "that of its collection"},
		{"twice in a geometry", feature(strings.Replace(here, `"type"`, nad+","+wgs+`,"type"`, 1)), []int{4326}, "twice"},
		{"twice in a collection", collection(nad, wgs, `"features":[`+feature(here)+`]`), nil, "twice"},
		{"two names", collection(strings.Replace(nad, `{"name"`, `{"name":"EPSG:4326","name"`, 1), `"features":[`+feature(here)+`]`), nil, "twice"},
		{"behind the features", collection(`"features":[`+feature(here)+`]`, nad), []int{4326}, "too late"},
		{"two collections of one", collection(nad, `"features":[`+feature(here)+`]`) + collection(nad, `"features":[`+feature(here)+`]`), []int{4269, 4269}, ""},
		{"two collections of two", collection(utm, `"features":[`+feature(far)+`]`) + collection(`"features":[`+feature(here)+`]`), []int{26917}, "two coordinate systems"},
	} {
		r, err := NewReader("layer", strings.NewReader(c.text))
		require.NoError(t, err)
		var codes []int
		wrong := ""
		for {
			f, err := r.Next()
			if err == io.EOF {
				break
			}
			if err != nil {
				wrong = err.Error()
				break
			}
			codes = append(codes, f.CRS().Code)
			if f.Err != nil {
				wrong = f.Err.Error()
			} else {
				require.InDelta(t, 28, f.Geometry.Bound().Min[1], 0.1, c.name)
			}
		}
		require.Equal(t, c.codes, codes, c.name)
		if c.wrong == "" {
			require.Empty(t, wrong, c.name)
		} else {
			require.Contains(t, wrong, c.wrong, c.name)
		}
	}
	// What is given beats them all.
	r, err := NewReader("layer", strings.NewReader(feature(nad, far)))
	require.NoError(t, err)
	system, err := crs.Parse("EPSG:26917")
	require.NoError(t, err)
	r.In(system)
	f, err := r.Next()
	require.NoError(t, err)
	require.NoError(t, f.asError())
	require.Equal(t, 26917, f.CRS().Code)
}

func (f *Feature) asError() error {
	if f.Err == nil {
		return nil
	}
	return f.Err
}
