package screening

import "waterward/screening/sketchtest"

// What a local book can ask, one limit at a time.
var askedCases = []firmCase{
	{name: "the nearest of two, one not surveyed", change: several(asksOnly("least_of: [seagrass_nearest, wetland_nearest], at_least: 10 ft"), layerSays("wetlands", "surveyed", gone)), want: map[string]string{"town": unsure}},
	{name: "the nearest of two, both surveyed", change: asksOnly("least_of: [seagrass_nearest, wetland_nearest], at_least: 10 ft"), want: map[string]string{"town": firm}},
	{name: "the farther of two, one line of unstated accuracy", change: several(asksOnly("greatest_of: [mhw_farthest, mlw_farthest], at_most: 12 ft"), layerSays("low_water", "accuracy", gone)), want: map[string]string{"town": unsure}},
	{name: "the farther of two, one line not mapped", change: several(asksOnly("greatest_of: [mhw_farthest, mlw_farthest], at_most: 12 ft"), without("low_water")), want: map[string]string{"town": asks}},

	{name: "only for what is of rock, and this is of a word nobody knows", change: several(asksOnly("measure: mhw_farthest, at_most: 5 ft, when: {measure: material, any_of: [rock]}"), reef("material", `"mixed stuff"`)), want: map[string]string{"town": unsure}},
	{name: "only for what is of rock, and this is", change: several(asksOnly("measure: mhw_farthest, at_most: 5 ft, when: {measure: material, any_of: [rock]}"), reef("material", `"Rock"`)), want: map[string]string{"town": barred}},
	{name: "only for what is of rock, and this is of shell", change: several(asksOnly("measure: mhw_farthest, at_most: 5 ft, when: {measure: material, any_of: [rock]}", "measure: material, any_of: [rock, oyster shell]"), reef("material", `"oyster shell"`)), want: map[string]string{"town": firm}},
	{name: "only within coral, and coral is not surveyed", change: several(asksOnly("measure: mhw_farthest, at_most: 5 ft, when: {measure: in_area:coral, is: inside}"), layerSays("areas.coral", "surveyed", gone)), want: map[string]string{"town": unsure}},
	{name: "only within coral, and coral is of 1985", change: several(asksOnly("measure: mhw_farthest, at_most: 5 ft, when: {measure: in_area:coral, is: inside}"), layerSays("areas.coral", "date", "1985")), want: map[string]string{"town": unsure}},
	{name: "only within coral, and there is none", change: asksOnly("measure: mhw_farthest, at_most: 5 ft, when: {measure: in_area:coral, is: inside}"), want: map[string]string{"town": firm}},

	// By the reach of the channel: 100 ft in general, 30 ft in the south. It lies 60 ft off.
	{name: "a channel of the southern reach", change: byReach(`"reach":"South"`), want: map[string]string{"town": firm}},
	{name: "a channel of the southern reach in other letters", change: byReach(`"reach":" SOUTH  "`), want: map[string]string{"town": firm}},
	{name: "a channel of a reach nobody knows", change: byReach(`"reach":"Southern reach"`), want: map[string]string{"town": unsure}, says: "reach"},
	{name: "a channel of no reach", change: byReach(`"x":1`), want: map[string]string{"town": unsure}, says: "reach"},
	{name: "a channel of another reach 425 ft off", change: several(byReach(`"reach":"South"`), also("channel", sketchtest.Rectangle(`"id":"d","reach":"North"`, -700, 434, 700, 480))), want: map[string]string{"town": firm}},
	{name: "a channel of another reach 90 ft off", change: several(byReach(`"reach":"South"`), also("channel", sketchtest.Rectangle(`"id":"d","reach":"North"`, 150, 9, 700, 60))), want: map[string]string{"town": unsure}},

	// The section is 6 ft wide at the bed and 2 at the crest, 1.4 ft high: less than
	// 60 x 5.6 cu ft, 12.4 cu yd. Give or take a foot of height it may be twice that.
	{name: "a volume well inside", change: asksOnly("measure: fill_volume, at_most: 15 cuyd"), want: map[string]string{"town": firm}},
	{name: "a volume of heights known to a foot", change: several(asksOnly("measure: fill_volume, at_most: 15 cuyd"), reef("elevation_accuracy_ft", "1")), want: map[string]string{"town": unsure}},
	{name: "a volume of a foot drawn to 3 ft", change: several(asksOnly("measure: fill_volume, at_most: 15 cuyd"), proposalsSay("accuracy", "3 ft")), want: map[string]string{"town": unsure}},
	// The bed lies 1.6 ft above mean low water.
	{name: "a depth of heights known to 3 ft", change: several(asksOnly("measure: mlw_greatest_depth, at_most: 0 ft"), reef("elevation_accuracy_ft", "3")), want: map[string]string{"town": unsure}},
	{name: "a depth of heights known to a tenth", change: asksOnly("measure: mlw_greatest_depth, at_most: 0 ft"), want: map[string]string{"town": firm}},
	// 60 x 6 ft are 360 sq ft; a foot on either side makes 62 x 8, 496.
	{name: "an area drawn to a foot", change: several(asksOnly("measure: footprint_area, at_most: 361 sqft"), proposalsSay("accuracy", "1 ft")), want: map[string]string{"town": unsure}},
	{name: "an area of unstated accuracy", change: several(asksOnly("measure: footprint_area, at_most: 361 sqft"), proposalsSay("accuracy", gone)), want: map[string]string{"town": asks}},
	{name: "an area well inside", change: asksOnly("measure: footprint_area, at_most: 500 sqft"), want: map[string]string{"town": firm}},
	{name: "no area and no accuracy needed far from a limit", change: several(asksOnly("measure: footprint_area, at_most: 43560 sqft"), proposalsSay("accuracy", gone)), want: map[string]string{"town": firm}},
	{name: "the overlap with a bed touched within the accuracy of its map", change: several(asksOnly("measure: seagrass_overlap, at_most: 0 sqft"), layerSays("seagrass", "accuracy", "5 ft"), also("grass", sketchtest.Rectangle(`"id":"x"`, 0, 11, 60, 30))), want: map[string]string{"town": closely}},
	{name: "the share of a waterway 56 ft wide, its far wall known to 30 ft", change: several(asksOnly("measure: waterway_share, at_most: 1/6"), canal(straight(farWall+`,"accuracy_ft":30`, -800, 800, 56)), features("land", landBehind(0, -400), landBehind(56, 400))), want: map[string]string{"town": unsure}},
	{name: "the share of a waterway 56 ft wide, its far wall of 1950", change: several(asksOnly("measure: waterway_share, at_most: 1/6"), canal(straight(farWall+`,"FLOWN":"1950"`, -800, 800, 56)), layerSays("high_water", "properties", "{date: FLOWN}"), features("land", landBehind(0, -400), landBehind(56, 400))), want: map[string]string{"town": unsure}},
	{name: "the share of a waterway 56 ft wide", change: several(asksOnly("measure: waterway_share, at_most: 1/6"), canal(straight(farWall, -800, 800, 56)), features("land", landBehind(0, -400), landBehind(56, 400))), want: map[string]string{"town": firm}},
	{name: "an area layer the job does not give", change: asksOnly("measure: in_area:lease, is: outside"), want: map[string]string{"town": asks}, says: "lease"},
}

// byReach is a channel 60 ft off that says this of itself, under limits by its reach.
func byReach(says string) change {
	return several(features("channel", sketchtest.Rectangle(`"id":"c",`+says, -700, 69, 700, 400)), asksOnly(
		"measure: channel_nearest, at_least: 100 ft, when: {measure: channel_reach, none_of: [South]}",
		"measure: channel_nearest, at_least: 30 ft, when: {measure: channel_reach, any_of: [South]}"))
}
