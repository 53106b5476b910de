package sketchtest

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/out"
)

// Sketch is a job drawn in feet, x east and y north of 74.6 W 30 N; the water
// lies north of y = 0.
type Sketch map[string][]string

func (s Sketch) Open(name string) (io.ReadCloser, error) {
	if strings.HasSuffix(name, ".csv") { // a table, by its rows
		return io.NopCloser(strings.NewReader(strings.Join(s[name], "\n"))), nil
	}
	return io.NopCloser(strings.NewReader(`{"type":"FeatureCollection","features":[` + strings.Join(s[name], ",") + "]}")), nil
}

func (Sketch) List(name string) (found, others []string, err error) {
	return []string{name}, nil, nil
}

// Shape is a feature of a sketch.
func Shape(kind, properties string, corners ...[2]float64) string {
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	var made []string
	for _, c := range corners {
		made = append(made, out.Position(plane.Inverse(orb.Point{c[0] * job.Foot, c[1] * job.Foot}), out.PositionDecimals))
	}
	coordinates := "[" + strings.Join(made, ",") + "]"
	if kind == "Polygon" {
		coordinates = "[" + coordinates + "]"
	}
	return fmt.Sprintf(`{"type":"Feature","properties":{%s},"geometry":{"type":%q,"coordinates":%s}}`, properties, kind, coordinates)
}

func Rectangle(properties string, x0, y0, x1, y1 float64) string {
	return Shape("Polygon", properties, [2]float64{x0, y0}, [2]float64{x1, y0}, [2]float64{x1, y1}, [2]float64{x0, y1}, [2]float64{x0, y0})
}

// Along is a line at y with a vertex every 100 ft, so that its edges, straight in
// degrees, are straight in the plane.
func Along(y float64) [][2]float64 {
	var made [][2]float64
	for x := -800.0; x <= 800; x += 100 {
		made = append(made, [2]float64{x, y})
	}
	return made
}

const Plain = `"id":"a","kind":"sill","material":"rock","crest_elev_ft":0,"datum":"NAVD88","fill":"no","elevation_accuracy_ft":0.1`

// NoneOfRest are layers of which a job says that there is nothing.
const NoneOfRest = "wetlands: {none: true}, areas: {coral: {none: true}, shellfish_bed: {none: true}}"

func PlainSite(proposal string) Sketch {
	return Sketch{
		"high":      {Shape("LineString", `"id":"h","side":"water_left","elevation_ft":0.5,"elevation_accuracy_ft":0.1`, Along(0)...)},
		"low":       {Shape("LineString", `"id":"l"`, Along(20)...)},
		"seen":      {SurveyedAll},
		"grass":     {Rectangle(`"id":"g"`, 400, 100, 500, 200)},
		"proposals": {proposal},
	}
}

func Positions(x0, x1 float64) string {
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	return "[" + out.Position(plane.Inverse(orb.Point{x0 * job.Foot, 6 * job.Foot}), out.PositionDecimals) + "," + out.Position(plane.Inverse(orb.Point{x1 * job.Foot, 6 * job.Foot}), out.PositionDecimals) + "]"
}

// SurveyedAll is a coverage of the whole plain site.
var SurveyedAll = Rectangle(`"id":"all"`, -900, -900, 900, 900)

const OneOfEach = "proposals: {file: proposals, accuracy: 0.1 ft}\nlayers: {high_water: {file: high, accuracy: 0.1 ft, datum: NAVD88}, low_water: {file: low, accuracy: 0.1 ft}, seagrass: {file: grass, accuracy: 0.1 ft}}\n"

// Memory keeps outputs.
type Memory map[string]*bytes.Buffer

func (m Memory) Create(name string) (io.WriteCloser, error) {
	m[name] = &bytes.Buffer{}
	return closing{m[name]}, nil
}

// Folder opens files below a folder.
type Folder string

func (f Folder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), name))
}

func (Folder) List(name string) (found, others []string, err error) {
	return []string{name}, nil, nil
}

var DemoDir = filepath.Join(root(), "testdata", "marrowby")

func DemoJob(t testing.TB) *job.Job {
	file, err := os.Open(filepath.Join(DemoDir, "job.yaml"))
	require.NoError(t, err)
	defer file.Close()
	j, err := job.Load("job.yaml", file)
	require.NoError(t, err)
	return j
}

