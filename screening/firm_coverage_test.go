package screening

import (
	"fmt"
	"strings"

	"waterward/screening/sketchtest"
)

// What of the water was looked at: a layer says nothing where nobody has surveyed.
var coverageCases = []firmCase{
	{name: "seagrass without a survey", change: layerSays("seagrass", "surveyed", gone), want: map[string]string{"state": unsure, "lands": firm, "town": unsure}, says: "survey|seagrass"},
	{name: "wetlands without a survey", change: layerSays("wetlands", "surveyed", gone), want: map[string]string{"town": unsure, "lands": firm}, says: "survey|wetland"},
	{name: "channels without a survey", change: layerSays("channels", "surveyed", gone), want: map[string]string{"town": unsure, "state": firm, "lands": firm, "federal": firm}, says: "survey|channel"},
	{name: "coral without a survey", change: layerSays("areas.coral", "surveyed", gone), want: map[string]string{"town": unsure, "state": unsure, "lands": firm}, says: "survey|coral"},
	{name: "riparian lines without a survey", change: layerSays("riparian", "surveyed", gone), want: map[string]string{"lands": unsure, "town": unsure, "federal": firm}, says: "survey|riparian"},
	{name: "riparian lines 1,400 ft off without a survey", change: several(layerSays("riparian", "surveyed", gone), features("riparian", sketchtest.Shape("LineString", `"id":"w"`, [2]float64{-1400, -50}, [2]float64{-1400, 340}), sketchtest.Shape("LineString", `"id":"e"`, [2]float64{1460, -50}, [2]float64{1460, 340}))), want: map[string]string{"lands": unsure, "town": unsure}},
	{name: "riparian lines 1,400 ft off, surveyed", change: features("riparian", sketchtest.Shape("LineString", `"id":"w"`, [2]float64{-1400, -50}, [2]float64{-1400, 340}), sketchtest.Shape("LineString", `"id":"e"`, [2]float64{1460, -50}, [2]float64{1460, 340})), want: everyone(firm)},

	{name: "a survey that ends under the structure", change: surveyedBy("seagrass", sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 30, 2000)), want: map[string]string{"state": unsure, "town": unsure}, says: "survey|seagrass"},
	{name: "a survey that ends 5 ft beside the structure", change: surveyedBy("seagrass", sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 65, 2000)), want: map[string]string{"state": firm, "town": unsure}, says: "survey|seagrass"},
	{name: "a survey that ends 50 ft beside the structure", change: surveyedBy("seagrass", sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 110, 2000)), want: everyone(firm)},
	{name: "a survey that ends at the shoreline", change: surveyedBy("seagrass", waterOnly(0)), want: everyone(firm)},
	{name: "a survey that ends at the shoreline, no land mapped", change: several(without("shoreline"), surveyedBy("seagrass", waterOnly(0))), want: everyone(firm)},
	{name: "a survey that ends a foot short of the shoreline", change: surveyedBy("seagrass", waterOnly(1)), want: everyone(firm)},
	{name: "a survey that begins under the structure", change: surveyedBy("seagrass", waterOnly(6)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a structure between the shore and the survey", change: several(drawnAt(0, 0.6, 60, 4.6), reef("crest_elev_ft", "-0.4", "bed_elev_ft", "-0.54"), surveyedBy("seagrass", waterOnly(4.9))), want: map[string]string{"state": wary, "town": wary}},
	{name: "a coral survey that begins beyond the structure", change: several(drawnAt(0, 0.6, 60, 4.6), reef("crest_elev_ft", "-0.4", "bed_elev_ft", "-0.54"), surveyedBy("areas.coral", waterOnly(4.9))), want: map[string]string{"town": wary}},
	{name: "a channel survey that ends at the shoreline", change: surveyedBy("channels", waterOnly(0)), want: everyone(firm)},
	{name: "an oyster survey that ends at the shoreline", change: surveyedBy("areas.shellfish_bed", waterOnly(0)), want: everyone(firm)},
	// Marsh stands landward of mean high water too.
	{name: "a marsh survey that ends at the shoreline", change: surveyedBy("wetlands", waterOnly(0)), want: map[string]string{"town": unsure}},
	{name: "a survey with a hole 4 ft off", change: surveyedBy("seagrass", withHole(20, 13, 40, 30)), want: map[string]string{"state": firm, "town": unsure}},
	{name: "a survey with a hole under the structure", change: surveyedBy("seagrass", withHole(20, 5, 22, 7)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a survey with a hole 300 ft off", change: surveyedBy("seagrass", withHole(20, 310, 40, 330)), want: everyone(firm)},
	{name: "a survey in two pieces that meet", change: surveyedBy("seagrass", sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 30, 2000), sketchtest.Rectangle(`"id":"t"`, 30, -2000, 2000, 2000)), want: everyone(firm)},
	{name: "a survey in two pieces 6 ft apart", change: surveyedBy("seagrass", sketchtest.Rectangle(`"id":"s"`, -2000, -2000, 30, 2000), sketchtest.Rectangle(`"id":"t"`, 36, -2000, 2000, 2000)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a survey without a feature", change: surveyedBy("seagrass"), want: map[string]string{"state": wary, "town": wary}},
	{name: "a survey without a geometry", change: surveyedBy("seagrass", `{"type":"Feature","properties":{},"geometry":null}`), want: map[string]string{"state": wary, "town": wary}},

	{name: "seagrass without a feature", change: features("grass"), want: map[string]string{"state": unsure, "town": unsure, "lands": firm}, says: "seagrass"},
	{name: "seagrass without a feature, said to be none", change: several(features("grass"), layerSays("seagrass", "none", "true")), want: everyone(firm)},
	{name: "coral without a feature", change: features("coral"), want: map[string]string{"town": unsure}, says: "coral"},
	{name: "coral without a feature, said to be none", change: several(features("coral"), layerSays("areas.coral", "none", "true")), want: everyone(firm)},
	{name: "riparian lines without a feature", change: features("riparian"), want: map[string]string{"lands": unsure, "town": unsure}, says: "riparian"},
	{name: "channels without a feature", change: features("channel"), want: map[string]string{"town": unsure}, says: "channel"},
	{name: "said to be none, and there is some", change: several(layerSays("seagrass", "none", "true"), also("grass", sketchtest.Rectangle(`"id":"here"`, -20, 0, 80, 30))), want: map[string]string{"state": wary, "town": wary}},
	{name: "said to be none, without a survey", change: several(features("grass"), layerSays("seagrass", "none", "true", "surveyed", gone)), want: everyone(firm)}, // the job's word counts
	{name: "a bed without a geometry", change: also("grass", `{"type":"Feature","properties":{"id":"x"},"geometry":null}`), want: map[string]string{"state": unsure, "town": unsure}, says: "seagrass"},
	{name: "a bed without positions", change: also("grass", `{"type":"Feature","properties":{"id":"x"},"geometry":{"type":"Polygon","coordinates":[]}}`), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a bed of an empty collection", change: also("grass", `{"type":"Feature","properties":{"id":"x"},"geometry":{"type":"GeometryCollection","geometries":[]}}`), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a bed drawn as a point", change: also("grass", point(`"id":"x"`, 30, 6)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a bed drawn as its outline", change: also("grass", rectangleLine(`"id":"x"`, -20, -5, 80, 30)), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a riparian line without a geometry", change: also("riparian", `{"type":"Feature","properties":{"id":"x"},"geometry":null}`), want: map[string]string{"lands": unsure, "town": unsure}},
	{name: "channels drawn elsewhere", change: features("channel", `{"type":"Feature","properties":{"id":"c"},"geometry":{"type":"Polygon","coordinates":[[[-70,30],[-69.9,30],[-69.9,30.1],[-70,30]]]}}`), want: map[string]string{"town": unsure}},

	{name: "one bed of 500 that match", change: fileSays("grass", wholeFile(`,"numberMatched":500`, newSandbox().Sketch["grass"]...)), want: map[string]string{"state": wary, "town": wary}},
	{name: "one bed of 12 in all", change: fileSays("grass", wholeFile(`,"totalFeatures":12`, newSandbox().Sketch["grass"]...)), want: map[string]string{"state": wary, "town": wary}},
	{name: "one bed of one that matches", change: fileSays("grass", wholeFile(`,"numberMatched":1,"numberReturned":1`, newSandbox().Sketch["grass"]...)), want: everyone(firm)},
	{name: "more beds than the server sends, said by 1", change: fileSays("grass", wholeFile(`,"exceededTransferLimit":1`, newSandbox().Sketch["grass"]...)), want: map[string]string{"state": wary, "town": wary}},
	{name: "more beds than the server sends, said in words", change: fileSays("grass", wholeFile(`,"exceededTransferLimit":"Yes"`, newSandbox().Sketch["grass"]...)), want: map[string]string{"state": wary, "town": wary}},
	{name: "no more beds than the server sends", change: fileSays("grass", wholeFile(`,"exceededTransferLimit":false`, newSandbox().Sketch["grass"]...)), want: everyone(firm)},
	{name: "exactly 1,000 beds", change: manyBeds(1000), want: map[string]string{"state": wary, "town": wary}},
	{name: "exactly 2,000 beds", change: manyBeds(2000), want: map[string]string{"state": wary, "town": wary}},
	{name: "1,013 beds", change: manyBeds(1013), want: everyone(firm)},
	{name: "a page of riparian lines", change: fileSays("riparian", wholeFile(`,"numberMatched":"9"`, newSandbox().Sketch["riparian"]...)), want: map[string]string{"lands": wary, "town": wary}},

	{name: "only bare bottom in a surveyed layer", change: several(layerSays("seagrass", "only", "{from: KIND, any_of: [grass], others: [sand]}"), features("grass", sketchtest.Rectangle(`"id":"g","KIND":"sand"`, 400, 100, 500, 200))), want: everyone(firm)},
	{name: "a bed here whose class nobody explains", change: several(layerSays("seagrass", "only", "{from: KIND, any_of: [grass], others: [sand]}"), features("grass", sketchtest.Rectangle(`"id":"g","KIND":"grass"`, 400, 100, 500, 200), sketchtest.Rectangle(`"id":"x","KIND":"patchy"`, -20, 0, 80, 30))), want: map[string]string{"state": wary, "town": wary}},
	{name: "a bed here whose class only leaves out without a word", change: several(layerSays("seagrass", "only", "{from: KIND, any_of: [grass]}"), features("grass", sketchtest.Rectangle(`"id":"g","KIND":"grass"`, 400, 100, 500, 200), sketchtest.Rectangle(`"id":"x","KIND":"sparse grass"`, -20, 0, 80, 30))), want: map[string]string{"state": wary, "town": wary}},
	{name: "beds of classes that only does not know, one here", change: several(layerSays("seagrass", "only", "{from: KIND, any_of: [grass]}"), features("grass", sketchtest.Rectangle(`"id":"g","KIND":"SAV dense"`, 400, 100, 500, 200), sketchtest.Rectangle(`"id":"x","KIND":"SAV sparse"`, -20, 0, 80, 30))), want: map[string]string{"state": wary, "town": wary}},
	{name: "a numeric class with a point", change: several(layerSays("seagrass", "only", `{from: KIND, any_of: ["9113"], others: ["*"]}`), features("grass", sketchtest.Rectangle(`"id":"g","KIND":9113`, 400, 100, 500, 200), sketchtest.Rectangle(`"id":"x","KIND":9113.0`, -20, 0, 80, 30))), want: map[string]string{"state": barred, "town": barred}},

	{name: "no coral layer", change: without("areas.coral"), want: map[string]string{"state": asks, "town": asks, "lands": firm}, says: "coral"},
	{name: "no layer of oyster beds", change: without("areas.shellfish_bed"), want: map[string]string{"state": asks, "town": asks, "lands": firm}, says: "shellfish"},
	{name: "no wetlands", change: without("wetlands"), want: map[string]string{"state": asks, "town": asks, "lands": firm}, says: "wetland"},
	{name: "no seagrass", change: without("seagrass"), want: map[string]string{"state": asks, "town": asks, "lands": firm}, says: "seagrass"},
	{name: "no riparian lines", change: without("riparian"), want: map[string]string{"lands": asks, "town": asks, "state": firm}, says: "riparian"},
	{name: "no parcels", change: without("parcels"), want: everyone(firm)},
	{name: "two lots behind it, and no riparian line between them", change: features("lots", sketchtest.Rectangle(`"parcel_id":"12-4"`, -100, -300, 30, 0), sketchtest.Rectangle(`"parcel_id":"12-5"`, 30, -300, 160, 0)), want: map[string]string{"lands": wary, "town": wary}},
	{name: "two lots, a riparian line between them far off", change: several(features("lots", sketchtest.Rectangle(`"parcel_id":"12-4"`, -100, -300, 160, 0), sketchtest.Rectangle(`"parcel_id":"12-5"`, 160, -300, 400, 0))), want: everyone(firm)},
	{name: "one file given as two layers", change: layerSays("seagrass", "file", "marsh"), want: map[string]string{"state": wary, "town": wary}},
	{name: "one file given as two layers, parted by class", change: several(layerSays("seagrass", "file", "cover", "only", "{from: KIND, any_of: [grass], others: [marsh]}"), layerSays("wetlands", "file", "cover", "only", "{from: KIND, any_of: [marsh], others: [grass]}"), features("cover", sketchtest.Rectangle(`"id":"g","KIND":"grass"`, 400, 100, 500, 200), sketchtest.Rectangle(`"id":"m","KIND":"marsh"`, 400, -60, 500, -20))), want: everyone(firm)},
	{name: "the survey given as the layer", change: layerSays("seagrass", "file", "all"), want: map[string]string{"state": wary, "town": wary}},
	{name: "the layer given as its own survey", change: layerSays("seagrass", "surveyed", "grass"), want: map[string]string{"state": wary, "town": wary}},
	{name: "the proposals half a degree off", change: drawnAt(158000, 3, 158060, 9), want: map[string]string{"state": wary, "federal": wary, "lands": wary, "town": wary}},
	{name: "a search radius shorter than a limit", change: func(s *sandbox) {
		s.more += "search_radius: 60 ft\n"
		several(features("channel", sketchtest.Rectangle(`"id":"c"`, -700, 89, 700, 200)))(s)
	}, want: map[string]string{"town": unsure}},
}

// surveyedBy puts other areas in the place of a layer's survey.
func surveyedBy(layer string, of ...string) change {
	return several(layerSays(layer, "surveyed", "seen"), features("seen", of...))
}

// waterOnly is a survey of the water from the shore at y = 0, or so far from it, to the
// far shore.
func waterOnly(from float64) string {
	corners := append(sketchtest.Along(from), turned(sketchtest.Along(700))...)
	return sketchtest.Shape("Polygon", `"id":"water"`, append(corners, corners[0])...)
}

// withHole is a survey of everything but a rectangle.
func withHole(x0, y0, x1, y1 float64) string {
	_, hole, _ := strings.Cut(sketchtest.Rectangle("", x0, y0, x1, y1), `"coordinates":[`)
	return strings.TrimSuffix(everywhere, "]}}") + "," + strings.TrimSuffix(hole, "]}}") + "]}}"
}

// manyBeds is a seagrass layer of so many beds, all far off.
func manyBeds(n int) change {
	return func(s *sandbox) {
		s.Sketch["grass"] = nil
		for i := range n {
			x, y := 400+float64(i%50)*6, 200+float64(i/50)*6
			s.Sketch["grass"] = append(s.Sketch["grass"], sketchtest.Rectangle(fmt.Sprintf(`"id":"g%d"`, i), x, y, x+4, y+4))
		}
	}
}
