package geojson

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"unicode/utf8"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// FuzzReader: no input breaks the reader, nor does it matter how much of it comes
// at once; a feature it takes has the
// coordinates that encoding/json reads; what is written again is valid JSON.
func FuzzReader(f *testing.F) {
	for _, seed := range []string{
		collection, feature(point), "\x1e" + feature(point) + "\n\x1e{\"type\":\"Feat\x1e" + feature(`null`),
		feature(`{"type":"MultiPolygon","coordinates":[[[[0,0],[1,0],[1,1],[0,0]],[[0.1,0.1],[0.2,0.1],[0.2,0.2],[0.1,0.1]]]]}`),
		feature(`{"type":"MultiPolygon","coordinates":[[]]}`),
		feature(`{"type":"LineString","coordinates":[[-8.2e1,27,3],[-82.1,27.1]],"coordinates":[[1,2],[3,4]]}`),
		feature(`{"type":"MultiPoint","coordinates":[[-82 , 27],[1e-9,-0]]}`),
		feature(`{"type":"Point","coordinates":[1]}`), feature(`{"type":"Point","coordinates":[NaN,1]}`),
		`{"features":[{}]}`, `{"features":[],"features":[1]}`, `{"geometry":}`, `{"geometry":,"features":[]}`, "\xef\xbb\xbf[]", "\x1f\x8b",
		`{"type":"Feature","properties":{},"properties":{"a":"\ud800"},"geometry":null}`,
		`{"type":"Feature","id":"\ud83d\ude00\ud800","properties":{"PATH":1,"path_given":2,"Path" : 3 },"geometry":null}`,
		"{\"name\":\"caf\xe9\",\"features\":[]}", "{\"features\":[],\"caf\xe9\":1}", "{\"features\":[{\"id\":\"\xe9\"}]}", "{\"a\x00\":1}", "\xff\xfe{\x00",
		"SQLite format 3\x00", "\x00\x00\x27\x0a", "fgb\x03fgb\x00", "PK\x03\x04\x14\x00\x08\x00\x08\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x05\x00\x00\x00m.shpPK\x03\x04", "<kml>",
		`{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"path":1, "b" : [2]},"geometry":{"coordinates":[[[1,2],[3,4],[5,7],[1,2]]],"type":"Polygon"}}],"x":[[[`,
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		all, r, err := readAll(text)
		if err == nil {
			for _, m := range slices.Concat(r.Earlier(), r.Before(), r.After()) {
				require.True(t, utf8.Valid(m.Raw) && utf8.Valid(m.Name()), "%q", m.Raw)
			}
		}
		piecemeal, _, errPiecemeal := readFrom(iotest.OneByteReader(strings.NewReader(text)))
		require.Equal(t, all, piecemeal)
		require.Equal(t, err, errPiecemeal)
		for _, got := range all {
			require.NotEqual(t, got.Geometry == nil, got.Err == nil, "usable or not, never both")
			annotated := annotated(got, ours)
			require.True(t, json.Valid(annotated) && utf8.Valid(annotated), "%q", annotated)
			require.Equal(t, [2]int{1, 1}, alike(t, annotated), "%s", annotated)
			got.Whereabouts()
			got.Numbers("path")
			if got.Err != nil {
				continue
			}
			require.Equal(t, decoded(t, got.raw), plain(got.Geometry))
		}
	})
}

// alike is how many of a feature's properties have the name of each of ours in any case.
func alike(t *testing.T, annotated []byte) (n [2]int) {
	all, err := members(annotated)
	require.NoError(t, err)
	var properties []Member
	for _, m := range all {
		if m.Key == "properties" {
			properties, err = members(m.Raw)
			require.NoError(t, err)
		}
	}
	for _, m := range properties {
		for i := range n {
			if strings.EqualFold(m.Key, ours[i].Key) {
				n[i]++
			}
		}
	}
	return n
}

// decoded returns the coordinates of a feature as encoding/json reads them, two
// numbers to a position. Maps, unlike structs, tell names in other cases apart.
func decoded(t *testing.T, raw []byte) any {
	var all map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(raw, &all))
	var geometry map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(all["geometry"], &geometry))
	var coordinates any
	require.NoError(t, json.Unmarshal(geometry["coordinates"], &coordinates))
	return flatten(coordinates)
}

func flatten(v any) any {
	all, ok := v.([]any)
	if !ok {
		return v
	}
	if len(all) >= 2 {
		if _, ok := all[0].(float64); ok {
			all = all[:2]
		}
	}
	out := []any{}
	for _, inner := range all {
		out = append(out, flatten(inner))
	}
	return out
}

// plain returns a geometry as encoding/json would its coordinates.
func plain(g orb.Geometry) any {
	out := []any{}
	switch g := g.(type) {
	case orb.Point:
		return []any{g[0], g[1]}
	case orb.MultiPoint:
		for _, p := range g {
			out = append(out, plain(p))
		}
	case orb.LineString:
		return plain(orb.MultiPoint(g))
	case orb.Ring:
		return plain(orb.MultiPoint(g))
	case orb.MultiLineString:
		for _, line := range g {
			out = append(out, plain(line))
		}
	case orb.Polygon:
		for _, ring := range g {
			out = append(out, plain(ring))
		}
	case orb.MultiPolygon:
		for _, polygon := range g {
			out = append(out, plain(polygon))
		}
	}
	return out
}
