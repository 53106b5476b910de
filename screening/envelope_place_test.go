package screening

import (
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/site"
	"waterward/screening/sketchtest"
)

// lotOf is the row of the lot under a book of one path with these criteria.
func lotOf(t *testing.T, s sketchtest.Sketch, but string, criteria ...string) (map[string]string, sketchtest.Memory) {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader(sketchtest.LayersOf(s, but)))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	_, err = Envelope(t.Context(), j, sketchtest.WithBook{Sketch: s, Criteria: criteria}, out, Options{Workers: 1})
	require.NoError(t, err)
	return sketchtest.Lots(t, out)["L"], out
}

// again screens the candidates of an envelope and returns the results of their criteria.
func again(t *testing.T, s sketchtest.Sketch, envelope sketchtest.Memory, criteria ...string) []string {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader(sketchtest.LayersOf(s, "")))
	require.NoError(t, err)
	j.Proposals = job.ProposalSources{{Files: job.FileList{"candidates.geojson"}}}
	out := sketchtest.Memory{}
	_, err = Run(t.Context(), j, sketchtest.WithFile{Files: sketchtest.WithBook{Sketch: s, Criteria: criteria}, Name: "candidates.geojson", Text: envelope["candidates.geojson"].Bytes()}, out, Options{Workers: 1})
	require.NoError(t, err)
	rows, err := csv.NewReader(out["criteria.csv"]).ReadAll()
	require.NoError(t, err)
	var results []string
	for i, name := range rows[0] {
		if name == "result" {
			for _, row := range rows[1:] {
				results = append(results, row[i])
			}
		}
	}
	return results
}

// Worked by hand: of 200 by 100 ft looked at, what each measure of a place leaves open
// under one limit, what takes the rest, and what is said without the layer.
var placesByHand = map[string]struct {
	asks    string
	area    float64
	taken   string
	but     string // the layer
	without string
}{
	"mhw_farthest":          {"at_most: 40 ft", 200 * 40, "", "", ""},
	"mhw_nearest":           {"at_least: 40 ft", 200 * 60, "", "", ""},
	"mhw_landward_edge":     {"at_most: 30 ft", 200 * 30, "", "", ""},
	"mlw_farthest":          {"at_most: 30 ft", 200 * 50, "", "low", "no data on mean low water 100.0 %"},
	"mlw_nearest":           {"at_least: 30 ft", 200 * 50, "", "low", "no data on mean low water 100.0 %"},
	"mlw_landward_edge":     {"at_most: 10 ft", 200 * 30, "", "low", "no data on mean low water 100.0 %"},
	"seagrass_nearest":      {"at_least: 15 ft", 200 * 45, "seagrass 55.0 %", "grass", "no data on seagrass 100.0 %"},
	"seagrass_overlap":      {"at_most: 0 sqft", 200 * 75, "seagrass 25.0 %", "grass", "no data on seagrass 100.0 %"},
	"wetland_nearest":       {"at_least: 12 ft", 20000 - 100*17 - 5*12 - math.Pi*12*12/4, "wetland 9.4 %", "marsh", "no data on wetland 100.0 %"},
	"wetland_overlap":       {"at_most: 0 sqft", 20000 - 100*5, "wetland 2.5 %", "marsh", "no data on wetland 100.0 %"},
	"wetland_behind":        {"at_least: 12 ft", 20000 - 100*17, "wetland 8.5 %", "marsh", "no data on wetland 100.0 %"},
	"wetland_farthest":      {"at_most: 25 ft", 100 * 30, "", "marsh", "no data on wetland 100.0 %"},
	"wetland_landward_edge": {"at_most: 10 ft", 100 * 15, "", "marsh", "no data on wetland 100.0 %"},
	"channel_nearest":       {"at_least: 20 ft", 200 * 70, "channel 30.0 %", "channel", "no data on channel 100.0 %"},
	"channel_reach":         {"none_of: [north]", 0, "channel 100.0 %", "channel", "no data on channel 100.0 %"},
	"riparian_nearest":      {"at_least: 25 ft", 150 * 100, "neighbour 25.0 %", "", ""},
	"waterway_width":        {"at_least: 200 ft", 200 * 100, "", "", ""},
	"waterway_share":        {"at_most: 1/4", 200 * 60, "narrow water 40.0 %", "", ""},
	"in_area:quiet":         {"is: outside", 100 * 100, "quiet 50.0 %", "quiet", "no data on quiet 100.0 %"},
}

