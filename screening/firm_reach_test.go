package screening

import "waterward/screening/sketchtest"

// What could have decided lends what it rests on, wherever it lies: on the other side of
// the structure, beyond the nearest, between its elements.
var reachCases = []firmCase{
	// The breakwater lies 1 to 7 ft landward of mean low water, along two halves of it.
	{name: "half of low water is good to 12 ft", change: several(asksOnly("measure: mlw_farthest, at_most: 0 ft"), nearLow(low(`,"id":"l","accuracy_ft":0.1`, -800, 30), low(`,"id":"l3","accuracy_ft":12`, 30, 800))), want: map[string]string{"town": unsure}},
	{name: "the other half is", change: several(asksOnly("measure: mlw_farthest, at_most: 0 ft"), nearLow(low(`,"id":"l","accuracy_ft":12`, -800, 30), low(`,"id":"l3","accuracy_ft":0.1`, 30, 800))), want: map[string]string{"town": unsure}},
	{name: "both halves of low water are good", change: several(asksOnly("measure: mlw_farthest, at_most: 0 ft"), nearLow(low(`,"id":"l","accuracy_ft":0.1`, -800, 30), low(`,"id":"l3","accuracy_ft":0.2`, 30, 800))), want: map[string]string{"town": firm}},

	{name: "coral good to 60 ft behind coral that is good", change: also("coral", sketchtest.Rectangle(`"id":"m2","accuracy_ft":0.1`, 0, 14, 60, 20), sketchtest.Rectangle(`"id":"m3","accuracy_ft":60`, 0, 31, 60, 40)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "coral of 2011 behind coral of 2026", change: several(layerSays("areas.coral", "properties", "{date: SEEN}"), also("coral", sketchtest.Rectangle(`"id":"m2","SEEN":"2026-05-12"`, 0, 14, 60, 20), sketchtest.Rectangle(`"id":"m3","SEEN":"2011"`, 0, 14, 60, 20))), want: map[string]string{"state": unsure, "town": unsure}},

	{name: "seagrass of 2011 a foot behind seagrass of 2026", change: several(layerSays("seagrass", "properties", "{date: SEEN}"), also("grass", sketchtest.Rectangle(`"id":"m2","SEEN":"2026-05-12"`, 0, 14, 60, 20), sketchtest.Rectangle(`"id":"m3","SEEN":"2011"`, 0, 21, 60, 30))), want: map[string]string{"state": unsure}},
	{name: "seagrass of 2011 far behind it", change: several(layerSays("seagrass", "properties", "{date: SEEN}"), also("grass", sketchtest.Rectangle(`"id":"m2","SEEN":"2026-05-12"`, 0, 14, 60, 20), sketchtest.Rectangle(`"id":"m3","SEEN":"2011"`, 0, 200, 60, 230))), want: map[string]string{"state": firm}},
	{name: "a neighbour's line through the opening", change: several(inParts(0, 26, 34, 60), also("riparian", sketchtest.Shape("LineString", `"id":"middle"`, [2]float64{30, -50}, [2]float64{30, 340}))), want: map[string]string{"lands": wary}, measured: map[string]string{"riparian_nearest_ft": "-30.00"}},
	{name: "a neighbour's line beside the last opening", change: several(drawnAt(0, 3, 26, 9), also("riparian", sketchtest.Shape("LineString", `"id":"middle"`, [2]float64{130, -50}, [2]float64{130, 340}))), want: map[string]string{"lands": firm}},
	{name: "a side line that this tool has drawn", change: also("riparian", sketchtest.Shape("LineString", `"id":"middle","made_by":"waterward envelope"`, [2]float64{130, -50}, [2]float64{130, 340})), want: map[string]string{"lands": asks}, says: "constructed, not surveyed"},

	{name: "a part that names no alternative, 520 ft in all", change: several(wideLots, longRow(0, 260), reef("project", `"Cove"`, "alternative", `"A"`), besideLong(300, 560, 3, "alternative", gone)), want: map[string]string{"federal": asks}, says: "alternative"},

	{name: "the crest's datum written out", change: reef("datum", `"North American Vertical Datum of 1988"`), want: everyone(firm)},
	{name: "the crest's datum with its year", change: reef("datum", `"NAVD 1988"`), want: everyone(firm)},
	{name: "the crest in another datum", change: reef("datum", `"NGVD 1929"`), want: map[string]string{"state": asks, "town": asks}},
}
