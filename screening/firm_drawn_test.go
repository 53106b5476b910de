package screening

import (
	"math"
	"strings"

	"waterward/screening/sketchtest"
)

// How the structure and the areas beside it are drawn.
var drawnCases = []firmCase{
	{name: "a line with a width", change: several(reef("width_ft", "6"), asLine), want: everyone(firm), measured: map[string]string{"mhw_farthest_ft": "9.00"}},
	{name: "a line with a width in metres", change: several(reef("width_ft", `"1.8288 m"`), asLine), want: everyone(firm), measured: map[string]string{"mhw_farthest_ft": "9.00"}},
	{name: "a line without a width", change: asLine, want: map[string]string{"state": wary, "federal": wary, "lands": wary, "town": wary}},
	{name: "a line of width 0", change: several(reef("width_ft", "0"), asLine), want: map[string]string{"state": wary, "federal": wary, "lands": wary, "town": wary}},
	{name: "a line of a width not available", change: several(reef("width_ft", `"N/A"`), asLine), want: map[string]string{"state": wary, "town": wary}},
	{name: "a line of width -9999", change: several(reef("width_ft", "-9999"), asLine), want: map[string]string{"state": wary, "town": wary}},
	{name: "a line of width 1e-9", change: several(reef("width_ft", "1e-9"), asLine), want: map[string]string{"state": wary, "town": wary}},
	{name: "a point without a diameter", change: func(s *sandbox) { s.drawn = func(properties string) string { return point(properties, 30, 6) } }, want: map[string]string{"state": wary, "federal": wary, "lands": wary, "town": wary}},
	{name: "a point of diameter 0", change: asDisc(30, 6, 0), want: map[string]string{"state": wary, "federal": wary, "lands": wary, "town": wary}},
	{name: "a disc", change: several(asDisc(30, 6, 5), reef("crest_width_ft", "1")), want: everyone(firm)},
	{name: "a structure of no area", change: drawnAt(0, 6, 60, 6), want: everyone(wary)},
	{name: "two parts drawn in one place", change: inParts(0, 60, 0, 60), want: map[string]string{"state": wary, "town": wary}},
	{name: "an outline that crosses itself", change: func(s *sandbox) {
		s.drawn = func(properties string) string {
			return sketchtest.Shape("Polygon", properties, [2]float64{0, 3}, [2]float64{60, 9}, [2]float64{60, 3}, [2]float64{0, 9}, [2]float64{0, 3})
		}
	}, want: everyone(wary)},
	{name: "an outline drawn clockwise", change: func(s *sandbox) {
		s.drawn = func(properties string) string {
			return sketchtest.Shape("Polygon", properties, [2]float64{0, 3}, [2]float64{0, 9}, [2]float64{60, 9}, [2]float64{60, 3}, [2]float64{0, 3})
		}
	}, want: everyone(firm)},
	{name: "a part far offshore as well", change: func(s *sandbox) {
		s.drawn = func(p string) string { return twoBoxes(p, 0, 3, 60, 9, 100, 300, 110, 306) }
	}, want: map[string]string{"state": wary, "town": wary}},
	{name: "a part on land as well", change: func(s *sandbox) {
		s.drawn = func(p string) string { return twoBoxes(p, 0, 3, 60, 9, 80, -60, 140, -20) }
	}, want: map[string]string{"state": wary, "town": wary}},
	{name: "no geometry", change: func(s *sandbox) {
		s.drawn = func(p string) string { return `{"type":"Feature","properties":{` + p + `},"geometry":null}` }
	}, want: everyone(wary)},
	{name: "mostly on land", change: drawnAt(0, -20, 60, 9), want: map[string]string{"state": wary, "town": wary}},

	// However a bed is drawn, one over the structure is one.
	{name: "a bed drawn twice round", change: also("grass", sketchtest.Shape("Polygon", `"id":"x"`, [2]float64{-20, 1}, [2]float64{80, 1}, [2]float64{80, 40}, [2]float64{-20, 40}, [2]float64{-20, 1}, [2]float64{80, 1}, [2]float64{80, 40}, [2]float64{-20, 40}, [2]float64{-20, 1})), want: map[string]string{"state": wary, "town": wary}},
	{name: "a bed of two parts in one place", change: also("grass", twoBoxes(`"id":"x"`, -20, 1, 80, 40, -20, 1, 80, 40)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a bed of two parts that overlap here", change: also("grass", twoBoxes(`"id":"x"`, -200, 1, 80, 40, -20, 1, 200, 40)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a bed whose hole is itself", change: also("grass", holed(`"id":"x"`, -20, 1, 80, 40, -20, 1, 80, 40)), want: map[string]string{"state": wary, "town": wary}},
	// The middle of a star is gone round twice.
	{name: "a bed drawn as a star", change: also("grass", sketchtest.Shape("Polygon", `"id":"x"`, star(30, 6, 100)...)), want: map[string]string{"state": wary, "town": wary}},
	{name: "a bed drawn as a spiral", change: also("grass", sketchtest.Shape("Polygon", `"id":"x"`, [2]float64{-200, -50}, [2]float64{200, -50}, [2]float64{200, 100}, [2]float64{-50, 100}, [2]float64{-50, -20}, [2]float64{150, -20}, [2]float64{150, 80}, [2]float64{-200, 80}, [2]float64{-200, -50})), want: map[string]string{"state": wary, "town": wary}},
	{name: "a bed with a hole here", change: also("grass", holed(`"id":"x"`, -200, -100, 300, 140, -50, -40, 110, 100)), want: map[string]string{"state": firm, "town": firm}},
	{name: "two beds in one place", change: also("grass", sketchtest.Rectangle(`"id":"x"`, -20, 1, 80, 40), sketchtest.Rectangle(`"id":"x"`, -20, 1, 80, 40)), want: map[string]string{"state": barred, "town": barred}},
	{name: "a bed of no area over it", change: also("grass", sketchtest.Rectangle(`"id":"x"`, 0, 6, 60, 6)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a bed with one position too few", change: also("grass", sketchtest.Shape("Polygon", `"id":"x"`, [2]float64{-20, 1}, [2]float64{80, 1}, [2]float64{-20, 1})), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a bed not closed", change: also("grass", sketchtest.Shape("Polygon", `"id":"x"`, [2]float64{-20, 1}, [2]float64{80, 1}, [2]float64{80, 40}, [2]float64{-20, 40})), want: map[string]string{"state": wary, "town": wary}},
	{name: "a bed in a collection of geometries", change: also("grass", inCollection(sketchtest.Rectangle(`"id":"x"`, -20, 1, 80, 40))), want: map[string]string{"state": wary, "town": wary}},
	{name: "a preserve drawn twice round", change: several(reef("fill", `"yes"`), also("aquatic_preserve", twoBoxes(`"id":"x"`, -20, 1, 80, 40, -20, 1, 80, 40))), want: map[string]string{"lands": hard}},
	{name: "a place surveyed twice", change: surveyedBy("seagrass", everywhere, everywhere), want: everyone(firm)},

	{name: "a shore that goes back over itself", change: nearHigh(sketchtest.Shape("LineString", shoreSays, append(append(turnedPiece(-800, 40), turnedPiece(40, 10)...), turnedPiece(10, 800)...)...)), want: map[string]string{"lands": firm}, measured: map[string]string{"mhw_farthest_ft": "9.00", "bank_length_ft": "60.00"}},
	{name: "a shore with a position twice", change: nearHigh(sketchtest.Shape("LineString", shoreSays, append(turnedPiece(-800, 40), turnedPiece(40, 800)...)...)), want: everyone(firm), measured: map[string]string{"mhw_farthest_ft": "9.00", "bank_length_ft": "60.00"}},
	{name: "a piece whose side contradicts the next", change: nearHigh(high("", -800, 30), straight(`"side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, 30, 800, 0)), want: map[string]string{"state": wary, "town": wary}},
	{name: "high water in one feature of many lines", change: nearHigh(manyLines(high(`,"id":"h"`, -800, 30), high("", 30, 800))), want: everyone(firm)},
}

// asLine draws the breakwater as its middle line.
func asLine(s *sandbox) {
	s.drawn = func(properties string) string {
		return sketchtest.Shape("LineString", properties, [2]float64{0, 6}, [2]float64{60, 6})
	}
}

func ringsOf(feature string) string {
	_, ring, _ := strings.Cut(feature, `"coordinates":`)
	return strings.TrimSuffix(ring, "}}")
}

// twoBoxes is an area of two parts.
func twoBoxes(properties string, x0, y0, x1, y1, x2, y2, x3, y3 float64) string {
	return `{"type":"Feature","properties":{` + properties + `},"geometry":{"type":"MultiPolygon","coordinates":[` + ringsOf(sketchtest.Rectangle("", x0, y0, x1, y1)) + "," + ringsOf(sketchtest.Rectangle("", x2, y2, x3, y3)) + "]}}"
}

// holed is the first rectangle less the second.
func holed(properties string, x0, y0, x1, y1, x2, y2, x3, y3 float64) string {
	outer, inner := ringsOf(sketchtest.Rectangle("", x0, y0, x1, y1)), ringsOf(sketchtest.Rectangle("", x2, y2, x3, y3))
	return `{"type":"Feature","properties":{` + properties + `},"geometry":{"type":"Polygon","coordinates":` + strings.TrimSuffix(outer, "]") + "," + strings.TrimPrefix(inner, "[") + "}}"
}

func inCollection(feature string) string {
	head, geometry, _ := strings.Cut(feature, `"geometry":`)
	return head + `"geometry":{"type":"GeometryCollection","geometries":[` + strings.TrimSuffix(geometry, "}") + "]}}"
}

// turnedPiece is a stretch of the shore from one x to another, whichever way.
func turnedPiece(x0, x1 float64) (out [][2]float64) {
	out = append(out, [2]float64{x0, 0})
	for i := range sketchtest.Along(0) {
		c := sketchtest.Along(0)[i]
		if x0 > x1 {
			c = sketchtest.Along(0)[len(sketchtest.Along(0))-1-i]
		}
		if (c[0]-x0)*(c[0]-x1) < 0 {
			out = append(out, c)
		}
	}
	return append(out, [2]float64{x1, 0})
}

func manyLines(first, second string) string {
	head, _, _ := strings.Cut(first, `"geometry":`)
	return head + `"geometry":{"type":"MultiLineString","coordinates":[` + ringsOf(first) + "," + ringsOf(second) + "]}}"
}

// star has five points round a middle, every second joined.
func star(x, y, radius float64) (out [][2]float64) {
	for i := range 6 {
		angle := math.Pi/2 + 4*math.Pi*float64(i)/5
		out = append(out, [2]float64{x + radius*math.Cos(angle), y + radius*math.Sin(angle)})
	}
	out[5] = out[0]
	return out
}