// TestEveryMeasureOfPlaceIsAsked: every measure that rules have is known here, those that
// are matters of the place are asked of it, and a candidate drawn there meets the limit
// when it is screened.
func TestEveryMeasureOfPlaceIsAsked(t *testing.T) {
	for m := range rules.Measures() {
		name := m.Name
		if m.Quantity == rules.Names {
			name += ":quiet"
		}
		_, ofPlace := site.PlaceRecord(name)
		want, held := placesByHand[name]
		require.Equal(t, ofPlace, held, "%s: is it a matter of the place? then work its envelope out by hand", name)
		if !held {
			continue
		}
		t.Run(strings.ReplaceAll(name, ":", "_"), func(t *testing.T) {
			s, criterion := sketchtest.Everything(), "measure: "+name+", "+want.asks
			row, out := lotOf(t, s, "", criterion)
			require.Empty(t, row["error"])
			area, err := strconv.ParseFloat(row["town_small_area_sqft"], 64)
			require.NoError(t, err)
			require.InDelta(t, want.area, area, math.Max(1, 0.0005*want.area))
			require.Equal(t, "0", row["town_small_unknown_sqft"])
			require.Equal(t, want.taken, sketchtest.Taken(row, "town_small"))
			if want.area == 0 {
				require.Equal(t, "Full", row["town_title"])
			} else {
				require.Equal(t, "Small", row["town_title"], row["town_tightest"])
				require.Equal(t, []string{"meets"}, again(t, s, out, criterion))
			}
			if want.but != "" {
				row, _ = lotOf(t, s, want.but, criterion)
				require.Equal(t, "0", row["town_small_area_sqft"])
				require.Equal(t, "20000", row["town_small_unknown_sqft"])
				require.Equal(t, want.without, sketchtest.Taken(row, "town_small"))
			}
		})
	}
}

// The water of 240 ft is no 300 ft anywhere.
func TestNarrowWater(t *testing.T) {
	row, _ := lotOf(t, sketchtest.Everything(), "", "measure: waterway_width, at_least: 300 ft")
	require.Equal(t, "0", row["town_small_area_sqft"])
	require.Equal(t, "narrow water 100.0 %", sketchtest.Taken(row, "town_small"))
}

// TestWhatChangesWithThePlaceIsAMeasureOfIt: what of a structure of nearly no size that
// states nothing is one number here and another there hangs on the place alone.
func TestWhatChangesWithThePlaceIsAMeasureOfIt(t *testing.T) {
	s := sketchtest.Everything()
	j, err := job.Load("job.yaml", strings.NewReader(sketchtest.LayersOf(s, "")))
	require.NoError(t, err)
	mapped, err := (&layers.Loader{Files: s, Log: &inputs.Log{}}).Load(j)
	require.NoError(t, err)
	at := func(x, y float64) *site.Site {
		f, err := geojson.ReadFeature("here", []byte(sketchtest.Rectangle(`"id":"here"`, x, y, x+0.01, y+0.01)), nil)
		require.NoError(t, err)
		p := site.NewProposal(site.Alone(f, "here"))
		require.NoError(t, p.Err)
		return site.New(p, mapped, nil, 1000*job.Foot)
	}
	places := []*site.Site{at(-80, 12), at(-60, 40), at(70, 15), at(20, 80), at(20, 50)}
	changing := 0
	for m := range rules.Measures() {
		name := m.Name
		if m.Quantity == rules.Names {
			name += ":quiet"
		}
		ref := rules.Ref{Measure: name, Opening: 5 * job.Foot, Every: 75 * job.Foot}
		first := places[0].Measure(ref)
		for _, p := range places[1:] {
			v := p.Measure(ref)
			if v.Unknown == "" && first.Unknown == "" && (math.Abs(v.Number-first.Number) > 0.05*job.Foot || v.Word != first.Word || len(v.Names) != len(first.Names)) {
				_, of := site.PlaceRecord(name)
				require.True(t, of, "%s is %v here and %v there", name, first.Number, v.Number)
				changing++
				break
			}
		}
	}
	require.GreaterOrEqual(t, changing, 14)
}

