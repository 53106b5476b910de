package screening

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"waterward/screening/sketchtest"
)

// sandbox is a site plainly in order, drawn in feet as a sketch is, and the job that
// screens it. Cases change one thing of it.
//
// Mean high water runs along y = 0 at 0.5 ft and mean low water along y = 10 at -3.5, so
// the foreshore falls 0.4 ft a foot: under the middle of the breakwater, y 3 to 9, it lies
// at -1.9 ft. The crest is 1 ft below mean high water. The far shore is at y = 700.
type sandbox struct {
	sketchtest.Sketch
	whole  map[string]string            // files that are no sketch, by their text
	layers map[string]map[string]string // what the job says of each layer
	source map[string]string            // and of the proposals
	more   string                       // other lines of the job
	reef   map[string]string            // what the breakwater states, as JSON
	drawn  func(properties string) string
	books  string
	town   []string // criteria of the town's first path, in YAML
}

// farAreas are the named areas the built-in books ask for, and the town's.
var farAreas = []string{
	"aquatic_preserve", "bird_colony", "coral", "critical_habitat", "critical_resource_water", "federal_project",
	"historic_property", "ocean_hazard_area", "outstanding_water", "shellfish_bed", "shellfish_harvest_area",
	"spawning_area", "tribal_area", "water_intake", "wild_scenic_river",
}

// everywhere is a survey of all that any site looks at.
var everywhere = sketchtest.Rectangle(`"id":"all"`, -2000, -2000, 2000, 2000)

func newSandbox() *sandbox {
	s := &sandbox{
		Sketch: sketchtest.Sketch{
			"high": {
				sketchtest.Shape("LineString", `"id":"h","side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, sketchtest.Along(0)...),
				sketchtest.Shape("LineString", `"id":"h2","side":"water_right","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, sketchtest.Along(700)...),
			},
			"low": {
				sketchtest.Shape("LineString", `"id":"l","elevation_ft":-3.5,"elevation_accuracy_ft":0.1`, sketchtest.Along(10)...),
				sketchtest.Shape("LineString", `"id":"l2","elevation_ft":-3.5,"elevation_accuracy_ft":0.1`, sketchtest.Along(690)...),
			},
			"land":     {landBehind(0, -400), landBehind(700, 1100)},
			"grass":    {sketchtest.Rectangle(`"id":"g"`, 400, 100, 500, 200)},
			"marsh":    {sketchtest.Rectangle(`"id":"m"`, 400, -60, 500, -20)},
			"channel":  {sketchtest.Rectangle(`"id":"c","reach":"main"`, -700, 400, 700, 450)},
			"riparian": {sketchtest.Shape("LineString", `"id":"west"`, [2]float64{-100, -50}, [2]float64{-100, 340}), sketchtest.Shape("LineString", `"id":"east"`, [2]float64{160, -50}, [2]float64{160, 340})},
			"lots":     {sketchtest.Rectangle(`"parcel_id":"12-4"`, -100, -300, 160, 0)},
			"all":      {everywhere},
		},
		whole:  map[string]string{},
		layers: map[string]map[string]string{},
		source: map[string]string{"file": "proposals", "accuracy": "0.1 ft"},
		reef: map[string]string{
			"id": `"a"`, "kind": `"breakwater"`, "material": `"oyster shell"`, "fill": `"no"`, "crest_elev_ft": "-0.5", "bed_elev_ft": "-1.9",
			"crest_width_ft": "2", "datum": `"NAVD88"`, "elevation_accuracy_ft": "0.1",
		},
		drawn: func(properties string) string { return sketchtest.Rectangle(properties, 0, 3, 60, 9) },
		books: "us-fl-state, us-fl-lands, us-federal", town: townLimits,
	}
	tidal := func(file string) map[string]string {
		return map[string]string{"file": file, "accuracy": "0.1 ft", "date": "2026-05-12", "surveyed": "all", "datum": "NAVD88", "epoch": "1983-2001"}
	}
	s.layers["high_water"], s.layers["low_water"] = tidal("high"), tidal("low")
	for name, file := range map[string]string{"shoreline": "land", "seagrass": "grass", "wetlands": "marsh", "channels": "channel", "riparian": "riparian", "parcels": "lots"} {
		s.layers[name] = map[string]string{"file": file, "accuracy": "0.1 ft", "date": "2026-05-12", "surveyed": "all"}
	}
	for i, area := range farAreas {
		s.layers["areas."+area] = map[string]string{"file": area, "accuracy": "0.1 ft", "date": "2026-05-12", "surveyed": "all"}
		s.Sketch[area] = []string{sketchtest.Rectangle(fmt.Sprintf(`"id":%q`, area), 600, 200+10*float64(i), 700, 205+10*float64(i))}
	}
	return s
}

// landBehind is the land from a straight shore at y back to another y.
func landBehind(y, back float64) string {
	corners := append(sketchtest.Along(y), [2]float64{800, back}, [2]float64{-800, back}, [2]float64{-800, y})
	return sketchtest.Shape("Polygon", `"id":"land"`, corners...)
}

// Open gives the job's files: the town's book, a text, or what is drawn.
func (s *sandbox) Open(name string) (io.ReadCloser, error) {
	text, stated := s.whole[name]
	switch {
	case stated:
	case name == "./town.yaml":
		text = sketchtest.TownBook(s.town)
	case name == "proposals":
		all := append([]string{s.drawn(jsonMembers(s.reef))}, s.Sketch["proposals"]...)
		return sketchtest.Sketch{"proposals": all}.Open("proposals")
	default:
		return s.Sketch.Open(name)
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

func (*sandbox) List(name string) (found, others []string, err error) {
	return []string{name}, nil, nil
}

func jsonMembers(of map[string]string) string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(of)) {
		out = append(out, fmt.Sprintf("%q:%s", name, of[name]))
	}
	return strings.Join(out, ",")
}

func yamlMembers(of map[string]string) string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(of)) {
		out = append(out, name+": "+of[name])
	}
	return "{" + strings.Join(out, ", ") + "}"
}

