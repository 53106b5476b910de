package geojson

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// slips are what files are made of, and what damages them.
var slips = []string{
	"{", "}", "[", "]", ",", ":", `"`, " ", "\n", "\x1e", "\x00", "\xff", "é", `\u0061`, `\`, "0", "-", "1.50", "1e3", "1E-400", "1e400", "NaN", "null", "tru", "true",
	`"type":"Feature",`, `"id":"b",`, `"id":7,`, `"properties":{"a":1},`, `"properties":null,`, `"bbox":[1,2],`, `"a":{"b":[1,"c",{}]},`, `"coordinates":`, `"features":[`,
	`"crs":null,`, `"crs":{"properties":{"name":"EPSG:4269"}},`, point, "[[0,0],[1,0],[1,1],[0,0]]", "[180.0000001,0]", "[27,-97.5]", "9007199254740993", "0.1234567890123456789",
}

// damaged is a file of a few features, as it should be but for so many slips.
func damaged(random *rand.Rand, count int) string {
	geometries := []string{
		point, `{"type":"LineString","coordinates":[[-82,27.1],[-81.1234567, 27.20]]}`, `{"coordinates":[[[0,0],[1,0],[1,1],[0,0]]],"type":"Polygon"}`,
		`{"type":"MultiPolygon","coordinates":[[[[0,0],[1e0,0],[1,1.00],[0,0]]],[[[0,0],[1,0],[1,1],[0,0]],[[0,0],[1,0],[1,1],[0,0]]]]}`,
		`{"type":"MultiLineString","coordinates":[[[1,2],[3,4]],[[5,6,7],[7,8]]]}`, `{"type":"MultiPoint","coordinates":[[1,2]]}`, "null",
	}
	properties := []string{`{}`, `null`, `{"id":"a","w":1.5}`, `{"id":"a","w":2,"x":"café"}`, `{"w":2,"id":"b"}`, `{"id":9}`}
	one := func() string {
		return `{"type":"Feature","properties":` + properties[random.IntN(len(properties))] + `,"geometry":` + geometries[random.IntN(len(geometries))] + `}`
	}
	var features []string
	for range 1 + random.IntN(4) {
		features = append(features, one())
	}
	text := ""
	switch random.IntN(4) {
	case 0:
		text = strings.Join(features, "\n")
	case 1:
		text = "\x1e" + strings.Join(features, "\n\x1e")
	default:
		text = `{"type":"FeatureCollection","features":[` + strings.Join(features, " ,\n") + `]}`
	}
	for range count {
		at := random.IntN(len(text) + 1)
		to := min(at+random.IntN(3)*random.IntN(3), len(text))
		text = text[:at] + slips[random.IntN(len(slips))] + text[to:]
	}
	return text
}

// A few thousand files with slips at random places.
func TestOnePassOfDamagedFiles(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 9))
	once := 0
	for i := range 4000 {
		once += requireSameBothWays(t, damaged(random, i%4))
	}
	require.Greater(t, once, 2000, "that the one pass is tried at all")
}

// FuzzOnePass: whatever the text, it is read alike both ways; and as one value it is
// taken if and only if encoding/json takes it.
func FuzzOnePass(f *testing.F) {
	random := rand.New(rand.NewPCG(3, 5))
	for i := range 20 {
		f.Add(damaged(random, i%3))
	}
	for _, p := range slips {
		f.Add(p)
	}
	f.Fuzz(func(t *testing.T, text string) {
		requireSameBothWays(t, text)
		requireSameValue(t, text)
	})
}
