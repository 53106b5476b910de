package screening

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// envelopeOf runs a sketch with parcels under the state, lands and federal books.
func envelopeOf(t *testing.T, s sketchtest.Sketch, more string) (sketchtest.Memory, *EnvelopeReport) {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [us-fl-state, us-fl-lands, us-federal]\n"+more))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	report, err := Envelope(t.Context(), j, s, out, Options{Workers: 1})
	require.NoError(t, err)
	return out, report
}

// lines reads the lines of an output in the demo's local feet, by id.
func linesOfOutput(t *testing.T, out sketchtest.Memory, name string) map[string][][2]float64 {
	t.Helper()
	var file struct {
		Features []struct {
			Properties struct{ ID, Method string }
			Geometry   struct{ Coordinates []orb.Point }
		}
	}
	require.NoError(t, json.Unmarshal(out[name].Bytes(), &file))
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	all := map[string][][2]float64{}
	for _, f := range file.Features {
		for _, at := range f.Geometry.Coordinates {
			p := plane.Forward(at)
			all[f.Properties.ID+" "+f.Properties.Method] = append(all[f.Properties.ID+" "+f.Properties.Method], [2]float64{p[0] / job.Foot, p[1] / job.Foot})
		}
	}
	return all
}

// 15A NCAC 07H .2105(g): from the line along the channel the perpendicular is dropped that
// meets the shore at the boundary. The channel's edge here runs from (-400, 300) with
// one up on ten across: y = 300 + (x + 400)/10. From the corner (100, 0) its foot is
// worked by hand: the way along the edge is t = ((500)(10) + (-300)(1)) / 101 = 46.5347,
// so the foot is (65.3465, 346.5347). Without a channel the line is square to the shore.
func TestRiparianLinesAreConstructed(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["lots"] = []string{sketchtest.Rectangle(`"parcel_id":"L"`, -100, -150, 100, 0)}
	const job = "layers: {" + sketchtest.NoneOfRest + ", high_water: {file: high}, low_water: {file: low}, seagrass: {file: grass}, parcels: {file: lots}"
	out, _ := envelopeOf(t, s, job+"}\n")
	square := linesOfOutput(t, out, "riparian.geojson")
	require.Len(t, square, 2)
	for id, x := range map[string]float64{"L 1 from": -100, "L 1 to": 100} {
		line := square[id+" constructed perpendicular to the general trend of the shore; not surveyed"]
		require.Len(t, line, 2, id)
		require.InDelta(t, x, line[0][0], 0.01)
		require.InDelta(t, 0, line[0][1], 0.01)
		require.InDelta(t, x, line[1][0], 0.1)
		require.InDelta(t, 300, line[1][1], 0.1)
	}
	s["channel"] = []string{sketchtest.Shape("LineString", `"id":"c","width_ft":40`, [2]float64{-400, 300}, [2]float64{600, 400})}
	out, _ = envelopeOf(t, s, job+", channels: {file: channel}}\n")
	line := linesOfOutput(t, out, "riparian.geojson")["L 1 to constructed perpendicular to the channel; not surveyed"]
	require.Len(t, line, 2)
	across := math.Atan2(line[1][1]-line[0][1], line[1][0]-line[0][0])
	require.InDelta(t, math.Atan2(346.5347, 65.3465-100), across, 1e-4)

	// Lines that are given are used, and nothing is constructed.
	s["riparian"] = []string{sketchtest.Shape("LineString", `"id":"w"`, [2]float64{-100, 2}, [2]float64{-110, 90}), sketchtest.Shape("LineString", `"id":"e"`, [2]float64{100, 0}, [2]float64{100, 90})}
	out, _ = envelopeOf(t, s, job+", riparian: {file: riparian}}\n")
	require.Empty(t, linesOfOutput(t, out, "riparian.geojson"))
	row := sketchtest.Lots(t, out)["L"]
	require.Equal(t, "as given", row["riparian"])
	// The west line leans out 10 in 88 and is drawn on to the shore: at y = 0 it is at
	// x = -99.773 and at y = 10 at -100.909, so that within 10 ft lie 10 x 200.341 sq ft.
	require.Equal(t, "2003", row["state_exemption_area_sqft"])
}

