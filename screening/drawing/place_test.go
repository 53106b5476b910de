package drawing

import (
	"fmt"
	"html"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// word is a text as it stands in a drawing: the corners of its capitals.
type word struct {
	text string
	ring orb.Ring
}

var textElement = regexp.MustCompile(`<text x="(\S+)" y="(\S+)" text-anchor="(\S+)" font-size="(\S+)"( font-weight="700")?(?: transform="rotate\((\S+) (\S+) (\S+)\)")?>(.*?)</text>`)

// wordsIn are the texts of a drawing, read from it.
func wordsIn(svg string) (made []word) {
	number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
	for _, m := range textElement.FindAllStringSubmatch(svg, -1) {
		text := html.UnescapeString(m[9])
		x, y, size := number(m[1]), number(m[2]), number(m[4])
		wide, high := Width(text, size, m[5] != ""), 0.716*size
		left := map[string]float64{"start": x, "middle": x - wide/2, "end": x - wide}[m[3]]
		sin, cos := math.Sincos(number(m[6]) * math.Pi / 180)
		ring := rectangle(left, y-high, left+wide, y)
		for i, p := range ring { // turned about (x, y)
			dx, dy := p[0]-x, p[1]-y
			ring[i] = orb.Point{x + dx*cos - dy*sin, y + dx*sin + dy*cos}
		}
		made = append(made, word{text, ring})
	}
	return made
}

// crosses reports whether two segments cross.
func crosses(a, b, p, q orb.Point) bool {
	side := func(a, b, p orb.Point) bool { return (b[0]-a[0])*(p[1]-a[1]) > (b[1]-a[1])*(p[0]-a[0]) }
	return side(a, b, p) != side(a, b, q) && side(p, q, a) != side(p, q, b)
}

// overlap reports whether two words cover one another: a side of one crosses one of the
// other, or one lies within the other.
func overlap(a, b word) bool {
	for i := range 4 {
		for j := range 4 {
			if crosses(a.ring[i], a.ring[i+1], b.ring[j], b.ring[j+1]) {
				return true
			}
		}
	}
	return inside(a.ring, b.ring[0]) || inside(b.ring, a.ring[0])
}

// scene draws a random plan; every word of it is a different one, and what each must hold.
func scene(r *rand.Rand) (c *Canvas, names map[string][]string) {
	wide, high := 200+r.Float64()*550, 150+r.Float64()*400
	c, names = NewCanvas(10, 20, 10+wide, 20+high), map[string][]string{}
	n := 0
	named := func(lines int) (string, []string) {
		n++
		var texts []string
		for i := range lines {
			texts = append(texts, fmt.Sprintf("n%d %s %d", n, strings.Repeat("W", r.IntN(8)), i))
		}
		name := fmt.Sprintf("name %d", n)
		names[name] = texts
		return name, texts
	}
	somewhere := func() orb.Point { return orb.Point{10 + (1.2*r.Float64()-0.1)*wide, 20 + (1.2*r.Float64()-0.1)*high} }
	var shore []orb.Point
	y := 20 + r.Float64()*high
	for x := 0.0; x < wide+20; x += 5 {
		y += r.Float64()*8 - 4
		shore = append(shore, orb.Point{x, y})
	}
	owner := c.LineOf(0, shore, Shore)
	c.Text(orb.Point{20, 40}, "start", "told", 20, true)
	names["told"] = []string{"told"}
	for range r.IntN(12) {
		p := somewhere()
		sin, cos := math.Sincos(r.Float64() * 2 * math.Pi)
		l, w := 10+r.Float64()*120, 5+r.Float64()*20
		var ring orb.Ring
		for _, s := range [5][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}} {
			ring = append(ring, orb.Point{p[0] + s[0]*l*cos - s[1]*w*sin, p[1] + s[0]*l*sin + s[1]*w*cos})
		}
		of := c.AreaOf(0, orb.Polygon{ring}, Structure)
		c.Keep(orb.Polygon{ring}, of)
		name, lines := named(1)
		c.PointName(name, lines, true, of, Middle(orb.Polygon{ring}), true)
		name, lines = named(1)
		c.Dimension(Dimension{From: ring[0], To: ring[1], Text: lines[0], Name: name, Away: orb.Point{sin, -cos}, Far: float64(r.IntN(3)) * 25})
	}
	name, lines := named(1 + r.IntN(2))
	c.LineName(name, lines, true, owner, shore)
	for range r.IntN(10) {
		name, lines := named(1 + r.IntN(3))
		a, b := somewhere(), somewhere()
		c.AreaName(name, lines, false, 0, orb.Polygon{rectangle(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))})
		name, lines = named(1)
		line := []orb.Point{somewhere(), somewhere(), somewhere()}
		c.LineName(name, lines, false, c.LineOf(0, line, LowShore), line)
	}
	return c, names
}

var leader = regexp.MustCompile(`<path d="M(\S+) (\S+?)L(\S+?) (\S+?)"[^>]*/><circle [^>]* r="1.3"`)

