package front

import (
	"context"
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// shoreAndLots reads a sketch whose layers are high, low and lots.
func shoreAndLots(t testing.TB, s sketchtest.Sketch) *layers.Set {
	t.Helper()
	j := &job.Job{Layers: job.LayerSources{HighWater: &job.LayerSource{Files: job.FileList{"high"}}, Parcels: &job.LayerSource{Files: job.FileList{"lots"}, Key: "lot"}}}
	if s["low"] != nil {
		j.Layers.LowWater = &job.LayerSource{Files: job.FileList{"low"}}
	}
	mapped, err := (&layers.Loader{Files: s, Log: &inputs.Log{}}).Load(j)
	require.NoError(t, err)
	return mapped
}

func frontsOf(t testing.TB, m *layers.Set) []Front {
	t.Helper()
	found, err := Find(context.Background(), m, job.DefaultRadius, job.ParcelTolerance, 2)
	require.NoError(t, err)
	requireWhole(t, m, found)
	return found
}

// requireWhole checks that fronts are in order and leave no shore out, that nobody's
// overlap no others, and that each is as long as its stations say.
func requireWhole(t testing.TB, m *layers.Set, fronts []Front) {
	t.Helper()
	shore := m.Layer("high_water").Geo
	reach := make([]float64, shore.Strands())
	for i, f := range fronts {
		if reach[f.Strand] == 0 { // what leads on over the seam
			points, _ := shore.Strand(f.Strand)
			for _, g := range fronts[i:] {
				if g.Strand == f.Strand {
					reach[f.Strand] = max(reach[f.Strand], g.To-lengthOf(points))
				}
			}
		}
		require.LessOrEqual(t, f.From, reach[f.Strand]+1e-4)
		if f.Parcel < 0 {
			require.InDelta(t, reach[f.Strand], f.From, 1e-4)
			require.Zero(t, f.Gap)
		}
		reach[f.Strand] = max(reach[f.Strand], f.To)
		require.InDelta(t, f.To-f.From, lengthOf(f.Points), 1e-5*(f.To-f.From)+1e-4)
		if i > 0 && f.Strand == fronts[i-1].Strand {
			require.GreaterOrEqual(t, f.From, fronts[i-1].From)
		}
	}
	for n := range reach {
		points, _ := shore.Strand(n)
		require.GreaterOrEqual(t, reach[n], lengthOf(points)*(1-1e-5))
	}
}

// lengthOf is the length of a line in degrees, metres.
func lengthOf(line []orb.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		plane := crs.NewPlane(line[i-1])
		sum += planar.Distance(plane.Forward(line[i-1]), plane.Forward(line[i]))
	}
	return sum
}

// told writes fronts in feet, as "a 0-100" or "a 0-100 gap 20"; nobody's are left out.
func told(m *layers.Set, fronts []Front) string {
	var out []string
	for _, f := range fronts {
		if f.Parcel < 0 {
			continue
		}
		text := fmt.Sprintf("%s %.2f-%.2f", m.Layer("parcels").Items[f.Parcel].Label, f.From/job.Foot, f.To/job.Foot)
		if f.Gap > 0 {
			text += fmt.Sprintf(" gap %.2f", f.Gap/job.Foot)
		}
		if f.Whole {
			text += " whole"
		}
		out = append(out, strings.ReplaceAll(text, ".00", ""))
	}
	return strings.Join(out, ", ")
}

func lot(name string, x0, y0, x1, y1 float64) string {
	return sketchtest.Rectangle(`"lot":"`+name+`"`, x0, y0, x1, y1)
}

// reach is a line of the sketch through some corners, with a vertex every 100 ft, so
// that edges straight in degrees are straight in the plane.
func reach(properties string, corners ...[2]float64) string {
	line := corners[:1:1]
	for i := 1; i < len(corners); i++ {
		a, b := corners[i-1], corners[i]
		n := math.Ceil(math.Hypot(b[0]-a[0], b[1]-a[1]) / 100)
		for k := 1.0; k <= n; k++ {
			line = append(line, [2]float64{a[0] + k/n*(b[0]-a[0]), a[1] + k/n*(b[1]-a[1])})
		}
	}
	return sketchtest.Shape("LineString", properties, line...)
}

