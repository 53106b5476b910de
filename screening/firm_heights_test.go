package screening

import "waterward/screening/sketchtest"

// Elevations: what no elevation can be, how well they are known, and what contradicts
// the lines.
var heightCases = []firmCase{
	{name: "a crest that says it has none", change: reef("crest_elev_ft", "-9999"), unusable: true},
	{name: "a crest that says it has none, as text", change: reef("crest_elev_ft", `"-9999.0"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest of the least 16-bit number", change: reef("crest_elev_ft", "-32768"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest of -1e300", change: reef("crest_elev_ft", "-1e300"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest of the least 32-bit number", change: reef("crest_elev_ft", "-3.4028235e38"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest of -99", change: reef("crest_elev_ft", "-99"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest not available", change: reef("crest_elev_ft", `"N/A"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "an empty crest", change: reef("crest_elev_ft", `""`), want: map[string]string{"state": asks, "town": asks}, says: "crest"},
	{name: "no crest", change: reef("crest_elev_ft", gone), want: map[string]string{"state": asks, "lands": firm, "federal": firm, "town": asks}, says: "crest"},
	{name: "a crest yes", change: reef("crest_elev_ft", "true"), want: map[string]string{"state": wary, "town": wary}},
	{name: "two crests", change: reef("crest_elev_ft", "[-0.5,0.8]"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest with a decimal comma", change: reef("crest_elev_ft", `"-0,5"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest in words", change: reef("crest_elev_ft", `"1 ft below MHW"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest in inches", change: reef("crest_elev_ft", `"-6 in"`), want: everyone(firm), measured: map[string]string{"crest_above_mhw_ft": "-1.00"}},
	{name: "a crest in metres", change: reef("crest_elev_ft", `"-0.1524 m"`), want: everyone(firm), measured: map[string]string{"crest_above_mhw_ft": "-1.00"}},
	{name: "a crest above mean high water", change: reef("crest_elev_ft", "1.5"), want: map[string]string{"state": barred, "town": barred}},
	{name: "high water at 99 ft", change: nearHigh(straight(`"side":"water_left","elevation_ft":99,"elevation_accuracy_ft":0.1`, -800, 800, 0)), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water at 1e300 ft", change: nearHigh(straight(`"side":"water_left","elevation_ft":1e300,"elevation_accuracy_ft":0.1`, -800, 800, 0)), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water at -9999 ft", change: nearHigh(straight(`"side":"water_left","elevation_ft":-9999,"elevation_accuracy_ft":0.1`, -800, 800, 0)), want: map[string]string{"state": asks, "town": asks}},
	{name: "low water at -9999 ft", change: nearLow(straight(`"elevation_ft":-9999,"elevation_accuracy_ft":0.1`, -800, 800, 10)), want: map[string]string{"town": unsure, "lands": firm}},
	{name: "high water without an elevation", change: nearHigh(straight(`"side":"water_left"`, -800, 800, 0)), want: map[string]string{"state": asks, "town": asks}, says: "elevation"},
	{name: "high water without a datum", change: layerSays("high_water", "datum", gone), want: map[string]string{"state": asks, "town": asks}, says: "datum"},
	{name: "low water above high water", change: features("low", straight(`"elevation_ft":2`, -800, 800, 10), straight(`"elevation_ft":2`, -800, 800, 690)), want: map[string]string{"state": wary, "town": wary}},

	// The foreshore is 10 ft wide and 4 ft high: the bed is expected at -1.9 ft.
	{name: "a bed 0.3 ft off", change: reef("bed_elev_ft", "-2.2"), want: everyone(firm)},
	{name: "a bed 1.2 ft off", change: reef("bed_elev_ft", "-3.1"), want: map[string]string{"state": unsure, "town": unsure}, says: "bed"},
	{name: "a bed below low water, landward of its line", change: reef("bed_elev_ft", "-6"), want: map[string]string{"state": unsure, "town": unsure}, says: "bed"},
	{name: "a bed above high water", change: reef("bed_elev_ft", "1.5"), unusable: true},
	{name: "a bed that says it has none", change: reef("bed_elev_ft", "-9999"), unusable: true},
	{name: "one of two beds says it has none", change: reef("bed_elev_ft", "[-1.9,-9999]"), want: map[string]string{"town": wary}},
	{name: "no bed", change: reef("bed_elev_ft", gone), want: map[string]string{"state": firm, "lands": firm, "federal": firm, "town": asks}, says: "bed"},
	{name: "a bed below low water, over mean high water", change: reef("datum", `"MHW"`, "crest_elev_ft", "-1", "bed_elev_ft", "-6.5"), want: map[string]string{"state": unsure}, says: "bed"},
	{name: "a bed in another unit", change: reef("bed_elev_ft", "-0.58"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest below the bed", change: reef("crest_elev_ft", "-2.5"), unusable: true},

	{name: "a crest just under, no vertical accuracy", change: several(reef("crest_elev_ft", "0.48", "elevation_accuracy_ft", gone), unlevelled), want: map[string]string{"state": asks, "town": asks}, says: "vertical accuracy"},
	// 1.6449 sqrt(0.1² + 0.1²) / 1.96 = 0.119 ft.
	{name: "a crest 0.02 ft under, known to a tenth", change: reef("crest_elev_ft", "0.48"), want: map[string]string{"state": closely, "town": closely}},
	{name: "a crest 0.2 ft under, known to a tenth", change: reef("crest_elev_ft", "0.3"), want: everyone(firm)},
	{name: "a crest 0.45 ft under, no vertical accuracy", change: several(reef("crest_elev_ft", "0.05", "elevation_accuracy_ft", gone), unlevelled), want: map[string]string{"state": asks, "town": asks}},
	{name: "a crest 0.55 ft under, no vertical accuracy", change: several(reef("crest_elev_ft", "-0.05", "elevation_accuracy_ft", gone), unlevelled), want: map[string]string{"state": firm}},
	{name: "a crest 0.2 ft under, its own accuracy unstated", change: reef("crest_elev_ft", "0.3", "elevation_accuracy_ft", gone), want: map[string]string{"state": asks, "town": asks}},
	{name: "a crest 0.2 ft under, its own accuracy 0", change: reef("crest_elev_ft", "0.3", "elevation_accuracy_ft", "0"), want: map[string]string{"state": asks, "town": asks}},
	{name: "high water known to 3 ft at the other half", change: nearHigh(high("", -800, 30), straight(`"side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":3`, 30, 800, 0)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "high water known to 3 ft at the first half", change: nearHigh(straight(`"side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":3`, -800, 30, 0), high("", 30, 800)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "high water lower at the other half", change: nearHigh(high("", -800, 30), straight(`"side":"water_left","elevation_ft":-0.8,"elevation_accuracy_ft":0.1`, 30, 800, 0)), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water lower at the first half", change: nearHigh(straight(`"side":"water_left","elevation_ft":-0.8,"elevation_accuracy_ft":0.1`, -800, 30, 0), high("", 30, 800)), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water a tenth lower at the other half", change: nearHigh(high("", -800, 30), straight(`"side":"water_left","elevation_ft":0.4,"elevation_accuracy_ft":0.1`, 30, 800, 0)), want: everyone(firm)},
	{name: "high water 2 ft lower far along the shore", change: nearHigh(high("", -800, 500), straight(`"side":"water_left","elevation_ft":-1.5,"elevation_accuracy_ft":0.1`, 500, 800, 0)), want: everyone(firm)},
	{name: "no elevation at the other half", change: nearHigh(high("", -800, 30), straight(`"side":"water_left"`, 30, 800, 0)), want: map[string]string{"state": wary, "town": wary}},

	{name: "149.8 ft of bank on a line good to 30 ft", change: several(longReef, layerSays("high_water", "accuracy", "30 ft"), asksOnly("measure: bank_length, at_most: 150 ft")), want: map[string]string{"town": unsure}},
	{name: "149.8 ft of bank on a line of unstated accuracy", change: several(longReef, layerSays("high_water", "accuracy", gone), asksOnly("measure: bank_length, at_most: 150 ft")), want: map[string]string{"town": asks}},
	{name: "149.8 ft of bank on a line good to a tenth", change: several(longReef, asksOnly("measure: bank_length, at_most: 150 ft")), want: map[string]string{"town": firm}},
	{name: "149.99 ft long, drawn to a foot", change: several(inParts(0, 72, 80, 149.99), proposalsSay("accuracy", "1 ft"), asksOnly("measure: overall_length, at_most: 150 ft")), want: map[string]string{"town": unsure}},
	{name: "an opening of 5.05 ft, drawn to a foot", change: several(inParts(0, 40, 45.05, 85), proposalsSay("accuracy", "1 ft")), want: map[string]string{"state": unsure}},
	{name: "an opening of 5.05 ft of unstated accuracy", change: several(inParts(0, 40, 45.05, 85), proposalsSay("accuracy", gone)), want: map[string]string{"state": unsure}},
	{name: "an opening of 8 ft, drawn to a tenth", change: inParts(0, 40, 48, 85), want: everyone(firm)},
	{name: "one long run, drawn to a foot", change: several(drawnAt(0, 3, 74.8, 9), proposalsSay("accuracy", "1 ft")), want: map[string]string{"state": unsure}},

	{name: "a crest 1 ft under, known to 3 ft", change: reef("elevation_accuracy_ft", "3"), want: map[string]string{"state": closely, "town": closely}},
	{name: "settles by 0.8 ft: higher as placed, and wider", change: reef("settlement_ft", "0.8", "side_slope", "2"), want: map[string]string{"state": wary, "town": wary}},
	{name: "settles upward", change: reef("settlement_ft", "-1"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a vertical accuracy below nothing", change: reef("elevation_accuracy_ft", "-0.1"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a crest wider than the structure", change: reef("crest_width_ft", "100"), want: map[string]string{"town": wary}},
	{name: "a side that overhangs", change: several(reef("crest_width_ft", gone, "side_slope", "-2")), want: map[string]string{"town": wary}},
	{name: "slopes that meet below the crest", change: several(reef("crest_width_ft", gone, "side_slope", "20")), want: map[string]string{"town": wary}},
	{name: "settles by a tenth", change: reef("settlement_ft", "0.1", "side_slope", "2"), want: map[string]string{"state": firm, "town": firm}},
}

// unlevelled is high water without a vertical accuracy.
func unlevelled(s *sandbox) {
	nearHigh(straight(`"id":"h","side":"water_left","elevation_ft":0.5`, -800, 800, 0))(s)
}

// longReef is 149.8 ft along the bank.
var longReef = several(drawnAt(0, 3, 149.8, 9), features("riparian", sketchtest.Shape("LineString", `"id":"w"`, [2]float64{-100, -50}, [2]float64{-100, 340}), sketchtest.Shape("LineString", `"id":"e"`, [2]float64{400, -50}, [2]float64{400, 340})))

// asksOnly are the town's only ones.
func asksOnly(of ...string) change { return func(s *sandbox) { s.town = of } }
