package screening

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/screening/sketchtest"
)

// Positions: their digits, their datums, and how well they are known. Half a unit of the
// fifth decimal of a degree is 1.8 ft, of the sixth 0.18 ft; the toe is 1 ft inside its limit.
// With 5 decimals it comes to lie at y = 7.27 ft, 2 units, so the shore is then drawn at
// y = -1.5: 8.77 ft, give or take 1.8.
var digitCases = []firmCase{
	{name: "proposals with 5 decimals", change: several(shoreBehind, cutReef(5, "")), want: map[string]string{"state": wary, "town": wary}},
	{name: "proposals with 6 decimals", change: several(drawnAt(1.3, 3, 59.4, 9), cutReef(6, "")), want: everyone(firm)},
	{name: "proposals with 7 decimals", change: cutReef(7, ""), want: everyone(firm)},
	{name: "proposals with 5 decimals, filled with noughts", change: several(shoreBehind, cutReef(5, "0000")), want: map[string]string{"state": wary, "town": wary}},
	{name: "proposals with 5 decimals and noise", change: several(shoreBehind, cutReef(5, "0000000003")), want: map[string]string{"state": wary, "town": wary}},
	{name: "proposals with 5 decimals beside one with 9", change: several(wideLots, shoreBehind, cutReef(5, ""), beside(260, 3, 320, 9)), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water with 5 decimals", change: cutFile("high", 5, ""), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water with 4 decimals", change: cutFile("high", 4, ""), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water with 5 decimals, one position with more", change: several(cutFile("high", 5, ""), also("high", straight(`"side":"water_right","id":"odd"`, 700.123, 790.321, 730))), want: map[string]string{"state": wary, "town": wary}},
	{name: "the far shore with 9 decimals, the near one with 5", change: func(s *sandbox) { s.Sketch["high"][0] = digits(s.Sketch["high"][0], 5, "") }, want: map[string]string{"state": wary, "town": wary}},
	{name: "near high water with 5 decimals but for its last position", change: func(s *sandbox) { s.Sketch["high"][0] = lastFine(s.Sketch["high"][0]) }, want: map[string]string{"state": wary, "town": wary}},
	{name: "proposals with 5 decimals but for one corner", change: several(shoreBehind, func(s *sandbox) {
		s.drawn = func(properties string) string {
			f := strings.Split(sketchtest.Rectangle(properties, 0, 3, 60, 9), "],[")
			short := strings.Split(digits(sketchtest.Rectangle(properties, 0, 3, 60, 9), 5, ""), "],[")
			short[1] = f[1]
			return strings.Join(short, "],[")
		}
	}), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water with 5 decimals and noise", change: cutFile("high", 5, "0000000001"), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water with 5 decimals, filled with noughts", change: cutFile("high", 5, "0000"), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water with 7 decimals", change: cutFile("high", 7, ""), want: everyone(firm)},
	{name: "high water with 15 decimals", change: cutFile("high", 9, "123456"), want: everyone(firm)},
	{name: "seagrass far off with 5 decimals", change: cutFile("grass", 5, ""), want: everyone(firm)},
	// Its edge comes to lie at 23 units of the fifth decimal, 72.8 ft, 11.3 ft off.
	{name: "seagrass 11 ft off with 5 decimals", change: several(drawnAt(0, 3, 61.5, 9), features("grass", sketchtest.Rectangle(`"id":"g"`, 72.5, -10, 100, 30)), cutFile("grass", 5, "")), want: map[string]string{"town": wary}},
	// It comes to end at 3 units of the fourth decimal, 95 ft, give or take 18.
	{name: "a seagrass survey with 4 decimals that ends 23 ft beside the structure", change: several(drawnAt(0, 3, 72, 9), surveyedBy("seagrass", digits(sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 93, 2000), 4, ""))), want: map[string]string{"town": wary}},

	{name: "all on one realization of NAD83", change: several(eachLayer("crs", "EPSG:6318"), proposalsSay("crs", "EPSG:6318")), want: everyone(firm)},
	{name: "all on plain NAD83", change: several(eachLayer("crs", "EPSG:4269"), proposalsSay("crs", "EPSG:4269")), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "proposals on WGS 84, lines on a realization of NAD83", change: eachLayer("crs", "EPSG:6318"), want: map[string]string{"state": unsure, "town": unsure}, says: "4.27 ft"},
	{name: "proposals on WGS 84, lines on plain NAD83", change: eachLayer("crs", "EPSG:4269"), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "all in a projection, to the millimetre", change: several(eachLayer("crs", "EPSG:6347"), proposalsSay("crs", "EPSG:6347"), projected(3, 3)), want: everyone(firm)},
	{name: "the proposals in a projection, to the metre", change: several(shoreBehind, eachLayer("crs", "EPSG:6347"), proposalsSay("crs", "EPSG:6347"), projected(3, 0)), want: map[string]string{"state": wary, "town": wary}},
	{name: "the layers in a projection, to the metre", change: several(drawnAt(0, 4, 60, 9.8), reef("bed_elev_ft", "-2.26"), eachLayer("crs", "EPSG:6347"), proposalsSay("crs", "EPSG:6347"), projected(0, 3)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a shift of 3 ft suspected", change: layerSays("high_water", "datum_shift", "3 ft"), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a shift below nothing that takes another away", change: several(eachLayer("crs", "EPSG:6318"), layerSays("high_water", "datum_shift", "-4.27 ft")), want: map[string]string{"state": wary, "town": wary}},
	{name: "an accuracy below nothing in the job", change: layerSays("high_water", "accuracy", "-0.1 ft"), want: everyone(wary)},
	{name: "an accuracy that is no number in the job", change: several(layerSays("high_water", "accuracy", ".nan ft")), want: everyone(wary)},
	{name: "an accuracy that has no end in the job", change: several(layerSays("high_water", "accuracy", ".inf ft")), want: map[string]string{"state": wary, "town": wary}},
	{name: "a search radius below nothing", change: func(s *sandbox) { s.more += "search_radius: -5 ft\n" }, want: everyone(wary)},
	{name: "a shift of half a foot suspected", change: layerSays("high_water", "datum_shift", "0.5 ft"), want: everyone(firm)},

	{name: "proposals of unstated accuracy", change: proposalsSay("accuracy", gone), want: map[string]string{"state": asks, "town": asks}, says: "accuracy"},
	{name: "high water of unstated accuracy", change: layerSays("high_water", "accuracy", gone), want: map[string]string{"state": asks, "town": asks}, says: "accuracy"},
	{name: "low water of unstated accuracy", change: layerSays("low_water", "accuracy", gone), want: map[string]string{"federal": asks, "town": asks}, says: "accuracy"},
	{name: "riparian lines of unstated accuracy, 100 ft off", change: layerSays("riparian", "accuracy", gone), want: map[string]string{"lands": asks, "town": asks}, says: "accuracy"},
	{name: "channels of unstated accuracy, 390 ft off", change: layerSays("channels", "accuracy", gone), want: everyone(firm)},
	{name: "a feature that says its accuracy is 0", change: nearHigh(high(`,"accuracy_ft":0`, -800, 800)), want: everyone(firm)},
	{name: "an accuracy of 0 and no other", change: several(layerSays("high_water", "accuracy", gone), nearHigh(high(`,"accuracy_ft":0`, -800, 800))), want: map[string]string{"state": asks, "town": asks}},
	{name: "an accuracy of -9999 and no other", change: several(layerSays("high_water", "accuracy", gone), nearHigh(high(`,"accuracy_ft":-9999`, -800, 800))), want: map[string]string{"state": wary, "town": wary}},
	{name: "an accuracy not available and no other", change: several(layerSays("high_water", "accuracy", gone), nearHigh(high(`,"accuracy_ft":"N/A"`, -800, 800))), want: map[string]string{"state": asks, "town": asks}},
	{name: "an accuracy below nothing", change: nearHigh(high(`,"accuracy_ft":-0.1`, -800, 800)), want: map[string]string{"state": wary, "town": wary}},
	{name: "an accuracy yes", change: nearHigh(high(`,"accuracy_ft":true`, -800, 800)), want: map[string]string{"state": wary, "town": wary}},
	{name: "an accuracy of 0 ft in the job", change: layerSays("high_water", "accuracy", "0 ft"), want: map[string]string{"state": wary, "town": wary}},
	{name: "an accuracy without a unit in the job", change: layerSays("high_water", "accuracy", "0.1"), refused: true},
	{name: "an accuracy in metres", change: layerSays("high_water", "accuracy", "0.1 m"), want: everyone(firm)},
	{name: "proposals drawn to 30 ft", change: proposalsSay("accuracy", "30 ft"), want: map[string]string{"state": unsure, "town": unsure, "lands": firm}},
	{name: "one proposal drawn to 30 ft", change: reef("accuracy_ft", "30"), want: map[string]string{"state": unsure, "town": unsure, "lands": firm}},
	{name: "beds mapped to 600 ft", change: layerSays("seagrass", "accuracy", "600 ft"), want: map[string]string{"state": unsure, "town": unsure}},
	// The survey ends 16 ft beside the structure, give or take 30.
	{name: "a coarse survey that ends beside the structure", change: several(layerSays("seagrass", "accuracy", "30 ft"), surveyedBy("seagrass", sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 76, 2000))), want: map[string]string{"town": wary}},
	{name: "heights beside positions", change: func(s *sandbox) {
		s.drawn = func(properties string) string { return threeD(sketchtest.Rectangle(properties, 0, 3, 60, 9)) }
	}, want: everyone(firm)},
}

// cutReef writes the breakwater with so many decimals.
func cutReef(places int, behind string) change {
	return func(s *sandbox) {
		draw := s.drawn
		s.drawn = func(properties string) string { return digits(draw(properties), places, behind) }
	}
}

// lastFine is a feature all of whose positions have 5 decimals but for the last.
func lastFine(feature string) string {
	short := digits(feature, 5, "")
	return short[:strings.LastIndex(short, "],[")] + feature[strings.LastIndex(feature, "],["):]
}

// shoreBehind is the near shore drawn 1.5 ft farther back.
func shoreBehind(s *sandbox) {
	nearHigh(straight(shoreSays, -800, 800, -1.5))(s)
	features("land", landBehind(-1.5, -400), landBehind(700, 1100))(s)
}

var positionText = regexp.MustCompile(`\[(-?[\d.]+),(-?[\d.]+)\]`)

// projected carries all positions into UTM zone 18 on NAD83(2011), the layers' and the
// breakwater's with so many decimals of a metre.
func projected(layers, reef int) change {
	return func(s *sandbox) {
		system, err := crs.Parse("EPSG:6347")
		if err != nil {
			panic(err)
		}
		carry := func(feature string, places int) string {
			return positionText.ReplaceAllStringFunc(feature, func(text string) string {
				xy := positionText.FindStringSubmatch(text)
				x, _ := strconv.ParseFloat(xy[1], 64)
				y, _ := strconv.ParseFloat(xy[2], 64)
				p := system.Projected(orb.Point{x, y})
				return fmt.Sprintf("[%.*f,%.*f]", places, p[0], places, p[1])
			})
		}
		for name, features := range s.Sketch {
			for i, f := range features {
				s.Sketch[name][i] = carry(f, layers)
			}
		}
		draw := s.drawn
		s.drawn = func(properties string) string { return carry(draw(properties), reef) }
	}
}