const left = `"side":"water_left"`

// Worked by hand. The straight shore runs along y = 0 from x = -800, its station 0, so
// that x = 0 is at 800.
func TestFrontsOnAStraightShore(t *testing.T) {
	for name, c := range map[string]struct {
		lots []string
		want string
	}{
		"to the line, with a boundary in common": {[]string{lot("a", 0, -200, 100, 0), lot("b", 100, -200, 250, 0)}, "a 800-900, b 900-1050"},
		"over the water":                         {[]string{lot("a", 0, -200, 100, 30)}, "a 800-900"},
		"20 ft short":                            {[]string{lot("a", 0, -200, 100, -20)}, "a 800-900 gap 20"},
		"40 ft short":                            {[]string{lot("a", 0, -200, 100, -40)}, ""},
		"neighbours that end differently": {
			[]string{lot("a", 0, -200, 100, 30), lot("b", 100, -200, 200, -20), lot("c", 200, -200, 300, -5), lot("d", 300, -200, 400, -28)},
			"a 800-900, b 900-1000 gap 20, c 1000-1100 gap 5, d 1100-1200 gap 28"},
		"a street's end between":       {[]string{lot("a", 0, -200, 100, 5), lot("b", 125, -200, 200, -10)}, "a 800-900, b 925-1000 gap 10"},
		"a street along the shore":     {[]string{lot("a", 0, -200, 100, -25), lot("b", 100, -200, 200, -25)}, "a 800-900 gap 25, b 900-1000 gap 25"},
		"a second row":                 {[]string{lot("a", 0, -20, 100, 0), lot("b", -50, -200, 200, -20)}, "b 750-800 gap 20, a 800-900, b 900-1000 gap 20"},
		"stacked on the line":          {[]string{lot("a", 0, -200, 100, 0), lot("b", 0, -200, 100, 0)}, "a 800-900, b 800-900"},
		"stacked and short":            {[]string{lot("a", 0, -200, 100, -12), lot("b", 0, -200, 100, -12)}, "a 800-900 gap 12, b 800-900 gap 12"},
		"a sliver of both":             {[]string{lot("a", 0, -200, 100.5, 0), lot("b", 99.5, -200, 200, 10)}, "a 800-900.50, b 899.50-1000"},
		"a sliver of both, short":      {[]string{lot("a", 0, -200, 100.5, -20), lot("b", 99.5, -200, 200, -20)}, "a 800-900.50 gap 20, b 899.50-1000 gap 20"},
		"corners that miss by 0.03 ft": {[]string{lot("a", 0, -200, 100, 0), lot("b", 100.03, -200, 200, 0)}, "a 800-900, b 900-1000"},
		"the water itself a parcel":    {[]string{lot("a", 0, -200, 100, -20), lot("w", -400, 0, 400, 300)}, "a 800-900 gap 20"},
		"a corner alone":               {[]string{sketchtest.Shape("Polygon", `"lot":"a"`, [2]float64{0, -10}, [2]float64{-50, -200}, [2]float64{50, -200}, [2]float64{0, -10})}, ""},
		"across and out of the strand": {[]string{lot("a", -900, -200, -700, 0), lot("b", 700, -200, 900, -9)}, "a 0-100, b 1500-1600 gap 9"},
		"near its ends":                {[]string{lot("a", -780, -200, -700, -20), lot("b", 700, -200, 780, -20)}, "a 20-100 gap 20, b 1500-1580 gap 20"},
		// The sides lean by 5 in 6 and are 30 ft off at x = 30.72, from 7.67; carried on they cross.
		"a corner and its sides": {[]string{sketchtest.Shape("Polygon", `"lot":"a"`, [2]float64{0, -10}, [2]float64{-100, -130}, [2]float64{100, -130}, [2]float64{0, -10})}, "a 792.33-807.67 gap 12.60"},
		"0.1 ft short":           {[]string{lot("a", -400, -200, 400, -0.1)}, "a 400-1200 gap 0.10"},
		// The side line of a and b leans by 1 in 2 and meets the shore at x = 110.
		"a leaning boundary": {[]string{
			sketchtest.Shape("Polygon", `"lot":"a"`, [2]float64{0, -200}, [2]float64{10, -200}, [2]float64{100, -20}, [2]float64{0, -20}, [2]float64{0, -200}),
			sketchtest.Shape("Polygon", `"lot":"b"`, [2]float64{10, -200}, [2]float64{200, -200}, [2]float64{200, -8}, [2]float64{106, -8}, [2]float64{10, -200}),
		}, "a 800-910 gap 22.36, b 910-1000 gap 8"},
	} {
		m := shoreAndLots(t, sketchtest.Sketch{"high": {sketchtest.Shape("LineString", left, sketchtest.Along(0)...)}, "lots": c.lots})
		require.Equal(t, c.want, told(m, frontsOf(t, m)), name)
	}
}