// A square island of one owner has no neighbours: the water within 10 ft all round it
// is 4 strips and a circle's quarters, 4 x 100 x 10 + pi 10^2 = 4314.16 sq ft.
func TestAnIslandOfOneOwner(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["high"] = append(s["high"], sketchtest.Shape("LineString", `"id":"i"`, [2]float64{0, 300}, [2]float64{100, 300}, [2]float64{100, 400}, [2]float64{0, 400}, [2]float64{0, 300}))
	s["lots"] = []string{sketchtest.Rectangle(`"parcel_id":"I"`, 0, 300, 100, 400)}
	out, report := envelopeOf(t, s, "layers: {"+sketchtest.NoneOfRest+", high_water: {file: high}, low_water: {file: low}, seagrass: {file: grass}, parcels: {file: lots}}\n")
	require.Empty(t, report.Messages)
	row := sketchtest.Lots(t, out)["I"]
	require.Equal(t, "400.00", row["frontage_ft"])
	require.Empty(t, row["riparian"])
	require.Equal(t, "4314", row["state_exemption_area_sqft"])
	require.Equal(t, "10.00", row["state_exemption_reach_ft"])
}

// Low water far beyond the reach is low water all the same: 30 ft beyond it is 534 ft
// out, so that all 200 by 150 ft looked at are open.
func TestAWideFlat(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["low"] = []string{sketchtest.Shape("LineString", `"id":"l"`, sketchtest.Along(504)...)}
	s["lots"] = []string{sketchtest.Rectangle(`"parcel_id":"L"`, -100, -150, 100, 0)}
	out, _ := envelopeOf(t, s, "layers: {"+sketchtest.NoneOfRest+", high_water: {file: high}, low_water: {file: low}, seagrass: {file: grass}, parcels: {file: lots}}\n")
	row := sketchtest.Lots(t, out)["L"]
	require.Equal(t, "30000", row["federal_nwp-54_area_sqft"])
	require.Equal(t, "Nationwide permit 54", row["federal_title"])
}

// Where the demo's riparian lines are constructed, its candidates come out on the paths
// that screening them with these lines gives, and are never firm where a book asks for them.
func TestCandidatesOnConstructedLines(t *testing.T) {
	j := sketchtest.DemoJob(t)
	j.Layers.Riparian = nil
	out := sketchtest.Memory{}
	_, err := Envelope(t.Context(), j, sketchtest.Folder(sketchtest.DemoDir), out, Options{Workers: 2})
	require.NoError(t, err)
	drawn := candidatesOf(t, out)
	j.Proposals = job.ProposalSources{{Files: job.FileList{"candidates.geojson"}}}
	j.Layers.Riparian = &job.LayerSource{Files: job.FileList{"riparian.geojson"}}
	screened := sketchtest.Memory{}
	files := sketchtest.WithFile{Files: sketchtest.WithFile{Files: sketchtest.Folder(sketchtest.DemoDir), Name: "candidates.geojson", Text: out["candidates.geojson"].Bytes()}, Name: "riparian.geojson", Text: out["riparian.geojson"].Bytes()}
	_, err = Run(t.Context(), j, files, screened, Options{Workers: 2})
	require.NoError(t, err)
	unsure := 0
	for id, row := range sketchtest.Rows(t, screened) {
		for path := range strings.SplitSeq(drawn[id]["for"], ", ") {
			authority, path, _ := strings.Cut(path, " ")
			require.Equal(t, path, row[authority+"_path"], id)
			switch authority {
			case "lands", "county":
				require.Equal(t, "needs information", drawn[id][authority+"_certainty"], id)
				unsure++
			default:
				require.Equal(t, row[authority+"_certainty"], drawn[id][authority+"_certainty"], id)
			}
		}
	}
	require.Greater(t, unsure, 10)
}

