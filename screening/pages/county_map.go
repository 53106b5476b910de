package pages

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"
)

const (
	// overviewWide and smallWide are how wide maps are, in pixels, before they are fitted to
	// the page, overviewHigh and smallHigh how high at most.
	overviewWide, overviewHigh = 1000.0, 720.0
	smallWide, smallHigh       = 340.0, 180.0
	// leastHigh is how high a map is at least, in pixels: those of water bodies, which stand
	// beside each other, are all alike.
	leastHigh = smallHigh
	// mapMargin is kept free round what is drawn, in pixels.
	mapMargin = 14.0
	// thinnedTo is how far, in pixels, a line may be drawn off itself: less than is seen.
	thinnedTo = 0.25
	// mostPoints are those of all maps of a page together, overviewPoints those of the first:
	// more are slow to draw.
	mostPoints, overviewPoints = 30000, 12000
	// inPixel is how many units of a drawing are a pixel: its positions are whole numbers.
	inPixel = 10
	// joined is how far apart, in metres, the ends of fronts may lie that meet (0.1 ft: twice
	// what corners are rounded by).
	joined = 0.03
)

// mapped are fronts as maps draw them.
type mapped struct {
	fronts []drawnFront
}

// drawnFront is a front with what it comes to.
type drawnFront struct {
	of       class
	water    string
	strand   int
	from, to float64
	line     []orb.Point // degrees
}

func (m *mapped) add(f *Front, of class) {
	m.fronts = append(m.fronts, drawnFront{of, f.Water, f.Strand, f.From, f.To, f.Line})
}

// stretches are fronts in their order along the shore, those of one class that follow each
// other as one line. The hardest come first.
func stretches(fronts []drawnFront) []drawnFront {
	var made []drawnFront
	for _, f := range fronts {
		if n := len(made) - 1; n >= 0 && made[n].of == f.of && made[n].strand == f.strand && math.Abs(made[n].to-f.from) < joined {
			made[n].line, made[n].to = append(made[n].line, f.line...), f.to
			continue
		}
		f.line = slices.Clone(f.line)
		made = append(made, f)
	}
	slices.SortStableFunc(made, func(a, b drawnFront) int { return order(b.of) - order(a.of) })
	return made
}

// order is in which order classes lie above each other, the uppermost 0.
func order(c class) int {
	return [...]int{0, 1, 2, 3, 4, 5, 7, 6}[c]
}

// settle puts the fronts in their order along the shore.
func (m *mapped) settle() {
	slices.SortStableFunc(m.fronts, func(a, b drawnFront) int {
		return cmp.Or(cmp.Compare(a.strand, b.strand), cmp.Compare(a.from, b.from))
	})
}

// of are the fronts of a water body.
func (m *mapped) of(waters []*water) map[string][]drawnFront {
	made := map[string][]drawnFront{}
	for _, w := range waters {
		made[w.name] = nil
	}
	for _, f := range m.fronts {
		if _, asked := made[f.water]; asked {
			made[f.water] = append(made[f.water], f)
		}
	}
	return made
}

// chart is a map: north up, in a frame in pixels.
type chart struct {
	wide, high  float64
	west, north float64 // of the frame, in degrees
	across, up  float64 // pixels in a degree of longitude, of latitude
	shift       float64 // longitude that the others are counted round
}

// newChart fits what is drawn into a frame.
func newChart(bound orb.Bound, shift, wide, high float64) chart {
	middle := bound.Center()
	narrow := math.Cos(middle[1] * math.Pi / 180)
	east, north := math.Max((bound.Max[0]-bound.Min[0])*narrow, 1e-6), math.Max(bound.Max[1]-bound.Min[1], 1e-6)
	up := math.Min((wide-2*mapMargin)/east, (high-2*mapMargin)/north)
	c := chart{wide: wide, across: up * narrow, up: up, shift: shift}
	c.high = math.Min(high, math.Max(up*north+2*mapMargin, leastHigh))
	c.west, c.north = middle[0]-wide/2/c.across, middle[1]+c.high/2/up
	return c
}

// at is a place in pixels from the upper left.
func (c *chart) at(p orb.Point) orb.Point {
	return orb.Point{(c.round(p[0]) - c.west) * c.across, (c.north - p[1]) * c.up}
}

// round is a longitude counted from that which others are counted round, so that no shore is
// parted at the antimeridian.
func (c *chart) round(lon float64) float64 { return math.Remainder(lon-c.shift, 360) + c.shift }

