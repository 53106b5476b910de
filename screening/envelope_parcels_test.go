package screening

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// street is a shore along y = 0 with lots a, b and b again of 100 ft each from x = 0, a
// strip of 4 ft from x = 300 with a lot behind it, and one 60 ft back from x = 400.
func street() sketchtest.WithBook {
	s := sketchtest.PlainSite("")
	lot := func(properties string, x0, y0, x1, y1 float64) string {
		return sketchtest.Rectangle(properties, x0, y0, x1, y1)
	}
	s["lots"] = []string{
		lot(`"PIN":"a","SITE_ADDR":"1 Shore Rd","OWNER_ZIP":28512,"note":"=1+1"`, 0, -150, 100, 0),
		lot(`"PIN":"b","SITE_ADDR":"3 Shore Rd","OWNER_ZIP":28512.50`, 100, -150, 200, 0),
		lot(`"PIN":"b"`, 200, -150, 300, 0),
		lot(`"PIN":"strip"`, 300, -4, 400, 0),
		lot(`"PIN":"inner","SITE_ADDR":"7 Shore Rd"`, 300, -150, 400, -4),
		lot(`"PIN":"back"`, 400, -250, 500, -60),
	}
	return sketchtest.WithBook{Sketch: s, Criteria: []string{"measure: mhw_farthest, at_most: 10 ft"}}
}

// surveyed are the outputs of an envelope on the street.
func surveyed(t *testing.T, files job.Files, carry string, of Chosen) (sketchtest.Memory, *EnvelopeReport, error) {
	t.Helper()
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers: {high_water: {file: high}, low_water: {file: low}, parcels: {file: lots, key: PIN"+carry+"}}\n"))
	require.NoError(t, err)
	made := sketchtest.Memory{}
	report, err := Envelope(t.Context(), j, files, made, Options{Workers: 2, Chosen: of})
	return made, report, err
}

// listing is the street with lists beside it.
func listing(lists map[string][]string) sketchtest.WithBook {
	s := street()
	for name, rows := range lists {
		s.Sketch[name] = rows
	}
	return s
}

// ids are the parcels of parcels.csv, in order.
func ids(made sketchtest.Memory) string {
	var out []string
	for _, line := range strings.Split(strings.TrimSpace(made["parcels.csv"].String()), "\r\n")[1:] {
		out = append(out, strings.Split(line, ",")[0])
	}
	return strings.Join(out, " ")
}

// Worked by hand, see street: every parcel within 100 ft of the shore has a row.
func TestParcelsThatFrontNothingHaveARow(t *testing.T) {
	made, report, err := surveyed(t, street(), "", Chosen{})
	require.NoError(t, err)
	require.Equal(t, "a b b strip inner back", ids(made))
	require.Equal(t, []string{"2 parcels within 100 ft of the shore front none of it; see note in parcels.csv"}, report.Told)
	require.Empty(t, report.Messages)
	require.Equal(t, 4, report.Parcels)
	rows := sketchtest.ReadTable(t, made["parcels.csv"])
	require.Empty(t, rows["a"]["note"])
	require.Equal(t, "2 parcels have this id; what is drawn for this one is named b#2", rows["b"]["note"])
	require.Equal(t, "a sliver 4.0 ft wide; a strip 4.0 ft deep before parcel inner", rows["strip"]["note"])
	require.Equal(t, "lies behind parcel strip (whose strip is 4.0 ft deep there)", rows["inner"]["note"])
	require.Equal(t, "4.00", rows["inner"]["gap_ft"])
	require.Equal(t, "ends 60.0 ft from mean high water, farther than the tolerance of 30 ft", rows["back"]["note"])
	require.Equal(t, "60.00", rows["back"]["gap_ft"])
	for name, text := range rows["back"] {
		require.True(t, name == "parcel_id" || name == "gap_ft" || name == "note" || text == "", name)
	}
	// What is drawn for parcels of one id has names of its own.
	for _, name := range []string{"riparian.geojson", "candidates.geojson"} {
		seen := map[string]bool{}
		for _, part := range strings.Split(made[name].String(), `"id":"`)[1:] {
			id, _, _ := strings.Cut(part, `"`)
			require.False(t, seen[id], "%s: %s", name, id)
			seen[id] = true
		}
		require.NotEmpty(t, seen, name)
	}
	require.Contains(t, made["riparian.geojson"].String(), `"id":"b#2 1 from"`)
}

