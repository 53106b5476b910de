package screening

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/csv"
	"encoding/xml"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/screening/field"
	"waterward/screening/job"
	"waterward/screening/site"
	"waterward/screening/sketchtest"
)

// fieldRun screens a sketch for the field.
func fieldRun(t *testing.T, s sketchtest.Sketch, proposals string) (sketchtest.Memory, *Report) {
	j, err := job.Load("job.yaml", strings.NewReader("title: Sketch\ndecision_date: 2026-11-25\nbooks: [us-federal]\n"+proposals+
		"\nlayers: {high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88, date: 2026-01-01}, low_water: {file: low, accuracy: 0.1 ft}, riparian: {file: riparian}}\n"))
	require.NoError(t, err)
	out := sketchtest.Memory{}
	report, err := Run(t.Context(), j, s, out, Options{Workers: 1, Field: true})
	require.NoError(t, err)
	return out, report
}

// staked are the rows of stakeout.csv by id and point, and each place in feet of the sketch,
// to a hundredth.
func staked(t *testing.T, out sketchtest.Memory) (rows map[string]map[string]string, at map[string][2]string) {
	all, err := csv.NewReader(strings.NewReader(out["stakeout.csv"].String())).ReadAll()
	require.NoError(t, err)
	rows, at = map[string]map[string]string{}, map[string][2]string{}
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	for _, row := range all[1:] {
		cells := map[string]string{}
		for i, name := range all[0] {
			cells[name] = row[i]
		}
		key := cells["id"] + "/" + cells["point"]
		require.Nil(t, rows[key], key)
		rows[key] = cells
		lat, err := strconv.ParseFloat(cells["lat"], 64)
		require.NoError(t, err)
		lon, err := strconv.ParseFloat(cells["lon"], 64)
		require.NoError(t, err)
		p := plane.Forward(orb.Point{lon, lat})
		at[key] = [2]string{job.Fixed(p[0]/job.Foot, 2), job.Fixed(p[1]/job.Foot, 2)}
	}
	return rows, at
}

// fieldSite has a sill drawn as an area, one as a line, one as a line without a width, two
// discs and a hook, before a shore along y = 0, with a riparian line at x = -20.
func fieldSite() sketchtest.Sketch {
	s := sketchtest.PlainSite(sketchtest.Rectangle(sketchtest.Plain, 0, 3, 60, 9))
	line := [][2]float64{{100, 6}, {160, 6}}
	s["proposals"] = append(s["proposals"],
		sketchtest.Shape("LineString", `"id":"b","kind":"sill","width_ft":4`, line...),
		sketchtest.Shape("LineString", `"id":"c","kind":"sill"`, [2]float64{200, 6}, [2]float64{230, 6}, [2]float64{230, 36}),
		sketchtest.Shape("MultiPoint", `"id":"d","kind":"sill","diameter_ft":4`, [2]float64{300, 6}, [2]float64{310, 6}),
		sketchtest.Shape("Polygon", `"id":"e","kind":"sill"`, [2]float64{400, 3}, [2]float64{440, 3}, [2]float64{440, 13}, [2]float64{410, 13}, [2]float64{410, 43}, [2]float64{400, 43}, [2]float64{400, 3}),
	)
	s["riparian"] = []string{sketchtest.Shape("LineString", `"id":"r"`, [2]float64{-20, 0}, [2]float64{-20, 700})}
	return s
}

