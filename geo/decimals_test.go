package geo

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the digits behind the point say, not how many there are. Worked by hand.
func TestDecimalsThatSaySomething(t *testing.T) {
	for number, want := range map[string]int{
		"538805": 0, "538805.0": 0, "538805.50": 1, "-74.600000000": 1, "30.000100": 4, "0": 0, "100": 0,
		"-7.46e1": 1, "3.0e1": 0, "5.388051e5": 1, "1E2": 0, "1.50e+1": 0, "-1.25E-3": 5, "1e-9": 9,
		"1e-99999999999999999999": 400, // read as 0, and no number to count with
	} {
		line := fmt.Sprintf(`{"type":"LineString","coordinates":[[%s,3],[1,2]]}`, number)
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
