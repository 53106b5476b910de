package geojson

import (
	"bytes"
	"compress/gzip"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestFilesThatCannotBeRead end with an error that says so.
func TestFilesThatCannotBeRead(t *testing.T) {
	for name, c := range map[string]struct{ text, wrong string }{
		"empty":             {"", "empty"},
		"blank":             {" \n ", "empty"},
		"not JSON":          {"id,lon,lat\n1,2,3\n", "GeoJSON"},
		"an array":          {"[1,2]", "GeoJSON"},
		"a bare geometry":   {point, "bare geometry"},
		"no features":       {`{"type":"FeatureCollection"}`, "no \"features\""},
		"features is null":  {`{"type":"FeatureCollection","features":null}`, "no \"features\""},
		"gzip of nothing":   {"\x1f\x8bgarbage", "gzip"},
		"unquoted":          {`{type:"FeatureCollection"}`, "not valid JSON"},
		"a colon missing":   {`{"type" "FeatureCollection"}`, "not valid JSON"},
		"a stray character": {`{"type":"FeatureCollection","features":[}`, "not valid JSON"},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, err := readAll(c.text)
			require.Error(t, err)
			var file *FileError
			require.ErrorAs(t, err, &file)
			require.Contains(t, err.Error(), "in.geojson: ")
			require.Contains(t, err.Error(), c.wrong)
		})
	}
}

// TestTruncatedFile cuts a collection at every byte: whatever is left, the file
// must not pass for whole, and what was read before the cut stands.
func TestTruncatedFile(t *testing.T) {
	whole := strings.TrimSpace(collection)
	for cut := 1; cut < len(whole); cut++ {
		all, _, err := readAll(whole[:cut])
		var file *FileError
		require.ErrorAs(t, err, &file, "cut at %d: %q", cut, whole[:cut])
		require.LessOrEqual(t, len(all), 2)
		for _, f := range all {
			require.NotEqual(t, "", f.ID, "cut at %d", cut)
		}
	}
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	w.Write([]byte(strings.Repeat(feature(point)+"\n", 500)))
	w.Close()
	_, _, err := readAll(packed.String()[:packed.Len()/2])
	var file *FileError
	require.ErrorAs(t, err, &file)
	require.Contains(t, err.Error(), "cut short")
}

// TestSequenceOutlivesABrokenText: RFC 8142, section 2.4, and RFC 7464, section
// 2.3: a text that breaks off, at whatever byte, must not cost the texts after
// it; and it is a row of its own, never lost.
func TestSequenceOutlivesABrokenText(t *testing.T) {
	middle := `{"type":"Feature","id":12,"n":true,"properties":{"s":"x"},"geometry":` + point + `}`
	for cut := 1; cut < len(middle); cut++ {
		text := "\x1e" + feature(point) + "\n\x1e" + middle[:cut] + "\x1e" + feature(point) + "\n"
		all, _, err := readAll(text)
		require.NoError(t, err, "cut at %d: %s", cut, middle[:cut])
		require.Len(t, all, 3, "cut at %d", cut)
		require.Nil(t, all[0].Err)
		require.Error(t, all[1].Err, "cut at %d", cut)
		require.Nil(t, all[2].Err, "cut at %d", cut)
	}
}

// TestCollectionCutInASequence: the text that breaks off may be a collection.
func TestCollectionCutInASequence(t *testing.T) {
	text := "\x1e" + `{"type":"FeatureCollection","features":[` + feature(point) + `,{"type":"Feat` + "\x1e" + feature(point) + "\n"
	all, _, err := readAll(text)
	require.NoError(t, err)
	require.Len(t, all, 3)
	require.Nil(t, all[0].Err)
	require.Error(t, all[1].Err)
	require.Nil(t, all[2].Err)
}

// TestOneBadFeature costs nothing but itself.
func TestOneBadFeature(t *testing.T) {
	for _, bad := range []string{
		`{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[NaN,1]}}`,
		`{"type":"Feature","properties":{"depth":Infinity},"geometry":` + point + `}`,
		`{"type":"Feature","properties":{},"geometry":}`,
		`{"type":"Feature","properties":,"geometry":` + point + `}`,
		`{"type":"Feature","properties":{"a":1,},"geometry":` + point + `}`,
		`{"type":"Feature","properties":{'a':1},"geometry":` + point + `}`,
		`{}`,
	} {
		for _, text := range []string{
			`{"type":"FeatureCollection","features":[` + feature(point) + `,` + bad + `,` + feature(point) + `]}`,
			feature(point) + "\n" + bad + "\n" + feature(point),
		} {
			all, _, err := readAll(text)
			require.NoError(t, err, text)
			require.Len(t, all, 3, text)
			require.Error(t, all[1].Err)
			require.Nil(t, all[2].Err)
			require.Equal(t, 3, all[2].Number)
		}
	}
	// By themselves these make no file; in a collection they are bad features.
	for odd, wrong := range map[string]string{
		`null`: "not a JSON object", `7`: "not a JSON object", `"text"`: "not a JSON object",
		`[1,2]`: "not a JSON object", point: `its type is "Point"`,
	} {
		all, _, err := readAll(`{"type":"FeatureCollection","features":[` + odd + `,` + feature(point) + `]}`)
		require.NoError(t, err)
		require.Len(t, all, 2)
		require.Contains(t, all[0].Err.Wrong, wrong)
	}
}

// TestDeepNesting is refused, or passed over, without running out of stack.
func TestDeepNesting(t *testing.T) {
	deep := func(n int) string { return strings.Repeat("[", n) + strings.Repeat("]", n) }
	for _, n := range []int{100, 200000} {
		text := `{"type":"FeatureCollection","features":[` + feature(`{"type":"Polygon","coordinates":`+deep(n)+`}`) + `,` + feature(point) + `]}`
		all, _, err := readAll(text)
		require.NoError(t, err)
		require.Error(t, all[0].Err)
		_, known := all[0].Whereabouts()
		require.False(t, known)
		require.Nil(t, all[1].Err)
	}
}

// TestWhereabouts: a broken feature still says where it lies, if it can.
func TestWhereabouts(t *testing.T) {
	for text, want := range map[string][4]float64{
		`{"type":"Polygon","coordinates":[[[-82,27],[-81,27],[-81,28]]]}`:                                    {-82, 27, -81, 28},
		`{"type":"LineString","coordinates":[[-82,27],[NaN,NaN],[-81.5,27.5]]}`:                              {-82, 27, -81.5, 27.5},
		`{"type":"LineString","coordinates":[[-82,27],[453424,1246186]]}`:                                    {-82, 27, -82, 27},
		`{"type":"GeometryCollection","geometries":[` + point + `,{"type":"Point","coordinates":[-82,27]}]}`: {-82.5, 27, -82, 27.5},
	} {
		f := one(t, feature(text))
		require.Error(t, f.Err)
		got, known := f.Whereabouts()
		require.True(t, known, text)
		require.Equal(t, want, [4]float64{got.Min[0], got.Min[1], got.Max[0], got.Max[1]}, text)
	}
	_, known := one(t, feature(`null`)).Whereabouts()
	require.False(t, known)
}
