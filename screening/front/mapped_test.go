package front

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// mappedAs are the stations of the lots' fronts, by lot.
func mappedAs(t *testing.T, m *layers.Set) map[string]string {
	t.Helper()
	said := map[string]string{}
	for _, f := range frontsOf(t, m) {
		if f.Parcel >= 0 {
			said[m.Layer("parcels").Items[f.Parcel].Label] = f.Stations(m.Layer("high_water"))
		}
	}
	return said
}

// run is a line along y = 0 from one x to another, with a vertex every 50 ft or less.
func run(properties string, from, to float64) string {
	n := math.Ceil(math.Abs(to-from) / 50)
	var line [][2]float64
	for k := 0.0; k <= n; k++ {
		line = append(line, [2]float64{from + k/n*(to-from), 0})
	}
	return sketchtest.Shape("LineString", properties, line...)
}

// Worked by hand: lots from x = -350 to -250 and from 250 to 350 on a shore from -800 to 800.
// A front is told along the line that was mapped there, from where that line begins, in
// whichever order the lines come and whichever way they are drawn.
func TestStationsAreThoseOfTheMappedLine(t *testing.T) {
	lots := []string{lot("a", -350, -200, -250, 5), lot("b", 250, -200, 350, -15)}
	for _, c := range []struct {
		what string
		high []string
		a, b string
	}{
		{"in one", []string{run(`"id":"h",`+left, -800, 800)}, "h 450.00-550.00", "h 1050.00-1150.00"},
		{"in one, drawn from the east", []string{run(`"id":"h","side":"water_right"`, 800, -800)}, "h 1050.00-1150.00", "h 450.00-550.00"},
		{"cut beside the lots", []string{run(`"id":"w"`, -800, 0), run(`"id":"e",`+left, 0, 800)}, "w 450.00-550.00", "e 250.00-350.00"},
		{"cut, the west drawn from the east", []string{run(`"id":"e",`+left, 0, 800), run(`"id":"w"`, 0, -800)}, "w 250.00-350.00", "e 250.00-350.00"},
		{"cut within the lots, the middle reversed", []string{run(`"id":"w"`, -800, -300), run(`"id":"m"`, 320, -300), run(`"id":"e",`+left, 320, 800)},
			"w 450.00-500.00; m 570.00-620.00", "m 0.00-70.00; e 0.00-30.00"},
		{"the middle first", []string{run(`"id":"m"`, 320, -300), run(`"id":"w"`, -800, -300), run(`"id":"e",`+left, 320, 800)},
			"m 570.00-620.00; w 450.00-500.00", "e 0.00-30.00; m 0.00-70.00"},
		{"ids that repeat", []string{run(`"id":"h"`, -800, -300), run(`"id":"h",`+left, -300, 800)}, "h 450.00-500.00; h#2 0.00-50.00", "h#2 550.00-650.00"},
	} {
		m := shoreAndLots(t, sketchtest.Sketch{"high": c.high, "lots": lots})
		require.Equal(t, 1, m.Layer("high_water").Geo.Strands(), c.what)
		require.Equal(t, map[string]string{"a": c.a, "b": c.b}, mappedAs(t, m), c.what)
	}
}

// Worked by hand: an island 100 ft square, drawn as one ring from its south-west corner
// counter-clockwise (land on the left), a lot over that corner, 30 ft of each side; and
// drawn as two lines from corner to corner, the second from the end.
func TestStationsOverTheSeamOfARing(t *testing.T) {
	lots := []string{lot("a", -10, -10, 30, 30)}
	corners := [][2]float64{{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}
	m := shoreAndLots(t, sketchtest.Sketch{"high": {reach(`"id":"i","side":"water_right"`, corners...)}, "lots": lots})
	require.Equal(t, map[string]string{"a": "i 370.00-400.00; i 0.00-30.00"}, mappedAs(t, m))
	m = shoreAndLots(t, sketchtest.Sketch{"high": {
		reach(`"id":"s","side":"water_right"`, corners[:3]...),
		reach(`"id":"n","side":"water_left"`, corners[4], corners[3], corners[2]),
	}, "lots": lots})
	require.Equal(t, map[string]string{"a": "n 0.00-30.00; s 0.00-30.00"}, mappedAs(t, m))
}

// Worked by hand: one feature of two lines that meet at x = 0.
func TestStationsOfAFeatureOfSeveralLines(t *testing.T) {
	two := strings.NewReplacer(`"LineString"`, `"MultiLineString"`, `"coordinates":[`, `"coordinates":[[`, "]]}", "]],"+positions(run("", 0, 800))+"]}")
	m := shoreAndLots(t, sketchtest.Sketch{"high": {two.Replace(run(`"id":"h",`+left, -800, 0))}, "lots": {lot("a", -50, -200, 20, 5)}})
	require.Equal(t, map[string]string{"a": "h part 1 750.00-800.00; h part 2 0.00-20.00"}, mappedAs(t, m))
}

// positions are the coordinates of a feature.
func positions(feature string) string {
	_, after, _ := strings.Cut(feature, `"coordinates":`)
	return strings.TrimSuffix(after, "}}")
}
