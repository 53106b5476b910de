package geojson

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// readAll returns the features of a text and the error that ended it, nil at
// its end.
func readAll(text string) ([]*Feature, *Reader, error) {
	return readFrom(strings.NewReader(text))
}

func readFrom(text io.Reader) ([]*Feature, *Reader, error) {
	r, err := NewReader("in.geojson", text)
	if err != nil {
		return nil, nil, err
	}
	var out []*Feature
	for len(out) < 10000 {
		f, err := r.Next()
		if err == io.EOF {
			return out, r, nil
		}
		if err != nil {
			return out, r, err
		}
		out = append(out, f)
	}
	return out, r, errors.New("the reader does not end")
}

func one(t *testing.T, text string) *Feature {
	t.Helper()
	all, _, err := readAll(text)
	require.NoError(t, err)
	require.Len(t, all, 1)
	return all[0]
}

func feature(geometry string) string {
	return `{"type":"Feature","properties":{"id":"a"},"geometry":` + geometry + `}`
}

const point = `{"type":"Point","coordinates":[-82.5,27.5]}`

// TestRFC7946: one case for each clause that bears on reading.
func TestRFC7946(t *testing.T) {
	line := orb.LineString{{-82, 27}, {-82.1, 27.1}}
	square := orb.Polygon{{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}}
	for _, c := range []struct {
		clause, text string
		want         orb.Geometry // nil: refused, for the reason in wrong
		wrong        string
	}{
		{"1.2 member order", `{"geometry":{"coordinates":[-82.5,27.5],"type":"Point"},"properties":null,"type":"Feature"}`, orb.Point{-82.5, 27.5}, ""},
		{"3 type required", `{"properties":{},"geometry":` + point + `}`, nil, "type is not given"},
		{"3 type is one of nine", `{"type":"feature","properties":{},"geometry":` + point + `}`, nil, `type is "feature"`},
		{"3.1 geometry type", feature(`{"type":"Circle","coordinates":[-82,27]}`), nil, `geometry type is "Circle"`},
		{"3.1.1 third number is a height", feature(`{"type":"Point","coordinates":[-82.5,27.5,-3.25]}`), orb.Point{-82.5, 27.5}, ""},
		{"3.1.1 on some positions", feature(`{"type":"LineString","coordinates":[[-82,27,9],[-82.1,27.1]]}`), line, ""},
		{"3.1.1 two numbers at least", feature(`{"type":"Point","coordinates":[1]}`), nil, "fewer than two numbers"},
		{"3.1.2 point", feature(point), orb.Point{-82.5, 27.5}, ""},
		{"3.1.3 multipoint", feature(`{"type":"MultiPoint","coordinates":[[-82,27],[-82.1,27.1]]}`), orb.MultiPoint(line), ""},
		{"3.1.4 line", feature(`{"type":"LineString","coordinates":[[-82,27],[-82.1,27.1]]}`), line, ""},
		{"3.1.4 two positions at least", feature(`{"type":"LineString","coordinates":[[-82,27]]}`), nil, "at least 2"},
		{"3.1.5 multiline", feature(`{"type":"MultiLineString","coordinates":[[[-82,27],[-82.1,27.1]]]}`), orb.MultiLineString{line}, ""},
		{"3.1.6 polygon", feature(`{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,1],[0,0]]]}`), square, ""},
		{"3.1.6 other winding is not refused", feature(`{"type":"Polygon","coordinates":[[[0,0],[0,1],[1,1],[1,0],[0,0]]]}`),
			orb.Polygon{{{0, 0}, {0, 1}, {1, 1}, {1, 0}, {0, 0}}}, ""},
		{"3.1.6 closed", feature(`{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,1]]]}`), nil, "not closed"},
		{"3.1.6 four positions at least", feature(`{"type":"Polygon","coordinates":[[[0,0],[1,0],[0,0]]]}`), nil, "at least 4"},
		{"3.1.7 multipolygon", feature(`{"type":"MultiPolygon","coordinates":[[[[0,0],[1,0],[1,1],[0,1],[0,0]]]]}`), orb.MultiPolygon{square}, ""},
		{"3.1.8 collection", feature(`{"type":"GeometryCollection","geometries":[` + point + `]}`), nil, "GeometryCollection"},
		{"3.1 brackets too few", feature(`{"type":"LineString","coordinates":[-82,27]}`), nil, "brackets"},
		{"3.1 brackets too many", feature(`{"type":"Point","coordinates":[[-82,27]]}`), nil, "not a finite number"},
		{"3.1 no coordinates", feature(`{"type":"Point"}`), nil, "brackets"},
		{"3.1 empty multipoint", feature(`{"type":"MultiPoint","coordinates":[]}`), nil, "0 positions"},
		{"3.1 empty multiline", feature(`{"type":"MultiLineString","coordinates":[]}`), nil, "empty"},
		{"3.1 empty polygon", feature(`{"type":"Polygon","coordinates":[]}`), nil, "empty"},
		{"3.1 empty ring", feature(`{"type":"Polygon","coordinates":[[]]}`), nil, "at least 4"},
		{"3.1 empty multipolygon", feature(`{"type":"MultiPolygon","coordinates":[]}`), nil, "empty"},
		{"3.1 empty part", feature(`{"type":"MultiPolygon","coordinates":[[]]}`), nil, "empty"},
		{"3.1 empty part among others", feature(`{"type":"MultiPolygon","coordinates":[[[[0,0],[1,0],[1,1],[0,1],[0,0]]],[]]}`), nil, "empty"},
		{"3.1 empty line", feature(`{"type":"LineString","coordinates":[]}`), nil, "at least 2"},
		{"3.1 empty point", feature(`{"type":"Point","coordinates":[]}`), nil, "fewer than two"},
		{"3.2 null geometry", feature(`null`), nil, "no geometry"},
		{"3.2 missing geometry", `{"type":"Feature","properties":{}}`, nil, "no geometry"},
		{"4 longitude first", feature(`{"type":"Point","coordinates":[27.5,-97.5]}`), nil, "not longitude and latitude"},
		{"4 projected", feature(`{"type":"Point","coordinates":[453424.74,1246186.16]}`), nil, "not longitude and latitude"},
		{"5 bbox is passed over", `{"type":"Feature","bbox":[177.0,-20.0,-178.0,-16.0],"properties":null,"geometry":` + point + `}`, orb.Point{-82.5, 27.5}, ""},
		{"6.1 foreign members are passed over", `{"type":"Feature","style":{"geometry":{"type":"Circle"}},"properties":null,"geometry":` + point + `}`, orb.Point{-82.5, 27.5}, ""},
		{"numbers: NaN", feature(`{"type":"Point","coordinates":[NaN,27]}`), nil, "NaN"},
		{"numbers: text", feature(`{"type":"Point","coordinates":["-82","27"]}`), nil, "not a finite number"},
		{"numbers: null", feature(`{"type":"Point","coordinates":[null,27]}`), nil, "not a finite number"},
		{"numbers: too large", feature(`{"type":"Point","coordinates":[1e999,27]}`), nil, "not a finite number"},
		{"numbers: exponent", feature(`{"type":"Point","coordinates":[-8.25e1,275E-1]}`), orb.Point{-82.5, 27.5}, ""},
	} {
		t.Run(c.clause, func(t *testing.T) {
			f := one(t, c.text)
			if c.want == nil {
				require.Error(t, f.Err)
				require.Nil(t, f.Geometry)
				require.Contains(t, f.Err.Wrong, c.wrong)
				require.NotEmpty(t, f.Err.Remedy)
				require.Contains(t, f.Err.Error(), "in.geojson: feature 1")
				return
			}
			require.Nil(t, f.Err)
			require.Equal(t, c.want, f.Geometry)
		})
	}
	require.Contains(t, one(t, feature(`{"type":"Point","coordinates":[27.5,-97.5]}`)).Err.Remedy, "swapped")
	require.Contains(t, one(t, feature(`{"type":"Point","coordinates":[453424.74,1246186.16]}`)).Err.Remedy, "projected")
}