// ReadTable reads a CSV into a map by its first column.
func ReadTable(t testing.TB, in io.Reader) map[string]map[string]string {
	all, err := csv.NewReader(in).ReadAll()
	require.NoError(t, err)
	made := map[string]map[string]string{}
	for _, row := range all[1:] {
		made[row[0]] = map[string]string{}
		for i, name := range all[0] {
			made[row[0]][name] = row[i]
		}
	}
	return made
}

// Everything is a lot of 200 ft on a straight shore at y = 0, riparian lines at its ends,
// with low water at y = 20, marsh before and behind its west half up to y = 5, grass from
// y = 60, a channel from y = 90, a named area over the west half and a far bank at y = 240.
func Everything() Sketch {
	s := PlainSite(Rectangle(Plain, 0, 3, 60, 9))
	s["high"] = append(s["high"], Shape("LineString", `"id":"far","side":"water_right"`, Along(240)...))
	s["grass"] = []string{Rectangle(`"id":"g"`, -300, 60, 300, 85)}
	s["marsh"] = []string{Rectangle(`"id":"m"`, -300, -50, 0, 5)}
	s["channel"] = []string{Rectangle(`"id":"c","reach":"north"`, -800, 90, 800, 150)}
	s["riparian"] = []string{
		Shape("LineString", `"id":"w"`, [2]float64{-100, 0}, [2]float64{-100, 220}),
		Shape("LineString", `"id":"e"`, [2]float64{100, 0}, [2]float64{100, 220}),
	}
	s["quiet"] = []string{Rectangle(`"id":"q"`, -300, -10, 0, 220)}
	s["lots"] = []string{Rectangle(`"parcel_id":"L"`, -100, -150, 100, 0)}
	return s
}

// LayersOf is a job with the layers that a sketch has, looking 100 ft out.
func LayersOf(s Sketch, but string) string {
	text := "decision_date: 2026-11-25\nbooks: [./town.yaml]\nenvelope: {reach: 100 ft}\nlayers:\n"
	for _, l := range [][2]string{{"high_water", "high"}, {"low_water", "low"}, {"seagrass", "grass"}, {"wetlands", "marsh"}, {"channels", "channel"}, {"riparian", "riparian"}, {"parcels", "lots"}} {
		if s[l[1]] != nil && l[1] != but {
			text += "  " + l[0] + ": {file: " + l[1] + "}\n"
		}
	}
	if s["quiet"] != nil && but != "quiet" {
		text += "  areas: {quiet: {file: quiet}}\n"
	}
	return text
}

// WithBook is a sketch with a rule book of its own beside it.
type WithBook struct {
	Sketch
	Criteria []string // of its one path, in YAML
}

func (w WithBook) Open(name string) (io.ReadCloser, error) {
	if name != "./town.yaml" {
		return w.Sketch.Open(name)
	}
	return io.NopCloser(strings.NewReader(TownBook(w.Criteria))), nil
}

// TownBook is a rule book of one path with criteria, written in YAML, and one without.
func TownBook(criteria []string) string {
	text := `
book: town
title: Town shore rules
authority: town
jurisdiction: Nowhere
edition: "1"
in_force: {from: null, until: null}
status: in force
caution: Invented.
paths:
  - id: small
    title: Small
    criteria:
`
	for i, c := range criteria {
		text += fmt.Sprintf("      - {id: c%d, evidence: practice, %s}\n", i, c)
	}
	return text + "  - {id: full, title: Full, criteria: []}\n"
}

// TideTable is an invented station 10,000 ft north of the plain site. Its tide is one
// constituent, M2, of 1 ft about mean sea level, which lies 0.4 ft above NAVD88.
var TideTable = []string{
	"station,TS", "name,Test Sound", "lon,-74.6", "lat,30.0274965", "source,invented", "unit,feet", "epoch,1983-2001",
	"NAVD88,6", "MHW,7.4", "MSL,6.4", "MTL,6.4", "MLW,5.4", "MLLW,5.3", "MHHW,7.5", "M2,1,0",
}

// closing is a buffer that can be closed.
type closing struct{ io.Writer }

func (closing) Close() error { return nil }

// WithFile are files and one more, or another in place of one.
type WithFile struct {
	job.Files
	Name string
	Text []byte
}

