package screening

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/sketchtest"
)

// onForeshore is the plain site with a foreshore that falls from 0.5 ft at the line of
// mean high water to -1.5 ft at that of mean low water, 20 ft off: a tenth of a foot a foot.
func onForeshore(proposal string) sketchtest.Sketch {
	s := sketchtest.PlainSite(proposal)
	s["low"] = []string{sketchtest.Shape("LineString", `"id":"l","elevation_ft":-1.5,"elevation_accuracy_ft":0.1`, sketchtest.Along(20)...)}
	return s
}

// A structure from y0 to y1 stands midway on a bed of 0.5 ft less a tenth of its distance
// from mean high water. A stated one may lie half a foot off that (common practice, no
// source), not below mean low water landward of its line, nor far above it waterward.
// Worked by hand.
func TestAStatedBedIsHeldAgainstTheForeshore(t *testing.T) {
	for _, c := range []struct {
		y0, y1             float64
		bed, expects, says string // no says: firm
	}{
		{3, 9, "-0.6", "-0.10", ""}, // 6 ft off, 0.5 ft below
		{3, 9, "-0.62", "-0.10", "the bed stated, -0.62 ft NAVD88, lies 0.52 ft off that of a straight foreshore between the tidal lines, -0.10 ft NAVD88 (6 ft of the 20 ft from mean high to mean low water): check the bed, its datum and the lines"},
		{3, 9, "-6", "-0.10", "lies 5.90 ft off that of a straight foreshore"},
		{3, 9, "[-0.4,-0.8]", "-0.10", ""},
		{12, 18, "-1.45", "-1.00", ""},
		{15, 19.5, "-1.6", "-1.22", "the bed stated, -1.60 ft NAVD88, lies 0.10 ft below mean low water, though all of it stands landward of that line"},
		{17, 23, "-1.9", "-1.50", ""}, // across the line
		{22, 28, "-1.8", "", ""},
		{22, 28, "-9", "", ""}, // how it falls there, nobody can say
		{22, 28, "-0.9", "", "the bed stated, -0.90 ft NAVD88, lies 0.60 ft above mean low water, though all of it stands waterward of that line"},
		{3, 9, "[-0.8,0.2]", "-0.10", "the crest, 0 ft NAVD88, does not stand above all of the bed stated, 0.20 ft NAVD88 at its highest"},
		{3, 9, "null", "-0.10", ""},
	} {
		s := onForeshore(sketchtest.Rectangle(sketchtest.Plain+`,"crest_width_ft":1,"bed_elev_ft":`+c.bed, 0, c.y0, 60, c.y1))
		row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 100 ft", "measure: fill_volume, at_most: 1000 cuyd", "measure: mlw_greatest_depth, at_most: 50 ft"}}, bothLines)
		require.Equal(t, c.expects, row["bed_expected_ft"], c)
		if c.says == "" {
			require.Equal(t, c.bed != "null", row["town_certainty"] == "firm", "%v: %s", c, row["town_requests"])
			continue
		}
		require.Equal(t, "needs information", row["town_certainty"], c)
		require.Contains(t, row["town_requests"], c.says, c)
	}
	// Of a datum that nothing ties to the lines nothing is expected.
	s := onForeshore(sketchtest.Rectangle(strings.Replace(sketchtest.Plain, "NAVD88", "MSL", 1)+`,"bed_elev_ft":-6`, 0, 3, 60, 9))
	row, _ := judged(t, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 100 ft"}}, bothLines)
	require.Empty(t, row["bed_expected_ft"])
	require.Equal(t, "firm", row["town_certainty"])
}
