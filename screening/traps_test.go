package screening

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
	"waterward/screening/site"
	"waterward/screening/sketchtest"
)

// screened runs a sketch under the state and federal books and returns the row
// of proposal a.
func screened(t *testing.T, s sketchtest.Sketch) map[string]string {
	source := func(name string) *job.LayerSource {
		if s[name] == nil {
			return nil
		}
		made := &job.LayerSource{Files: job.FileList{name}, Datum: "NAVD88", Date: "2026-01-01", Accuracy: job.Distance{Metres: 0.1 * job.Foot, Stated: true}}
		if s["seen"] != nil && name != "high" && name != "low" {
			made.Surveyed = "seen"
		}
		return made
	}
	none := job.LayerSource{None: true}
	day, err := job.ParseDay("2026-11-25")
	require.NoError(t, err)
	j := &job.Job{
		DecisionDate: day, Books: []string{"us-fl-state", "us-federal"},
		Proposals: job.ProposalSources{{Files: job.FileList{"proposals"}, Accuracy: job.Distance{Metres: 0.1 * job.Foot, Stated: true}}},
		Layers: job.LayerSources{
			HighWater: source("high"), LowWater: source("low"), Seagrass: source("grass"),
			Wetlands: source("marsh"), Channels: source("channels"),
			Areas: map[string]job.LayerSource{"coral": none, "shellfish_bed": none},
		},
	}
	if j.Layers.Wetlands == nil {
		j.Layers.Wetlands = &none
	}
	made := sketchtest.Memory{}
	_, err = Run(context.Background(), j, s, made, Options{Workers: 1})
	require.NoError(t, err)
	return sketchtest.Rows(t, made)["a"]
}

// TestAMissingLayerIsNeverAPass takes the layers away one by one from a site
// that is firmly exempt with all of them.
func TestAMissingLayerIsNeverAPass(t *testing.T) {
	whole := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	require.Equal(t, "firm", screened(t, whole)["state_certainty"])
	require.Equal(t, "exemption", screened(t, whole)["state_path"])
	require.Equal(t, "nwp-54", screened(t, whole)["federal_path"])
	for layer, authority := range map[string]string{"low": "federal", "grass": "state"} {
		less := sketchtest.Sketch{}
		for name, features := range whole {
			if name != layer {
				less[name] = features
			}
		}
		row := screened(t, less)
		require.Equal(t, "individual", row[authority+"_path"], layer)
		require.Equal(t, "needs information", row[authority+"_certainty"], layer)
		require.NotEmpty(t, row[authority+"_could_be"], layer)
	}
}

// TestLandwardIsNeverExempt: wholly on land, and mostly.
func TestLandwardIsNeverExempt(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		farthest string
		exempt   bool
	}{{-8, -2, "-2.00", false}, {-40, 1, "1.00", false}, {-1, 7, "7.00", true}} {
		row := screened(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, c.from, 60, c.to)))
		require.Equal(t, c.farthest, row["mhw_farthest_ft"])
		require.Equal(t, c.exempt, row["state_path"] == "exemption", "%v to %v: %s", c.from, c.to, row["error"])
		require.Equal(t, c.exempt, row["error"] == "")
	}
	require.Contains(t, screened(t, sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, -1, 60, 7)))["notices"], "part of it lies landward")
}

// TestAnOpeningAtTheWidthThatCountsIsNotFirm: of a drawing good to 0.1 ft both edges of
// an opening are, so that its width is known to 1.6449 x 0.1414 / 2.4477 = 0.095 ft.
func TestAnOpeningAtTheWidthThatCountsIsNotFirm(t *testing.T) {
	for width, path := range map[float64]string{5.005: "small", 4.995: "full", 5.09: "small", 4.91: "full", 5.1: "small", 4.9: "full"} {
		line := fmt.Sprintf(`{"type":"Feature","properties":{%s,"width_ft":4},"geometry":{"type":"MultiLineString","coordinates":[%s,%s]}}`,
			sketchtest.Plain, sketchtest.Positions(0, 50), sketchtest.Positions(50+width, 100+width))
		row, _ := judged(t, sketchtest.WithBook{Sketch: sketchtest.PlainSite(line), Criteria: []string{"measure: longest_run, with: {opening: 5 ft}, at_most: 75 ft"}}, "  high_water: {file: high}\n")
		require.Equal(t, path, row["town_path"], width)
		sure := width == 5.1 || width == 4.9
		require.Equal(t, sure, row["town_certainty"] == "firm", "%v: %s", width, row["town_certainty"])
	}
}