// Worked by hand: b is north of a boundary that falls by 1 in 4 through x = 0 and holds
// the shore east of it.
func TestFrontsPartWhereABoundaryCrosses(t *testing.T) {
	m := shoreAndLots(t, sketchtest.Sketch{"high": {sketchtest.Shape("LineString", left, sketchtest.Along(0)...)}, "lots": {
		sketchtest.Shape("Polygon", "", [2]float64{-100, 25}, [2]float64{100, -25}, [2]float64{100, -200}, [2]float64{-100, -200}, [2]float64{-100, 25}),
		sketchtest.Shape("Polygon", "", [2]float64{-100, 25}, [2]float64{100, -25}, [2]float64{100, 90}, [2]float64{-100, 90}, [2]float64{-100, 25}),
	}})
	found := frontsOf(t, m)
	require.Len(t, found, 4)
	require.InDelta(t, 800*job.Foot, found[1].To, 0.01*job.Foot)
	require.InDelta(t, 800*job.Foot, found[2].From, 0.01*job.Foot)
}

// Worked by hand: the shore leads over the lot's ends, (0, 0) and (100, 0), out to
// (-6, 8) and (106, 8), 10 ft from them.
func TestFrontsWhereTheShoreOverhangs(t *testing.T) {
	m := shoreAndLots(t, sketchtest.Sketch{
		"high": {reach(left, [2]float64{-800, 0}, [2]float64{0, 0}, [2]float64{-6, 8}, [2]float64{106, 8}, [2]float64{100, 0}, [2]float64{800, 0})},
		"lots": {lot("a", 0, -200, 100, 0)},
	})
	require.Equal(t, "a 800-932 gap 10", told(m, frontsOf(t, m)))
}

// Worked by hand. At the first corner land lies in the quarter south-west, at the
// second the water in the quarter north-west. The corner is at station 800.
func TestFrontsRoundCorners(t *testing.T) {
	m := shoreAndLots(t, sketchtest.Sketch{
		"high": {reach(left, [2]float64{-800, 0}, [2]float64{0, 0}, [2]float64{0, -800})},
		"lots": {lot("west", -200, -100, -100, -10), lot("corner", -100, -100, -10, -10), lot("south", -100, -200, -10, -100)},
	})
	// From the corner of the shore to that of the lot is the root of 10^2 + 10^2.
	require.Equal(t, "west 600-700 gap 10, corner 700-900 gap 14.14, south 900-1000 gap 10", told(m, frontsOf(t, m)))

	m = shoreAndLots(t, sketchtest.Sketch{
		"high": {reach(left, [2]float64{-800, 0}, [2]float64{0, 0}, [2]float64{0, 800})},
		"lots": {lot("south", -100, -100, 100, -10), lot("east", 10, -10, 100, 100)},
	})
	require.Equal(t, "south 700-800 gap 10, east 800-900 gap 10", told(m, frontsOf(t, m)))

	// One lot behind both shores of the corner.
	m.Named["parcels"] = shoreAndLots(t, sketchtest.Sketch{"high": {sketchtest.Shape("LineString", left, sketchtest.Along(0)...)}, "lots": {
		sketchtest.Shape("Polygon", `"lot":"a"`, [2]float64{-100, -100}, [2]float64{100, -100}, [2]float64{100, 100}, [2]float64{10, 100}, [2]float64{10, -10}, [2]float64{-100, -10}, [2]float64{-100, -100}),
	}}).Named["parcels"]
	require.Equal(t, "a 700-900 gap 10", told(m, frontsOf(t, m)))
}

