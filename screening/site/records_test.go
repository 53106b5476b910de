package site

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// unitsByHand are the ends of columns, and what one of their unit is in SI: 1 ft is
// 0.3048 m by definition, a yard 3 ft and a mile 5,280 ft.
var unitsByHand = map[rules.Quantity]map[string]Column{
	rules.Length:          {"_ft": {PerUnit: 0.3048, Decimals: 2}, "_mi": {PerUnit: 1609.344, Decimals: 2}},
	rules.Area:            {"_sqft": {PerUnit: 0.3048 * 0.3048, Decimals: 1}},
	rules.Volume:          {"_cuyd": {PerUnit: 0.9144 * 0.9144 * 0.9144, Decimals: 2}},
	rules.VolumePerLength: {"_cuyd_ft": {PerUnit: 0.9144 * 0.9144 * 3, Decimals: 4}},
	rules.Count:           {"": {PerUnit: 1}},
	rules.Ratio:           {"_pct": {PerUnit: 0.01, Decimals: 1}, "_ranges": {PerUnit: 1, Decimals: 2}, "_share": {PerUnit: 1, Decimals: 4}, "_slope": {PerUnit: 1, Decimals: 2}},
	rules.Word:            {"": {}},
	rules.Names:           {"": {}},
}

// TestEveryRecordIsWhole: rules and screening know the same measures, and no part of a
// record lacks.
func TestEveryRecordIsWhole(t *testing.T) {
	columns := map[string]bool{}
	known := 0
	for m := range rules.Measures() {
		r := RecordOf(m.Name)
		require.NotEmpty(t, r.Name, "%s has no record: add one to records.go", m.Name)
		known++

		require.False(t, columns[r.Column.Name], "%s has the column of another", r.Name)
		columns[r.Column.Name] = true
		unit := slices.DeleteFunc([]string{"_cuyd_ft", "_ft", "_mi", "_sqft", "_cuyd", "_pct", "_ranges", "_share", "_slope", ""}, func(end string) bool {
			_, is := unitsByHand[m.Quantity][end]
			return !is || !strings.HasSuffix(r.Column.Name, end)
		})
		require.NotEmpty(t, unit, "%s is %s: its column does not end in a unit of that", r.Name, m.Quantity)
		want := unitsByHand[m.Quantity][unit[0]]
		if r.Stated && want.PerUnit == 0.01 {
			want.Decimals = 2 // as it was stated
		}
		require.InEpsilon(t, 1+want.PerUnit, 1+r.Column.PerUnit, 1e-12, r.Name)
		require.Equal(t, want.Decimals, r.Column.Decimals, r.Name)
		require.True(t, r.Stated && r.Column.Name == r.Property || strings.HasPrefix(r.Name, strings.TrimSuffix(r.Column.Name, unit[0])), "%s: a column is named for its measure", r.Name)

		of := r
		if m.Quantity == rules.Names {
			of = RecordOf(m.Name + ":x")
			require.Equal(t, []string{"in_area_x", "areas.x", "x"}, []string{of.Column.Name, of.Layer, of.Blame})
		}
		require.Equal(t, m.Dated, of.Layer != "", "%s: what is dated is taken from a layer, and nothing else", r.Name)
		require.True(t, of.Layer == "" || layers.KindOfLayer(of.Layer).Title != "", r.Name)

		require.True(t, r.Property == "" || slices.Contains(job.ProposalProperties(), r.Property), "%s: nothing reads %s", r.Name, r.Property)
		require.True(t, !r.Stated || r.Property != "", "%s is stated by no property", r.Name)
		require.Equal(t, m.Stated, r.Stated && m.Quantity == rules.Word, r.Name)
		if r.Stated && m.Quantity != rules.Word {
			require.NoError(t, r.Within.Refuses(r.Property, r.Column.PerUnit/2), "%s takes no number", r.Name)
		}

		require.Equal(t, r.place, of.Blame != "", "%s: what is a matter of the place is blamed on something, and nothing else", r.Name)
		require.True(t, r.place || r.Whole == alike && !r.Drawn && !r.Reach, r.Name)
		require.True(t, r.Placed == 0 || r.placed != nil, "%s: what has a column as placed differs as placed", r.Name)
	}
	require.Len(t, records, known, "a record is of a measure that rules know, and stands there once")
}

