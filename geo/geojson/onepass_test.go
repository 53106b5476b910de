package geojson

import (
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
)

// What is read in one pass is what is read the long way, and what encoding/json reads,
// of ordinary features and of what is odd in any way one can think of.
func TestOnePassAndTheLongWay(t *testing.T) {
	beside := func(n int) (members string) {
		for i := range n {
			members += fmt.Sprintf(`"x%d":1,`, i)
		}
		return members
	}
	const area = `[[0,0],[1.5,0],[1.5,1],[0,0]]`
	for _, c := range []struct {
		text string
		once bool // it is read in one pass
	}{
		{feature(point), true},
		{" \t{ \"type\" :\r\n\"Feature\" , \"geometry\": { \"type\" : \"Point\" ,\"coordinates\" : [ -82.5 , 27.5 ] } , \"properties\" : { \"a\" : 1 } } \n", true},
		{`{"geometry":{"coordinates":[-82.5,27.5,-3.25],"type":"Point"},"properties":null,"type":"Feature"}`, true},
		{`{"type":"Feature","id":"café \u00e9 \ud83d\ude00","bbox":[1,2,3,4],"geometry":` + point + `}`, true},
		{`{"type":"Feature","id":"café \u00e9 \ud83d","bbox":[1,2,3,4],"geometry":` + point + `}`, false},
		{`{"type":"Feature","id":{"a":[1,"}"]},"properties":{"id":"x\\\"","id2":12345678901234567890,"é":[{},[],{"a":[true,false,null]}]},"geometry":` + point + `}`, true},
		{feature(`{"type":"MultiPoint","coordinates":[[-82,27],[-82.10,27.1]]}`), true},
		{feature(`{"type":"LineString","coordinates":[[-0.0,-0],[8.25e1,2.75E-1,1,2,3]]}`), true},
		{feature(`{"type":"MultiLineString","coordinates":[[[-82,27],[-82.1,27.1]],[[0,0],[1,1],[2,2]]]}`), true},
		{feature(`{"type":"Polygon","bbox":[1],"coordinates":[` + area + `,` + area + `]}`), true},
		{feature(`{"type":"MultiPolygon","coordinates":[[` + area + `,` + area + `],[` + area + `]]}`), true},
		{feature(`{"type":"Point","coordinates":[123.45678901234567890123,9007199254740993e-16]}`), true},

		{feature(`null`), false},
		{feature(`{"type":"Circle","coordinates":[-82.5,27.5]}`), false},
		{feature(`{"type":"Po\u0069nt","coordinates":[-82.5,27.5]}`), false},
		{feature(`{"type":"Point","type":"Point","coordinates":[-82.5,27.5]}`), false},
		{feature(`{"type":"MultiPoint","coordinates":[[1,2]],"coordinates":[[-82.5,27.5]]}`), false},
		{feature(`{"type":"Point","crs":{"properties":{"name":"EPSG:4269"}},"coordinates":[-82.5,27.5]}`), false},
		{feature(`{"type":"Point","coordinates":[[-82.5,27.5]]}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5]}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,1e999]}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,27.5,1e999]}`), false},
		{feature(`{"type":"Point","coordinates":[-180.5,27.5]}`), false},
		{feature(`{"type":"Point","coordinates":[180.5,27.5]}`), false},
		{feature(`{"type":"Point","coordinates":[27.5,-90.5]}`), false},
		{feature(`{"type":"Point","coordinates":[27.5,90.5]}`), false},
		{feature(`{"type":"Point","coordinates":[-180,-90]` + strings.Repeat(`,"a":1`, mostProperties-2) + `}`), true},
		{feature(`{"type":"Point","coordinates":[180,90]` + strings.Repeat(`,"a":1`, mostProperties-1) + `}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,027.5]}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,27.]}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,.5]}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,+1]}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,27.5],}`), false},
		{feature(`{"type":"Point","coordinates":[-82.5,27.5,]}`), false},
		{feature(`{"type":"MultiPoint","coordinates":[]}`), false},
		{feature(`{"type":"LineString","coordinates":[[1,2]]}`), false},
		{feature(`{"type":"MultiLineString","coordinates":[[[1,2]]]}`), false},
		{feature(`{"type":"Polygon","coordinates":[[[1,2],[2,3],[1,2]]]}`), false},
		{feature(`{"type":"Polygon","coordinates":[[[1,2],[2,3],[3,3],[1,2.5]]]}`), false},
		{feature(`{"type":"MultiPolygon","coordinates":[[]]}`), false},
		{feature(`{"type":"MultiPolygon","coordinates":[[` + area + `],[]]}`), false},
		{`{"type":"Feature","properties":{"a":1,"b":2,"a":3},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"a":1,"\u0061":3},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":[],"geometry":` + point + `}`, false},
		{`{"type":"Feature","x":1,"x":2,"geometry":` + point + `}`, false},
		{`{"type":"Feature",` + beside(mostBeside-2) + `"geometry":` + point + `}`, true},
		{`{"type":"Feature",` + beside(mostBeside-1) + `"geometry":` + point + `}`, false},
		{`{"type":"Feature","geometry":` + point + `,"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"a":"` + "\x1f" + `"},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"a":"` + "\xff" + `"},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"` + "\xc3" + `":1},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"a":"\x"},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"a":"\u12g4"},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"a":truE},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"id":"` + strings.Repeat("x", LongestText+1) + `"},"geometry":` + point + `}`, false},
		{`{"type":"Feature","properties":{"` + strings.Repeat("x", LongestText-1) + `":1},"geometry":` + point + `}`, false},
		{`{"type":"Feature","crs":{"type":"name","properties":{"name":"EPSG:4269"}},"geometry":` + point + `}`, false},
		{`{"type":"Feature","coordinates":[1,2],"geometry":` + point + `}`, false},
		{`{"type":"Feature","features":[],"geometry":` + point + `}`, false},
		{`{"type":"feature","geometry":` + point + `}`, false},
		{`{"geometry":` + point + `}`, false},
		{`{}`, false},
		{`{"type":"Feature","geometry":` + point, false},
	} {
		r, err := NewReader("in.geojson", strings.NewReader(c.text))
		require.NoError(t, err)
		require.Equal(t, c.once, r.sound() != nil, c.text)
		requireSameBothWays(t, c.text)
		requireSameBothWays(t, `{"type":"FeatureCollection","features":[`+feature(point)+`,`+c.text+` , `+c.text+`],"end":1}`)
		requireSameBothWays(t, `{"crs":{"properties":{"name":"EPSG:3857"}},"features":[`+c.text+`]}`+"\n"+c.text)
	}
}