// Where the shore across cannot be placed, the middle of the water is not known, and so
// nothing before the lot is open.
func TestAShoreAcrossThatCannotBePlaced(t *testing.T) {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	s["high"] = append(s["high"], sketchtest.Shape("LineString", `"id":"x"`, [2]float64{-800, 90}, [2]float64{800, 90}))
	s["land"] = []string{sketchtest.Rectangle(`"id":"m"`, -800, -200, 800, 0), sketchtest.Rectangle(`"id":"a"`, -800, 90, -400, 300), sketchtest.Rectangle(`"id":"b"`, 400, 60, 800, 90)}
	s["lots"] = []string{sketchtest.Rectangle(`"parcel_id":"L"`, -100, -150, 100, 0)}
	out, _ := envelopeOf(t, s, "layers: {"+sketchtest.NoneOfRest+", high_water: {file: high}, low_water: {file: low}, shoreline: {file: land}, seagrass: {file: grass}, parcels: {file: lots}}\n")
	row := sketchtest.Lots(t, out)["L"]
	require.Equal(t, "0", row["state_exemption_area_sqft"])
	require.Equal(t, "2000", row["state_exemption_unknown_sqft"])
	require.Contains(t, sketchtest.Taken(row, "state_exemption"), "no data on the shore across 100.0 %")
	require.Equal(t, "not known", row["state_title"])
}

// A lot of 500 ft, so that a structure of 60 ft in its middle lies more than 200 ft from
// either side. It is firm where both side lines are given, and never where one had to be
// constructed. Worked by hand.
func TestOneSideLineIsGiven(t *testing.T) {
	for given, certainty := range map[string]string{"we": "firm", "w": "needs information", "": "needs information"} {
		files, layers := sketchtest.SidesOf(given)
		j, err := job.Load("job.yaml", strings.NewReader(layers))
		require.NoError(t, err)
		out := sketchtest.Memory{}
		_, err = Envelope(t.Context(), j, files, out, Options{Workers: 1})
		require.NoError(t, err)
		row := sketchtest.Lots(t, out)["L"]
		require.Equal(t, "Small", row["town_title"], given)
		require.Equal(t, certainty, row["town_certainty"], given)
	}
}

// Between two slips 60 ft wide lies upland of 100 ft. A riparian line of a lot beyond the one,
// carried on straight, would meet the shore of the other 10 ft from a side line; it ends at the
// other side of its own slip. By hand the lot of 90 ft has 90 by 10 ft, its last 10 ft too.
func TestLinesOfOtherWaterPartNothing(t *testing.T) {
	s := sketchtest.PlainSite("")
	s["high"] = []string{sketchtest.Shape("LineString", `"id":"h","side":"water_left"`, [2]float64{-900, 0}, [2]float64{-60, 0}, [2]float64{-60, -200},
		[2]float64{0, -200}, [2]float64{0, 0}, [2]float64{100, 0}, [2]float64{100, -200}, [2]float64{160, -200}, [2]float64{160, 0}, [2]float64{900, 0})}
	s["lots"] = []string{sketchtest.Rectangle(`"PIN":"L"`, 0, -150, 50, -60)}
	s["lines"] = []string{
		sketchtest.Shape("LineString", `"id":"s"`, [2]float64{0, -150}, [2]float64{-20, -150}), sketchtest.Shape("LineString", `"id":"n"`, [2]float64{0, -60}, [2]float64{-20, -60}),
		sketchtest.Shape("LineString", `"id":"other"`, [2]float64{160, -70}, [2]float64{140, -70}),
	}
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers:\n  high_water: {file: high, accuracy: 0.5 ft, date: 2026-01-01}\n  riparian: {file: lines, accuracy: 0.5 ft, date: 2026-01-01}\n  parcels: {file: lots, key: PIN}\n"))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	_, err = Envelope(t.Context(), j, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 10 ft"}}, out, Options{Workers: 1})
	require.NoError(t, err)
	row := sketchtest.Lots(t, out)["L"]
	require.Equal(t, "900", row["town_small_area_sqft"])
	require.Equal(t, "90.0", row["town_small_open_ft"])
}