// Worked by hand. A canal 40 ft wide leads 400 ft inland between x = -20 and x = 20;
// its west bank is at stations 780 to 1180, its east bank at 1220 to 1620.
func TestFrontsOnACanal(t *testing.T) {
	canal := reach(left, [2]float64{-800, 0}, [2]float64{-20, 0}, [2]float64{-20, -400}, [2]float64{20, -400}, [2]float64{20, 0}, [2]float64{800, 0})
	for name, c := range map[string]struct {
		lots []string
		want string
	}{
		// East's own water ends 16 ft from the west bank, from which west is 25 ft back.
		"set back, and the other bank nearer": {[]string{lot("west", -200, -200, -45, -100), lot("east", -4, -200, 200, -100)}, "west 880-980 gap 25, east 1420-1520"},
		"nobody on this bank":                 {[]string{lot("east", -4, -200, 200, -100)}, "east 1420-1520"},
		"both banks and the water between":    {[]string{lot("a", -200, -200, 200, -100)}, "a 880-980, a 1420-1520"},
		"both banks, set back from both":      {[]string{fmt.Sprintf(`{"type":"Feature","properties":{"lot":"a"},"geometry":{"type":"MultiPolygon","coordinates":[%s,%s]}}`, ring(-200, -200, -25, -100), ring(25, -200, 200, -100))}, "a 880-980 gap 5, a 1420-1520 gap 5"},
		"round its head":                      {[]string{lot("a", -200, -500, 200, -300)}, "a 1080-1320"},
	} {
		m := shoreAndLots(t, sketchtest.Sketch{"high": {canal}, "lots": c.lots})
		require.Equal(t, c.want, told(m, frontsOf(t, m)), name)
	}
}

func ring(x0, y0, x1, y1 float64) string {
	text := sketchtest.Rectangle("", x0, y0, x1, y1)
	return strings.TrimSuffix(text[strings.Index(text, "[[["):], "}}")
}

// Worked by hand. A square island of 100 ft, drawn counter-clockwise from its lower
// left corner, with no side stated.
func TestFrontsOfIslands(t *testing.T) {
	island := reach("", [2]float64{0, 0}, [2]float64{100, 0}, [2]float64{100, 100}, [2]float64{0, 100}, [2]float64{0, 0})
	for name, c := range map[string]struct {
		lots   []string
		want   string
		fronts int
	}{
		"one owner":                       {[]string{lot("a", 0, 0, 100, 100)}, "a 0-400 whole", 1},
		"one owner and the water round":   {[]string{lot("a", -50, -50, 150, 150)}, "a 0-400 whole", 1},
		"one owner, who stops short":      {[]string{lot("a", 10, 10, 90, 90)}, "a 0-400 gap 14.14 whole", 1},
		"two owners":                      {[]string{lot("west", 0, 0, 50, 100), lot("east", 50, 0, 100, 100)}, "east 50-250, west 250-450", 2},
		"two owners who stop short":       {[]string{lot("west", 10, 10, 50, 90), lot("east", 50, 10, 90, 90)}, "east 50-250 gap 14.14, west 250-450 gap 14.14", 2},
		"the mainland 20 ft off":          {[]string{lot("a", 120, -100, 200, 200)}, "", 1},
		"nobody over the seam":            {[]string{lot("east", 50, -10, 110, 110)}, "east 50-250", 2},
		"one owner of a half, and nobody": {[]string{lot("west", -10, -10, 50, 110)}, "west 250-450", 2},
	} {
		m := shoreAndLots(t, sketchtest.Sketch{"high": {island}, "lots": c.lots})
		found := frontsOf(t, m)
		require.Equal(t, c.want, told(m, found), name)
		require.Len(t, found, c.fronts, name) // nobody's too
		if c.want == "" {
			require.True(t, found[0].Whole)
		}
	}
}

