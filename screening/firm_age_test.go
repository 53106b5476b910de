package screening

import "waterward/screening/sketchtest"

// Of when the layers are. Tidal lines may be 10 years old and what lives 5 on the day of
// the decision, 2026-11-25 (common practice, no source).
var ageCases = []firmCase{
	{name: "high water of 1975", change: layerSays("high_water", "date", "1975-06-01"), want: map[string]string{"state": unsure, "federal": unsure, "town": unsure}, says: "1975"},
	{name: "high water of just under ten years", change: layerSays("high_water", "date", "2016-12-01"), want: everyone(firm)},
	{name: "high water of just over ten years", change: layerSays("high_water", "date", "2016-11-01"), want: map[string]string{"state": unsure, "federal": unsure, "town": unsure}, says: "2016"},
	{name: "low water of 1975", change: layerSays("low_water", "date", "1975-06-01"), want: map[string]string{"federal": unsure, "town": unsure, "lands": firm}, says: "1975"},
	{name: "seagrass of 1985", change: layerSays("seagrass", "date", "1985-06-01"), want: map[string]string{"state": unsure, "town": unsure, "lands": firm}, says: "1985"},
	{name: "seagrass of just under five years", change: layerSays("seagrass", "date", "2021-12-01"), want: everyone(firm)},
	{name: "seagrass of just over five years", change: layerSays("seagrass", "date", "2021-11-01"), want: map[string]string{"state": unsure, "town": unsure}, says: "2021"},
	{name: "wetlands of 2019", change: layerSays("wetlands", "date", "2019-01-01"), want: map[string]string{"town": unsure, "lands": firm}, says: "2019"},
	{name: "coral of 2019", change: layerSays("areas.coral", "date", "2019-01-01"), want: map[string]string{"town": unsure, "lands": firm}, says: "2019"},
	{name: "oyster beds of 2019", change: layerSays("areas.shellfish_bed", "date", "2019-01-01"), want: map[string]string{"town": unsure, "lands": firm}, says: "2019"},
	{name: "submerged vegetation of 1985 under its usual letters", change: several(asksOnly("measure: in_area:sav, is: outside"), func(s *sandbox) {
		s.layers["areas.sav"] = map[string]string{"file": "grass", "accuracy": "0.1 ft", "surveyed": "all", "date": "1985-06-01"}
	}), want: map[string]string{"town": unsure}},
	{name: "riparian lines of 1950", change: layerSays("riparian", "date", "1950-01-01"), want: everyone(firm)},
	{name: "a preserve of 1990", change: layerSays("areas.aquatic_preserve", "date", "1990-01-01"), want: everyone(firm)},
	{name: "parcels of 1990", change: layerSays("parcels", "date", "1990-01-01"), want: everyone(firm)},
	{name: "seagrass of the year that the job allows", change: layerSays("seagrass", "date", "2019-01-01", "max_age", "8 years"), want: everyone(firm)},
	{name: "seagrass older than the job allows", change: layerSays("seagrass", "date", "2025-01-01", "max_age", "1 year"), want: map[string]string{"state": unsure, "town": unsure}},

	{name: "high water not dated", change: layerSays("high_water", "date", gone), want: map[string]string{"state": unsure, "town": unsure}, says: "date"}, // of the federal limits none lies within 100 ft
	{name: "seagrass not dated, and more than 100 ft from any limit", change: layerSays("seagrass", "date", gone), want: everyone(firm)},
	{name: "low water not dated", change: layerSays("low_water", "date", gone), want: map[string]string{"federal": unsure, "town": unsure}, says: "date"},
	{name: "high water of next year", change: layerSays("high_water", "date", "2027-01-05"), refused: true, says: "2027-01-05|after"},
	{name: "seagrass of the day after", change: layerSays("seagrass", "date", "2026-11-26"), refused: true, says: "2026-11-26|after"},
	{name: "seagrass of the day itself", change: layerSays("seagrass", "date", "2026-11-25"), want: everyone(firm)},
	{name: "seagrass of the year 20260", change: layerSays("seagrass", "date", "20260-05-12"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a date whose month and day cannot be told", change: layerSays("high_water", "date", "5/12/2026"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a date in words", change: layerSays("high_water", "date", "recent"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a year of two digits", change: layerSays("high_water", "date", "26-05-12"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a day that no month has", change: layerSays("high_water", "date", "2026-02-30"), want: map[string]string{"state": wary, "town": wary}},
	{name: "the year 1", change: layerSays("seagrass", "date", "0001-01-01"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a date without hyphens", change: layerSays("high_water", "date", `"20260512"`), want: everyone(firm)},
	{name: "a month", change: layerSays("high_water", "date", `"2026-05"`), want: everyone(firm)},
	{name: "a year", change: layerSays("high_water", "date", `"2026"`), want: everyone(firm)},
	// 20,585 days of 86,400,000 ms are up to 2026-05-12.
	{name: "milliseconds", change: layerSays("high_water", "date", "1778544000000"), want: everyone(firm)},
	// Days of a spreadsheet and seconds of a clock are no dates here.
	{name: "seconds", change: layerSays("high_water", "date", `"1778544000"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "a range of years", change: layerSays("high_water", "date", `"1975-2026"`), want: map[string]string{"state": wary, "town": wary}},

	{name: "the left piece of high water of 1950", change: several(layerSays("high_water", "properties", "{date: FLOWN}"), nearHigh(high(`,"FLOWN":"1950-06-01"`, -800, 30), high(`,"FLOWN":"2026-05-12"`, 30, 800))), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}, says: "1950"},
	{name: "the right piece of high water of 1950", change: several(layerSays("high_water", "properties", "{date: FLOWN}"), nearHigh(high(`,"FLOWN":"2026-05-12"`, -800, 30), high(`,"FLOWN":"1950-06-01"`, 30, 800))), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}, says: "1950"},
	{name: "the far piece of high water of 1950", change: several(layerSays("high_water", "properties", "{date: FLOWN}"), nearHigh(high(`,"FLOWN":"2026-05-12"`, -800, 500), high(`,"FLOWN":"1950-06-01"`, 500, 800))), want: everyone(firm)},
	{name: "a piece of next year", change: several(layerSays("high_water", "properties", "{date: FLOWN}"), nearHigh(high(`,"FLOWN":"2027-06-01"`, -800, 30), high(`,"FLOWN":"2026-05-12"`, 30, 800))), want: map[string]string{"state": wary, "town": wary}},
	{name: "a piece of low water of 1950", change: several(layerSays("low_water", "properties", "{date: FLOWN}"), nearLow(low(`,"FLOWN":"1950-06-01"`, -800, 30), low(`,"FLOWN":"2026-05-12"`, 30, 800))), want: map[string]string{"federal": unsure, "town": unsure}},
	{name: "an old bed within the distance asked", change: several(layerSays("seagrass", "properties", "{date: FLOWN}"), features("grass", sketchtest.Rectangle(`"id":"g","FLOWN":"1985"`, 75, 0, 100, 30))), want: map[string]string{"town": unsure}},
	{name: "an old bed behind a new one", change: several(layerSays("seagrass", "properties", "{date: FLOWN}"), features("grass", sketchtest.Rectangle(`"id":"g","FLOWN":"2026"`, 75, 0, 100, 30), sketchtest.Rectangle(`"id":"x","FLOWN":"1985","accuracy_ft":20`, 76, 0, 100, 30))), want: map[string]string{"town": unsure}},
	{name: "a piece without a date where the layer has one", change: several(layerSays("high_water", "properties", "{date: FLOWN}"), nearHigh(high(`,"FLOWN":""`, -800, 30), high(`,"FLOWN":"2026-05-12"`, 30, 800))), want: everyone(firm)},

	{name: "started in a month", change: reef("started", `"2026-04"`), want: map[string]string{"state": firm, "lands": firm, "town": firm}},
	{name: "started on a day without hyphens", change: reef("started", `"20260414"`), want: everyone(firm)},
	{name: "started on a day with strokes", change: reef("started", `"2026/04/14"`), want: everyone(firm)},
	{name: "not yet started", change: reef("started", `"not yet"`), want: map[string]string{"state": firm, "lands": firm, "town": firm}},
	{name: "started next year", change: reef("started", `"2027-04-14"`), want: map[string]string{"federal": wary}},
	{name: "started under an edition whose grace is over", change: reef("started", `"2018-04-14"`), want: map[string]string{"federal": firm}, says: "2018|start"},
}