// Places and distances are those drawn; worked by hand.
func TestStakeout(t *testing.T) {
	out, report := fieldRun(t, fieldSite(), "proposals: {file: proposals, accuracy: 0.1 ft}")
	require.Empty(t, report.Messages)
	rows, at := staked(t, out)
	for key, want := range map[string][2]string{
		"a/1 NE": {"60.00", "9.00"}, "a/1 SE": {"60.00", "3.00"}, "a/1 SW": {"0.00", "3.00"}, "a/1 NW": {"0.00", "9.00"},
		"b/1 NE": {"160.00", "8.00"}, "b/1 SW": {"100.00", "4.00"}, "b/1 end W": {"100.00", "6.00"}, "b/1 end E": {"160.00", "6.00"},
		"c/1 end SW": {"200.00", "6.00"}, "c/1 bend SE": {"230.00", "6.00"}, "c/1 end NE": {"230.00", "36.00"},
		"d/1 C": {"300.00", "6.00"}, "d/2 C": {"310.00", "6.00"}, "d/1-2 a": {"302.00", "6.00"}, "d/1-2 b": {"308.00", "6.00"},
		"e/1 NW1": {"400.00", "43.00"}, "e/1 SE1": {"440.00", "13.00"},
	} {
		require.Equal(t, want, at[key], key)
	}
	require.Equal(t, "-20.00", at["a/riparian_nearest to"][0])
	require.Equal(t, "9.00", at["a/T"][1])
	require.Equal(t, at["a/T"][0], at["a/mhw_farthest to"][0])
	require.Equal(t, "0.00", at["a/mhw_farthest to"][1])
	require.Equal(t, "farthest reach from mean high water: 9 ft (h)", rows["a/T"]["what"])
	require.Equal(t, "distance to the riparian lines: 20 ft (r); measured to here", rows["a/riparian_nearest to"]["what"])
	require.Equal(t, "nearest reach from mean low water: 17 ft landward of it (l); measured to here", rows["a/mlw_nearest to"]["what"])
	require.Equal(t, "opening 1-2, 6 ft of clear water where it is narrowest: on element 2", rows["d/1-2 b"]["what"])
	require.Equal(t, "centre of a disc of element 1, 4 ft across", rows["d/1 C"]["what"])
	require.Equal(t, "bend of element 1 as drawn, a line without a width", rows["c/1 bend SE"]["what"])
	require.Equal(t, "corner of element 1, 1 of 4, clockwise", rows["a/1 NE"]["what"])
	require.Nil(t, rows["c/T"], "how far out it reaches is not known")
	for key := range rows {
		id, point, _ := strings.Cut(key, "/")
		require.False(t, id == "c" && !strings.Contains(point, "end") && !strings.Contains(point, "_"), "%s: no corner of what has no outline", key)
		require.False(t, id == "d" && strings.ContainsAny(strings.TrimLeft(point, "12 -"), "NSEW"), "%s: a disc has no corner", key)
	}
	// A degree of latitude is 110,852.4 m there, from the ellipsoid's radius along the meridian
	// (6,351,377 m), so y = 9 ft, 2.7432 m, is 0.089087 seconds.
	require.Equal(t, "30 00 00.08909 N", rows["a/1 NE"]["lat_dms"])
	require.Equal(t, "WGS 84", rows["a/1 NE"]["datum"])
	require.Equal(t, "places are from maps, not surveyed, and a receiver errs by several feet: to find, not to stake; positions on WGS 84", rows["a/1 NE"]["caution"])
	require.NotContains(t, rows["a/1 NE"], "grid")
}

