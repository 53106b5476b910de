package screening

import (
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// The same mound lying in 1 ft of water at mean high water: what is below it has a base
// of 56 by 10, a middle of 54.5 by 8.5 and a top of 53 by 7 ft, (560 + 4 x 463.25 +
// 371) / 6 = 464 cubic feet, 17.19 cubic yards; all of 27.70 lies below a high tide line
// over its crest, and 17.19 below one a foot over the bed.
func TestFillBelowWaterLines(t *testing.T) {
	for line, below := range map[string]string{"0.5": "27.70", "-1": "17.19", "-3": "0.00"} {
		text := sketchtest.Plain + `,"bed_elev_ft":-2,"crest_width_ft":4,"high_tide_line_elev_ft":` + line
		s := sketchtest.PlainSite(sketchtest.Rectangle(text, 0, 3, 56, 13))
		s["high"] = []string{sketchtest.Shape("LineString", `"id":"h","side":"water_left","elevation_ft":-1`, sketchtest.Along(0)...)}
		rows, _, err := jobOf(t, s, sketchtest.OneOfEach)
		require.NoError(t, err)
		require.Equal(t, "27.70", rows["a"]["fill_cuyd"])
		require.Equal(t, "17.19", rows["a"]["fill_below_mhw_cuyd"])
		require.Equal(t, below, rows["a"]["fill_below_htl_cuyd"], line)
	}
}

// Of 27.70 cubic yards with 40 % voids 16.62 are solid. To stand 2 ft high after half a
// foot of settlement the mound is 2.5 ft high on a base of 57.5 by 11.5: base 661.25, middle
// 53.75 x 7.75 = 416.5625 and crest 200 sq ft, 2.5/6 x (661.25 + 4 x 416.5625 + 200) = 1053.13
// cubic feet, 39.00 cubic yards. Of modules 8 ft long 56 ft take 7.
func TestFillStatedOtherwise(t *testing.T) {
	text := sketchtest.Plain + `,"bed_elev_ft":-2,"crest_width_ft":4,"void_pct":40,"settlement_ft":0.5,"unit_length_ft":8`
	s := sketchtest.PlainSite(sketchtest.Rectangle(text, 0, 3, 56, 13))
	rows, _, err := jobOf(t, s, sketchtest.OneOfEach)
	require.NoError(t, err)
	require.Equal(t, "16.62", rows["a"]["fill_solid_cuyd"])
	require.Equal(t, "39.00", rows["a"]["fill_placed_cuyd"])
	require.Equal(t, "7", rows["a"]["units"])
}
