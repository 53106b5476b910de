package screening

import "waterward/screening/sketchtest"

// What the built-in books ask: what lives under the structure, what it is, where it is.
var bookCases = []firmCase{
	{name: "wholly on marsh", change: layOver("marsh"), want: map[string]string{"state": wary, "lands": firm, "town": barred}},
	{name: "wholly on coral", change: layOver("coral"), want: map[string]string{"state": wary, "lands": firm, "town": barred}},
	{name: "wholly on oysters", change: layOver("shellfish_bed"), want: map[string]string{"state": wary, "lands": firm, "town": barred}},
	{name: "wholly on seagrass", change: layOver("grass"), want: map[string]string{"state": barred, "lands": firm, "town": barred}},
	{name: "a corner on marsh", change: also("marsh", sketchtest.Rectangle(`"id":"m2"`, 55, 7, 80, 30)), want: map[string]string{"state": wary, "town": barred}},
	{name: "a corner on coral", change: also("coral", sketchtest.Rectangle(`"id":"m2"`, 55, 7, 80, 30)), want: map[string]string{"state": wary, "town": barred}},
	{name: "coral a hair off", change: also("coral", sketchtest.Rectangle(`"id":"m2"`, 0, 9.05, 60, 30)), want: map[string]string{"state": closely, "town": closely}},
	{name: "coral of unstated accuracy 50 ft off", change: several(layerSays("areas.coral", "accuracy", gone), also("coral", sketchtest.Rectangle(`"id":"m2"`, 0, 59, 60, 90))), want: map[string]string{"state": asks, "town": asks}},
	{name: "marsh 60 ft off", change: also("marsh", sketchtest.Rectangle(`"id":"m2"`, 120, 0, 150, 30)), want: everyone(firm)},
	{name: "seagrass under it is said by the federal book too", change: layOver("grass"), want: map[string]string{"state": barred}, says: "seagrass"},
	{name: "critical habitat under it is said", change: layOver("critical_habitat"), want: map[string]string{"state": firm, "lands": firm}, says: "critical habitat"},

	{name: "fill in an aquatic preserve", change: several(layOver("aquatic_preserve"), reef("fill", `"yes"`)), want: map[string]string{"lands": hard, "state": barred, "town": barred}},
	{name: "a seawall in an aquatic preserve", change: several(layOver("aquatic_preserve"), reef("kind", `"seawall"`)), want: map[string]string{"lands": hard, "state": hard, "town": barred}},
	{name: "a seawall in an aquatic preserve, fill not stated", change: several(layOver("aquatic_preserve"), reef("kind", `"seawall"`, "fill", gone)), want: map[string]string{"lands": hard}},
	{name: "fill stated nowhere in an aquatic preserve", change: several(layOver("aquatic_preserve"), reef("fill", gone)), want: map[string]string{"lands": unsure}, says: "fill"},
	{name: "fill, and no layer of preserves", change: several(without("areas.aquatic_preserve"), reef("fill", `"yes"`)), want: map[string]string{"lands": unsure}, says: "preserve"},
	{name: "fill outside every preserve", change: reef("fill", `"yes"`), want: map[string]string{"lands": firm, "state": barred}},

	// The low-profile oyster habitat permit has limits of height, depth and distance from
	// channels that nobody has read.
	{name: "shell 3 ft above high water, 120 ft out", change: several(drawnAt(0, 114, 60, 120), reef("crest_elev_ft", "3.5", "bed_elev_ft", gone)), want: map[string]string{"state": hard, "town": barred}},
	{name: "shell in a channel", change: several(drawnAt(0, 410, 60, 416), reef("bed_elev_ft", gone)), want: map[string]string{"state": hard, "town": barred}},
	{name: "shell on marsh, far out", change: several(drawnAt(0, 114, 60, 120), layOver("marsh"), reef("bed_elev_ft", gone)), want: map[string]string{"state": hard, "town": barred}},
	{name: "shell 120 ft out: what the permit leaves open is asked", change: several(drawnAt(0, 114, 60, 120), reef("bed_elev_ft", gone)), want: map[string]string{"state": asks}, says: "depth"},
	{name: "a bulkhead of shell", change: several(reef("kind", `"bulkhead"`), drawnAt(0, 10, 60, 16)), want: map[string]string{"state": hard, "town": barred}},
	{name: "a dock of shell 9 ft high", change: several(reef("kind", `"dock"`, "crest_elev_ft", "9")), want: map[string]string{"state": hard, "federal": hard, "town": barred}},
	{name: "a dock where low water is not known", change: several(reef("kind", `"dock"`), without("low_water")), want: map[string]string{"federal": hard}},
	{name: "a boathouse where low water is not known", change: several(reef("kind", `"boat house"`), without("low_water")), want: map[string]string{"federal": hard}},

	{name: "a channel's centreline of a stated width", change: centreline(`,"width_ft":30`), want: map[string]string{"town": firm}},
	{name: "a channel's centreline of width 0", change: centreline(`,"width_ft":0`), want: map[string]string{"town": unsure}, says: "width"},
	{name: "a channel's centreline of no width", change: centreline(""), want: map[string]string{"town": unsure}, says: "width"},
	{name: "a channel's centreline of width not available", change: centreline(`,"width_ft":"N/A"`), want: map[string]string{"town": unsure}},
	{name: "a channel's centreline of width -9999", change: centreline(`,"width_ft":-9999`), want: map[string]string{"town": unsure}},

	{name: "nearer to a riparian line than the setback", change: features("riparian", sketchtest.Shape("LineString", `"id":"east"`, [2]float64{70, -50}, [2]float64{70, 340})), want: map[string]string{"lands": wary, "town": wary, "state": firm}},
	// What protects the shore along the shoreline is spared the setback; this stands 60 ft
	// out and 10 ft from the neighbour's line.
	{name: "riprap far off the shore, near a riparian line", change: several(reef("kind", `"riprap"`, "bed_elev_ft", gone), drawnAt(0, 60, 60, 66), features("riparian", sketchtest.Shape("LineString", `"id":"east"`, [2]float64{70, -50}, [2]float64{70, 340}))), want: map[string]string{"lands": hard}},
	{name: "a seawall far off the shore, near a riparian line", change: several(reef("kind", `"seawall"`, "bed_elev_ft", gone), drawnAt(0, 60, 60, 66), features("riparian", sketchtest.Shape("LineString", `"id":"east"`, [2]float64{70, -50}, [2]float64{70, 340}))), want: map[string]string{"lands": hard}},
	{name: "across a riparian line", change: features("riparian", sketchtest.Shape("LineString", `"id":"east"`, [2]float64{40, -50}, [2]float64{40, 340})), want: map[string]string{"lands": wary, "town": wary}},
	// The line of the neighbour ends short of the water; drawn on it would be 5 ft off.
	{name: "a riparian line that ends at the shore", change: features("riparian", sketchtest.Shape("LineString", `"id":"east"`, [2]float64{65, -150}, [2]float64{65, -40})), want: map[string]string{"lands": wary}},

	{name: "a shell bag bulkhead in Virginia", change: several(virginia, reef("kind", `"bulkhead"`, "material", `"shell bags"`)), want: map[string]string{"state": hard}},
	{name: "tire bales in Virginia", change: several(virginia, reef("material", `"tire bales"`)), want: map[string]string{"state": hard}},
	{name: "asphalt rubble in Virginia", change: several(virginia, reef("material", `"asphalt rubble"`)), want: map[string]string{"state": hard}},
	{name: "a crest 6 ft above high water in Virginia", change: several(virginia, reef("crest_elev_ft", "6.5"), longRow(0, 600), wideLots), want: map[string]string{"state": hard}},
}

// layOver draws a feature of a layer over the whole structure.
func layOver(file string) change {
	return also(file, sketchtest.Rectangle(`"id":"here"`, -20, 1, 80, 130))
}

// centreline is a channel 130 ft off, 121 from the structure.
func centreline(width string) change {
	return features("channel", straight(`"id":"c","reach":"main"`+width, -700, 700, 130))
}

// virginia is decided by its book, with what that asks beside.
func virginia(s *sandbox) {
	s.books = "us-va-state"
	reef("kind", `"sill"`, "fetch_mi", "0.3", "wetland_width_ft", "12")(s)
}