// TestIDs: RFC 7946, section 3.2: a string or a number. The id property, where
// there is one, goes before the member.
func TestIDs(t *testing.T) {
	for text, want := range map[string]string{
		`"id":"r-1","properties":null`:            "r-1",
		`"id":9007199254740993,"properties":null`: "9007199254740993", // 2^53 + 1
		`"id":1.50,"properties":null`:             "1.50",
		`"id":"x","properties":{"id":"y"}`:        "y",
		`"id":"x","properties":{"id":null}`:       "x",
		`"id":"x","properties":{"id":7}`:          "7",
		`"id":"caf\u00e9 \"1\"","properties":{}`:  `café "1"`,
		`"properties":{"name":"no id"}`:           "",
	} {
		f := one(t, `{"type":"Feature","geometry":`+point+`,`+text+`}`)
		require.Nil(t, f.Err)
		require.Equal(t, want, f.ID, text)
	}
}

func TestProperties(t *testing.T) {
	f := one(t, `{"type":"Feature","geometry":null,"properties":{"w":" 6.50 ","n":1e2,"none":null,"empty":"","word":"six","inf":"Inf","yes":true,"list":[1,-2.5],"mixed":[1,"a"],"holes":[1,null],"deep":[[1]]}}`)
	for name, want := range map[string][]float64{"w": {6.5}, "n": {100}, "list": {1, -2.5}, "none": nil, "empty": nil, "absent": nil} {
		got, wrong := f.Numbers(name)
		require.NoError(t, wrong, name)
		require.Equal(t, want, got, name)
	}
	for _, name := range []string{"word", "inf", "yes", "mixed", "holes", "deep"} {
		_, wrong := f.Numbers(name)
		require.ErrorContains(t, wrong, name+" is ")
	}
	require.Equal(t, "1e2", f.Text("n"), "as it was written")
}