// Worked by hand: of a front of 100 ft the middle is 50 ft along it, with no vertex there, and
// with vertices of which most lie at one end.
func TestTheMiddleOfAFront(t *testing.T) {
	for what, xs := range map[string][]float64{"no vertex": {-900, 900}, "vertices at one end": {-900, 2, 4, 6, 8, 10, 900}} {
		s := street()
		var line [][2]float64
		for _, x := range xs {
			line = append(line, [2]float64{x, 0})
		}
		s.Sketch["high"] = []string{sketchtest.Shape("LineString", `"id":"h","side":"water_left"`, line...)}
		made, _, err := surveyed(t, s, "", Chosen{})
		require.NoError(t, err)
		row := sketchtest.ReadTable(t, made["parcels.csv"])["a"]
		lon, err := strconv.ParseFloat(row["lon"], 64)
		require.NoError(t, err)
		require.InDelta(t, window(50, 0, 51, 1).Min[0], lon, 2e-9, what)
	}
}

// Worked by hand: values go into the table as they are written, harmless to a spreadsheet;
// a name of ours gives way.
func TestPropertiesOfParcelsAreCarried(t *testing.T) {
	made, _, err := surveyed(t, street(), ", carry: [site_addr, OWNER_ZIP, note]", Chosen{})
	require.NoError(t, err)
	header, _, _ := strings.Cut(made["parcels.csv"].String(), "\r\n")
	require.True(t, strings.HasPrefix(header, "parcel_id,site_addr,OWNER_ZIP,note_given,"), header)
	rows := sketchtest.ReadTable(t, made["parcels.csv"])
	require.Equal(t, "1 Shore Rd", rows["a"]["site_addr"])
	require.Equal(t, "28512", rows["a"]["OWNER_ZIP"])
	require.Equal(t, "'=1+1", rows["a"]["note_given"])
	require.Equal(t, "7 Shore Rd", rows["inner"]["site_addr"])

	_, _, err = surveyed(t, street(), ", carry: [SITE_ADR]", Chosen{})
	require.EqualError(t, err, "parcels: no feature of lots has the property SITE_ADR, which carry names (did you mean SITE_ADDR?); there are OWNER_ZIP, PIN, SITE_ADDR, note")
	for carry, want := range map[string]string{
		", carry: [PIN, pin]": "parcels: carry has pin twice",
		`, carry: [""]`:       "parcels: carry names the file's properties: [SITE_ADDR, OWNER_ZIP]",
	} {
		_, _, err = surveyed(t, street(), carry, Chosen{})
		require.EqualError(t, err, want)
	}
	j, err := job.Load("job.yaml", strings.NewReader("decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers: {high_water: {file: high, carry: [x]}, parcels: {file: lots}}\n"))
	require.NoError(t, err)
	require.EqualError(t, j.CheckEnvelope(), "high_water: only parcels carry properties into the outputs; take carry out")
}

// Worked by hand: of a list every id has its row, whatever became of it, and no other has one;
// who fronts what is as without the list.
func TestOnlyParcelsOfAList(t *testing.T) {
	whole, _, err := surveyed(t, street(), "", Chosen{})
	require.NoError(t, err)
	all := sketchtest.ReadTable(t, whole["parcels.csv"])
	for what, list := range map[string][]string{
		"one column":                 {"b", "inner", " back", "nowhere", "b"},
		"one column with its name":   {"pin", "b", "inner", "back", "nowhere"},
		"a column of several":        {"\ufeffwhat,PIN", "x,b", "y,inner", "z,back", "z,nowhere", ",", "w"},
		"a column by its other name": {"parcel_id,what", "b,1", "inner,2", "back,3", "nowhere,4"},
	} {
		made, report, err := surveyed(t, listing(map[string][]string{"list.csv": list}), "", Chosen{Lists: []string{"list.csv"}})
		require.NoError(t, err, what)
		require.Equal(t, "b b inner back nowhere", ids(made), what)
		require.Equal(t, []string{"nowhere: no parcel has this id"}, report.Messages, what)
		require.Equal(t, 2, report.Parcels, what)
		rows := sketchtest.ReadTable(t, made["parcels.csv"])
		require.Equal(t, "no parcel has this id", rows["nowhere"]["note"], what)
		for _, column := range []string{"stations_ft", "town_title", "town_longest_ft", "note"} {
			require.NotEmpty(t, all["b"][column], column)
			require.Equal(t, all["b"][column], rows["b"][column], what+" "+column)
		}
		require.Contains(t, made["frontage.geojson"].String(), `"parcel_id":"b"`)
		require.NotContains(t, made["frontage.geojson"].String(), `"parcel_id":"a"`)
		var m struct {
			Settings struct {
				ParcelsFrom []string `json:"parcels_from"`
			}
		}
		require.NoError(t, json.Unmarshal(made["run.json"].Bytes(), &m))
		require.Equal(t, []string{"list.csv"}, m.Settings.ParcelsFrom)
		require.Contains(t, made["run.json"].String(), `"role": "parcels_from"`)
	}
	// Of several lists all are taken; a parcel that lies far off the shore has a row too.
	far := listing(map[string][]string{"one.csv": {"a"}, "two.csv": {"far"}})
	far.Sketch["lots"] = append(far.Sketch["lots"], sketchtest.Rectangle(`"PIN":"far"`, 0, -500, 100, -300))
	made, report, err := surveyed(t, far, "", Chosen{Lists: []string{"one.csv", "two.csv"}})
	require.NoError(t, err)
	require.Equal(t, "a far", ids(made))
	require.Empty(t, report.Messages)
	require.Equal(t, "lies farther than 100 ft from mean high water", sketchtest.ReadTable(t, made["parcels.csv"])["far"]["note"])
}

func TestListsThatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"":               "--parcels-from list.csv: it names no parcel; write one id a line, or a CSV file with a column PIN",
		"PIN":            "--parcels-from list.csv: it names no parcel; write one id a line, or a CSV file with a column PIN",
		"PINS,what\na,1": "--parcels-from list.csv: none of its columns is PIN or parcel_id (is it PINS?); name the column of the parcels' ids so. There are PINS, what",
		"a\nb\xff":       "--parcels-from list.csv: the byte at offset 3 (0xFF) is not UTF-8; save it as UTF-8",
	} {
		_, _, err := surveyed(t, sketchtest.WithFile{Files: street(), Name: "list.csv", Text: []byte(text)}, "", Chosen{Lists: []string{"list.csv"}})
		var fault *job.Error
		require.ErrorAs(t, err, &fault, text)
		require.EqualError(t, err, want, text)
	}
	_, _, err := surveyed(t, sketchtest.WithFile{Files: street(), Name: "list.csv", Text: []byte("a\n\"b")}, "", Chosen{Lists: []string{"list.csv"}})
	require.ErrorContains(t, err, "--parcels-from list.csv: ")
	require.ErrorContains(t, err, "on line 2")
}

// window is that between two places of a sketch, in feet.
func window(x0, y0, x1, y1 float64) *orb.Bound {
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	return &orb.Bound{Min: plane.Inverse(orb.Point{x0 * job.Foot, y0 * job.Foot}), Max: plane.Inverse(orb.Point{x1 * job.Foot, y1 * job.Foot})}
}

// Worked by hand, see street: a window from x = 50 to 150 meets the fronts of a and b, and of
// the second b none; one over the lots and not their fronts meets none.
func TestOnlyParcelsInAWindow(t *testing.T) {
	made, report, err := surveyed(t, street(), "", Chosen{Window: window(50, -20, 150, 20)})
	require.NoError(t, err)
	require.Equal(t, "a b", ids(made))
	require.Empty(t, report.Told)
	require.Contains(t, sketchtest.ReadTable(t, made["parcels.csv"])["b"]["stations_ft"], "h 900.00-1000.00")
	require.Contains(t, made["run.json"].String(), `"window": [`)
	made, report, err = surveyed(t, street(), "", Chosen{Window: window(350, -20, 450, 20)})
	require.NoError(t, err)
	require.Equal(t, "strip inner", ids(made))
	require.Equal(t, []string{"1 parcel within 100 ft of the shore fronts none of it; see note in parcels.csv"}, report.Told)

	_, _, err = surveyed(t, street(), "", Chosen{Window: window(50, -100, 150, -20)})
	require.ErrorContains(t, err, "--window: no front of a parcel meets it; the fronts lie within -74.60000,30.00000,-74.59874,30.00000") // 121.92 m of 96,486 m a degree
	none := street()
	none.Sketch["lots"] = []string{sketchtest.Rectangle(`"PIN":"far"`, 0, -500, 100, -300)}
	_, _, err = surveyed(t, none, "", Chosen{Window: window(50, -20, 150, 20)})
	require.EqualError(t, err, "--window: no parcel fronts the shore, within it or elsewhere")
	// A list and a window: of the list every id has a row all the same.
	made, _, err = surveyed(t, listing(map[string][]string{"list.csv": {"a", "strip"}}), "", Chosen{Lists: []string{"list.csv"}, Window: window(50, -20, 150, 20)})
	require.NoError(t, err)
	require.Equal(t, "a strip", ids(made))
	require.Equal(t, "no front of it meets the window", sketchtest.ReadTable(t, made["parcels.csv"])["strip"]["note"])
}