// TestTwoEndsOfOneRun: two sites 8 degrees of longitude apart in one run, each
// 500 ft across, measure as drawn within 0.01 ft.
func TestTwoEndsOfOneRun(t *testing.T) {
	for _, lon := range []float64{-82.6, -74.6} {
		plane := crs.NewPlane(orb.Point{lon, 30})
		at := func(x, y float64) string {
			return out.Position(plane.Inverse(orb.Point{x * job.Foot, y * job.Foot}), out.PositionDecimals)
		}
		line := func(id string, y float64) string {
			var p []string
			for _, c := range sketchtest.Along(y) {
				p = append(p, at(c[0], c[1]))
			}
			return fmt.Sprintf(`{"type":"Feature","properties":{"id":%q},"geometry":{"type":"LineString","coordinates":[%s]}}`, id, strings.Join(p, ","))
		}
		far := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9)) // stretches every layer over the 8 degrees
		far["high"] = append(far["high"], line("h2", 0))
		far["low"] = append(far["low"], line("l2", 20))
		far["proposals"] = []string{fmt.Sprintf(`{"type":"Feature","properties":{%s},"geometry":{"type":"Polygon","coordinates":[[%s,%s,%s,%s,%s]]}}`,
			sketchtest.Plain, at(-250, 3), at(250, 3), at(250, 9.5), at(-250, 9.5), at(-250, 3))}
		if lon == -74.6 {
			far["high"], far["low"] = far["high"][:1], far["low"][:1]
		}
		row := screened(t, far)
		require.Equal(t, "9.50", row["mhw_farthest_ft"])
		require.Equal(t, "500.00", row["element_length_ft"])
		require.Equal(t, "500.00", row["bank_length_ft"])
	}
}

// TestASmallBasinIsSaid: in a basin that opens to the water by a narrow mouth
// every side is near, and one of them faces the structure's own; a notice says
// that there are two shores. The walls differ by a tenth of a foot: of equal ones
// rounding would choose which is followed first, and by that what ends the bank.
func TestASmallBasinIsSaid(t *testing.T) {
	at := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 9.76, 2.71, 20.06, 13.98))
	at["high"] = []string{sketchtest.Shape("LineString", `"id":"h","side":"water_left","elevation_ft":0.5`,
		[2]float64{-100, 25.6}, [2]float64{12.8, 25.6}, [2]float64{12.8, 20.5}, [2]float64{0, 20.5}, [2]float64{0, 0},
		[2]float64{26.8, 0}, [2]float64{26.8, 20.6}, [2]float64{20.2, 20.6}, [2]float64{20.2, 25.6}, [2]float64{100, 25.6})}
	delete(at, "low")
	require.Contains(t, screened(t, at)["notices"], "two shores")
}

// TestAChannelJustOutsideTheWindow: a centreline 1,040 ft off whose channel is
// 100 ft wide has its edge within the 1,000 ft searched, so no more than 950 ft
// may be claimed clear. Worked by hand.
func TestAChannelJustOutsideTheWindow(t *testing.T) {
	files := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	files["channels"] = []string{
		sketchtest.Shape("LineString", `"id":"c1","width_ft":100`, [2]float64{-100, 1049}, [2]float64{100, 1049}),
		sketchtest.Shape("LineString", `"id":"c2","width_ft":40`, [2]float64{700, -600}, [2]float64{900, -600}), // brings the layer near
	}
	j := &job.Job{Layers: job.LayerSources{HighWater: &job.LayerSource{Files: job.FileList{"high"}}, Channels: &job.LayerSource{Files: job.FileList{"channels"}}}}
	mapped, err := (&layers.Loader{Files: files, Log: &inputs.Log{}}).Load(j)
	require.NoError(t, err)
	reader, err := files.Open("proposals")
	require.NoError(t, err)
	features, err := geojson.NewReader("proposals", reader)
	require.NoError(t, err)
	f, err := features.Next()
	require.NoError(t, err)
	v := site.New(site.NewProposal(site.Alone(f, "proposals")), mapped, nil, job.DefaultRadius).Values["channel_nearest"]
	require.Empty(t, v.Unknown)
	if v.Bound == rules.MoreThan {
		require.LessOrEqual(t, v.Number, 950.01*job.Foot)
	} else {
		require.Less(t, v.Number, job.DefaultRadius)
	}
}