const collection = `{"type":"FeatureCollection","name":"a, b: {[\"","features":[` + "\n" +
	`{"type":"Feature","id":1,"properties":{"s":"}]\\\""},"geometry":` + point + `} ,` + "\r\n\t" +
	`{"type":"Feature","id":2,"properties":null,"geometry":null}` + "\n" + `],"bbox":[1,2,3,4],"end":null}` + "\n"

// TestContainers: the same features however they are packed.
func TestContainers(t *testing.T) {
	one := `{"type":"Feature","id":1,"properties":{"s":"}]\\\""},"geometry":` + point + `}`
	two := `{"type":"Feature","id":2,"properties":null,"geometry":null}`
	packed := func(text string) string {
		var b bytes.Buffer
		w := gzip.NewWriter(&b)
		w.Write([]byte(text))
		w.Close()
		return b.String()
	}
	for name, text := range map[string]string{
		"collection":                 collection,
		"collection with a mark":     "\xef\xbb\xbf" + collection,
		"collection, gzip":           packed(collection),
		"gzip with a mark":           packed("\xef\xbb\xbf" + collection),
		"features first":             `{"features":[` + one + `,` + two + `],"type":"FeatureCollection"}`,
		"newline-delimited":          one + "\n" + two + "\n",
		"newline-delimited, CRLF":    one + "\r\n" + two,
		"newline-delimited, gzip":    packed(one + "\n" + two),
		"RFC 8142":                   "\x1e" + one + "\n\x1e" + two + "\n",
		"RFC 8142, blank texts":      "\x1e\n\x1e" + one + "\n\x1e\x1e" + two + "\n\x1e",
		"RFC 8142 of collections":    "\x1e" + `{"type":"FeatureCollection","features":[` + one + "]}\n\x1e" + `{"type":"FeatureCollection","features":[` + two + "]}\n",
		"an empty collection before": `{"type":"FeatureCollection","features":[]}` + one + two,
	} {
		t.Run(name, func(t *testing.T) {
			all, _, err := readAll(text)
			require.NoError(t, err)
			require.Len(t, all, 2)
			require.Equal(t, orb.Point{-82.5, 27.5}, all[0].Geometry)
			require.Equal(t, `}]\"`, all[0].Text("s"))
			require.Equal(t, "2", all[1].ID)
			require.Equal(t, []int{1, 2}, []int{all[0].Number, all[1].Number})
		})
	}
	_, r, err := readAll(collection)
	require.NoError(t, err)
	require.Equal(t, []string{"type", "name"}, []string{r.Before()[0].Key, r.Before()[1].Key})
	require.Equal(t, `"a, b: {[\""`, string(r.Before()[1].Raw))
	require.Equal(t, []string{"bbox", "end"}, []string{r.After()[0].Key, r.After()[1].Key})
	all, _, err := readAll(`{"type":"FeatureCollection","features":[]}`)
	require.NoError(t, err)
	require.Empty(t, all)
}

// One of two lists of positions cannot be told from the other (RFC 8259, section 4: names
// should be unique).
func TestAGeometryThatStandsTwice(t *testing.T) {
	for _, twice := range []string{
		`"type":"Point","coordinates":[-81,28],"coordinates":[-81,29]`,
		`"type":"LineString","type":"Point","coordinates":[-81,28]`,
		`"coordinates":[-81,28],"type":"Point","coordinates":[-81,28]`,
	} {
		r, err := NewReader("layer", strings.NewReader(`{"type":"Feature","properties":{},"geometry":{`+twice+`}}`))
		require.NoError(t, err)
		f, err := r.Next()
		require.NoError(t, err)
		require.ErrorContains(t, f.asError(), "its type or its coordinates twice")
	}
}