// What records say of places, written down by hand: on what it is blamed that a place is
// not open, and whether its limits are lines and lie beyond a path's own reach.
var placesByHand = map[string]struct {
	blame         string
	drawn, beyond bool
}{
	"mhw_farthest":          {"mean high water", true, true},
	"mhw_nearest":           {"mean high water", true, true},
	"mhw_landward_edge":     {"mean high water", true, true},
	"mlw_farthest":          {"mean low water", true, true},
	"mlw_nearest":           {"mean low water", true, true},
	"mlw_landward_edge":     {"mean low water", true, true},
	"seagrass_overlap":      {"seagrass", false, false},
	"seagrass_nearest":      {"seagrass", true, false},
	"wetland_overlap":       {"wetland", false, false},
	"wetland_nearest":       {"wetland", true, false},
	"wetland_behind":        {"wetland", true, false},
	"wetland_farthest":      {"wetland", true, true},
	"wetland_landward_edge": {"wetland", true, true},
	"channel_nearest":       {"channel", true, false},
	"channel_reach":         {"channel", false, false},
	"riparian_nearest":      {"neighbour", true, false},
	"waterway_width":        {"narrow water", false, false},
	"waterway_share":        {"narrow water", false, false},
	"in_area":               {"", false, false},
}

// What limits leave of a strip 2 m wide along the shore, where 30 m are the most and a
// wide enough opening of 5 m is asked every 25 m: all of it, an element, an opening. By
// hand: 30 sq m are 15 m of it; openings whose middles lie 30 m apart leave 25 m between
// them, and one in every 25 m leaves 20.
var stripsByHand = map[string][3]float64{
	"element_length": {30, math.Inf(1), 0}, "overall_length": {30, math.Inf(1), 0}, "project_length": {30, math.Inf(1), 0},
	"bank_length": {30, math.Inf(1), 0}, "project_bank_length": {30, math.Inf(1), 0}, "footprint_area": {15, math.Inf(1), 0},
	"longest_run": {math.Inf(1), 30, 5}, "opening_spacing": {math.Inf(1), 25, 5}, "openings_lacking": {math.Inf(1), 20, 5},
}

// TestRecordsSayWhatIsWrittenDown of places, strips, the bank and projects.
func TestRecordsSayWhatIsWrittenDown(t *testing.T) {
	onBank := []string{"longest_overlap", "bank_length", "mhw_farthest", "mhw_nearest", "mhw_landward_edge", "mlw_farthest", "mlw_nearest", "mlw_landward_edge"}
	for _, r := range records {
		place, held := placesByHand[r.Name]
		require.Equal(t, held, r.place, r.Name)
		require.Equal(t, place.blame, r.Blame, r.Name)
		require.Equal(t, []bool{place.drawn, place.beyond}, []bool{r.Drawn, r.Reach}, r.Name)
		tidal := strings.HasPrefix(r.Name, "mhw_") && r.place || strings.HasPrefix(r.Name, "mlw_") && r.place
		require.Equal(t, tidal, r.off != nil, "%s: is it taken from a tidal line?", r.Name)
		require.Equal(t, tidal && strings.HasSuffix(r.Name, "_farthest"), r.toe, r.Name)
		side := geo.BothSides // grass, marsh and channels have two; the water has one
		if tidal {
			side = geo.WaterSide
		}
		require.True(t, !r.Drawn || r.side == side, r.Name)
		require.Equal(t, slices.Contains(onBank, r.Name), r.bank, r.Name)
		require.Equal(t, strings.HasPrefix(r.Name, "project_"), r.project, r.Name)

		strip, held := stripsByHand[r.Name]
		require.Equal(t, held, r.Strip != nil, r.Name)
		if held {
			left := r.Strip(30, 2, rules.Ref{Opening: 5, Every: 25})
			require.Equal(t, strip, [3]float64{left.Most, left.Element, left.Opening}, r.Name)
		}
	}
	require.Equal(t, []string{"seagrass", "wetland", "channel", "neighbour", "narrow water"}, Causes())
	require.Equal(t, []string{"wetland_behind", "wetland_farthest", "wetland_landward_edge"}, OfWetlandBehind)
	var placed []string
	for _, r := range ShownPlaced {
		placed = append(placed, r.Column.Name)
	}
	require.Equal(t, []string{"mhw_farthest_ft", "narrowest_opening_ft", "footprint_sqft"}, placed)
}

// TestStatedNumbersAreHeldToSense: nothing measured is less than nothing, but what may lie
// landward of a line; there is no more than all of the fines, and no stone as large as a
// hill. By hand.
func TestStatedNumbersAreHeldToSense(t *testing.T) {
	bare := stood(t, ground(t, ""), nil, shapeOf([4]float64{0, 3, 60, 9}))
	for _, r := range StatedNumbers {
		require.Equal(t, r.Name == "mtl_landward_edge", r.Within.Refuses(r.Property, -0.5) == nil, r.Name)
		require.Equal(t, r.Name != "fill_fines", r.Within.Refuses(r.Property, 1.5) == nil, r.Name)
		require.Equal(t, r.Name != "fill_fines" && r.Name != "stone_size", r.Within.Refuses(r.Property, 5000) == nil, r.Name)
		want := "the proposal states no " + r.Property
		switch r.Name {
		case "fetch":
			want = "fetch is not measured from maps and " + want
		case "mtl_landward_edge":
			want = "no mid-tide line is mapped and " + want
		}
		require.Equal(t, want, bare.asked(r).Unknown)
	}
}