// In whatever is drawn no two words cover one another, none stands beyond the canvas or on
// the leader of another, and each stands once or, where it found no place, not at all.
func TestWordsThatFoundTheirPlace(t *testing.T) {
	stood, lost := 0, 0
	for seed := range uint64(300) {
		c, names := scene(rand.New(rand.NewPCG(seed, 7)))
		unplaced := map[string]bool{}
		for _, name := range c.Place() {
			require.Contains(t, names, name)
			require.False(t, unplaced[name], "said twice")
			unplaced[name] = true
		}
		svg := c.SVG()
		require.NotContains(t, svg, "NaN")
		all := wordsIn(svg)
		require.Len(t, all, strings.Count(svg, "<text"))
		for name, lines := range names {
			for _, line := range lines {
				want := 1
				if unplaced[name] {
					want = 0
					lost++
				}
				require.Equal(t, want, strings.Count(svg, ">"+line+"</text>"), "seed %d: %s", seed, line)
			}
		}
		stood += len(all)
		for i, a := range all {
			for _, p := range a.ring {
				require.True(t, c.Bounds.Contains(p), "seed %d: %s at %v", seed, a.text, p)
			}
			for _, b := range all[i+1:] {
				require.False(t, overlap(a, b), "seed %d: %s and %s", seed, a.text, b.text)
			}
			for _, m := range leader.FindAllStringSubmatch(svg, -1) {
				s := segments(m[0])[0]
				for k := range 4 {
					require.False(t, crosses(s[0], s[1], a.ring[k], a.ring[k+1]), "seed %d: a leader %v crosses %s %v", seed, s, a.text, a.ring)
				}
			}
		}
	}
	require.Greater(t, stood, 3000)
	require.Greater(t, lost, 100, "some scenes are too full")
}

// Lines of what found no place are not there either, for other words.
func TestWhatIsNotDrawnKeepsNothingFree(t *testing.T) {
	c := NewCanvas(0, 0, 200, 60)
	c.Dimension(Dimension{From: orb.Point{10, 30}, To: orb.Point{190, 30}, Text: strings.Repeat("W", 30), Name: "too wide"})
	require.Equal(t, []string{"too wide"}, c.Place())
	c.PointName("name", []string{"name"}, false, 0, orb.Point{100, 30}, true)
	require.Empty(t, c.Place())
	require.Contains(t, c.SVG(), `<text x="100" y="35.01"`) // on the place itself: 30 + 0.716 x 14 / 2
	require.NotContains(t, c.SVG(), "<circle")
}

// A leader to a place on a line does not run along it, where it could not be seen.
func TestLeaderOffTheLine(t *testing.T) {
	c := NewCanvas(0, 0, 400, 400)
	c.Line([]orb.Point{{0, 200}, {205, 200}}, Structure)
	c.PointName("T", []string{"T"}, true, 0, orb.Point{200, 200}, false)
	require.Empty(t, c.Place())
	m := leader.FindString(c.SVG())
	s := segments(m)[0]
	require.Greater(t, math.Abs(s[0][1]-200), 5.0, "%v", s)
}

// A box of 4 by 2, by hand: what of segments lies in it, and what it meets.
func TestBox(t *testing.T) {
	b := box{at: orb.Point{10, 10}, along: orb.Point{1, 0}, w: 2, h: 1}
	require.InDelta(t, 4, b.length(orb.Point{0, 10}, orb.Point{20, 10}, 0), 1e-12)
	require.InDelta(t, 6, b.length(orb.Point{0, 10}, orb.Point{20, 10}, 1), 1e-12)
	require.InDelta(t, 2, b.length(orb.Point{11, 0}, orb.Point{11, 20}, 0), 1e-12)
	require.InDelta(t, math.Sqrt(8), b.length(orb.Point{0, 0}, orb.Point{20, 20}, 0), 1e-12)
	require.Zero(t, b.length(orb.Point{0, 12}, orb.Point{20, 12}, 0))
	require.Zero(t, b.length(orb.Point{10, 10}, orb.Point{10, 10}, 0))
	require.True(t, b.meets(rectangle(0, 0, 20, 20)), "within")
	require.True(t, b.meets(rectangle(9, 9.5, 10.5, 10.5)), "around")
	require.True(t, b.meets(rectangle(11, 10, 30, 30)), "across")
	require.False(t, b.meets(rectangle(12.1, 0, 30, 30)))
	turned := box{at: orb.Point{14, 10}, along: orb.Point{0, -1}, w: 2, h: 1} // from 13 to 15
	require.True(t, b.clear(&turned, 0.9))
	require.False(t, b.clear(&turned, 1.1))
	half := math.Sqrt(0.5)
	turned = box{at: orb.Point{14, 10}, along: orb.Point{half, half}, w: 1, h: 1} // its corner at 14 - sqrt 2
	require.True(t, b.clear(&turned, 0.5))
	require.False(t, b.clear(&turned, 0.6))
}

// BenchmarkPlace: 600 elements beside two shores of 5,000 places, all named and measured.
func BenchmarkPlace(b *testing.B) {
	var low, high []orb.Point
	for i := range 5000 {
		x := float64(i) * 0.15
		high = append(high, orb.Point{x, 60 + 8*math.Sin(float64(i)/3)})
		low = append(low, orb.Point{x, 100 + 8*math.Sin(float64(i)/5)})
	}
	for b.Loop() {
		c := NewCanvas(0, 0, 750, 386)
		c.Dots(Ashore(c.Bounds, [][]orb.Point{high}))
		shore := c.LineOf(0, high, Shore)
		c.LineOf(0, low, LowShore)
		for i := range 600 {
			x, y := float64(i%60)*12, 130+float64(i/60)*22
			area := orb.Polygon{rectangle(x, y, x+8, y+12)}
			c.Hatch(area, 45, 5.5, Hair)
			owner := c.AreaOf(0, area, Structure)
			c.Keep(area, owner)
			c.PointName("", []string{fmt.Sprint(i)}, true, owner, Middle(area), true)
			c.Dimension(Dimension{From: orb.Point{x, y}, To: orb.Point{x + 8, y}, Text: "8.00", Name: "length", Away: orb.Point{0, -1}, Far: 8})
		}
		c.LineName("shore", []string{"MEAN HIGH WATER"}, true, shore, high)
		b.ReportMetric(float64(len(c.Place())), "unplaced")
	}
}