// A lot of 30 ft, its lines mapped 145 ft out: nothing within 150 ft is 25 ft from both, and
// what keeps it off is so however the lines go on. Worked by hand: the place farthest from
// them, in the middle 150 ft out, lies 15.8 ft off.
func TestLinesTooNearAreSoHoweverTheyGoOn(t *testing.T) {
	for _, seaward := range []float64{60, 148} { // where another limit parts the water
		s := sketchtest.PlainSite("")
		s["lots"] = []string{sketchtest.Rectangle(`"PIN":"L"`, 0, -100, 30, 0)}
		s["lines"] = []string{sketchtest.Shape("LineString", `"id":"w"`, [2]float64{0, 0}, [2]float64{0, 145}), sketchtest.Shape("LineString", `"id":"e"`, [2]float64{30, 0}, [2]float64{30, 145})}
		s["grass"] = []string{sketchtest.Rectangle(`"id":"g"`, -200, seaward, 200, 300)}
		j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers:\n  high_water: {file: high, surveyed: seen, accuracy: 0.5 ft, date: 2026-01-01}\n"+
			"  seagrass: {file: grass, surveyed: seen, accuracy: 0.5 ft, date: 2026-01-01}\n  riparian: {file: lines, surveyed: seen, accuracy: 0.5 ft, date: 2026-01-01}\n  parcels: {file: lots, key: PIN}\n"))
		require.NoError(t, err)
		out := sketchtest.Memory{}
		_, err = Envelope(t.Context(), j, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: riparian_nearest, at_least: 25 ft", "measure: seagrass_overlap, at_most: 0 sqft"}}, out, Options{Workers: 1})
		require.NoError(t, err)
		row := sketchtest.Lots(t, out)["L"]
		require.Equal(t, "firm", row["town_certainty"], seaward)
		require.Empty(t, row["town_could_be"], seaward)
	}
}

// A lot of 100 ft west of x = 0, its neighbour east of it. A line that begins 24 ft along the
// neighbour's front is none of the lot's, whose water ends at its own corner: 100 by 10 ft by
// hand. One that begins 8 ft from the corner is, and the structure that then stands before both
// lots is not firm, as no line is mapped between them.
func TestLinesOnTheFrontOfANeighbour(t *testing.T) {
	for begins, want := range map[float64][2]string{24: {"1000", "needs information"}, 8: {"1080", "needs information"}, 0: {"1000", "firm"}} {
		s := sketchtest.PlainSite("")
		s["lots"] = []string{sketchtest.Rectangle(`"PIN":"L"`, -100, -100, 0, 0), sketchtest.Rectangle(`"PIN":"M"`, 0, -100, 100, 0)}
		s["lines"] = []string{sketchtest.Shape("LineString", `"id":"w"`, [2]float64{-100, 0}, [2]float64{-100, 200}), sketchtest.Shape("LineString", `"id":"e"`, [2]float64{begins, 0}, [2]float64{begins, 200})}
		j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers:\n  high_water: {file: high, surveyed: seen, accuracy: 0.1 ft, date: 2026-01-01}\n"+
			"  riparian: {file: lines, surveyed: seen, accuracy: 0.1 ft, date: 2026-01-01}\n  parcels: {file: lots, key: PIN}\n"))
		require.NoError(t, err)
		out := sketchtest.Memory{}
		_, err = Envelope(t.Context(), j, sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 10 ft", "measure: riparian_nearest, at_least: 0.01 ft"}}, out, Options{Workers: 1})
		require.NoError(t, err)
		row := sketchtest.Lots(t, out)["L"]
		area, err := strconv.ParseFloat(row["town_small_area_sqft"], 64)
		require.NoError(t, err)
		wanted, _ := strconv.ParseFloat(want[0], 64)
		require.InDelta(t, wanted, area, 1, begins)
		require.Equal(t, "Small", row["town_title"], begins)
		require.Equal(t, want[1], row["town_certainty"], begins)
	}
}