// Worked by hand: the shore comes in three features, the middle one drawn the other
// way, and a lot goes over each join. The water side is stated of one of them.
func TestFrontsOfAShoreInPieces(t *testing.T) {
	piece := func(properties string, from, to float64) string {
		var line [][2]float64
		for k := 0.0; k <= 100; k++ {
			line = append(line, [2]float64{from + k/100*(to-from), 0})
		}
		return sketchtest.Shape("LineString", properties, line...)
	}
	m := shoreAndLots(t, sketchtest.Sketch{
		"high": {piece("", -800, -300), piece("", 300, -300), piece(left, 300, 800)},
		"lots": {lot("a", -350, -200, -250, 5), lot("b", 250, -200, 350, -15)},
	})
	require.Equal(t, 1, m.Layer("high_water").Geo.Strands())
	require.Equal(t, "a 450-550, b 1050-1150 gap 15", told(m, frontsOf(t, m)))

	// Far from the piece that states it nothing tells the side; the line does.
	found, err := newFrontage(m, 10*job.Foot, job.ParcelTolerance).find(context.Background(), 50*job.Foot, 1)
	require.NoError(t, err)
	require.Equal(t, "a 450-550, b 1050-1150 gap 15", told(m, found))
}

// Worked by hand: where the side of the water is not known, or contradicted, nobody's
// frontage is.
func TestFrontsWhereTheSideIsNotKnown(t *testing.T) {
	lots := []string{lot("a", 0, -200, 100, 0)}
	m := shoreAndLots(t, sketchtest.Sketch{"high": {sketchtest.Shape("LineString", "", sketchtest.Along(0)...)}, "lots": lots})
	found := frontsOf(t, m)
	require.Len(t, found, 1)
	require.Contains(t, found[0].Why, "the mean high water line: on which side of it the water lies is not known")
	require.Equal(t, -1, found[0].Parcel)
	require.InDelta(t, 1600*job.Foot, found[0].To, 0.003)

	// Low water to the north says that north is water; the feature says south.
	m = shoreAndLots(t, sketchtest.Sketch{"high": {sketchtest.Shape("LineString", `"side":"water_right"`, sketchtest.Along(0)...)}, "low": {sketchtest.Shape("LineString", "", sketchtest.Along(20)...)}, "lots": lots})
	found = frontsOf(t, m)
	require.Len(t, found, 1)
	require.Contains(t, found[0].Why, "contradicted")

	m = shoreAndLots(t, sketchtest.Sketch{"high": {sketchtest.Shape("LineString", "", sketchtest.Along(0)...)}, "low": {sketchtest.Shape("LineString", "", sketchtest.Along(20)...)}, "lots": lots})
	require.Equal(t, "a 800-900", told(m, frontsOf(t, m)))
}