// What of the shore and of riparian lines is shown ends 100 ft round the structure and the
// place it was measured to.
func TestLinesNear(t *testing.T) {
	out, _ := fieldRun(t, fieldSite(), "proposals: {file: proposals, accuracy: 0.1 ft}")
	var read struct {
		Trk []struct {
			Name string `xml:"name"`
			Type string `xml:"type"`
			Pt   []struct {
				Lat float64 `xml:"lat,attr"`
				Lon float64 `xml:"lon,attr"`
			} `xml:"trkseg>trkpt"`
		} `xml:"trk"`
	}
	require.NoError(t, xml.Unmarshal(out["field.gpx"].Bytes(), &read))
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	reach := map[string]orb.Bound{}
	for _, track := range read.Trk {
		var b orb.Bound
		for i, p := range track.Pt {
			if at := plane.Forward(orb.Point{p.Lon, p.Lat}); i == 0 {
				b = at.Bound()
			} else {
				b = b.Extend(at)
			}
		}
		reach[track.Name] = b
	}
	high := reach["a mean high water line h"]
	require.InDelta(t, -100, high.Min[0]/job.Foot, 0.05)
	require.InDelta(t, 160, high.Max[0]/job.Foot, 0.05)
	side := reach["a riparian line r"]
	require.InDelta(t, 0, side.Min[1]/job.Foot, 0.05)
	require.InDelta(t, 109, side.Max[1]/job.Foot, 0.05)
	require.Contains(t, reach, "b riparian line r", "100 ft past where it was measured to")
	require.Contains(t, reach, "a element 1")
	require.Contains(t, reach, "a farthest reach from mean high water: 9 ft")
	require.Contains(t, reach, "d opening 1-2")
}

// Between WGS 84 and NAD83(2011) lie 1.3 m at most, 4.27 ft; between NAD83(2011) and a grid
// whose realization nobody states 1.15 m, 3.77 ft (crs.DatumShift).
func TestDatumsOfTheField(t *testing.T) {
	out, report := fieldRun(t, fieldSite(), "stakeout_crs: EPSG:2236\nproposals: {file: proposals, accuracy: 0.1 ft, crs: EPSG:6318}")
	rows, _ := staked(t, out)
	row := rows["a/1 NE"]
	require.Equal(t, "NAD83(2011)", row["datum"])
	require.Contains(t, row["caution"], "positions on NAD83(2011), not shifted to WGS 84, on which receivers show them: up to 4.27 ft off")
	require.Contains(t, row["caution"], "eastings and northings are not shifted to NAD83: up to 3.77 ft off; EPSG:2236 is not meant to be used here")
	require.Equal(t, "EPSG:2236 (Florida East, NAD83, US survey foot)", row["grid"])
	require.NotEmpty(t, row["easting_usft"])
	require.Contains(t, strings.Join(report.Warnings, "\n"), "stakeout.csv: 5 proposals (a, b, c, d, e) lie where EPSG:2236 (Florida East, NAD83, US survey foot) is not meant to be used")
	for _, name := range []string{"field.gpx", "field.kmz"} {
		text := out[name].String()
		if name == "field.kmz" {
			text = kmlOf(t, out[name].Bytes())
		}
		require.Contains(t, text, "NAD83(2011), not shifted to WGS 84, on which receivers show them: up to 4.27 ft off", name)
		require.Contains(t, text, "a receiver errs by several feet: to find, not to stake", name)
	}
	require.Contains(t, out["run.json"].String(), `"stakeout_crs": "EPSG:2236 (Florida East, NAD83, US survey foot)"`)
}

func kmlOf(t *testing.T, kmz []byte) string {
	archive, err := zip.NewReader(bytes.NewReader(kmz), int64(len(kmz)))
	require.NoError(t, err)
	file, err := archive.Open("doc.kml")
	require.NoError(t, err)
	text, err := io.ReadAll(file)
	require.NoError(t, err)
	return string(text)
}

// Of testdata/published/projections.csv, from PROJ.
func TestOnGrid(t *testing.T) {
	for code, want := range map[string][]string{
		"EPSG:2236": {"607594.414", "1194584.937"},
	} {
		system, err := crs.Parse(code)
		require.NoError(t, err)
		f := &fieldFiles{grid: system}
		require.Equal(t, append(want, system.String()), f.onGrid(orb.Point{-81.15, 27.62}))
		require.Equal(t, []string{"", "", ""}, f.onGrid(orb.Point{10, 50}), "no coordinates without meaning")
	}
}

