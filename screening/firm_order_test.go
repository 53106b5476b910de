package screening

import (
	"math"
	"strings"

	"waterward/screening/sketchtest"
)

// What is plainly in order stays so.
var inOrderCases = []firmCase{
	{name: "all stated and surveyed", want: everyone(firm), measured: map[string]string{
		// Worked by hand from what is drawn.
		"mhw_farthest_ft": "9.00", "mhw_nearest_ft": "3.00", "mlw_farthest_ft": "-1.00", "bank_length_ft": "60.00",
		"crest_above_mhw_ft": "-1.00", "riparian_nearest_ft": "100.00",
	}},
	{name: "accuracies stated by the features", change: func(s *sandbox) {
		layerSays("high_water", "accuracy", gone)(s)
		for i, f := range s.Sketch["high"] {
			s.Sketch["high"][i] = strings.Replace(f, `"properties":{`, `"properties":{"accuracy_ft":"0.1",`, 1)
		}
		proposalsSay("accuracy", gone)(s)
		reef("accuracy_ft", `"0.1 ft"`)(s)
	}, want: everyone(firm)},
	{name: "coral of unstated accuracy far off", change: layerSays("areas.coral", "accuracy", gone), want: everyone(firm)},
	{name: "another proposal without a geometry", change: also("proposals", `{"type":"Feature","properties":{"id":"b"},"geometry":null}`), want: everyone(firm)},
	{name: "a survey in two pieces half a foot apart", change: surveyedBy("seagrass", sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 30, 2000), sketchtest.Rectangle(`"id":"t"`, 30.5, -2000, 2000, 2000)), want: everyone(firm)},
	{name: "surveys that end 400 ft off", change: func(s *sandbox) {
		features("all", sketchtest.Rectangle(`"id":"all"`, -400, -400, 460, 800))(s)
	}, want: everyone(firm)},
	{name: "no fill said in a word", change: reef("fill", `"None"`), want: everyone(firm)},
	{name: "a rock sill", change: reef("kind", `"Rock sill"`, "material", `"limestone"`), want: map[string]string{"state": firm, "lands": firm, "federal": firm}},
	{name: "an oyster reef of bagged shell", change: reef("kind", `"oyster reef"`, "material", `"Bagged oyster shell"`), want: map[string]string{"state": firm, "lands": firm, "federal": firm}},
	// The shore swings by 0.3 ft, so the toe lies 8.7 to 9.3 ft off.
	{name: "a shore that is not quite straight", change: nearHigh(wavy(0.3)), want: everyone(firm)},
	{name: "an island's shore", change: several(
		features("high", rectangleLine(`"id":"h","side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, -170, -100, 230, 0)),
		features("low", rectangleLine(`"id":"l","elevation_ft":-3.5,"elevation_accuracy_ft":0.1`, -180, -110, 240, 10)),
		features("land", sketchtest.Rectangle(`"id":"land"`, -170, -100, 230, 0))), want: map[string]string{"state": firm, "lands": firm, "federal": firm}, measured: map[string]string{"mhw_farthest_ft": "9.00", "bank_length_ft": "60.00"}},
	{name: "in two elements 6 ft apart", change: inParts(0, 27, 33, 60), want: everyone(firm)},
	{name: "landward edge on the line", change: several(drawnAt(0, 1.2, 60, 7.2), reef("bed_elev_ft", "-1.2")), want: everyone(firm)},
	{name: "every property in its own words and more", change: reef("APPLICANT_REF", `"LS-7"`, "remark", `"see sheet 3"`, "void_pct", "40", "unit_length_ft", "5", "side_slope", "1.5"), want: everyone(firm)},
	{name: "a long run of small features of shore", change: nearHigh(manyPieces()...), want: everyone(firm), measured: map[string]string{"bank_length_ft": "60.00"}},
	{name: "a bed of two elevations along it", change: reef("bed_elev_ft", "[-1.8,-2.0]"), want: everyone(firm)},
}

// wavy is the near high water line, swinging so far to either side every 80 ft.
func wavy(by float64) string {
	var corners [][2]float64
	for x := -800.0; x <= 800; x += 5 {
		corners = append(corners, [2]float64{x, by * math.Sin(2*math.Pi*x/80)})
	}
	return sketchtest.Shape("LineString", shoreSays, corners...)
}

// manyPieces is the near high water line in features of 10 ft.
func manyPieces() (out []string) {
	for x := -800.0; x < 800; x += 10 {
		out = append(out, straight(`"side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, x, x+10, 0))
	}
	return out
}