// Worked by hand: a lot that cannot be used lies from x = 200 to 300, 10 ft back; what
// lies within 30 ft of its extent may be its own, but for what lot a has.
func TestFrontsNearAParcelThatCannotBeUsed(t *testing.T) {
	m := shoreAndLots(t, sketchtest.Sketch{
		"high": {sketchtest.Shape("LineString", left, sketchtest.Along(0)...)},
		"lots": {lot("a", 0, -200, 200, -5), sketchtest.Shape("LineString", `"lot":"b"`, [2]float64{200, -10}, [2]float64{300, -10})},
	})
	found := frontsOf(t, m)
	require.Len(t, found, 4)
	require.Equal(t, "a 800-1000 gap 5", told(m, found))
	require.Contains(t, found[2].Why, "a parcel near here cannot be used: lots: feature 2")
	// The window is 30 ft and a little more wide.
	require.InDelta(t, 1000*job.Foot, found[2].From, 0.003)
	require.InDelta(t, 1130*job.Foot, found[2].To, 0.5*job.Foot)
	require.Empty(t, found[0].Why)
	require.Empty(t, found[3].Why)
}

// slanted are side lines: where they cross y = 0, and how far east they lead per foot
// north.
var slanted = [][2]float64{{-310, 0.3}, {-214, -0.2}, {-101, 0.45}, {-12, 0}, {64, -0.35}, {171, 0.1}, {260, 0.25}}

// The lengths of shore between leaning side lines, from shapely 1.8.5 on GEOS 3.11.1:
//
//	shore = LineString([(x, a*sin(x/23) + b*sin(x/7.1+c)) for x in range(-800, 801, 5)])
//	at = lambda s, y: (s[0] + s[1]*y, y)
//	shore.intersection(Polygon([at(s, -60), at(t, -60), at(t, 40), at(s, 40)])).length
//
// for neighbouring side lines s and t. Lots that end at y = 40 hold this shore; of lots
// that end at y = -12 it lies before them, between their side lines carried on.
func TestFrontsOnAWavyShore(t *testing.T) {
	for _, c := range []struct {
		a, b, c float64
		want    [6]float64
	}{
		{6, 2, 1, [6]float64{99.4672, 119.4893, 89.6558, 78.8290, 111.4984, 89.9141}},
		{8, 0, 0, [6]float64{101.4942, 119.0714, 88.3021, 77.1521, 112.5199, 88.4905}},
		{3, 4, 2.5, [6]float64{104.9461, 123.3023, 93.3878, 82.1517, 115.1143, 95.3117}},
	} {
		for _, end := range []float64{40, 0, -12} {
			var shore [][2]float64
			for x := -800.0; x <= 800; x += 5 {
				shore = append(shore, [2]float64{x, c.a*math.Sin(x/23) + c.b*math.Sin(x/7.1+c.c)})
			}
			s := sketchtest.Sketch{"high": {sketchtest.Shape("LineString", left, shore...)}}
			for i := 1; i < len(slanted); i++ {
				at := func(k int, y float64) [2]float64 { return [2]float64{slanted[k][0] + slanted[k][1]*y, y} }
				s["lots"] = append(s["lots"], sketchtest.Shape("Polygon", "", at(i-1, -60), at(i, -60), at(i, end), at(i-1, end), at(i-1, -60)))
			}
			m := shoreAndLots(t, s)
			lengths := [6]float64{}
			for _, f := range frontsOf(t, m) {
				if f.Parcel >= 0 {
					lengths[f.Parcel] += (f.To - f.From) / job.Foot
					require.Equal(t, end == 40, f.Gap == 0)
				}
			}
			for i, want := range c.want {
				require.InDelta(t, want, lengths[i], 0.01, "%v, lot %d to %v", c, i, end)
			}
		}
	}
}