// boundOf is the bound of fronts, with longitudes counted round one.
func boundOf(fronts []drawnFront, shift float64) orb.Bound {
	round := chart{shift: shift}
	made := orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}
	for _, f := range fronts {
		for _, p := range f.line {
			made = made.Extend(orb.Point{round.round(p[0]), p[1]})
		}
	}
	return made
}

// lines are what is drawn of stretches, a path a class, with no more than so many points: the
// more there are the more is thinned, and what is then too short for a line is a dot. The
// lowest comes first.
func (c *chart) lines(stretches []drawnFront, most int) (drawn template.HTML, points int) {
	pixels := make([]orb.LineString, len(stretches))
	for i, s := range stretches {
		for _, p := range s.line {
			pixels[i] = append(pixels[i], c.at(p))
		}
	}
	for off := thinnedTo; ; off *= 1.5 {
		if drawn, points = pathsOf(stretches, pixels, off); points <= most {
			return drawn, points
		}
	}
}

// pathsOf draws lines in pixels, so far off themselves at most.
func pathsOf(stretches []drawnFront, pixels []orb.LineString, off float64) (template.HTML, int) {
	var b strings.Builder
	points := 0
	for at := 0; at < len(stretches); {
		of := stretches[at].of
		var d strings.Builder
		done := map[[4]int]bool{}
		x, y := 0, 0
		for ; at < len(stretches) && stretches[at].of == of; at++ {
			line := whole(simplify.DouglasPeucker(off).LineString(pixels[at].Clone()), off)
			if len(line) < 3 { // many may be the same
				key := [4]int{line[0][0], line[0][1], line[len(line)-1][0], line[len(line)-1][1]}
				if done[key] {
					continue
				}
				done[key] = true
			}
			for n, p := range line {
				command := 'l'
				if n == 0 {
					command = 'm'
				}
				fmt.Fprintf(&d, "%c%d %d", command, p[0]-x, p[1]-y)
				x, y = p[0], p[1]
			}
			if len(line) == 1 {
				d.WriteString("h0")
			}
			points += len(line) * len(of.strokes())
		}
		for _, stroke := range of.strokes() {
			fmt.Fprintf(&b, `<path class="%s" d="%s"/>`, stroke, d.String())
		}
	}
	return template.HTML(b.String()), points
}

// strokes are how a line of a class is drawn, one over another: what is not known is hollow.
func (c class) strokes() []string {
	if c == notKnown {
		return []string{c.mark(), c.mark() + " inner"}
	}
	return []string{c.mark()}
}

// whole are positions in units of the drawing, as near as they may be drawn off themselves,
// each but once in a row.
func whole(line orb.LineString, off float64) [][2]int {
	step := math.Max(1, math.Round(inPixel*off*0.7)) // half a diagonal of it is off by half of that
	var made [][2]int
	for _, p := range line {
		at := [2]int{int(math.Round(p[0]*inPixel/step) * step), int(math.Round(p[1]*inPixel/step) * step)}
		if len(made) == 0 || at != made[len(made)-1] {
			made = append(made, at)
		}
	}
	return made
}

// metresInDegree is the length of a degree of latitude, in metres, on a sphere of the Earth's
// mean radius: a bar for scale needs no better.
const metresInDegree = math.Pi / 180 * 6371008.8

const (
	metresInMile = 1609.344
	feetInMile   = 5280
)

// scaleBar is a length in round figures that takes up to a third of the chart: pixels and
// words.
func (c *chart) scaleBar() (float64, string) {
	inMile := metresInMile / metresInDegree * c.up
	most := c.wide / 3
	best, text := 0.0, ""
	for _, feet := range []float64{10, 20, 50, 100, 200, 500, 1000, 2000} {
		if long := feet / feetInMile * inMile; long <= most {
			best, text = long, grouped(int(feet))+" ft"
		}
	}
	for _, miles := range []float64{0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000} {
		if long := miles * inMile; long <= most {
			best, text = long, fmt.Sprintf("%g mi", miles)
		}
	}
	return best, text
}

// twice is how many miles of shore more than one parcel fronts, beyond the first; the fronts
// have been put in order.
func (m *mapped) twice() float64 {
	metres, end, strand := 0.0, 0.0, -1
	for _, f := range m.fronts {
		if f.strand != strand {
			strand, end = f.strand, f.from
		}
		metres += math.Max(0, math.Min(end, f.to)-f.from)
		end = math.Max(end, f.to)
	}
	return metres / metresInMile
}
