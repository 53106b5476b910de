package screening

import (
	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// The two tidal lines: how they are cut, drawn and dated, and where they are mapped.
var tidalCases = []firmCase{
	{name: "cut behind the structure, ends meet", change: several(nearHigh(high("", -800, 30), high("", 30, 800)), nearLow(low("", -800, 20), low("", 20, 800))), want: everyone(firm), measured: map[string]string{"bank_length_ft": "60.00", "mhw_farthest_ft": "9.00"}},
	{name: "cut often, ends meet", change: nearHigh(high("", -800, 5), high("", 5, 9), high("", 9, 31), high("", 31, 60), high("", 60, 800)), want: everyone(firm), measured: map[string]string{"bank_length_ft": "60.00"}},
	{name: "ends apart by rounding", change: nearHigh(high("", -800, 30), high("", 30.005, 800)), want: everyone(firm)},
	{name: "a gap of 5 ft in high water", change: nearHigh(high("", -800, 27.5), high("", 32.5, 800)), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}, says: "mapped"},
	{name: "a gap of 20 ft in high water", change: nearHigh(high("", -800, 20), high("", 40, 800)), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}, says: "mapped"},
	{name: "a gap of 50 ft in high water", change: nearHigh(high("", -800, 5), high("", 55, 800)), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}, says: "mapped"},
	{name: "a gap as long as the structure", change: nearHigh(high("", -800, -5), high("", 65, 800)), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}, says: "mapped"},
	{name: "a gap of 5 ft in low water", change: nearLow(low("", -800, 27.5), low("", 32.5, 800)), want: map[string]string{"federal": unsure, "town": unsure, "lands": firm}, says: "low water"},
	{name: "a gap of 40 ft in low water", change: nearLow(low("", -800, 10), low("", 50, 800)), want: map[string]string{"federal": unsure, "town": unsure}, says: "low water"},
	{name: "a gap that begins under its end", change: nearHigh(high("", -800, 50), high("", 80, 800)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a gap in low water that begins under its end", change: nearLow(low("", -800, 50), low("", 80, 800)), want: map[string]string{"federal": unsure, "town": unsure}},
	{name: "two gaps of 4 ft", change: nearHigh(high("", -800, 10), high("", 14, 40), high("", 44, 800)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a gap of 5 ft in high water drawn the other way", change: nearHigh(high("", -800, 27.5), straight(`"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, 800, 32.5, 0)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a gap far along the shore", change: nearHigh(high("", -800, 400), high("", 430, 800)), want: everyone(firm)},
	{name: "high water ends before the structure does", change: nearHigh(high("", -800, 50)), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}},
	{name: "low water ends before the structure does", change: nearLow(low("", -800, 50)), want: map[string]string{"federal": unsure, "town": unsure}},
	{name: "no low water", change: without("low_water"), want: map[string]string{"federal": asks, "town": asks, "lands": firm}, says: "low water"},

	{name: "one accuracy in every piece", change: nearHigh(high(`,"accuracy_ft":0.2`, -800, 30), high(`,"accuracy_ft":0.2`, 30, 800)), want: everyone(firm)},
	{name: "the left piece coarse", change: nearHigh(high(`,"accuracy_ft":30`, -800, 30), high("", 30, 800)), want: map[string]string{"state": unsure, "town": unsure, "lands": firm}},
	{name: "the right piece coarse", change: nearHigh(high("", -800, 30), high(`,"accuracy_ft":30`, 30, 800)), want: map[string]string{"state": unsure, "town": unsure, "lands": firm}},
	{name: "a short coarse piece in the middle", change: nearHigh(high("", -800, 28), high(`,"accuracy_ft":30`, 28, 32), high("", 32, 800)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "the far piece coarse", change: nearHigh(high("", -800, 500), high(`,"accuracy_ft":30`, 500, 800)), want: everyone(firm)},
	{name: "the far shore coarse", change: features("high", high("", -800, 800), straight(`"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1,"accuracy_ft":30`, -800, 800, 700)), want: everyone(firm)},
	{name: "the left piece of unstated accuracy", change: several(layerSays("high_water", "accuracy", gone), features("high", high("", -800, 30), high(`,"accuracy_ft":0.1`, 30, 800), straight(`"side":"water_right","elevation_ft":0.5,"accuracy_ft":0.1`, -800, 800, 700))), want: map[string]string{"state": asks, "town": asks}, says: "accuracy"},
	{name: "the right piece of unstated accuracy", change: several(layerSays("high_water", "accuracy", gone), features("high", high(`,"accuracy_ft":0.1`, -800, 30), high("", 30, 800), straight(`"side":"water_right","elevation_ft":0.5,"accuracy_ft":0.1`, -800, 800, 700))), want: map[string]string{"state": asks, "town": asks}, says: "accuracy"},
	{name: "a piece of low water coarse", change: nearLow(low("", -800, 30), low(`,"accuracy_ft":60`, 30, 800)), want: map[string]string{"federal": unsure, "town": unsure}},

	{name: "drawn the other way", change: nearHigh(straight(`"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, 800, -800, 0)), want: everyone(firm)},
	{name: "a vertex every 3 ft", change: nearHigh(denseLine(0)), want: everyone(firm), measured: map[string]string{"bank_length_ft": "60.00", "mhw_farthest_ft": "9.00"}},
	{name: "no side stated, land tells", change: nearHigh(straight(`"elevation_ft":0.5,"elevation_accuracy_ft":0.1`, -800, 800, 0)), want: everyone(firm)},
	{name: "no side stated, no land, low water tells", change: several(without("shoreline"), nearHigh(straight(`"elevation_ft":0.5,"elevation_accuracy_ft":0.1`, -800, 800, 0))), want: everyone(firm)},
	{name: "a side that the land contradicts", change: nearHigh(straight(`"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, -800, 800, 0)), want: map[string]string{"state": wary, "town": wary}},
	{name: "land drawn over the water", change: features("land", landBehind(500, -400)), want: map[string]string{"state": wary, "town": wary}},

	{name: "two features over one stretch", change: nearHigh(high("", -800, 40), high("", 20, 800)), want: everyone(firm), measured: map[string]string{"bank_length_ft": "60.00"}},
	{name: "one shore mapped twice", change: nearHigh(high(`,"id":"h"`, -800, 800), high(`,"id":"again"`, -800, 800)), want: everyone(firm), measured: map[string]string{"bank_length_ft": "60.00"}},
	{name: "an older survey of the same shore 2 ft seaward", change: several(drawnAt(0, 5, 60, 11), reef("bed_elev_ft", "-2.7"), nearHigh(high(`,"id":"new"`, -800, 800), straight(`"id":"old","side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, -800, 800, 2))), want: map[string]string{"state": unsure, "town": unsure}},

	{name: "low water is high water with other properties", change: features("low", straight(`"id":"l","note":"low"`, -800, 800, 0), straight(`"id":"l2"`, -800, 800, 700)), want: map[string]string{"federal": wary, "town": wary}},
	{name: "low water is high water drawn the other way", change: features("low", straight(`"id":"l"`, 800, -800, 0), straight(`"id":"l2"`, 800, -800, 700)), want: map[string]string{"federal": wary, "town": wary}},
	{name: "low water is high water, equal elevations", change: features("low", straight(`"id":"l","elevation_ft":0.5`, -800, 800, 0), straight(`"id":"l2","elevation_ft":0.5`, -800, 800, 700)), want: map[string]string{"federal": wary, "town": wary}},
	{name: "low water crosses high water behind the structure", change: nearLow(sketchtest.Shape("LineString", `"id":"l","elevation_ft":-3.5,"elevation_accuracy_ft":0.1`, [2]float64{-800, 10}, [2]float64{0, 10}, [2]float64{60, -10}, [2]float64{800, -10})), want: map[string]string{"federal": unsure, "town": unsure}},
	{name: "low water landward of high water", change: nearLow(straight(`"id":"l","elevation_ft":-3.5,"elevation_accuracy_ft":0.1`, -800, 800, -10)), want: map[string]string{"federal": unsure, "town": unsure}},

	// The groin is 4 ft wide and 8 ft long, 4 ft beyond the end: all places of the
	// structure but its end are nearer to the straight shore.
	{name: "a groin past the end", change: nearHigh(sketchtest.Shape("LineString", shoreSays, groin(64, 8)...)), want: map[string]string{"state": firm, "federal": firm}, measured: map[string]string{"mhw_farthest_ft": "9.00", "mhw_nearest_ft": "3.00"}},
	{name: "a groin past the end, drawn the other way", change: nearHigh(sketchtest.Shape("LineString", `"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, turned(groin(64, 8))...)), want: map[string]string{"state": firm, "federal": firm}, measured: map[string]string{"mhw_farthest_ft": "9.00", "mhw_nearest_ft": "3.00"}},
	// From (28, 12) to the tip (30, 5) it is 7.28 ft, to the shore 12: a digitising
	// spike must not make it near.
	{name: "a spike of the line beneath the structure", change: several(drawnAt(28, 7, 32, 12), reef("bed_elev_ft", "-3.3"), nearHigh(sketchtest.Shape("LineString", shoreSays, [2]float64{-800, 0}, [2]float64{29.95, 0}, [2]float64{30, 5}, [2]float64{30.05, 0}, [2]float64{800, 0}))), want: map[string]string{"state": wary, "town": wary}},
	// A ring of 2 ft stands under a disc 30 ft out.
	{name: "a rock under a structure far out", change: several(asDisc(30, 30, 3), reef("bed_elev_ft", gone), also("high", rectangleLine(`"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, 29, 29, 31, 31))), want: map[string]string{"state": wary, "town": wary}},

	{name: "only leaves out the far wall of a canal", change: several(layerSays("high_water", "only", "{from: KIND, any_of: [mhw]}"), features("high", high(`,"KIND":"mhw"`, -800, 800), straight(`"KIND":"seawall","side":"water_right"`, -800, 800, 30))), want: map[string]string{"town": unsure}},
	{name: "only leaves out the marsh shore it lies on", change: several(layerSays("high_water", "only", "{from: KIND, any_of: [mhw]}"), features("high", straight(`"KIND":"marsh shore","side":"water_left"`, -800, 800, 0), straight(`"KIND":"mhw","side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, -800, 800, 12))), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "only leaves out a stretch beside it", change: several(layerSays("high_water", "only", "{from: KIND, any_of: [mhw]}"), features("high", high(`,"KIND":"mhw"`, -800, 800), straight(`"KIND":"marsh shore","side":"water_left"`, -100, 160, 1.5), straight(`"KIND":"mhw","side":"water_right","elevation_ft":0.5`, -800, 800, 700))), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "only leaves out lines far away", change: several(layerSays("high_water", "only", "{from: KIND, any_of: [mhw]}"), features("high", high(`,"KIND":"mhw"`, -800, 800), straight(`"KIND":"mhw","side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, -800, 800, 700), straight(`"KIND":"contour"`, -800, 800, -1900))), want: everyone(firm)},

	{name: "the far wall of a canal", change: several(canal(straight(farWall, -800, 800, 40)), features("land", landBehind(0, -400), landBehind(40, 400))), want: map[string]string{"town": barred}},
	{name: "the far wall of a canal, with a gap before the structure", change: several(canal(straight(farWall, -800, -40, 40), straight(farWall, 100, 800, 40)), features("land", landBehind(0, -400), landBehind(40, 400))), want: map[string]string{"town": wary}},
	{name: "land across, and no line of it", change: several(canal(), features("land", landBehind(0, -400), landBehind(40, 400))), want: map[string]string{"town": wary}},
	{name: "land under the structure, and no line of it", change: also("land", sketchtest.Rectangle(`"id":"islet"`, 20, 4, 40, 8)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a line without a geometry among those of high water", change: also("high", `{"type":"Feature","properties":{"id":"x"},"geometry":null}`), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}},
	{name: "no high water at all", change: features("high"), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "open water without a far shore", change: several(features("high", high("", -800, 800)), features("low", low("", -800, 800)), features("land", landBehind(0, -400))), want: map[string]string{"state": firm, "lands": firm, "federal": firm}},
}

const shoreSays = `"id":"h","side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":0.1`

// groin is the straight shore with a groin 4 ft wide from x on, so long.
func groin(x, long float64) [][2]float64 {
	var out [][2]float64
	for _, c := range sketchtest.Along(0) {
		if c[0] == 100 {
			out = append(out, [2]float64{x, 0}, [2]float64{x, long}, [2]float64{x + 4, long}, [2]float64{x + 4, 0})
		}
		out = append(out, c)
	}
	return out
}

func turned(corners [][2]float64) [][2]float64 {
	out := make([][2]float64, len(corners))
	for i, c := range corners {
		out[len(out)-1-i] = c
	}
	return out
}

// denseLine is the near high water line with a vertex every 3 ft or so.
func denseLine(y float64) string {
	var corners [][2]float64
	for x := -800.0; x <= 800; x += 3.125 {
		corners = append(corners, [2]float64{x, y})
	}
	return sketchtest.Shape("LineString", shoreSays, corners...)
}

// asDisc draws the structure as a disc.
func asDisc(x, y, across float64) change {
	return several(reef("diameter_ft", job.Fixed(across, 2)), func(s *sandbox) {
		s.drawn = func(properties string) string { return point(properties, x, y) }
	})
}

func point(properties string, x, y float64) string {
	return asPoint(sketchtest.Shape("LineString", properties, [2]float64{x, y}))
}

func rectangleLine(properties string, x0, y0, x1, y1 float64) string {
	return sketchtest.Shape("LineString", properties, [2]float64{x0, y0}, [2]float64{x1, y0}, [2]float64{x1, y1}, [2]float64{x0, y1}, [2]float64{x0, y0})
}

const farWall = `"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`

// canal has another far shore, of such pieces.
func canal(far ...string) change {
	return several(features("high", append([]string{high("", -800, 800)}, far...)...), features("low", low("", -800, 800)))
}
