package drawing

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// A hundredth of an inch is the unit; a millimetre is 1/25.4 in, so a pen of 0.7 mm is 2.76.
func TestPens(t *testing.T) {
	c := NewCanvas(0, 0, 100, 100)
	c.Line([]orb.Point{{10, 10}, {20, 10}}, Structure)
	require.Equal(t, `<path d="M10 10L20 10" fill="none" stroke="#000" stroke-width="2.76" stroke-linejoin="round" stroke-linecap="butt"/>`, c.SVG())
	c = NewCanvas(0, 0, 100, 100)
	c.Line([]orb.Point{{10, 10}, {20, 10}}, LowShore)
	require.Contains(t, c.SVG(), `stroke-width="1.38"`)
	require.Contains(t, c.SVG(), `stroke-dasharray="15 5"`)
}

// What reaches beyond the canvas is cut off at its border, and the border is no line.
func TestCutOff(t *testing.T) {
	c := NewCanvas(0, 0, 100, 100)
	c.Line([]orb.Point{{-50, 50}, {150, 50}}, Edge)
	require.Equal(t, [][2]orb.Point{{{0, 50}, {100, 50}}}, segments(c.SVG()))
	c = NewCanvas(0, 0, 100, 100)
	c.Area(orb.Polygon{rectangle(-50, 30, 150, 70)}, Edge)
	require.ElementsMatch(t, [][2]orb.Point{{{0, 30}, {100, 30}}, {{100, 70}, {0, 70}}}, segments(c.SVG()))
	c = NewCanvas(0, 0, 100, 100)
	c.Area(orb.Polygon{rectangle(-50, -50, 150, 150)}, Edge)
	require.Empty(t, c.SVG())
}

func TestShows(t *testing.T) {
	c := NewCanvas(0, 0, 100, 100)
	require.True(t, c.Shows(orb.Polygon{rectangle(10, 10, 20, 20)}))
	require.True(t, c.Shows(orb.Polygon{rectangle(-10, -10, 20, 20)}))
	require.True(t, c.Shows(orb.Polygon{rectangle(-10, -10, 200, 200)}), "all of the canvas lies in it")
	require.False(t, c.Shows(orb.Polygon{rectangle(110, 110, 200, 200)}))
	require.False(t, c.Shows(orb.Polygon{rectangle(-100, -100, 200, 200), rectangle(-10, -10, 110, 110)}), "all of the canvas lies in its hole")
	require.False(t, c.Shows(nil))
	require.False(t, c.Shows(orb.Polygon{{}}))
}

func pair(p orb.Point) []float64 { return p[:] }

// By hand: of a square the middle, and of a long box too; of an L, which has its box's middle in the notch, a place
// in its thick arm; of a square with a hole in the middle, one beside the hole.
func TestMiddle(t *testing.T) {
	at := Middle(orb.Polygon{rectangle(0, 0, 90, 90)})
	require.InDelta(t, 45, at[0], 1e-9)
	require.InDelta(t, 45, at[1], 1e-9)
	require.InDeltaSlice(t, []float64{500, 5}, pair(Middle(orb.Polygon{rectangle(0, 0, 1000, 10)})), 1e-9)
	at = Middle(orb.Polygon{{{0, 0}, {90, 0}, {90, 10}, {40, 10}, {40, 90}, {0, 90}, {0, 0}}})
	require.InDelta(t, 20, at[0], 10)
	require.GreaterOrEqual(t, at[1], 15.0)
	holed := orb.Polygon{rectangle(0, 0, 90, 90), rectangle(20, 20, 70, 70)}
	at = Middle(holed)
	require.True(t, within([]orb.Polygon{holed}, at), "%v", at)
}

// Texts are escaped, and their place is taken for all words that find theirs.
func TestText(t *testing.T) {
	c := NewCanvas(0, 0, 100, 100)
	c.Text(orb.Point{10, 20}, "start", `<b>&"`, 10, true)
	require.Equal(t, `<text x="10" y="20" text-anchor="start" font-size="10" font-weight="700">&lt;b&gt;&amp;&#34;</text>`, c.SVG())
	c.Text(orb.Point{10, 20}, "start", "", 10, true)
	require.Equal(t, 1, strings.Count(c.SVG(), "<text"))
	for anchor, x := range map[string]float64{"start": 10, "middle": 50, "end": 90} {
		c := NewCanvas(0, 0, 100, 40)
		c.Text(orb.Point{x, 22}, anchor, "0123456789", 14, false) // 78 wide of the 100
		c.PointName("n", []string{"nnnnnnnnn"}, false, 0, orb.Point{50, 17}, true)
		require.Equal(t, []string{"n"}, c.Place(), anchor)
		c = NewCanvas(0, 0, 100, 100)
		c.Turned(orb.Point{60, 50}, "0123456789", 14, -90)
		c.PointName("n", []string{"nnn"}, false, 0, orb.Point{70, 50}, true)
		c.Place()
		all := wordsIn(c.SVG())
		require.Len(t, all, 2)
		require.False(t, overlap(all[0], all[1]))
	}
}

// Whatever comes, nothing is broken off.
func TestNothingToDraw(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	lines := [][]orb.Point{nil, {}, {{1, 1}}, {{1, 1}, {1, 1}}, {{nan, nan}, {5, 5}}, {{5, 5}, {nan, 5}, {9, 9}}, {{-inf, 5}, {inf, 5}}, {{50, 50}, {1e300, -1e300}}}
	for _, line := range lines {
		c := NewCanvas(0, 0, 100, 100)
		area := orb.Polygon{line}
		c.Line(line, Shore)
		c.Area(area, Shore)
		c.Hatch(area, 45, 5, Hair)
		c.Keep(area, 0)
		c.Dots(Ashore(c.Bounds, [][]orb.Point{line}))
		c.Shows(area)
		c.LineName("line", []string{"line"}, false, 0, line)
		c.AreaName("area", []string{"area"}, false, 0, area, nil)
		c.PointName("middle", []string{"middle"}, false, 0, Middle(area), true)
		if len(line) > 1 {
			c.Dimension(Dimension{From: line[0], To: line[1], Text: "1", Name: "dimension"})
			c.Dimension(Dimension{From: line[0], To: line[1], Text: "1", Name: "drawn out", Away: orb.Point{0, 1}, Far: 20})
		}
		c.Place()
		require.NotContains(t, c.SVG(), "NaN", "%v", line)
		require.NotContains(t, c.SVG(), "Inf", "%v", line)
	}
	c := NewCanvas(0, 0, 100, 100)
	c.Area(nil, Shore)
	c.Hatch(nil, 0, 1, Hair)
	c.Keep(nil, 0)
	c.LineName("line", []string{""}, false, 0)
	c.AreaName("area", nil, false, 0)
	c.PointName("at", []string{"at"}, false, 0, orb.Point{nan, inf}, true)
	require.Equal(t, []string{"line", "area", "at"}, c.Place())
	require.Empty(t, c.SVG())
}
