package area

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// dirtyArea is a feature of testdata/dirty/areas.geojson, judged by GEOS 3.11.1
// (the README beside it has the commands).
type dirtyArea struct {
	Properties struct {
		Name, Family, Reason, Exception string
		Valid                           bool
		Area                            float64
	}
	Geometry struct {
		Type        string
		Coordinates json.RawMessage
	}
}

func eachDirtyArea(t *testing.T, visit func(t *testing.T, d dirtyArea, area orb.MultiPolygon)) {
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "dirty", "areas.geojson"))
	require.NoError(t, err)
	var file struct{ Features []dirtyArea }
	require.NoError(t, json.Unmarshal(text, &file))
	require.Len(t, file.Features, 130)
	for _, d := range file.Features {
		t.Run(d.Properties.Family+"/"+d.Properties.Name, func(t *testing.T) {
			area := make(orb.MultiPolygon, 1)
			var into any = &area[0]
			if d.Geometry.Type == "MultiPolygon" {
				into = &area
			}
			require.NoError(t, json.Unmarshal(d.Geometry.Coordinates, into))
			visit(t, d, area)
		})
	}
}

// sayings are what GEOS says of an invalid area, and which of our rules say the same.
var sayings = map[string][]string{
	"Self-intersection":                    {crossesItself, "two of its rings cross, or touch in more than one place", "two of its parts overlap, or share an edge", "two of its holes overlap, or one lies inside the other"},
	"Ring Self-intersection":               {crossesItself},
	"Hole lies outside shell":              {"a hole lies outside its shell"},
	"Holes are nested":                     {"two of its holes overlap, or one lies inside the other"},
	"Interior is disconnected":             {"its holes cut it apart", "two of its rings cross, or touch in more than one place"},
	"Nested shells":                        {"two of its parts overlap, or share an edge"},
	"Too few points in geometry component": {"a ring has all its positions in one place"},
}

// TestDirtyAreasAreJudgedAsByGEOS: the same are valid, the others for the same
// reason, and the place named is one at which something is wrong, as the one
// that GEOS names is; if there is only one, the two are thereby the same.
func TestDirtyAreasAreJudgedAsByGEOS(t *testing.T) {
	eachDirtyArea(t, func(t *testing.T, d dirtyArea, area orb.MultiPolygon) {
		err := Check(area)
		agree := err == nil
		if !d.Properties.Valid {
			var found *Error
			require.ErrorAs(t, err, &found)
			said, place, _ := strings.Cut(d.Properties.Reason, "[")
			var theirs orb.Point
			_, err := fmt.Sscanf(place, "%g %g]", &theirs[0], &theirs[1])
			require.NoError(t, err)
			require.True(t, theirs == found.Where || wrongAt(area, theirs) && wrongAt(area, found.Where), "GEOS: %s; we: %s", d.Properties.Reason, found)
			require.True(t, found.Placed)
			agree = slices.Contains(sayings[said], found.Rule)
		}
		require.Equal(t, d.Properties.Exception == "", agree, "GEOS: %s; we: %v", d.Properties.Reason, err)
	})
}

// wrongAt reports whether something is wrong with an area at a place of its outline: more
// edges than two meet there, or two that leave it the same way, or one of a part
// within another part, or of a hole within another hole or outside its shell.
func wrongAt(area orb.MultiPolygon, at orb.Point) bool {
	// GEOS prints 15 digits, and a crossing has its last bit rounded.
	slack := 1e-14 * math.Max(math.Abs(at[0]), math.Abs(at[1]))
	const sameWay = 1e-6 // radians: turned back on itself, not a sharp corner
	var ways []orb.Point
	misplaced := false
	for i, polygon := range area {
		for j, ring := range polygon {
			for k := 1; k < len(ring); k++ {
				if flattest.ToSegment(at, ring[k-1], ring[k]) > slack {
					continue
				}
				for _, end := range []orb.Point{ring[k-1], ring[k]} {
					if l := flat.Distance(at, end); l > slack {
						ways = append(ways, orb.Point{(end[0] - at[0]) / l, (end[1] - at[1]) / l})
					}
				}
				for other, rings := range area {
					misplaced = misplaced || other != i && flattest.EvenOdd(at, rings...)
				}
				for other, hole := range polygon[1:] {
					misplaced = misplaced || j > 0 && (!flattest.EvenOdd(at, polygon[0]) || other+1 != j && flattest.EvenOdd(at, hole))
				}
			}
		}
	}
	return misplaced || len(ways) > 2 || len(ways) == 2 && flat.Distance(ways[0], ways[1]) < sameWay
}

// TestDirtyAreasAreRepaired: to the area that GEOS finds for them, and one that is
// valid and covers the same ground.
func TestDirtyAreasAreRepaired(t *testing.T) {
	eachDirtyArea(t, func(t *testing.T, d dirtyArea, area orb.MultiPolygon) {
		slack := areaSlack(area, byRounding)
		require.InDelta(t, d.Properties.Area, groundBetween(area, nil), slack, "what stands in for an engine below agrees with one")
		repaired, err := Repair(area)
		if d.Properties.Area == 0 {
			require.ErrorContains(t, err, "encloses nothing")
			return
		}
		require.NoError(t, err)
		require.NoError(t, Check(repaired))
		require.InDelta(t, d.Properties.Area, Of(repaired), slack)
		require.InDelta(t, 0, groundBetween(area, repaired), slack)
	})
}