// everything is all that a proposal can state, by property.
var everything = map[string]string{
	"kind": `"sill"`, "material": `"rock"`, "fill": `"yes"`, "datum": `"NAVD88"`,
	"crest_elev_ft": "0.1", "bed_elev_ft": "-0.3", "crest_width_ft": "1", "fill_elev_ft": "0.2", "wetland_elev_ft": "-0.75", "high_tide_line_elev_ft": "0.8",
	"fetch_mi": "1", "side_slope": "1.5", "stone_size_ft": "1", "fill_fines_pct": "5", "wetland_width_ft": "9", "mtl_landward_edge_ft": "1",
}

// ground is a sketch of everything, with heights, as mapped under the rest of a job.
func ground(t *testing.T, rest string) *layers.Set {
	t.Helper()
	s := sketchtest.Everything()
	s["high"][0] = sketchtest.Shape("LineString", `"id":"h","side":"water_left","elevation_ft":0.5`, sketchtest.Along(0)...)
	s["low"] = []string{sketchtest.Shape("LineString", `"id":"l","elevation_ft":-1.5`, sketchtest.Along(20)...)}
	s["ts.csv"] = sketchtest.TideTable
	text := strings.NewReplacer("{file: high}", "{file: high, datum: NAVD88}", "{file: low}", "{file: low, datum: NAVD88}").Replace(sketchtest.LayersOf(s, "")) + rest
	j, err := job.Load("job.yaml", strings.NewReader(text))
	require.NoError(t, err)
	mapped, err := (&layers.Loader{Files: s, Log: &inputs.Log{}}).Load(j)
	require.NoError(t, err)
	return mapped
}

// stood measures a structure of a geometry that states so much.
func stood(t *testing.T, mapped *layers.Set, properties map[string]string, shape string) *Site {
	t.Helper()
	var states []string
	for name, value := range properties {
		states = append(states, fmt.Sprintf("%q:%s", name, value))
	}
	f, err := geojson.ReadFeature("here", []byte(`{"type":"Feature","properties":{`+strings.Join(states, ",")+`},"geometry":`+shape+`}`), nil)
	require.NoError(t, err)
	p := NewProposal(Alone(f, "here"))
	require.NoError(t, p.Err)
	return New(p, mapped, nil, 1000*job.Foot)
}

// shapeOf is the geometry of rectangles from one corner to the other, feet.
func shapeOf(rectangles ...[4]float64) string {
	var made []string
	for _, r := range rectangles {
		_, rest, _ := strings.Cut(sketchtest.Rectangle("", r[0], r[1], r[2], r[3]), `"coordinates":`)
		made = append(made, strings.TrimSuffix(rest, "}}"))
	}
	return `{"type":"MultiPolygon","coordinates":[` + strings.Join(made, ",") + `]}`
}

const stations = "levels: {stations: [ts.csv]}\n"

// asked is a measure as the tests ask for it.
func (s *Site) asked(r Record) rules.Value {
	return s.Measure(rules.Ref{Measure: r.Name, Opening: 5 * job.Foot, Every: 75 * job.Foot})
}

// TestWhatAMeasureRestsOn: a measure is known where all is stated and given, not known
// without its property or, if it rests on them, without water levels, and another number
// over another bed, if it rests on that.
func TestWhatAMeasureRestsOn(t *testing.T) {
	wet, shape := ground(t, stations), shapeOf([4]float64{-80, 8, -50, 14}, [4]float64{-44, 8, -14, 14})
	all := stood(t, wet, everything, shape)
	for _, r := range records {
		if r.Name != "in_area" {
			require.Empty(t, all.asked(r).Unknown, r.Name)
		}
	}
	but := func(property, value string) map[string]string {
		states := map[string]string{}
		for name, v := range everything {
			if name != property {
				states[name] = v
			} else if value != "" {
				states[name] = value
			}
		}
		return states
	}
	lacking := map[string]bool{}
	for property := range everything {
		if property == "datum" || property == "crest_width_ft" {
			continue // of many
		}
		without := stood(t, wet, but(property, ""), shape)
		for _, r := range records {
			if without.asked(r).Unknown != "" && r.Name != "in_area" {
				lacking[r.Name] = true
				require.NotEmpty(t, r.Property, "%s is not known without %s", r.Name, property)
			} else {
				require.NotEqual(t, property, r.Property, "%s is known without %s", r.Name, property)
			}
		}
	}
	deeper, dry := stood(t, wet, but("bed_elev_ft", "-0.4"), shape), stood(t, ground(t, ""), everything, shape)
	for _, r := range records {
		if r.Name == "in_area" {
			continue
		}
		require.Equal(t, lacking[r.Name], r.Property != "", r.Name)
		require.Equal(t, all.asked(r).Number != deeper.asked(r).Number, r.bed, "%s over a deeper bed", r.Name)
		require.Equal(t, dry.asked(r).Unknown != "", r.Tides, "%s without water levels", r.Name)
	}
}

