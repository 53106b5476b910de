package levels

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// The chart, in its own units: the plot in the middle, elevations on its left,
// the datums and the crest on its right, what must be said below.
const (
	chartWidth             = 1000
	plotLeft, plotRight    = 84.0, 740.0
	plotTop, plotBottom    = 116.0, 596.0
	labelLeft              = 774.0 // of the datums
	labelApart             = 17.0  // between the lines of two labels
	livingWidth            = 8.0   // of the bar of live oysters
	curvePoints            = 300   // pieces of the curve: two units of the chart each
	crestCols              = 104   // letters in a line of each size
	titleLetters, noteCols = 76, 162
)

// The colours differ in lightness too, so that a grey print and every eye can
// tell them apart: white, pale, darker for growth; the crest has the one warm
// colour and a line of its own weight.
const chartStyle = `text { font-family: Helvetica, Arial, sans-serif; font-size: 13px; fill: #14212b }
.title { font-size: 20px; font-weight: bold } .note { font-size: 11px; fill: #3c4a54 } .bold { font-weight: bold }
.band { font-size: 12px; paint-order: stroke; stroke: #fff; stroke-width: 4px; stroke-linejoin: round } .in-best { stroke: #7cc0a4; font-weight: bold } .in-margin { stroke: #d5ebe0 }
.grid { stroke: #dde3e7; stroke-width: 1 } .frame { fill: none; stroke: #14212b; stroke-width: 1.2 } .tick { stroke: #14212b; stroke-width: 1.2 }
.best { fill: #7cc0a4 } .margin { fill: #d5ebe0 } .edge { stroke: #2e6e56; stroke-width: 1 } .drop { stroke: #2e6e56; stroke-width: 1.2; stroke-dasharray: 2 3 }
.datum { stroke: #5b6b76; stroke-width: 1.1; stroke-dasharray: 8 4 } .lead { stroke: #5b6b76; stroke-width: 0.8; fill: none }
.curve { fill: none; stroke: #123a6b; stroke-width: 3; stroke-linejoin: round } .doubt { fill: #123a6b; fill-opacity: 0.13 }
.living { fill: #6b4fa0; fill-opacity: 0.85 } .alive { fill: #4b3573 }
.crest { stroke: #b8380f; stroke-width: 3; fill: none } .warm { fill: #b8380f } .spot { fill: #fff; stroke: #b8380f; stroke-width: 2.5 }`

// chart is an exposure table being drawn.
type chart struct {
	*page
	t         *ExposureTable
	low, high float64 // m above the datum of the table, the ends of the plot
}

