package drawing

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

func rectangle(left, top, right, bottom float64) orb.Ring {
	return orb.Ring{{left, top}, {right, top}, {right, bottom}, {left, bottom}, {left, top}}
}

func level(p orb.Point) orb.Point { return p }

// Level lines 4 apart through a square of 10 from 1 to 11, without and with a hole from 3 to
// 9, worked by hand: at 4 and at 8.
func TestSpans(t *testing.T) {
	require.Equal(t, []span{{4, 1, 11}, {8, 1, 11}}, spans(orb.Polygon{rectangle(1, 1, 11, 11)}, level, 4))
	require.Equal(t, []span{{4, 1, 3}, {4, 9, 11}, {8, 1, 3}, {8, 9, 11}}, spans(orb.Polygon{rectangle(1, 1, 11, 11), rectangle(3, 3, 9, 9)}, level, 4))
	// A line along an edge counts once: the upper edge is in, the lower is not.
	require.Equal(t, []span{{4, 0, 5}, {8, 0, 5}}, spans(orb.Polygon{rectangle(0, 4, 5, 12)}, level, 4))
	// A triangle whose tip only touches a line has none there.
	require.Equal(t, []span{{4, 2, 6}}, spans(orb.Polygon{{{0, 2}, {8, 2}, {4, 6}, {0, 2}}}, level, 4))
	require.Empty(t, spans(nil, level, 4))
	require.Empty(t, spans(orb.Polygon{{}}, level, 4))
}

var segmentText = regexp.MustCompile(`M(\S+) (\S+?)L(\S+?) (\S+?)[M"]`)

// segments are the lines of one stroke each that stand in a drawing.
func segments(svg string) (made [][2]orb.Point) {
	for {
		m := segmentText.FindStringSubmatchIndex(svg)
		if m == nil {
			return made
		}
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(svg[m[2+2*i]:m[3+2*i]], 64)
		}
		made = append(made, [2]orb.Point{{v[0], v[1]}, {v[2], v[3]}})
		svg = svg[m[9]:]
	}
}

// Lines at 45 degrees down the paper through a square of 10: y - x is a multiple of 5 where
// they are 5 / sqrt 2 apart. By hand; those at the corners have no length.
func TestHatch(t *testing.T) {
	c := NewCanvas(0, 0, 100, 100)
	c.Hatch(orb.Polygon{rectangle(20, 20, 30, 30)}, 45, 5/math.Sqrt2, Hair)
	var long [][2]orb.Point
	for _, s := range segments(c.SVG()) {
		if distance(s[0], s[1]) > 0.1 {
			long = append(long, s)
		}
	}
	require.ElementsMatch(t, [][2]orb.Point{{{25, 20}, {30, 25}}, {{20, 20}, {30, 30}}, {{20, 25}, {25, 30}}}, long)
	// What reaches beyond the canvas is cut off.
	c = NewCanvas(0, 0, 100, 100)
	c.Hatch(orb.Polygon{rectangle(-50, 10, 150, 20)}, 0, 7, Hair)
	require.Equal(t, [][2]orb.Point{{{0, 14}, {100, 14}}}, segments(c.SVG()))
	c = NewCanvas(0, 0, 100, 100)
	c.Hatch(orb.Polygon{rectangle(200, 10, 250, 20)}, 0, 7, Hair)
	c.Hatch(nil, 0, 7, Hair)
	require.Empty(t, c.SVG())
}

// A line drawn to the right on paper has its right side below it; along a circle drawn with
// the sun on paper, its right side is within.
func TestAshore(t *testing.T) {
	bounds := orb.Bound{Max: orb.Point{400, 400}}
	dots := Ashore(bounds, [][]orb.Point{{{-50, 200}, {450, 200}}})
	require.Greater(t, len(dots), 80)
	for _, p := range dots {
		require.Greater(t, p[1], 200.0)
		require.LessOrEqual(t, p[1], 200.0+dotReach)
		require.True(t, bounds.Contains(p))
	}
	require.Equal(t, dots, Ashore(bounds, [][]orb.Point{{{-50, 200}, {450, 200}}}), "they lie where they lay before")
	for _, p := range Ashore(bounds, [][]orb.Point{{{450, 200}, {-50, 200}}}) {
		require.Less(t, p[1], 200.0)
	}
	var circle, narrow []orb.Point
	for i := range 361 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 180)
		circle = append(circle, orb.Point{200 + 100*cos, 200 + 100*sin})
		narrow = append(narrow, orb.Point{200 + 8*cos, 200 + 8*sin})
	}
	dots = Ashore(bounds, [][]orb.Point{circle})
	require.Greater(t, len(dots), 100)
	for _, p := range dots {
		require.Less(t, distance(p, orb.Point{200, 200}), 100.0)
	}
	// An island narrower than dots are thrown holds all of its own.
	for _, p := range Ashore(bounds, [][]orb.Point{narrow}) {
		require.Less(t, distance(p, orb.Point{200, 200}), 8.0)
	}
	// At a sharp tip of land, where both of its sides are as near, none lies in the water:
	// land is between a shore that comes down and goes up again.
	tip := []orb.Point{{180, 0}, {200, 300}, {220, 0}}
	for _, shore := range [][]orb.Point{tip, {tip[2], tip[1], tip[0]}} {
		inward := shore[0] == tip[2]
		for _, p := range Ashore(bounds, [][]orb.Point{shore}) {
			within := math.Abs(p[0]-200) < 20*(300-p[1])/300
			require.Equal(t, inward, within, "%v", p)
		}
	}
	require.Empty(t, Ashore(bounds, nil))
	require.Empty(t, Ashore(bounds, [][]orb.Point{{}, {{1, 1}}, {{1, 1}, {1, 1}}}))
	require.Empty(t, Ashore(bounds, [][]orb.Point{{{500, 500}, {900, 500}}}))
}