func (w WithFile) Open(name string) (io.ReadCloser, error) {
	if name == w.Name {
		return io.NopCloser(bytes.NewReader(w.Text)), nil
	}
	return w.Files.Open(name)
}

// root is the folder of the project, wherever in it a test runs.
func root() string {
	dir, err := os.Getwd()
	for ; err == nil; dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil || dir == filepath.Dir(dir) {
			break
		}
	}
	return dir
}

// SidesOf is a lot of 500 ft, a town that asks for 25 ft from riparian lines, and a job of
// the two; given are which side lines are mapped, w and e.
func SidesOf(given string) (files WithBook, text string) {
	s := PlainSite(Rectangle(Plain, 0, 3, 60, 9))
	s["lots"] = []string{Rectangle(`"parcel_id":"L"`, -250, -150, 250, 0)}
	for _, end := range given {
		x := map[rune]float64{'w': -250, 'e': 250}[end]
		s["riparian"] = append(s["riparian"], Shape("LineString", `"id":"`+string(end)+`"`, [2]float64{x, 0}, [2]float64{x, 300}))
	}
	s["all"] = []string{SurveyedAll}
	text = "decision_date: 2026-11-25\nbooks: [./town.yaml]\nlayers:\n  high_water: {file: high, accuracy: 0.1 ft}\n  parcels: {file: lots}\n"
	if given != "" {
		text += "  riparian: {file: riparian, surveyed: all, accuracy: 0.1 ft, date: 2026-01-01}\n"
	}
	return WithBook{s, []string{"measure: riparian_nearest, at_least: 25 ft", "measure: overall_length, at_most: 60 ft"}}, text
}

// Rows are the rows of a screening by id, of summary.csv and measures.csv together, and with
// the requests of each authority as AUTHORITY_requests.
func Rows(t testing.TB, files Memory) map[string]map[string]string {
	rows := ReadTable(t, files["summary.csv"])
	for id, row := range ReadTable(t, files["measures.csv"]) {
		maps.Copy(rows[id], row)
	}
	all, err := csv.NewReader(files["requests.csv"]).ReadAll()
	require.NoError(t, err)
	for _, q := range all[1:] {
		for authority := range strings.SplitSeq(q[1], "; ") {
			key := authority + "_requests"
			rows[q[0]][key] = strings.TrimPrefix(rows[q[0]][key]+" | "+q[2], " | ")
		}
	}
	return rows
}

// Lots are the rows of an envelope's parcels.csv, each with what parcel_paths.csv says of its
// paths: state_exemption_area_sqft is the area_sqft of the state's path exemption.
func Lots(t testing.TB, out Memory) map[string]map[string]string {
	t.Helper()
	lots := ReadTable(t, strings.NewReader(out["parcels.csv"].String()))
	all, err := csv.NewReader(strings.NewReader(out["parcel_paths.csv"].String())).ReadAll()
	require.NoError(t, err)
	for _, row := range all[1:] {
		for i, name := range all[0] {
			if key := row[1] + "_" + row[2] + "_" + name; row[1] != "joint" {
				lots[row[0]][key] = row[i]
			} else {
				lots[row[0]]["together_"+name] = row[i]
			}
		}
	}
	return lots
}

// Taken is what takes water from a path's band by a row of [Lots], the most first:
// "no data on seagrass 100.0 %; neighbour 30.0 %".
func Taken(row map[string]string, path string) string {
	type taker struct {
		cause string
		share float64
	}
	var takers []taker
	for name, text := range row {
		cause, of := strings.CutPrefix(name, path+"_taken_")
		if !of || text == "" {
			continue
		}
		if cause = strings.ReplaceAll(strings.TrimSuffix(cause, "_pct"), "_", " "); cause == "no data" {
			cause = "no data on " + row[path+"_no_data_on"]
		}
		share, _ := strconv.ParseFloat(text, 64)
		takers = append(takers, taker{cause, share})
	}
	slices.SortFunc(takers, func(a, b taker) int { return cmp.Or(cmp.Compare(b.share, a.share), cmp.Compare(a.cause, b.cause)) })
	var said []string
	for _, t := range takers {
		said = append(said, fmt.Sprintf("%s %.1f %%", t.cause, t.share))
	}
	return strings.Join(said, "; ")
}
