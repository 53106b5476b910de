package drawing

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// A length of 100 from (100, 200), drawn 30 up the paper. By hand: extension lines begin 3 off
// and end 34 off, the line stands at 170, arrows are 9 long and 3 wide, and words, with
// capitals 0.716 x 17 high, have their middle on the line.
func TestDimensionDrawnOut(t *testing.T) {
	c := NewCanvas(0, 0, 400, 400)
	c.Dimension(Dimension{From: orb.Point{100, 200}, To: orb.Point{200, 200}, Text: "50.00 ft", Name: "length", Away: orb.Point{0, -1}, Far: 30})
	require.Empty(t, c.Place())
	svg := c.SVG()
	require.Equal(t, [][2]orb.Point{{{100, 197}, {100, 166}}, {{200, 197}, {200, 166}}, {{100, 170}, {200, 170}}}, segments(svg))
	require.Contains(t, svg, `<path d="M100 170L109 171.5L109 168.5z" fill="#000"/>`)
	require.Contains(t, svg, `<path d="M200 170L191 171.5L191 168.5z" fill="#000"/>`)
	require.Contains(t, svg, `<text x="150" y="176.09" text-anchor="middle" font-size="17">50.00 ft</text>`)
}

// One of 15 has no room for two arrows of 9: they point at it from outside, their lines 14
// long, and its words stand elsewhere.
func TestDimensionTooShort(t *testing.T) {
	c := NewCanvas(0, 0, 400, 400)
	c.Dimension(Dimension{From: orb.Point{100, 200}, To: orb.Point{115, 200}, Text: "7.50 ft", Name: "length", Away: orb.Point{0, -1}, Far: 30})
	require.Empty(t, c.Place())
	svg := c.SVG()
	require.Equal(t, [][2]orb.Point{{{100, 197}, {100, 166}}, {{115, 197}, {115, 166}}, {{86, 170}, {100, 170}}, {{115, 170}, {129, 170}}}, segments(svg)[:4])
	require.Contains(t, svg, `<path d="M100 170L91 `)
	require.Contains(t, svg, `<path d="M115 170L124 `)
	require.Equal(t, 1, strings.Count(svg, ">7.50 ft</text>"))
}

// Between the places themselves there are no extension lines; words turn with a line that
// rises, to be read from below or from the right.
func TestDimensionBetween(t *testing.T) {
	for _, ends := range [][2]orb.Point{{{100, 300}, {100, 100}}, {{100, 100}, {100, 300}}} {
		c := NewCanvas(0, 0, 400, 400)
		c.Dimension(Dimension{From: ends[0], To: ends[1], Text: "100.00 ft", Name: "length"})
		require.Empty(t, c.Place())
		require.Equal(t, [][2]orb.Point{ends}, segments(c.SVG()))
	}
	require.Equal(t, orb.Point{0, -1}, upright(orb.Point{0, 1}))
	require.Equal(t, orb.Point{0, -1}, upright(orb.Point{0, -1}))
	require.Equal(t, orb.Point{1, 0}, upright(orb.Point{-1, 0}))
}

// What cannot be drawn is said by its name, and nothing of it is drawn.
func TestDimensionThatCannotBeDrawn(t *testing.T) {
	for name, d := range map[string]Dimension{
		"no length":         {From: orb.Point{5, 5}, To: orb.Point{5, 5}},
		"no number":         {From: orb.Point{math.NaN(), 5}, To: orb.Point{50, 5}},
		"no end":            {From: orb.Point{5, 5}, To: orb.Point{math.Inf(1), 5}},
		"beyond the canvas": {From: orb.Point{100, 20}, To: orb.Point{200, 20}, Away: orb.Point{0, -1}, Far: 30},
		"an end beyond":     {From: orb.Point{100, 20}, To: orb.Point{500, 20}},
		"words too wide":    {From: orb.Point{100, 200}, To: orb.Point{200, 200}, Text: strings.Repeat("W", 40)},
	} {
		c := NewCanvas(0, 0, 400, 400)
		d.Name = name
		if d.Text == "" {
			d.Text = "1 ft"
		}
		c.Dimension(d)
		require.Equal(t, []string{name}, c.Place())
		require.Empty(t, c.SVG(), name)
	}
}
