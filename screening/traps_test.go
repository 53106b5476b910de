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
)

// screened runs a sketch under the state and federal books and returns the row
// of proposal a.
func screened(t *testing.T, s sketch) map[string]string {
	source := func(name string) *LayerSource {
		if s[name] == nil {
			return nil
		}
		out := &LayerSource{Files: FileList{name}, Datum: "NAVD88", Date: "2026-01-01", Accuracy: Distance{0.1 * foot, true}}
		if s["seen"] != nil && name != "high" && name != "low" {
			out.Surveyed = "seen"
		}
		return out
	}
	none := LayerSource{None: true}
	day, err := ParseDay("2026-11-25")
	require.NoError(t, err)
	job := &Job{
		DecisionDate: day, Books: []string{"us-fl-state", "us-federal"},
		Proposals: ProposalsSource{File: "proposals", Accuracy: Distance{0.1 * foot, true}},
		Layers: LayerSources{
			HighWater: source("high"), LowWater: source("low"), Seagrass: source("grass"),
			Wetlands: source("marsh"), Channels: source("channels"),
			Areas: map[string]LayerSource{"coral": none, "shellfish_bed": none},
		},
	}
	if job.Layers.Wetlands == nil {
		job.Layers.Wetlands = &none
	}
	out := memory{}
	_, err = Run(context.Background(), job, s, out, Options{Workers: 1})
	require.NoError(t, err)
	return readTable(t, out["summary.csv"])["a"]
}

// TestAMissingLayerIsNeverAPass takes the layers away one by one from a site
// that is firmly exempt with all of them.
func TestAMissingLayerIsNeverAPass(t *testing.T) {
	whole := plainSite(rectangle(plain, 0, 3, 60, 9))
	require.Equal(t, "firm", screened(t, whole)["state_certainty"])
	require.Equal(t, "exemption", screened(t, whole)["state_path"])
	require.Equal(t, "nwp-54", screened(t, whole)["federal_path"])
	for layer, authority := range map[string]string{"low": "federal", "grass": "state"} {
		less := sketch{}
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
		row := screened(t, plainSite(rectangle(plain, 0, c.from, 60, c.to)))
		require.Equal(t, c.farthest, row["mhw_farthest_ft"])
		require.Equal(t, c.exempt, row["state_path"] == "exemption", "%v to %v: %s", c.from, c.to, row["error"])
		require.Equal(t, c.exempt, row["error"] == "")
	}
	require.Contains(t, screened(t, plainSite(rectangle(plain, 0, -1, 60, 7)))["notices"], "part of it lies landward")
}

// TestAnOpeningAtTheWidthThatCountsIsNotFirm: of a drawing good to 0.1 ft both edges of
// an opening are, so that its width is known to 1.6449 x 0.1414 / 2.4477 = 0.095 ft.
func TestAnOpeningAtTheWidthThatCountsIsNotFirm(t *testing.T) {
	for width, path := range map[float64]string{5.005: "small", 4.995: "full", 5.09: "small", 4.91: "full", 5.1: "small", 4.9: "full"} {
		line := fmt.Sprintf(`{"type":"Feature","properties":{%s,"width_ft":4},"geometry":{"type":"MultiLineString","coordinates":[%s,%s]}}`,
			plain, positions(0, 50), positions(50+width, 100+width))
		row, _ := judged(t, withBook{plainSite(line), []string{"measure: longest_run, with: {opening: 5 ft}, at_most: 75 ft"}}, "  high_water: {file: high}\n")
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
		at := func(x, y float64) string { return formatPosition(plane.Inverse(orb.Point{x * foot, y * foot})) }
		line := func(id string, y float64) string {
			var p []string
			for _, c := range along(y) {
				p = append(p, at(c[0], c[1]))
			}
			return fmt.Sprintf(`{"type":"Feature","properties":{"id":%q},"geometry":{"type":"LineString","coordinates":[%s]}}`, id, strings.Join(p, ","))
		}
		far := plainSite(rectangle(plain, 0, 3, 60, 9)) // stretches every layer over the 8 degrees
		far["high"] = append(far["high"], line("h2", 0))
		far["low"] = append(far["low"], line("l2", 20))
		far["proposals"] = []string{fmt.Sprintf(`{"type":"Feature","properties":{%s},"geometry":{"type":"Polygon","coordinates":[[%s,%s,%s,%s,%s]]}}`,
			plain, at(-250, 3), at(250, 3), at(250, 9.5), at(-250, 9.5), at(-250, 3))}
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
	site := plainSite(rectangle(plain, 9.76, 2.71, 20.06, 13.98))
	site["high"] = []string{shape("LineString", `"id":"h","side":"water_left","elevation_ft":0.5`,
		[2]float64{-100, 25.6}, [2]float64{12.8, 25.6}, [2]float64{12.8, 20.5}, [2]float64{0, 20.5}, [2]float64{0, 0},
		[2]float64{26.8, 0}, [2]float64{26.8, 20.6}, [2]float64{20.2, 20.6}, [2]float64{20.2, 25.6}, [2]float64{100, 25.6})}
	delete(site, "low")
	require.Contains(t, screened(t, site)["notices"], "two shores")
}

// TestAChannelJustOutsideTheWindow: a centreline 1,040 ft off whose channel is
// 100 ft wide has its edge within the 1,000 ft searched, so no more than 950 ft
// may be claimed clear. Worked by hand.
func TestAChannelJustOutsideTheWindow(t *testing.T) {
	files := plainSite(rectangle(plain, 0, 3, 60, 9))
	files["channels"] = []string{
		shape("LineString", `"id":"c1","width_ft":100`, [2]float64{-100, 1049}, [2]float64{100, 1049}),
		shape("LineString", `"id":"c2","width_ft":40`, [2]float64{700, -600}, [2]float64{900, -600}), // brings the layer near
	}
	job := &Job{Layers: LayerSources{HighWater: &LayerSource{Files: FileList{"high"}}, Channels: &LayerSource{Files: FileList{"channels"}}}}
	layers, err := (&loader{files: files, log: &inputLog{}}).layers(job)
	require.NoError(t, err)
	reader, err := files.Open("proposals")
	require.NoError(t, err)
	features, err := geojson.NewReader("proposals", reader)
	require.NoError(t, err)
	f, err := features.Next()
	require.NoError(t, err)
	v := newSite(newProposal(f, ProposalsSource{File: "proposals"}), layers, nil, defaultRadius).values["channel_nearest"]
	require.Empty(t, v.Unknown)
	if v.Bound == rules.MoreThan {
		require.LessOrEqual(t, v.Number, 950.01*foot)
	} else {
		require.Less(t, v.Number, defaultRadius)
	}
}
