package levels

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"waterward/geo/text"
)

// label is a text beside a level that is drawn at y; at is where it finds room.
type label struct {
	y, at       float64
	text, class string
}

// spread gives labels room: in the order of their levels, so far apart, none
// farther from its level than it must, all between top and bottom if they fit.
// Labels that would touch form a block about the mean of their levels.
func spread(labels []label, apart, top, bottom float64) []label {
	slices.SortStableFunc(labels, func(a, b label) int { return cmp.Compare(a.y, b.y) })
	type block struct {
		labels []label
		middle float64
	}
	within := func(b block) block {
		half := apart * float64(len(b.labels)-1) / 2
		b.middle = math.Max(top+half, math.Min(bottom-half, b.middle))
		return b
	}
	var blocks []block
	for _, l := range labels {
		next := within(block{[]label{l}, l.y})
		for len(blocks) > 0 {
			last := blocks[len(blocks)-1]
			if last.middle+apart*float64(len(last.labels)+len(next.labels))/2 <= next.middle {
				break
			}
			n, m := float64(len(last.labels)), float64(len(next.labels))
			next = within(block{append(last.labels, next.labels...), (n*last.middle + m*next.middle) / (n + m)})
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, next)
	}
	var placed []label
	for _, b := range blocks {
		for k, l := range b.labels {
			l.at = b.middle + apart*(float64(k)-float64(len(b.labels)-1)/2)
			placed = append(placed, l)
		}
	}
	return placed
}

// datumLines draws the site's datums, and the names of them and of the crest.
func (c *chart) datumLines() {
	var labels []label
	for _, d := range datums {
		v, known := c.t.datums[d]
		if !known || v < c.low || v > c.high || d == DTL { // DTL lies among MTL and MSL and would hide them
			continue
		}
		c.stroke("datum", plotLeft, c.y(v), plotRight, c.y(v))
		labels = append(labels, label{y: c.y(v), text: fmt.Sprintf("%s %s ft (%s m)", d, decimal(Feet.from(v), 2), decimal(v, 3))})
	}
	if v := c.crestAt(); !math.IsNaN(v) {
		labels = append(labels, label{y: c.y(v), class: "bold warm", text: fmt.Sprintf("crest %s ft (%s m)", c.t.Crest.feet(), c.t.Crest.metres())})
	}
	if l := c.t.Living; l != nil {
		if at := (float64(l.Bottom.Metres) + float64(l.Top.Metres)) / 2; at > c.low && at < c.high {
			labels = append(labels, label{y: c.y(at), class: "bold alive", text: fmt.Sprintf("live oysters %s to %s ft", l.Bottom.feet(), l.Top.feet())})
		}
	}
	for _, l := range spread(labels, labelApart, plotTop, plotBottom) {
		c.line(`<polyline points="%g,%.1f %g,%.1f %g,%.1f" class="lead"/>`, plotRight, l.y, plotRight+8, l.y, labelLeft-6, l.at)
		c.text(labelLeft, l.at+4.5, l.class, l.text)
	}
}

// crest draws the crest, and its place on the curve.
func (c *chart) crest() {
	v := c.crestAt()
	if math.IsNaN(v) {
		return
	}
	c.stroke("crest", plotLeft, c.y(v), plotRight, c.y(v))
	if p := float64(c.t.Crest.Percent); !math.IsNaN(p) {
		c.line(`<circle cx="%.1f" cy="%.1f" r="6" class="spot"/>`, c.x(p), c.y(v))
	}
}

// living draws where oysters live nearby, as a bar along the right edge.
func (c *chart) living() {
	if c.t.Living == nil {
		return
	}
	low, high := math.Max(float64(c.t.Living.Bottom.Metres), c.low), math.Min(float64(c.t.Living.Top.Metres), c.high)
	if low < high {
		c.line(`<rect x="%g" y="%.1f" width="%g" height="%.1f" class="living"/>`, plotRight-livingWidth, c.y(high), livingWidth, c.y(low)-c.y(high))
	}
}

func (c *chart) stroke(class string, x1, y1, x2, y2 float64) {
	c.line(`<line x1="%.1f" y1="%.1f" x2="%.1f" y2="%.1f" class="%s"/>`, x1, y1, x2, y2, class)
}

func (c *chart) write(x, y float64, anchor, class, text string) {
	c.line(`<text x="%.1f" y="%.1f" text-anchor="%s" class="%s">%s</text>`, x, y, anchor, class, escaped(text))
}

func (c *chart) text(x, y float64, class, text string)   { c.write(x, y, "start", class, text) }
func (c *chart) middle(x, y float64, class, text string) { c.write(x, y, "middle", class, text) }
func (c *chart) end(x, y float64, class, text string)    { c.write(x, y, "end", class, text) }

// escaped is a text that is nothing but text in SVG.
func escaped(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;", "\ufffe", "?", "\uffff", "?").Replace(text.Visible(s))
}

// shortened is a text of so many letters at most.
func shortened(text string, most int) string {
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most-3]) + "..."
}

// wrapped is a text in lines of so many letters at most; a longer word is cut.
func wrapped(text string, most int) []string {
	var lines []string
	for _, word := range strings.Fields(text) {
		word = shortened(word, most)
		if n := len(lines); n > 0 && utf8.RuneCountInString(lines[n-1])+1+utf8.RuneCountInString(word) <= most {
			lines[n-1] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
