package layers

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/geo/geojson"
	"waterward/screening/sketchtest"
)

// Which words tell a line of another kind, by the names that shoreline products and
// charts use (common practice, no source); each value as a line of either layer.
func TestWordsOfLinesOfAnotherKind(t *testing.T) {
	const no, high, low, both = "", "high_water", "low_water", "high_water low_water"
	for _, c := range []struct{ property, value, another string }{
		{"TYPE", "MHHW", both}, {"TYPE", "Mean Higher High Water", both}, {"TYPE", "MSL", both}, {"TYPE", "Mean Sea Level", both},
		{"TYPE", "MLLW", both}, {"TYPE", "Mean Lower Low Water", both}, {"TYPE", "MTL", both}, {"TYPE", "Extreme high water", both},
		{"TYPE", "NAVD88 zero", both}, {"TYPE", "0.0 ft NAVD88", both}, {"TYPE", "DEPTH_CONTOUR", both}, {"TYPE", "Depth Contours", both},
		{"TYPE", "Apparent_Shoreline", both}, {"TYPE", "APPARENT SHORELINE", both}, {"ATTRIBUTE", "Natural.Apparent.Marsh Or Swamp", both},
		{"TYPE", "DataLimit", both}, {"ATTRIBUTE", "Source Data Limit", both}, {"TYPE", "Limit of survey", both}, {"TYPE", "Isobath", both},
		{"TYPE", "Marsh edge", both}, {"TYPE", "Vegetation line", both}, {"ATTRIBUTE", "Breakers", both}, {"ATTRIBUTE", "Pier.Fixed", both},
		{"TYPE", "MEAN_LOW_WATER", high}, {"TYPE", "Low-water line", high}, {"TYPE", "Lowwater", high}, {"LAYER", "MLW_2026", high}, {"TYPE", "MLWLine", high},
		{"TYPE", "MHW", low}, {"TYPE", "Natural.Mean High Water.Approximate", low}, {"TYPE", "MEAN-HIGH-WATER", low},
		// Words within other words, and kinds of shore that mean high water follows.
		{"ATTRIBUTE", "Man-made.Rip Rap", no}, {"TYPE", "Breakwater", no}, {"TYPE", "Contoured bluff", no}, {"TYPE", "Bulkhead", no}, {"TYPE", "Piermont", no},
		// The line itself is named beside the other thing.
		{"DESCRIPTIO", "MHW contour 0.62 ft NAVD88", low}, {"TYPE", "Mean High Water (Apparent)", low}, {"TYPE", "0.62 ft contour (MHW)", low},
		{"TYPE", "MLW contour -1.18 ft NAVD88", high}, {"CLASS", "mean low water, from MLLW", high},
		// What is said of something else than the kind of the line.
		{"DATUM", "MLLW", no}, {"VDATUM", "MLLW", no}, {"ELEV_REF", "Feet above MLLW", no}, {"VERT_DATUM", "Mean Lower Low Water", no},
		{"METHOD", "Contour of 2022 lidar DEM", no}, {"EXT_METH", "LIDAR contour", no}, {"DATA_SOURC", "Lidar contour", no}, {"SRC_CITA", "Apparent", no},
		{"DERIVED", "offset from MHW by slope", no}, {"PHOTO", "flown at low water", no}, {"TIDE_COORD", "imagery at MLW", no},
		{"REACH", "Low Water Creek", no}, {"PLACE", "Contour Drive", no}, {"LOCATION", "Low Water Landing", no}, {"WATERBODY", "Apparent Bay", no},
		{"OWNER", "Low Water LLC", no}, {"id", "LW contour 3", no}, {"LINE_ID", "MLLW", no}, {"name", "Mean Low Water", no}, {"remarks", "checked against MLLW", no},
		{"TYPE", "a value as long as a remark, in which contour and MLLW are spoken of", no},
	} {
		for name, title := range map[string]string{high: "the mean high water line", low: "the mean low water line", "shoreline": "the shoreline"} {
			reader, err := geojson.NewReader(name, strings.NewReader(sketchtest.Shape("LineString", `"`+c.property+`":"`+c.value+`"`, sketchtest.Along(0)...)))
			require.NoError(t, err)
			f, err := reader.Next()
			require.NoError(t, err)
			text := (&Layer{Name: name, Title: title}).ofOtherKind(f)
			require.Equal(t, strings.Contains(c.another, name), text != "", "%s as %s: %s", c.value, name, text)
		}
	}
}