// TestAsPlacedIsAsDrawnSo: what a measure is said to be of a mound as placed, 2 ft wider
// all round, is what it is of one drawn so; but that areas covered are told at the most.
func TestAsPlacedIsAsDrawnSo(t *testing.T) {
	wet := ground(t, "")
	states := map[string]string{"settlement_ft": "1", "side_slope": "2"}
	for _, toe := range []float64{14, 59, 89} { // near the marsh, the grass, and in the channel when wider
		settled := shapeOf([4]float64{-80, toe - 6, -50, toe}, [4]float64{-44, toe - 6, -14, toe})
		drawn := stood(t, wet, map[string]string{"side_slope": "2"}, shapeOf([4]float64{-82, toe - 8, -48, toe + 2}, [4]float64{-46, toe - 8, -12, toe + 2}))
		placed := stood(t, wet, states, settled)
		doubted := stood(t, wet, map[string]string{"settlement_ft": "1"}, settled)
		for _, r := range records {
			m, _ := rules.FindMeasure(r.Name)
			was, is := placed.asked(r), drawn.asked(r)
			number, told := placed.asPlaced[r.Name]
			switch {
			case r.count != nil, m.Quantity == rules.Word, r.Name == "in_area", was.Unknown != "":
				require.Nil(t, r.placed, r.Name)
				continue // the measures of openings by their own way
			case m.Quantity == rules.Area && r.place:
				require.True(t, told && number >= is.Number-0.01 || !told && is.Number == was.Number, "%s, toe at %g ft", r.Name, toe)
			case r.Name == "longest_overlap": // none is lost, and as much is gained at the most
				require.True(t, told && number >= is.Number, "toe at %g ft", toe)
			case told:
				require.InDelta(t, is.Number, number, 0.01, "%s, toe at %g ft", r.Name, toe)
			default:
				require.InDelta(t, was.Number, is.Number, 0.01, "%s, toe at %g ft: it changes, and its record does not say how", r.Name, toe)
			}
			// Where the slope is not known, 5 to 1 is thought of at the most, where it was 2
			// to 1; what is no distance is doubted altogether.
			within, doubts := 0.0, slices.ContainsFunc(doubted.asked(r).Doubts, func(d rules.Doubt) bool {
				return strings.Contains(d.Says, "as placed, before it settles")
			})
			require.Equal(t, r.placed != nil, doubts, r.Name)
			for _, d := range doubted.asked(r).Doubts {
				if strings.Contains(d.Says, "as placed, before it settles") {
					within = d.Within / (5 * job.Foot)
				}
			}
			if told && m.Quantity == rules.Length && r.Name != "element_length" && number != 0 {
				require.InDelta(t, math.Abs(number-was.Number)/(2*job.Foot), within, 0.001, r.Name)
			}
		}
	}
}

// TestWhatHangsOnTheShore: what is measured where nothing is known of the shore, of the
// project or of neighbours does not hang on it, and all else does.
func TestWhatHangsOnTheShore(t *testing.T) {
	all := stood(t, ground(t, stations), everything, shapeOf([4]float64{-80, 8, -50, 14}, [4]float64{-44, 8, -14, 14}))
	inland := Bare(all.Proposal, all.Layers, all.Radius)
	inland.Stated()
	inland.Lengths()
	var every Asked
	for _, r := range records {
		every = append(every, r.Name)
	}
	inland.Surroundings(every)
	for _, r := range records {
		if r.Name == "in_area" || r.Name == "project_length" || r.Name == "riparian_nearest" {
			require.False(t, r.Shore, r.Name)
			continue
		}
		require.Equal(t, inland.asked(r).Unknown != "", r.Shore, "%s: %s", r.Name, inland.asked(r).Unknown)
		require.True(t, Asked{r.Name}.OnShore() == r.Shore)
	}
}