// The water before a marsh ends where its shadow does. Worked by hand: a bank with a corner
// at (0, 0), from (-200, 0) to it and on to (0, 200), the water on the left, that is west
// of the one and north of the other; marsh behind the first leg alone, from x = -90 to -10.
func TestTheShadowOfAMarsh(t *testing.T) {
	high := []orb.Point{{-200, 0}, {0, 0}, {0, 200}}
	faced := geo.NewLines(high)
	fp, err := geo.NewFootprint(orb.LineString{{-74.6, 30}, {-74.6001, 30}}, 0, 0)
	require.NoError(t, err)
	bank := geo.HomeBank(fp, faced)
	marsh := geo.NewLines([]orb.Point{{-90, -5}, {-10, -5}, {-10, -8}, {-90, -8}, {-90, -5}})
	for at, before := range map[orb.Point]bool{
		{-50, 20}: true, {-89, 60}: true, {-91, 60}: false, {-11, 5}: true, {-9, 5}: false,
		{-30, 29}: true, {-30, 31}: false, // nearer to the other leg
	} {
		require.Equal(t, before, bank.Before(at, marsh, 30), at)
	}
	ways := bank.Shadows(marsh, 30, 100)
	require.Len(t, ways, 2, "at either end of the marsh")
	for i, x := range []float64{-90, -10} {
		for _, p := range ways[i] {
			require.InDelta(t, x, p[0], 0.001)
		}
		require.InDelta(t, 100, ways[i][1][1], 0.001)
	}
	_, all := bank.BeforeAll(orb.Polygon{{{-80, 1}, {-40, 1}, {-40, 20}, {-80, 20}, {-80, 1}}}, orb.Point{-60, 10}, marsh, 30)
	require.True(t, all)
	// However its rings run, and beside its holes too.
	_, all = bank.BeforeAll(orb.Polygon{{{-80, 1}, {-80, 20}, {-40, 20}, {-40, 1}, {-80, 1}}, {{-70, 5}, {-60, 5}, {-60, 15}, {-70, 15}, {-70, 5}}}, orb.Point{-50, 10}, marsh, 30)
	require.True(t, all)
	_, all = bank.BeforeAll(orb.Polygon{{{-80, 1}, {-20, 1}, {-20, 60}, {-80, 60}, {-80, 1}}}, orb.Point{-60, 10}, marsh, 30)
	require.False(t, all, "across the line that halves the corner")
}

// Round a headland the ways fan out, and a marsh behind it throws its shadow between those
// that lead straight away from its corners. Worked by hand: a bank along y = 0 to (0, 0) and
// on along x = 0 to the south; marsh from (-10, -20) to (-6, -3), seen from the corner in
// the direction of (-6, -20) on the one hand and of (-10, -3) on the other.
func TestTheShadowOfAMarshOnAHeadland(t *testing.T) {
	fp, err := geo.NewFootprint(orb.LineString{{-74.6, 30}, {-74.6001, 30}}, 0, 0)
	require.NoError(t, err)
	bank := geo.HomeBank(fp, geo.NewLines([]orb.Point{{-200, 0}, {0, 0}, {0, -200}}))
	marsh := geo.NewLines([]orb.Point{{-10, -3}, {-6, -3}, {-6, -20}, {-10, -20}, {-10, -3}})
	ways := bank.Shadows(marsh, 30, 100)
	tips := []orb.Point{{-10, 100}, {-6, 100}, {28.735, 95.783}, {95.783, 28.735}, {100, -3}, {100, -20}}
	require.Len(t, ways, len(tips))
	for i, tip := range tips {
		require.InDelta(t, tip[0], ways[i][1][0], 0.002)
		require.InDelta(t, tip[1], ways[i][1][1], 0.002)
	}
}