// combed is a random shore of canals, spits and rough banks, with random lots, some of
// which overlap, along it.
func combed(r *rand.Rand) sketchtest.Sketch {
	shore := [][2]float64{{-600, 0}}
	x := -600.0
	finger := func(depth float64) { // there and back
		for k := 1.0; k <= 10; k++ {
			shore = append(shore, [2]float64{x + 3*r.Float64(), depth * k / 10})
		}
		x += 8 + 40*r.Float64()
		for k := 9.0; k >= 0; k-- {
			shore = append(shore, [2]float64{x + 3*r.Float64(), depth * k / 10})
		}
		x += 5
	}
	for x < 600 {
		switch r.Intn(4) {
		case 0:
			finger(-50 - 300*r.Float64())
		case 1:
			finger(30 + 150*r.Float64())
		default:
			for range 10 {
				x += 3 + 10*r.Float64()
				shore = append(shore, [2]float64{x, 3 * r.NormFloat64()})
			}
		}
	}
	s := sketchtest.Sketch{"high": {sketchtest.Shape("LineString", left, shore...)}}
	for x := -650.0; x < 650; {
		wide, lean, end := 20+80*r.Float64(), 10*r.NormFloat64(), 20*r.NormFloat64()-5
		if r.Intn(6) > 0 {
			s["lots"] = append(s["lots"], sketchtest.Shape("Polygon", "", [2]float64{x, -300}, [2]float64{x + wide, -300},
				[2]float64{x + wide + lean, end}, [2]float64{x + lean, end + 5*r.NormFloat64()}, [2]float64{x, -300}))
		}
		x += wide
	}
	return s
}

// On random shores what parcels hold is theirs alone, what they do not hold lies within
// the tolerance, and neither the length of the chunks nor the workers show.
func TestFrontsOfRandomLots(t *testing.T) {
	for seed := range 12 {
		m := shoreAndLots(t, combed(rand.New(rand.NewSource(int64(seed)))))
		found := frontsOf(t, m)
		parcels := m.Layer("parcels").Geo
		points, _ := m.Layer("high_water").Geo.Strand(0)
		plane := crs.NewPlane(orb.Point{-74.6, 30})
		near := parcels.Near(plane, crs.Window(orb.MultiPoint(points).Bound(), 200))
		station := 0.0
		for i := 1; i < len(points); i++ {
			length := lengthOf(points[i-1 : i+1])
			for _, part := range []float64{0.21, 0.57, 0.93} {
				at := orb.Point{points[i-1][0] + part*(points[i][0]-points[i-1][0]), points[i-1][1] + part*(points[i][1]-points[i-1][1])}
				holders := parcels.AreasAt(at)
				if near.Nearest(plane.Forward(at)).Distance < 0.05*job.Foot {
					continue // within what an end may be off
				}
				var owners []int
				for _, f := range found {
					if s := station + part*length; f.Parcel >= 0 && f.From < s && s < f.To {
						owners = append(owners, f.Parcel)
					}
				}
				if len(holders) > 0 {
					require.ElementsMatch(t, holders, owners, "seed %d at %v", seed, at)
				} else if len(owners) > 0 {
					require.LessOrEqual(t, near.OnlyItems(func(k int) bool { return k == owners[0] }).Nearest(plane.Forward(at)).Distance, job.ParcelTolerance+0.01)
				}
			}
			station += length
		}
		for workers, length := range map[int]float64{1: 1e9, 2: 700, 8: 40} {
			again, err := newFrontage(m, job.DefaultRadius, job.ParcelTolerance).find(context.Background(), length, workers)
			require.NoError(t, err)
			require.Len(t, again, len(found), "seed %d, chunks of %v m", seed, length)
			for i, f := range again {
				require.Equal(t, found[i].Parcel, f.Parcel)
				require.InDelta(t, found[i].From, f.From, 0.01*job.Foot)
				require.InDelta(t, found[i].To, f.To, 0.01*job.Foot)
				require.InDelta(t, found[i].Gap, f.Gap, 0.01*job.Foot)
			}
		}
		again, err := Find(context.Background(), m, job.DefaultRadius, job.ParcelTolerance, 8)
		require.NoError(t, err)
		require.Equal(t, found, again)
	}
}

func TestFrontsEndWhenTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Find(ctx, county(10), job.DefaultRadius, job.ParcelTolerance, 2)
	require.ErrorIs(t, err, context.Canceled)
}
