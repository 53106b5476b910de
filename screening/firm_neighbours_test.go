package screening

import (
	"fmt"

	"waterward/screening/sketchtest"
)

// Other proposals of the run: walls made of two applications, versions of one, parts of a
// project, alternatives.
var neighbourCases = []firmCase{
	{name: "another 200 ft away", change: several(wideLots, beside(260, 3, 320, 9)), want: everyone(firm)},
	{name: "another that adjoins it", change: several(wideLots, beside(60, 3, 120, 9)), want: map[string]string{"state": unsure, "town": unsure}, says: "b"},
	{name: "another that adjoins it, seen from there", change: several(wideLots, beside(60, 3, 120, 9)), id: "b", want: map[string]string{"state": unsure, "town": unsure}},
	{name: "another 3 ft away", change: several(wideLots, beside(63, 3, 123, 9)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "another 4.9 ft away", change: several(wideLots, beside(64.9, 3, 124.9, 9)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "another 8 ft away", change: several(wideLots, beside(68, 3, 128, 9)), want: everyone(firm)},
	{name: "another that overlaps it", change: several(wideLots, beside(30, 3, 90, 9)), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure, "lands": unsure}},
	{name: "another in the same place", change: beside(0, 3, 60, 9), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure, "lands": unsure}},
	{name: "another within it", change: beside(20, 5, 30, 7), want: map[string]string{"state": unsure, "town": unsure, "federal": unsure}},
	{name: "a dock across it", change: several(wideLots, beside(28, 0, 32, 60, "kind", `"dock"`)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "the parts of one project adjoin", change: several(wideLots, reef("project", `"Cove"`), beside(60, 3, 120, 9)), want: map[string]string{"state": wary, "town": wary}},
	{name: "the parts of one project 8 ft apart", change: several(wideLots, reef("project", `"Cove"`), beside(68, 3, 128, 9)), want: everyone(firm), measured: map[string]string{"project_bank_length_ft": "120.00"}},
	{name: "a part that adjoins reaches 60 ft out", change: several(wideLots, reef("project", `"Cove"`), beside(60, 3, 64, 60)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a part that adjoins covers seagrass", change: several(wideLots, reef("project", `"Cove"`), beside(60, 3, 64, 9), also("grass", sketchtest.Rectangle(`"id":"x"`, 61, 1, 70, 20))), want: map[string]string{"state": wary, "town": wary}},
	{name: "a part that adjoins stands above high water", change: several(wideLots, reef("project", `"Cove"`), beside(60, 3, 64, 9, "crest_elev_ft", "3")), want: map[string]string{"state": wary, "town": wary}},
	{name: "a part that adjoins is a dock", change: several(wideLots, reef("project", `"Cove"`), beside(60, 3, 64, 9, "kind", `"dock"`)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a part that adjoins cannot be measured", change: several(wideLots, reef("project", `"Cove"`), crossingItself(60, `"project":"Cove",`)), want: map[string]string{"state": wary, "town": wary, "federal": wary}},
	{name: "the parts of one project overlap", change: several(wideLots, reef("project", `"Cove"`), beside(30, 3, 90, 9)), want: map[string]string{"state": wary}, measured: map[string]string{"project_bank_length_ft": "90.00"}},
	{name: "another 6 ft away, where 10 count", change: several(wideLots, beside(66, 3, 126, 9), asksOnly("measure: longest_run, with: {opening: 10 ft}, at_most: 100 ft")), want: map[string]string{"town": unsure}},
	{name: "another 5.05 ft away, drawn to a foot", change: several(wideLots, beside(65.05, 3, 125.05, 9), proposalsSay("accuracy", "1 ft")), want: map[string]string{"state": unsure}},
	{name: "one id twice, in one place", change: beside(0, 3, 60, 9, "id", `"a"`), want: everyone(wary)},
	{name: "one id twice, versions 30 ft apart", change: several(wideLots, beside(90, 3, 150, 9, "id", `"a"`)), want: everyone(wary)},
	{name: "an id that differs by case and a blank", change: beside(0, 3, 60, 9, "id", `"A "`), want: map[string]string{"state": wary, "town": wary}},
	{name: "another without an id in the same place", change: beside(0, 3, 60, 9, "id", gone), want: map[string]string{"state": wary, "town": wary}},

	{name: "alternatives in one place", change: several(reef("site", `"Cove"`, "alternative", `"A"`), beside(0, 3, 60, 9, "alternative", `"B"`)), want: everyone(firm)},
	{name: "alternatives that adjoin", change: several(wideLots, reef("site", `"Cove"`, "alternative", `"A"`), beside(60, 3, 120, 9, "alternative", `"B"`)), want: everyone(firm)},
	{name: "alternatives are not added up", change: several(wideLots, longRow(0, 260), reef("site", `"Cove"`, "alternative", `"A"`), besideLong(0, 280, 12, "alternative", `"B"`)), want: map[string]string{"federal": firm}},
	{name: "one alternative in two features that adjoin", change: several(wideLots, reef("site", `"Cove"`, "alternative", `"A"`), beside(60, 3, 120, 9)), want: map[string]string{"state": wary, "town": wary}},
	{name: "alternatives of two sites overlap", change: several(wideLots, reef("site", `"Cove"`, "alternative", `"A"`), beside(30, 3, 90, 9, "site", `"Point"`, "alternative", `"B"`)), want: map[string]string{"state": wary, "town": wary}},
	{name: "an alternative beside one that is none", change: several(wideLots, reef("site", `"Cove"`), beside(60, 3, 120, 9, "alternative", `"B"`)), want: map[string]string{"state": wary, "town": wary}},

	{name: "a line without a width that adjoins it", change: several(wideLots, also("proposals", sketchtest.Shape("LineString", `"id":"b","kind":"breakwater"`, [2]float64{60, 6}, [2]float64{120, 6}))), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "one that crosses itself in the same place", change: crossingItself(0, ""), want: map[string]string{"state": wary, "town": wary}},
	{name: "an alternative to nothing that overlaps", change: several(wideLots, beside(30, 3, 90, 9, "alternative", `"B"`)), want: map[string]string{"state": wary, "town": wary}},
	{name: "one alternative in two spellings that adjoin", change: several(wideLots, reef("site", `"Cove"`, "alternative", `"A"`), beside(60, 3, 120, 9, "alternative", `"a "`)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a second row 3 ft before it", change: beside(0, 12, 60, 18, "bed_elev_ft", gone), want: map[string]string{"state": unsure, "town": unsure}},

	{name: "a part of the project crosses itself", change: several(wideLots, reef("project", `"Cove"`), crossingItself(200, `"project":"Cove",`)), want: map[string]string{"federal": unsure}},
	{name: "a part of the project has no geometry", change: several(reef("project", `"Cove"`), also("proposals", `{"type":"Feature","properties":{"id":"b","project":"Cove"},"geometry":null}`)), want: map[string]string{"federal": unsure}},
	{name: "a part of the project has an id used twice", change: several(wideLots, reef("project", `"Cove"`), beside(200, 3, 260, 9), beside(300, 3, 360, 9)), want: map[string]string{"federal": unsure}},
	{name: "a part of the project states a width that is none", change: several(wideLots, reef("project", `"Cove"`), beside(200, 3, 260, 9, "width_ft", `"wide"`)), want: map[string]string{"federal": unsure}},
	{name: "a part of the project is a line without a width", change: several(wideLots, reef("project", `"Cove"`), also("proposals", straight(`"id":"b","project":"Cove","kind":"breakwater"`, 300, 760, 6))), want: map[string]string{"federal": wary}},
	{name: "a stranger far off crosses itself", change: several(wideLots, crossingItself(300, "")), want: everyone(firm)},

	// Two rows 11 ft apart stand before one stretch of 300 ft.
	{name: "two rows before one bank", change: several(wideLots, longRow(0, 300), reef("project", `"Cove"`), besideLong(0, 300, 20)), want: map[string]string{"federal": firm}, measured: map[string]string{"project_bank_length_ft": "300.00"}},
	{name: "two rows that overlap by half", change: several(wideLots, longRow(0, 300), reef("project", `"Cove"`), besideLong(150, 450, 20)), want: map[string]string{"federal": firm}, measured: map[string]string{"project_bank_length_ft": "450.00"}},
	{name: "one project of 520 ft", change: several(wideLots, longRow(0, 260), reef("project", `"Cove"`), besideLong(300, 560, 3)), want: map[string]string{"federal": wary}},
	{name: "one project of 520 ft in two spellings", change: several(wideLots, longRow(0, 260), reef("project", `"Cove"`), besideLong(300, 560, 3, "project", `"COVE "`)), want: map[string]string{"federal": wary}},
	{name: "one project of 520 ft, once said as a site", change: several(wideLots, longRow(0, 260), reef("project", `"Cove"`), besideLong(300, 560, 3, "project", gone, "site", `"Cove"`)), want: map[string]string{"federal": wary}},
	{name: "two projects of one site, 520 ft in all", change: several(wideLots, longRow(0, 260), reef("project", `"P1"`, "site", `"Cove"`), besideLong(300, 560, 3, "project", `"P2"`)), want: map[string]string{"federal": wary}},
	// The parts stand at x 0 to 60 and 120 to 180.
	{name: "a riparian line between the parts of a project", change: several(linesAt(-100, 90, 700), reef("project", `"Cove"`), beside(120, 3, 180, 9)), want: map[string]string{"lands": wary}, says: "runs between it and b"},
	{name: "a riparian line between the parts, seen from there", change: several(linesAt(-100, 90, 700), reef("project", `"Cove"`), beside(120, 3, 180, 9)), id: "b", want: map[string]string{"lands": wary}},
	{name: "a riparian line between two projects", change: several(linesAt(-100, 90, 700), reef("project", `"Cove"`), beside(120, 3, 180, 9, "project", `"Point"`)), want: everyone(firm)},
	{name: "a riparian line between the alternatives of a project", change: several(linesAt(-100, 90, 700), reef("project", `"Cove"`, "alternative", `"A"`), beside(120, 3, 180, 9, "alternative", `"B"`)), want: everyone(firm)},
	{name: "a riparian line between modules of 10 ft, 70 ft apart", change: several(linesAt(-100, 45, 700), inParts(0, 10), reef("project", `"Cove"`), beside(80, 3, 90, 9)), want: map[string]string{"lands": wary}},
	{name: "a riparian line beyond the parts of a project", change: several(linesAt(-100, 230, 700), reef("project", `"Cove"`), beside(120, 3, 180, 9)), want: everyone(firm)},
	{name: "parts of a project far apart, a riparian line between", change: several(linesAt(-100, 90, 700), reef("project", `"Cove"`), beside(400, 3, 460, 9)), want: everyone(firm)},
	{name: "two projects of 260 ft", change: several(wideLots, longRow(0, 260), reef("project", `"Cove"`), besideLong(300, 560, 3, "project", `"Point"`)), want: map[string]string{"federal": firm}},
	{name: "projects not available", change: several(wideLots, longRow(0, 260), reef("project", `"N/A"`), besideLong(300, 560, 3)), want: map[string]string{"federal": firm}},
}

// wideLots are riparian lines that leave room for another structure.
func wideLots(s *sandbox) { linesAt(-100, 700)(s) }

// linesAt are riparian lines square to the shore.
func linesAt(xs ...float64) change {
	var lines []string
	for i, x := range xs {
		lines = append(lines, sketchtest.Shape("LineString", fmt.Sprintf(`"id":"r%d"`, i+1), [2]float64{x, -50}, [2]float64{x, 340}))
	}
	return features("riparian", lines...)
}

// longRow draws the breakwater in elements of 50 ft and openings of 8 ft, from x0 to x1.
func longRow(x0, x1 float64) change { return inParts(elements(x0, x1)...) }

func elements(x0, x1 float64) (x []float64) {
	for ; x0+58+50 < x1; x0 += 58 {
		x = append(x, x0, x0+50)
	}
	return append(x, x0, x1)
}

// besideLong is another such breakwater, b, whose landward edge is at y.
func besideLong(x0, x1, y float64, pairs ...string) change {
	return func(s *sandbox) {
		own := newSandbox()
		for name, value := range s.reef {
			own.reef[name] = value
		}
		putAll(own.reef, append([]string{"id", `"b"`}, pairs...))
		partsAt(y, elements(x0, x1)...)(own)
		also("proposals", own.drawn(jsonMembers(own.reef)))(s)
	}
}

// crossingItself is a proposal whose outline crosses itself.
func crossingItself(x float64, more string) change {
	return also("proposals", sketchtest.Shape("Polygon", fmt.Sprintf(`"id":"b",%s"kind":"breakwater"`, more), [2]float64{x, 3}, [2]float64{x + 60, 9}, [2]float64{x + 60, 3}, [2]float64{x, 9}, [2]float64{x, 3}))
}
