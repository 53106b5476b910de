package levels

import (
	"fmt"
	"math"
)

// bandClasses are the styles of the bands between the limits.
var bandClasses = [3]string{"margin", "best", "margin"}

// bands fills the elevations of each band of growth that is known.
func (c *chart) bands() {
	at := c.t.Targets
	for k, class := range bandClasses {
		low, high := float64(at[k].Metres), float64(at[k+1].Metres)
		if !math.IsNaN(low + high) {
			c.line(`<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" class="%s"/>`, plotLeft, c.y(high), plotRight-plotLeft, c.y(low)-c.y(high), class)
		}
	}
}

// bandNames writes the bands where the curve is not: at the right, but the
// uppermost at the left.
func (c *chart) bandNames() {
	at := c.t.Targets
	var labels []label
	for k, b := range []Band{LowMargin, BestGrowth, HighMargin} {
		low, high := float64(at[k].Metres), float64(at[k+1].Metres)
		if !math.IsNaN(low + high) {
			text := fmt.Sprintf("%s: %g to %g %%, %s to %s ft", b, BandLimits[k], BandLimits[k+1], at[k].feet(), at[k+1].feet())
			labels = append(labels, label{y: c.clear(c.y(low), c.y(high)), text: text, class: "band in-" + bandClasses[k]})
		}
	}
	if v := float64(at[0].Metres); !math.IsNaN(v) {
		labels = append(labels, label{y: c.clear(math.Min(c.y(v)+4*labelApart, plotBottom), c.y(v)), text: fmt.Sprintf("%s (under 10 %%)", TooLow), class: "band"})
	}
	for _, l := range spread(labels, labelApart, plotTop, plotBottom-labelApart/2) {
		c.end(plotRight-livingWidth-6, l.at+4, l.class, l.text)
	}
	if v := float64(at[3].Metres); !math.IsNaN(v) {
		c.text(plotLeft+8, c.clear(c.y(v), math.Max(c.y(v)-4*labelApart, plotTop))+4, "band", fmt.Sprintf("%s (over 55 %%)", TooHigh))
	}
}

// clear is where between two heights of the chart a label stands farthest from
// the crest and the datums, as far as it matters; else in the middle.
func (c *chart) clear(below, above float64) float64 {
	const enough, edge = 12.0, 9.0 // half a line and a little
	lines := []float64{c.crestAt()}
	for _, v := range c.t.datums {
		lines = append(lines, v)
	}
	middle := (below + above) / 2
	best, most := middle, -1.0
	for off := 0.0; off == 0 || off <= (below-above)/2-edge; off++ {
		for _, at := range []float64{middle + off, middle - off} {
			room := enough
			for _, v := range lines {
				if !math.IsNaN(v) {
					room = math.Min(room, math.Abs(c.y(v)-at))
				}
			}
			if room > most {
				best, most = at, room
			}
		}
	}
	return best
}

// limits drops the bounds of the bands from the curve to the scale.
func (c *chart) limits() {
	for _, target := range c.t.Targets {
		if v := float64(target.Metres); !math.IsNaN(v) {
			x := c.x(float64(target.Percent))
			c.stroke("edge", plotLeft, c.y(v), plotRight, c.y(v))
			c.stroke("drop", x, c.y(v), x, plotBottom)
			if target.Percent == 55 { // the scale has the others
				c.middle(x, plotBottom+20, "", "55")
			}
		}
	}
	c.bandNames()
}
