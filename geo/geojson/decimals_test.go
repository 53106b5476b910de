package geojson

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the digits behind the point say, not how many there are. Worked by hand.
func TestDecimalsThatSaySomething(t *testing.T) {
	for number, want := range map[string]int{
		"538805": 0, "538805.0": 0, "538805.50": 1, "-74.600000000": 1, "30.000100": 4, "0": 0, "100": 0,
		"-7.46e1": 1, "3.0e1": 0, "5.388051e5": 1, "1E2": 0, "1.50e+1": 0, "-1.25E-3": 5, "1e-9": 9,
		// What binary arithmetic leaves of five decimals, and of none.
		"30.000010000000001": 5, "30.000009999999999": 5, "29.999999999999996": 0, "30.00001000000051": 5, "30.0000100001": 10,
		"1e-99999999999999999999": 11, // read as 0; more than 11 are as good
	} {
		line := fmt.Sprintf(`{"type":"LineString","coordinates":[[%s,3.00000000001],[1,2.00000000001]]}`, number)
		_, r, err := readAll(`{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"EPSG:3857"}},"features":[` + feature(line) + `]}`)
		require.NoError(t, err, number)
		require.Equal(t, want, r.Decimals(), number)
	}
}

// Half a metre of whole metres written with a point; half a hundredth of a degree
// along a meridian of 111.319 km to the degree of the equator. Worked by hand.
func TestGrainOfPositions(t *testing.T) {
	_, r, err := readAll(`{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"EPSG:6347"}},"features":[` +
		feature(`{"type":"LineString","coordinates":[[538805.0,3318785.0],[538905.0,3318785.0]]}`) + `]}`)
	require.NoError(t, err)
	require.InDelta(t, 0.5, r.Grain(), 1e-12)
	_, r, err = readAll(feature(`{"type":"LineString","coordinates":[[-7.46e1,30.010],[-74.60,3.002e1]]}`))
	require.NoError(t, err)
	require.Equal(t, 2, r.Decimals())
	require.InDelta(t, 556.6, r.Grain(), 0.1)
}

// A line written with five decimals but for one number, one of nine from which zeros at the
// end are left out, a box at a round place, lines along an axis.
func TestOneLongNumberHidesNothing(t *testing.T) {
	for coordinates, want := range map[string]int{
		`[[-74.60001,30.00001],[-74.60102,30.00012],[-74.602034567891,30.00023],[-74.60304,30.00034]]`:                  5,
		`[[-74.60001,30.00001],[-74.601023456789,30.00012]]`:                                                            5,
		`[[-74.600012345,30.000012345],[-74.601023456,30.0001234],[-74.60203456,30.000234567],[-74.603045678,30.0003]]`: 9,
		`[[-74.6,30],[-74.599810067,30],[-74.599810067,30.000024743],[-74.6,30.000024743],[-74.6,30]]`:                  9,
		`[[-74.6,30],[-74.599810067,30]]`:   9,
		`[[-74.6,30],[-74.6,30.000024743]]`: 9,
		`[[-74.6,30.1],[-74.6,30.1]]`:       1,
	} {
		_, r, err := readAll(feature(`{"type":"LineString","coordinates":` + coordinates + `}`))
		require.NoError(t, err)
		require.Equal(t, want, r.Decimals(), coordinates)
	}
	// Of many positions half must have them.
	var short, long []string
	for i := range 200 {
		short = append(short, fmt.Sprintf("[-74.%05d,30.%05d]", 10001+2*i, 20001+2*i))
		long = append(long, fmt.Sprintf("[-74.%09d,30.%09d]", 100010001+2*i, 200010001+2*i))
	}
	for n, want := range map[int]int{0: 5, 80: 5, 120: 9, 200: 9} {
		_, r, err := readAll(feature(`{"type":"LineString","coordinates":[` + strings.Join(append(append([]string{}, long[:n]...), short[n:]...), ",") + `]}`))
		require.NoError(t, err)
		require.Equal(t, want, r.Decimals(), n)
	}
}