func TestGridsThatAreNone(t *testing.T) {
	for code, want := range map[string]string{
		"EPSG:4326": "stakeout_crs: EPSG:4326 (longitude and latitude, WGS 84, degree) counts degrees",
		"EPSG:3857": "stakeout_crs: EPSG:3857 (Web Mercator, WGS 84, metre) is no grid to measure on",
	} {
		j, err := job.Load("job.yaml", strings.NewReader("stakeout_crs: "+code+"\n"))
		require.NoError(t, err)
		require.ErrorContains(t, j.Check(), want)
	}
}

// Whatever their ids are, proposals come out in all files, told apart.
func TestHostileIdsInTheField(t *testing.T) {
	s := sketchtest.PlainSite("")
	s["proposals"] = nil
	s["riparian"] = []string{sketchtest.Shape("LineString", `"id":"r"`, [2]float64{-20, 0}, [2]float64{-20, 700})}
	for i, id := range []string{`<script>x</script>`, `=1+1`, `a\"b,c`, `a\tb`, `\u202eb`, strings.Repeat("n", 200)} {
		x := float64(100 * i)
		s["proposals"] = append(s["proposals"], sketchtest.Rectangle(`"id":"`+id+`","kind":"sill"`, x, 3, x+60, 9))
	}
	out, _ := fieldRun(t, s, "proposals: {file: proposals, accuracy: 0.1 ft}")
	rows, _ := staked(t, out)
	for _, id := range []string{`<script>x</script>`, `'=1+1`, `a"b,c`, `a\u0009b`, `\u202eb`, strings.Repeat("n", 200)} {
		require.NotNil(t, rows[id+"/1 NE"], id)
	}
	for _, text := range []string{kmlOf(t, out["field.kmz"].Bytes()), out["field.gpx"].String()} {
		decoder := xml.NewDecoder(strings.NewReader(text))
		for {
			token, err := decoder.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err)
			if data, is := token.(xml.CharData); is {
				require.NotContains(t, string(data), "<script>")
			}
		}
	}
}

// Six marks a proposal fill the files for phones with 833 of them, 4,998; the next does not
// fit, nor is any that follows let in before it.
func TestTooManyMarksForAPhone(t *testing.T) {
	f := newFieldFiles(&job.Job{}, true)
	marked := &field.Site{Points: make([]field.Point, 4), Lines: make([]field.Line, 2)}
	for range 835 {
		f.take(&result{p: &site.Proposal{ID: "p"}, marked: marked})
	}
	f.take(&result{p: &site.Proposal{ID: "small"}, marked: &field.Site{}})
	require.Len(t, f.sites, 833)
	require.Equal(t, []string{"field.kmz and field.gpx leave out 3 proposals (p, p, small), as more than 5000 marks are too many for a phone; stakeout.csv has all: screen fewer proposals at once for the rest"}, f.warnings())
	f = newFieldFiles(&job.Job{}, true)
	f.take(&result{p: &site.Proposal{ID: "one"}, marked: &field.Site{Points: make([]field.Point, 6000)}})
	require.Len(t, f.sites, 1, "one that is large by itself is there")
	require.Empty(t, f.warnings())
}

// The files for the field are the same whatever the number of workers, and change none of
// the others.
func TestFieldOfTheDemo(t *testing.T) {
	of := func(workers int, asked bool) sketchtest.Memory {
		out := sketchtest.Memory{}
		_, err := Run(context.Background(), sketchtest.DemoJob(t), sketchtest.Folder(sketchtest.DemoDir), out, Options{Workers: workers, Field: asked})
		require.NoError(t, err)
		return out
	}
	one, eight, without := of(1, true), of(8, true), of(1, false)
	require.Len(t, one, len(without)+3)
	for name := range one {
		require.Equal(t, one[name].Bytes(), eight[name].Bytes(), name)
		if other := without[name]; other != nil && name != "run.json" {
			require.Equal(t, other.Bytes(), one[name].Bytes(), name)
		}
	}
	rows, _ := staked(t, one)
	// expected.csv: P-02's toe lies 10.80 ft out.
	require.Contains(t, rows["P-02/T"]["what"], "10.80 ft")
}
