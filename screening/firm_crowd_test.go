package screening

import (
	"fmt"
	"math"

	"waterward/screening/sketchtest"
)

// Many proposals in one place: what is too much to be looked at is never firm, and says how
// much it is. The numbers are counted from what is drawn.
var crowdCases = []firmCase{
	{name: "modules of one project 8 ft apart", change: several(wideLots, reef("project", `"Cove"`), crowd(20, 68, 11, 3)), want: everyone(firm)},
	// A module is 6 ft long: 60, 30 times 6, and 29 openings of 1 ft.
	{name: "modules of one project, each beside the next", change: several(wideLots, reef("project", `"Cove"`), crowd(30, 60, 4, 3)), want: map[string]string{"state": wary, "town": wary}, measured: map[string]string{"longest_run_ft": "269.00"}},
	{name: "the same, seen from the last", change: several(wideLots, reef("project", `"Cove"`), crowd(30, 60, 4, 3)), id: "m29", want: map[string]string{"state": wary, "town": wary}, measured: map[string]string{"longest_run_ft": "269.00"}},
	{name: "1,001 modules of one project", change: several(wideLots, reef("project", `"Cove"`), crowd(1000, 60, 0.3, 0.2)), want: everyone(unsure), says: "more than 1000 proposals of its project adjoin one another", measured: map[string]string{"longest_run_ft": ""}},
	{name: "1,001 others in one place", change: several(wideLots, crowd(1001, 60, 0.01, 3)), want: everyone(unsure), says: "1001 other proposals lie beside it, more than the 1000"},
	{name: "60 others over it", change: several(wideLots, crowd(60, 10, 0.2, 3)), want: everyone(unsure), says: "m49, overlaps or touches it|10 more proposals overlap it"},
	{name: "60 of its project on a harder path", change: several(wideLots, reef("project", `"Cove"`), crowd(60, 60, 0.5, 0.4, "kind", `"dock"`)), want: map[string]string{"state": wary, "town": wary}, says: "m49, with which it is one structure|10 more, with which it is one structure"},
	{name: "60 of its project that cannot be measured", change: several(wideLots, reef("project", `"Cove"`), crowd(60, 160, 5, 3, "width_ft", `"wide"`)), want: everyone(unsure), says: "m49 of the same project Cove cannot be measured|10 more of the same project Cove"},
	{name: "one of its project without a width adjoins it", change: several(wideLots, reef("project", `"Cove"`), also("proposals", sketchtest.Shape("LineString", `"id":"b","project":"Cove","kind":"breakwater"`, [2]float64{60, 6}, [2]float64{70, 6}))), want: map[string]string{"state": wary, "town": wary}, says: "of the 2 proposals of its project that adjoin one another one is not known: a line without a width", measured: map[string]string{"longest_run_ft": ""}},
	{name: "two of 6,000 vertices adjoin it", change: several(wideLots, reef("project", `"Cove"`), round(66, 6000, `"id":"b","project":"Cove","kind":"breakwater"`), round(77, 6000, `"id":"c","project":"Cove","kind":"breakwater"`)), want: map[string]string{"state": unsure, "town": unsure}, says: "the 3 proposals of its project that adjoin one another cannot be measured as one structure (it has 12,005 vertices, more than the 10,000", measured: map[string]string{"longest_run_ft": ""}},
	// Of 4 + 40 times 100 edges, 24 times as many are no more than 100,000.
	{name: "41 parts that each state another material", change: several(wideLots, reef("part", `"m"`), func(s *sandbox) {
		for i := range 40 {
			round(66+11*float64(i), 101, fmt.Sprintf(`"id":"a","kind":"breakwater","part":"m%d","material":"shell %d"`, i, i))(s)
		}
	}), want: everyone(wary), says: "its parts state 41 different things of it, of which the first 25 are looked at"},
}

// crowd are modules m0, m1 and so on, so wide, one every so many feet from x on, that state
// what the breakwater does, and more.
func crowd(n int, x, pitch, wide float64, pairs ...string) change {
	return func(s *sandbox) {
		for i := range n {
			x := x + float64(i)*pitch
			beside(x, 3, x+wide, 9, append([]string{"id", fmt.Sprintf(`"m%d"`, i)}, pairs...)...)(s)
		}
	}
}

// round is a proposal 10 ft across, of so many vertices.
func round(x float64, vertices int, states string) change {
	corners := make([][2]float64, vertices)
	for i := range corners {
		at := 2 * math.Pi * float64(i) / float64(vertices-1)
		corners[i] = [2]float64{x + 5*math.Cos(at), 8 + 5*math.Sin(at)}
	}
	corners[vertices-1] = corners[0]
	return also("proposals", sketchtest.Shape("Polygon", states, corners...))
}