func (s *sandbox) job() string {
	var layers, areas strings.Builder
	for _, name := range slices.Sorted(maps.Keys(s.layers)) {
		if area, named := strings.CutPrefix(name, "areas."); named {
			fmt.Fprintf(&areas, "    %s: %s\n", area, yamlMembers(s.layers[name]))
		} else {
			fmt.Fprintf(&layers, "  %s: %s\n", name, yamlMembers(s.layers[name]))
		}
	}
	return "decision_date: 2026-11-25\nbooks: [" + s.books + ", ./town.yaml]\nproposals: " + yamlMembers(s.source) +
		"\nlayers:\n" + layers.String() + "  areas:\n" + areas.String() + s.more
}

// townLimits are of every kind.
var townLimits = []string{
	"measure: mhw_farthest, at_most: 10 ft", "measure: mhw_nearest, at_least: 1 ft", "measure: mlw_farthest, at_most: 30 ft",
	"measure: bank_length, at_most: 150 ft", "measure: overall_length, less_than: 150 ft", "measure: longest_run, with: {opening: 5 ft}, at_most: 100 ft",
	"measure: crest_above_mhw, at_most: 0 ft", "measure: mlw_greatest_depth, at_most: 6 ft", "measure: footprint_area, at_most: 2000 sqft", "measure: fill_volume, at_most: 100 cuyd",
	"measure: seagrass_nearest, at_least: 10 ft", "measure: wetland_nearest, at_least: 10 ft", "measure: channel_nearest, at_least: 100 ft",
	"measure: riparian_nearest, at_least: 15 ft, waivable_by: the neighbour", "measure: waterway_share, at_most: 1/6",
	"measure: in_area:coral, is: outside", "measure: in_area:shellfish_bed, is: outside", "measure: in_area:aquatic_preserve, is: outside",
	`measure: fill_proposed, is: "no"`, "measure: material, any_of: [oyster shell, limestone]", "measure: kind, any_of: [breakwater, sill]",
}
