package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

const (
	strip = `,"width_ft":3`
	discs = `,"diameter_ft":4`
)

// hostile is a proposal made to stop or to spoil a batch.
type hostile struct {
	name     string
	stated   string // properties more, after a comma
	geometry func() string
	reason   string // of its row; empty: it is measured
}

var hostiles = []hostile{
	// Strips that double back on themselves.
	{"zigzag strip, 1,000 vertices", strip, func() string { return lineOf(zigzag(1000, 200, 30)) }, ""},
	{"zigzag strip, 2,000 vertices", strip, func() string { return lineOf(zigzag(2000, 200, 30)) }, ""},
	{"zigzag strip, 4,000 vertices", strip, func() string { return lineOf(zigzag(4000, 200, 30)) }, ""},
	{"zigzag strip, 4,000 vertices, close", strip, func() string { return lineOf(zigzag(4000, 40, 60)) }, ""},
	{"zigzag strip, 4,000 vertices, wide", strip, func() string { return lineOf(zigzag(4000, 4000, 5)) }, "edges in the outline of its strip, more than the 100,000"},
	{"zigzag strip, 20,000 vertices", strip, func() string { return lineOf(zigzag(20000, 400, 30)) }, "vertices, more than the 10,000 that a structure may have"},
	{"hair-pins all but in line, 2,000", strip, func() string { return lineOf(zigzag(2000, 200, 1e-4)) }, ""},
	{"to and fro on one edge, 4,000 times", strip, func() string { return lineOf(zigzag(4000, 0, 30)) }, ""},
	{"spiral strip, 4,000 vertices, turns apart", strip, func() string { return lineOf(spiral(4000, 12, 2, 90)) }, ""},
	{"spiral strip, 4,000 vertices, turns overlapping", strip, func() string { return lineOf(spiral(4000, 100, 2, 90)) }, ""},
	{"lattice strip, 100 by 100", `,"width_ft":0.5`, func() string { return lineOf(serpentine(100, 100)) }, ""},
	{"lattice strip, 1,000 by 1,000", `,"width_ft":0.05`, func() string { return lineOf(serpentine(1000, 1000)) }, "they meet in too many places"},
	{"strip through 2,000 places at random", strip, func() string { return lineOf(scattered(2000, 200, 100)) }, ""},
	{"strip of 10,000 vertices in line", strip, func() string { return lineOf(along(10000, func(t float64) xy { return xy{t * 200, 40} })) }, ""},
	{"strip of 20,000 vertices on a curve", strip, func() string {
		return lineOf(along(20000, func(t float64) xy { return xy{t * 400, 60 + 10*math.Sin(20*t)} }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"line of 100,000 vertices", strip, func() string {
		return lineOf(along(100000, func(t float64) xy { return xy{t * 400, 60 + 10*math.Sin(20*t)} }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"line of 100,000 vertices, all in line", "", func() string { return lineOf(along(100000, func(t float64) xy { return xy{t * 400, 60} })) }, "vertices, more than the 10,000 that a structure may have"},
	{"strip with each vertex twice, 4,000", strip, func() string {
		return lineOf(along(4000, func(t float64) xy { return xy{math.Floor(t*2000) / 10, 40} }))
	}, ""},
	{"strip with a last segment of 0.01 ft", strip, func() string { return lineOf([]xy{{0, 40}, {60, 40}, {60, 40.01}}) }, ""},
	{"10,000 short strips", strip, func() string {
		return linesOf(grid(10000, 100, 5, func(x, y float64) []xy { return []xy{{x, y}, {x + 3, y}} }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"10,000 short strips that touch", strip, func() string {
		return linesOf(grid(10000, 100, 3, func(x, y float64) []xy { return []xy{{x, y}, {x + 3, y}} }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"2,000 strips, each over all the others", strip, func() string {
		return linesOf(grid(2000, 2000, 0.001, func(x, y float64) []xy { return []xy{{x, y}, {x + 60, y + x}} }))
	}, "pairs of parts that lie over or beside one another, more than the 100,000"},
	// Areas.
	{"multipolygon of 4,000 parts", "", func() string {
		return partsOf(grid(4000, 100, 5, func(x, y float64) []xy { return box(x, y, 3, 3) }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"multipolygon of 8,000 parts", "", func() string {
		return partsOf(grid(8000, 100, 5, func(x, y float64) []xy { return box(x, y, 3, 3) }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"multipolygon of 10,000 parts", "", func() string {
		return partsOf(grid(10000, 100, 5, func(x, y float64) []xy { return box(x, y, 3, 3) }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"10,000 parts of which each abuts the next", "", func() string {
		return partsOf(grid(10000, 100, 3, func(x, y float64) []xy { return box(x, y, 3, 3) }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"4,000 parts that overlap", "", func() string {
		return partsOf(grid(4000, 100, 2, func(x, y float64) []xy { return box(x, y, 3, 3) }))
	}, "vertices, more than the 10,000 that a structure may have"},
	{"1,000 parts one over the other", "", func() string {
		return partsOf(grid(1000, 1000, 0.01, func(x, y float64) []xy { return box(x, y, 50, 50) }))
	}, "pairs of parts that lie over or beside one another, more than the 100,000"},
	{"300 discs that overlap", discs, func() string { return pointsOf(grid(300, 30, 3, place)) }, ""},
	{"3,000 discs apart", discs, func() string { return pointsOf(grid(3000, 60, 6, place)) }, "parts, more than the 2,000 that a structure may have"},
	{"4,000 discs in one place", discs, func() string { return pointsOf(same(4000, xy{30, 50})) }, "parts, more than the 2,000 that a structure may have"},
	{"4,000 discs all but in one place", discs, func() string { return pointsOf(scattered(4000, 2, 2)) }, "parts, more than the 2,000 that a structure may have"},
	{"2,000 large discs that overlap", `,"diameter_ft":100`, func() string { return pointsOf(scattered(2000, 300, 200)) }, "edges in its outline, more than the 400,000"},
	{"a disc of a million feet", `,"diameter_ft":1e6`, func() string { return pointsOf([]xy{{30, 50}}) }, "diameter_ft"},
	{"zigzag outline, 4,000 vertices", "", func() string { return polygonOf(comb(2000, 200, 30, 1)) }, ""},
	{"zigzag outline, 40,000 vertices", "", func() string { return polygonOf(comb(20000, 400, 30, 0.5)) }, "vertices, more than the 10,000 that a structure may have"},
	{"polygon with 10,000 holes", "", func() string {
		rings := [][]xy{box(-5, 25, 520, 520)}
		return polygonOf(append(rings, grid(10000, 100, 5, func(x, y float64) []xy { return box(x, y, 3, 3) })...)...)
	}, "vertices, more than the 10,000 that a structure may have"},
	{"star of 2,000 points", "", func() string { return polygonOf(star(2000, 10, 90)) }, ""},
	{"star of 20,000 points", "", func() string { return polygonOf(star(20000, 10, 90)) }, "vertices, more than the 10,000 that a structure may have"},
	{"star that crosses itself", "", func() string { return polygonOf(pentagram(2001, 1000)) }, "crosses or touches itself"},
	{"circle of 100,000 vertices", "", func() string { return polygonOf(star(50000, 90, 90)) }, "vertices, more than the 10,000 that a structure may have"},
	{"ring wound 50 times round", "", func() string { return polygonOf(closed(spiral(4000, 50, 20, 90))) }, "crosses or touches itself"},
	{"hole outside its shell", "", func() string { return polygonOf(box(0, 30, 50, 10), box(100, 30, 5, 5)) }, "a hole lies outside its shell"},
	{"1,500 holes outside their shell", "", func() string {
		return polygonOf(append([][]xy{box(-50, 30, 5, 5)}, grid(1500, 100, 5, func(x, y float64) []xy { return box(x, y, 3, 3) })...)...)
	}, "a hole lies outside its shell"},
	{"ring in one place", "", func() string { return polygonOf(same(4, xy{0, 50})) }, "all its positions in one place"},
	{"ring not closed", "", func() string { return polygonOf(box(0, 40, 50, 10)[:4]) }, "a ring is not closed"},
	// Reefs such as are built: all are measured.
	{"1,000 modules", discs, func() string { return pointsOf(grid(1000, 100, 7, place)) }, ""},
	{"2,000 modules", discs, func() string { return pointsOf(grid(2000, 100, 7, place)) }, ""},
	{"300 sills of 20 vertices", strip, func() string {
		return linesOf(grid(300, 30, 90, func(x, y float64) []xy {
			return along(20, func(t float64) xy { return xy{x + 70*t, y/20 + 40*t*t} })
		}))
	}, ""},
	// In a canal, between two shores.
	{"700 discs in a canal", discs, func() string {
		return pointsOf(moved(grid(700, 100, 5, place), 3350, -22))
	}, ""},
	{"zigzag strip of 1,000 vertices from bank to bank", strip, func() string { return lineOf(moved(zigzag(1000, 300, 36), 3400, -24)) }, ""},
	{"zigzag outline of 4,000 vertices from bank to bank", "", func() string { return polygonOf(moved(comb(2000, 300, 36, 1), 3400, -25)) }, ""},
	// Too large, too small, nowhere.
	{"polygon over half the earth", "", func() string { return written("Polygon", "[[[-90,-80],[90,-80],[90,80],[-90,80],[-90,-80]]]") }, "which no one structure is"},
	{"line across the earth", strip, func() string { return written("LineString", "[[-179,-60],[179,60]]") }, "which no one structure is"},
	{"line over the antimeridian", strip, func() string { return written("LineString", "[[179.9999,10],[-179.9999,10]]") }, "antimeridian"},
	{"line at a pole", strip, func() string { return written("LineString", "[[0,90],[0,89.9999]]") }, "no tidal line is mapped within"},
	{"line round a pole", strip, func() string { return written("LineString", "[[0,89.99999],[120,89.99999],[-120,89.99999]]") }, "no tidal line is mapped within"},
	{"coordinates of 1e308", strip, func() string { return written("LineString", "[[1e308,1e308],[-1e308,30]]") }, "which is not longitude and latitude"},
	{"coordinates beyond a number", strip, func() string { return written("LineString", "[[1e309,30],[-74,30]]") }, "which is not a finite number"},
	{"coordinates NaN", strip, func() string { return written("LineString", "[[NaN,30],[-74,30]]") }, "NaN or Infinity"},
	{"coordinates null", strip, func() string { return written("LineString", "[null,null]") }, "brackets"},
	{"line of no length", strip, func() string { return lineOf(same(2, xy{0, 50})) }, "all its positions are the same"},
	{"10,000 times one place", strip, func() string { return lineOf(same(10000, xy{0, 50})) }, "all its positions are the same"},
	{"strip 1e-12 ft wide", `,"width_ft":1e-12`, func() string { return lineOf(zigzag(3, 40, 10)) }, "its width is next to nothing"},
	{"strip of no width", `,"width_ft":0`, func() string { return lineOf(zigzag(3, 40, 10)) }, ""},
	{"strip of negative width", `,"width_ft":-3`, func() string { return lineOf(zigzag(3, 40, 10)) }, "width_ft"},
	{"strip 1e9 ft wide", `,"width_ft":1e9`, func() string { return lineOf(zigzag(3, 40, 10)) }, "width_ft"},
	{"strip with heights and measures", strip, func() string { return written("LineString", "[[-74.5962,30.0001,5,1e308],[-74.5961,30.0001,-7,2]]") }, ""},
	{"no coordinates", "", func() string { return written("Polygon", "[]") }, "its coordinates are empty"},
	{"ring without positions", "", func() string { return written("Polygon", "[[]]") }, "0 positions"},
	{"position without numbers", "", func() string { return written("Polygon", "[[[]]]") }, "fewer than two numbers"},
	{"part without rings", "", func() string { return written("MultiPolygon", "[[]]") }, "its coordinates are empty"},
	{"line without positions among lines", strip, func() string { return written("MultiLineString", "[[]]") }, "0 positions"},
	{"no points", discs, func() string { return written("MultiPoint", "[]") }, "0 positions"},
	{"collections 1,000 deep", "", func() string {
		return nested(`{"type":"GeometryCollection","geometries":[`, `{"type":"Point","coordinates":[0,0]}`, "]}", 1000)
	}, "GeometryCollection"},
	{"brackets 20,000 deep", "", func() string { return written("Polygon", nested("[", "0", "]", 20000)) }, "deep within one another"},
	// Properties.
	{"a value of 1 MB", strip + `,"note":"` + strings.Repeat("x", 1<<20) + `"`, func() string { return lineOf(zigzag(3, 40, 10)) }, ""},
	{"a material of 1 MB", strip + `,"material":"` + strings.Repeat("x", 1<<20) + `"`, func() string { return lineOf(zigzag(3, 40, 10)) }, "material"},
	{"10,000 properties", strip + properties(10000), func() string { return lineOf(zigzag(3, 40, 10)) }, ""},
	{"a property 5,000 deep", strip + `,"note":` + nested("[", "1", "]", 5000), func() string { return lineOf(zigzag(3, 40, 10)) }, ""},
	{"100,000 beds", strip + `,"bed_elev_ft":[-2` + strings.Repeat(",-2", 100000) + `]`, func() string { return lineOf(zigzag(3, 40, 10)) }, ""},
}

func properties(n int) string {
	var text strings.Builder
	for i := range n {
		fmt.Fprintf(&text, `,"p%d":%d`, i, i)
	}
	return text.String()
}

const (
	// What one proposal, or a crowd of them, may take: of the processor, as the machine may be busy, and a factor
	// over the goal of 2 s, as it may be slow. Measured figures stand in
	// testdata/bench/README.md.
	mostTime   = 5 * 2 * time.Second
	mostMemory = 2 * 200 << 20
	// stuck is when it is ended.
	stuck = 2 * time.Minute
)

// TestNoProposalStopsABatch screens hostile proposals, each in a process of its own and
// with a plain one behind it: both get their row, in bounded time and memory.
func TestNoProposalStopsABatch(t *testing.T) {
	for _, h := range hostiles {
		t.Run(h.name, func(t *testing.T) {
			t.Parallel()
			code := 0
			if h.reason != "" {
				code = exitSomeUnusable
			}
			rows := rowsOf(t, filepath.Join(bounded(t, h.collection(), code), "summary.csv"))
			require.Len(t, rows, 2)
			require.Empty(t, rows[1]["error"])
			require.NotEmpty(t, rows[1]["state_path"])
			if h.reason != "" {
				require.Contains(t, rows[0]["error"], h.reason)
			} else {
				require.Empty(t, rows[0]["error"])
				require.NotEmpty(t, rows[0]["state_path"])
			}
		})
	}
}

// bounded screens proposals in a process of its own, which ends with a code and takes no more
// than it may, and returns the folder of what it wrote.
func bounded(t *testing.T, collection []byte, code int) string {
	self, err := os.Executable()
	require.NoError(t, err)
	dir := t.TempDir()
	proposals, out := filepath.Join(dir, "proposals.geojson"), filepath.Join(dir, "out")
	require.NoError(t, os.WriteFile(proposals, collection, 0o666))
	command := exec.Command(self, "screen", "--job", "../../testdata/marrowby/job.yaml", "--proposals", proposals, "--out", out)
	command.Args[0] = "waterward" // as which the test binary is the command
	var said bytes.Buffer
	command.Stderr = &said
	require.NoError(t, command.Start())
	late := time.AfterFunc(stuck, func() { command.Process.Kill() })
	command.Wait()
	require.True(t, late.Stop(), "it takes more than %v", stuck)
	took := command.ProcessState.UserTime() + command.ProcessState.SystemTime()
	peak := command.ProcessState.SysUsage().(*syscall.Rusage).Maxrss << 10
	t.Logf("%.2f s, %d MB", took.Seconds(), peak>>20)
	require.Equal(t, code, command.ProcessState.ExitCode(), "%.2000s", said.String())
	require.Less(t, took, mostTime)
	require.Less(t, peak, int64(mostMemory))
	return out
}

// collection is the hostile proposal and the plain one.
func (h *hostile) collection() []byte {
	var text bytes.Buffer
	text.WriteString(`{"type":"FeatureCollection","features":[`)
	fmt.Fprintf(&text, `{"type":"Feature","properties":{"id":"hostile","kind":"breakwater","crest_elev_ft":0.2,"datum":"NAVD88","fill":"no"%s},"geometry":%s},`, h.stated, h.geometry())
	fmt.Fprintf(&text, `{"type":"Feature","properties":{"id":"plain","kind":"breakwater","material":"rock"},"geometry":%s}]}`, polygonOf(box(-800, 6, 60, 5)))
	return text.Bytes()
}

// rowsOf reads the rows of a table, each by the names of its columns.
func rowsOf(t *testing.T, name string) []map[string]string {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, cell := range cells {
			row[all[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}