// Chart draws the table as SVG: the curve of exposure over elevation, the
// datums of the site, the bands of growth, the crest, the source, the cautions.
func (t *ExposureTable) Chart(w io.Writer) error {
	c := &chart{page: &page{w: w}, t: t}
	c.scale()
	notes := c.notes()
	tall := int(plotBottom) + 72 + 15*len(notes)
	title := fmt.Sprintf("Time exposed to air at %s", t.Of)
	c.line(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" role="img" aria-label="%s">`, chartWidth, tall, chartWidth, tall, escaped(title))
	c.line("<title>%s</title>\n<style>\n%s\n</style>", escaped(title), chartStyle)
	c.line(`<rect width="%d" height="%d" fill="#fff"/>`, chartWidth, tall)
	c.text(20, 34, "title", shortened(title, titleLetters))
	c.text(20, 57, "", shortened(capital(t.basis()), 140))
	if t.Crest != nil {
		for i, line := range wrapped(shortened("Crest "+t.says(t.Crest), 2*crestCols-20), crestCols) {
			c.text(20, 80+16*float64(i), "bold", line)
		}
	}
	c.bands()
	c.axes()
	c.datumLines()
	c.curve()
	c.limits()
	c.living()
	c.crest()
	for i, note := range notes {
		c.text(20, plotBottom+68+15*float64(i), "note", note)
	}
	c.line("</svg>")
	return c.err
}

// scale makes the plot hold the curve, the datums and the crest, and a little
// more.
func (c *chart) scale() {
	c.low, c.high = c.t.exposure.span()
	for _, v := range c.t.datums {
		if c.within(v) {
			c.low, c.high = math.Min(c.low, v), math.Max(c.high, v)
		}
	}
	if at := c.crestAt(); !math.IsNaN(at) {
		c.low, c.high = math.Min(c.low, at), math.Max(c.high, at)
	}
	if l := c.t.Living; l != nil && c.within(float64(l.Bottom.Metres)) && c.within(float64(l.Top.Metres)) {
		c.low, c.high = math.Min(c.low, float64(l.Bottom.Metres)), math.Max(c.high, float64(l.Top.Metres))
	}
	room := math.Max(0.05*(c.high-c.low), 0.01)
	c.low, c.high = c.low-room, c.high+room
}

// within says whether a level lies among the others or no farther off than they
// do: a NAVD88 or another zero far away would leave them no room.
func (c *chart) within(v float64) bool {
	room := (c.high - c.low) / 2
	return v > c.low-room && v < c.high+room
}

func (c *chart) crestAt() float64 {
	if c.t.Crest == nil {
		return math.NaN()
	}
	return float64(c.t.Crest.Metres)
}

// y is where an elevation is drawn, x where a percentage is.
func (c *chart) y(metres float64) float64 {
	return plotBottom - (metres-c.low)/(c.high-c.low)*(plotBottom-plotTop)
}

func (c *chart) x(percent float64) float64 { return plotLeft + percent/100*(plotRight-plotLeft) }

// axes draws the grid, the frame and the two scales.
func (c *chart) axes() {
	low, high := Feet.from(c.low), Feet.from(c.high)
	step := roundStep((high - low) / 12)
	places := max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	for k := math.Ceil(low / step); k*step <= high; k++ {
		y := c.y(Feet.Metres(k * step))
		c.stroke("grid", plotLeft, y, plotRight, y)
		c.stroke("tick", plotLeft-5, y, plotLeft, y)
		c.end(plotLeft-9, y+4.5, "", decimal(k*step, places))
	}
	for percent := 0.0; percent <= 100; percent += 10 {
		x := c.x(percent)
		c.stroke("grid", x, plotTop, x, plotBottom)
		c.stroke("tick", x, plotBottom, x, plotBottom+5)
		c.middle(x, plotBottom+20, "", decimal(percent, 0))
	}
	c.line(`<rect x="%g" y="%g" width="%g" height="%g" class="frame"/>`, plotLeft, plotTop, plotRight-plotLeft, plotBottom-plotTop)
	c.middle((plotLeft+plotRight)/2, plotBottom+42, "bold", "Share of the time exposed to air, %")
	c.line(`<text x="0" y="0" text-anchor="middle" class="bold" transform="translate(26 %.1f) rotate(-90)">Elevation, ft above %s</text>`, (plotTop+plotBottom)/2, c.t.Datum)
}

// roundStep is the least of 1, 2 and 5 times a power of ten that is no less.
func roundStep(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, times := range []float64{1, 2, 5} {
		if times*power >= least {
			return times * power
		}
	}
	return 10 * power
}

// curve draws the exposure, with how far it may be off.
func (c *chart) curve() {
	low, high := c.t.exposure.span()
	var line, less, more []string
	for k := range curvePoints + 1 {
		at := low + (high-low)*float64(k)/curvePoints
		percent, err := c.t.exposure.Percent(at)
		if err != nil {
			continue
		}
		point := func(percent float64) string {
			return fmt.Sprintf("%.1f,%.1f", c.x(math.Min(math.Max(percent, 0), 100)), c.y(at))
		}
		line = append(line, point(percent))
		less, more = append(less, point(percent-float64(c.t.Points))), append(more, point(percent+float64(c.t.Points)))
	}
	if c.t.Points > 0 {
		slices.Reverse(more)
		c.line(`<polygon points="%s" class="doubt"/>`, strings.Join(append(less, more...), " "))
	}
	c.line(`<polyline points="%s" class="curve"/>`, strings.Join(line, " "))
}

// notes are what stands below: where from, and the cautions.
func (c *chart) notes() []string {
	texts := []string{}
	if c.t.Source != "" {
		texts = append(texts, "Source: "+c.t.Source+".")
	}
	if c.t.DatumsOf != "" {
		texts = append(texts, "Datums: "+c.t.DatumsOf+".")
	}
	if c.t.Points > 0 {
		texts = append(texts, fmt.Sprintf("The pale blue belt is %g points to either side.", float64(c.t.Points)))
	}
	for _, m := range c.t.Mind {
		texts = append(texts, capital(m)+".")
	}
	return wrapped(strings.Join(texts, " "), noteCols)
}