// Positions of a projection are as good, stated or given; easting 500 km is the central
// meridian of UTM zone 17, 81 degrees west, by definition.
func TestOnePassInAProjection(t *testing.T) {
	line := feature(`{"type":"LineString","coordinates":[[500000,3100000],[500000,3100300.50]]}`)
	utm, err := crs.Parse("EPSG:26917")
	require.NoError(t, err)
	for _, given := range []bool{false, true} {
		var both []*Feature
		for _, next := range []func(*Reader) (*Feature, error){(*Reader).step, (*Reader).Next} {
			r, err := NewReader("in.geojson", strings.NewReader(`{"crs":{"properties":{"name":"EPSG:26917"}},"features":[`+line+`,`+line+`]}`))
			require.NoError(t, err)
			if given {
				r.In(utm)
			}
			_, err = r.step() // the head
			require.NoError(t, err)
			f, err := next(r)
			require.NoError(t, err)
			require.Nil(t, f.Err)
			require.InDelta(t, -81, f.Geometry.Bound().Min[0], 1e-9)
			require.Equal(t, 1, r.Decimals())
			both = append(both, f)
			f = r.sound()
			require.NotNil(t, f)
			require.Equal(t, 2, f.Number)
		}
		require.Equal(t, both[0], both[1])
	}
	// Beyond where the projection holds it is a fault, told the long way.
	requireSameBothWays(t, `{"crs":{"properties":{"name":"EPSG:26917"}},"features":[`+feature(`{"type":"Point","coordinates":[5e8,1]}`)+`]}`)
}

// requireSameBothWays reads a text as a Reader does, byte by byte, and the long way
// only: both find the same features and faults. The coordinates are those that
// encoding/json reads.
func requireSameBothWays(t *testing.T, text string) (once int) {
	t.Helper()
	drain := func(in io.Reader, next func(*Reader) (*Feature, error)) (all []*Feature, r *Reader, err error) {
		if r, err = NewReader("in.geojson", in); err != nil {
			return nil, nil, err
		}
		for {
			f, err := next(r)
			if err != nil {
				return all, r, err
			}
			if f != nil {
				all = append(all, f)
			}
		}
	}
	long, was, errLong := drain(strings.NewReader(text), (*Reader).step)
	fast, is, err := drain(iotest.OneByteReader(strings.NewReader(text)), (*Reader).Next)
	require.Equal(t, errLong, err, text)
	require.Equal(t, long, fast, text)
	for i, f := range fast {
		if f.Err != nil {
			continue
		}
		want, _ := json.Marshal(long[i].Geometry) // which tells -0 from 0, as Equal does not
		got, err := json.Marshal(f.Geometry)
		require.NoError(t, err)
		require.Equal(t, string(want), string(got), text)
		if f.CRS().IsDegrees() {
			require.Equal(t, decoded(t, f.raw), plain(f.Geometry), text)
		}
	}
	if was != nil {
		for _, r := range []*Reader{was, is} {
			r.scan, r.pass = nil, featurePass{}
		}
		require.Equal(t, was, is, text)
	}
	_, _, _ = drain(strings.NewReader(text), func(r *Reader) (*Feature, error) {
		if f := r.sound(); f != nil {
			once++
			return f, nil
		}
		return r.step()
	})
	return once
}

// What is lent is right as long as it is lent, and a geometry for good.
func TestLentFeatures(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 4))
	for range 200 {
		text := damaged(random, 1)
		own, _, errOwn := readAll(text)
		r, err := NewReader("in.geojson", iotest.HalfReader(strings.NewReader(text)))
		require.NoError(t, err)
		r.Lend()
		var geometries []orb.Geometry
		for {
			var f *Feature
			if f, err = r.Next(); err != nil {
				break
			}
			require.Equal(t, own[len(geometries)], f, text)
			geometries = append(geometries, f.Geometry)
		}
		if errOwn == nil {
			errOwn = io.EOF
		}
		require.Equal(t, errOwn, err)
		require.Len(t, geometries, len(own))
		for i, g := range geometries {
			require.Equal(t, own[i].Geometry, g, text)
		}
	}
}