// A condition that one end of a structure brings about holds for the other end too. Worked
// by hand: marsh 5 ft behind the west half; structures within 20 ft of it reach no farther
// than 20 ft from mean high water, others no farther than 30 ft. Within 20 ft all is open;
// from 20 to 30 ft it is only to what keeps clear of the marsh. Without marsh 30 ft are.
func TestConditionsHoldForTheWholeStructure(t *testing.T) {
	s := sketchtest.Everything()
	s["marsh"] = []string{sketchtest.Rectangle(`"id":"m"`, -300, -50, 0, -5)}
	town := []string{
		"greatest_of: [mhw_farthest, wetland_farthest], at_most: 20 ft, when: {measure: wetland_behind, at_most: 20 ft}",
		"measure: mhw_farthest, at_most: 30 ft, when: {measure: wetland_behind, more_than: 20 ft}",
	}
	row, out := lotOf(t, s, "", town...)
	// Before the marsh 15 ft are within 20 ft of both lines and 5 more of one; beyond the
	// 15 ft it is more than 20 ft from the marsh, beside what is not.
	require.Equal(t, fmt.Sprint(100*15+100*20), row["town_small_area_sqft"])
	require.Equal(t, fmt.Sprint(100*15+100*10), row["town_small_unknown_sqft"])
	require.Equal(t, "Small", row["town_title"], row["town_tightest"])
	for _, result := range again(t, s, out, town...) {
		require.Contains(t, []string{"meets", "not applicable"}, result)
	}
	row, _ = lotOf(t, s, "marsh", town...)
	require.Equal(t, "no data on wetland 100.0 %", sketchtest.Taken(row, "town_small"))
	s["marsh"] = []string{sketchtest.Rectangle(`"id":"m"`, 600, -50, 700, -5)}
	row, _ = lotOf(t, s, "", town...)
	require.Equal(t, "6000", row["town_small_area_sqft"])
	require.Equal(t, "0", row["town_small_unknown_sqft"])
}

// A corner lot on a bay and on a ditch of 8 ft beside it has the bay to its own middle, not
// to that of the ditch. Worked by hand: the bay's shore runs east along y = 0, open water
// before it, and turns south at x = 100 into the ditch, whose other side is at x = 108; the
// lot holds 150 ft of bay and 80 ft of ditch. The middle of the ditch, x = 104, goes on as
// its side of the bay.
func TestACornerLotHasItsBay(t *testing.T) {
	s := sketchtest.Sketch{
		"high": {sketchtest.Shape("LineString", `"id":"h","side":"water_left"`, [2]float64{-600, 0}, [2]float64{-300, 0}, [2]float64{-50, 0}, [2]float64{100, 0},
			[2]float64{100, -80}, [2]float64{100, -200}, [2]float64{108, -200}, [2]float64{108, 0}, [2]float64{300, 0}, [2]float64{600, 0})},
		"lots": {sketchtest.Rectangle(`"parcel_id":"L"`, -50, -80, 100, 0)},
	}
	town := []string{"measure: mhw_farthest, at_most: 30 ft", "measure: waterway_share, at_most: 1/4"}
	row, out := lotOf(t, s, "", town...)
	require.Equal(t, "230.00", row["frontage_ft"])
	require.Equal(t, "8.00", row["waterway_width_ft"])
	area, err := strconv.ParseFloat(row["town_small_area_sqft"], 64)
	require.NoError(t, err)
	corner := 4*30 - 4*4*4/(6*30.0) - 4*4/2 // from x = 100 to 104 within 30 ft of it, nearer to the bay
	ditch := 2*80 + math.Pi*2*2/8           // a quarter of its 8 ft, and as far round the corner
	require.InDelta(t, 150*30+corner+ditch, area, 2)
	require.Equal(t, "30.00", row["town_small_reach_ft"])
	require.Equal(t, "Small", row["town_title"])
	require.Equal(t, []string{"meets", "meets"}, again(t, s, out, town...))
}