// TestRandomAreasAreRepaired: rings on a small grid, where edges often share ground
// and corners, exactly or but for the rounding of degrees; and anywhere.
func TestRandomAreasAreRepaired(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area := drawDirty(t)
		want, slack := groundBetween(area, nil), areaSlack(area, bySnapping)
		repaired, err := Repair(area)
		if want <= slack && err != nil {
			return // it encloses nothing
		}
		require.NoError(t, err)
		require.NoError(t, Check(repaired))
		require.InDelta(t, want, Of(repaired), slack)
		require.InDelta(t, 0, groundBetween(area, repaired), slack)
		again, err := Repair(repaired)
		require.NoError(t, err)
		require.InDelta(t, 0, groundBetween(repaired, again), slack, "what is repaired stays")
	})
}

func drawDirty(t *rapid.T) orb.MultiPolygon {
	cell := rapid.Custom(func(t *rapid.T) orb.Point {
		return orb.Point{float64(rapid.IntRange(0, 6).Draw(t, "x")), float64(rapid.IntRange(0, 6).Draw(t, "y"))}
	})
	decimals := rapid.Map(rapid.IntRange(-5e7, 5e7), func(n int) float64 { return float64(n) / 1e6 })
	position := map[string]*rapid.Generator[orb.Point]{
		"grid": cell,
		"degrees": rapid.Map(cell, func(p orb.Point) orb.Point {
			return orb.Point{(-813127461 + 100*p[0]) / 1e7, (298924137 + 100*p[1]) / 1e7}
		}),
		"anywhere": rapid.Custom(func(t *rapid.T) orb.Point {
			return orb.Point{decimals.Draw(t, "x"), decimals.Draw(t, "y")}
		}),
	}[rapid.SampledFrom([]string{"grid", "degrees", "anywhere"}).Draw(t, "where")]
	ring := rapid.Map(rapid.SliceOfN(position, 3, 12), func(corners []orb.Point) orb.Ring {
		return append(orb.Ring(corners), corners[0])
	})
	polygon := rapid.Map(rapid.SliceOfN(ring, 1, 3), func(rings []orb.Ring) orb.Polygon { return rings })
	return rapid.SliceOfN(polygon, 1, 3).Draw(t, "area")
}

// How far a position of a repaired area may lie from where it was drawn or where edges cross,
// as a share of how far it lies from the origin.
const (
	byRounding = 1.1e-15 // ten roundings
	bySnapping = 1e-12   // see snapOf: what lies nearer is one
)

// areaSlack is what moving positions does to an area, all along its outline.
func areaSlack(area orb.MultiPolygon, share float64) float64 {
	length, far := 0.0, 0.0
	for _, ring := range slices.Concat(area...) {
		for i := 1; i < len(ring); i++ {
			length += flat.Distance(ring[i-1], ring[i])
			far = max(far, math.Abs(ring[i][0]), math.Abs(ring[i][1]))
		}
	}
	return share * far * length
}

// groundBetween is the area that just one of two areas covers, a part of an area
// covering what a level line from outside reaches across an odd number of its edges. It is
// added up over level strips between the heights at which edges end or cross.
func groundBetween(a, b orb.MultiPolygon) float64 {
	type edge struct {
		low, high orb.Point
		part      int
	}
	type met struct {
		x    float64
		part int
	}
	var edges []edge
	var levels []float64
	origin := a[0][0][0] // from where no digits are lost
	for part, polygon := range append(append(orb.MultiPolygon{}, a...), b...) {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				e := edge{minus(ring[i-1], origin), minus(ring[i], origin), part}
				if e.low[1] > e.high[1] {
					e.low, e.high = e.high, e.low
				}
				u := minus(e.high, e.low)
				for _, f := range edges {
					v, w := minus(f.high, f.low), minus(f.low, e.low)
					if s := (w[0]*v[1] - w[1]*v[0]) / (u[0]*v[1] - u[1]*v[0]); s > 0 && s < 1 {
						levels = append(levels, e.low[1]+s*u[1])
					}
				}
				edges = append(edges, e)
				levels = append(levels, e.low[1], e.high[1])
			}
		}
	}
	slices.Sort(levels)
	sum := 0.0
	for i := 1; i < len(levels); i++ {
		middle := (levels[i-1] + levels[i]) / 2
		var row []met
		for _, e := range edges {
			if e.low[1] < middle && middle < e.high[1] {
				row = append(row, met{e.low[0] + (middle-e.low[1])/(e.high[1]-e.low[1])*(e.high[0]-e.low[0]), e.part})
			}
		}
		slices.SortFunc(row, func(p, q met) int { return cmp.Compare(p.x, q.x) })
		odd := map[int]bool{}
		covering := [2]int{} // parts of a, parts of b
		for j, m := range row {
			if (covering[0] > 0) != (covering[1] > 0) {
				sum += (m.x - row[j-1].x) * (levels[i] - levels[i-1])
			}
			whose := min(m.part/len(a), 1)
			if odd[m.part] = !odd[m.part]; odd[m.part] {
				covering[whose]++
			} else {
				covering[whose]--
			}
		}
	}
	return sum
}

func minus(p, q orb.Point) orb.Point { return orb.Point{p[0] - q[0], p[1] - q[1]} }
