package drawing

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
)

// span is a piece of a hatching line.
type span struct{ at, from, to float64 }

// spans are what of parallel lines, level once turned, lies within an area.
func spans(area orb.Polygon, turn func(orb.Point) orb.Point, apart float64) []span {
	crossings := map[int][]float64{}
	for _, ring := range area {
		for i := 1; i < len(ring); i++ {
			a, b := turn(ring[i-1]), turn(ring[i])
			if a[1] > b[1] {
				a, b = b, a
			}
			for k := int(math.Ceil(a[1] / apart)); float64(k)*apart < b[1]; k++ {
				t := (float64(k)*apart - a[1]) / (b[1] - a[1])
				crossings[k] = append(crossings[k], a[0]+t*(b[0]-a[0]))
			}
		}
	}
	var rows []int
	for k := range crossings {
		rows = append(rows, k)
	}
	slices.Sort(rows)
	var made []span
	for _, k := range rows {
		xs := crossings[k]
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			made = append(made, span{float64(k) * apart, xs[i], xs[i+1]})
		}
	}
	return made
}

// How dots stand along the edge of land: each so far from the one before, and no farther
// from the line.
const (
	dotStep  = 3.5
	dotReach = 22
)

// Ashore are places of dots on the right of lines, near them: where the land is if the water
// is on their left. They look thrown, and lie where they lay before.
func Ashore(bounds orb.Bound, lines [][]orb.Point) []orb.Point {
	var dots []orb.Point
	throw := uint32(1)
	next := func() float64 { // a linear congruential generator, after Numerical Recipes
		throw = throw*1664525 + 1013904223
		return float64(throw>>8) / (1 << 24)
	}
	pad := bounds.Pad(dotReach)
	drawn := make([][]orb.Point, len(lines))
	for i, line := range lines {
		drawn[i] = drawable(line)
	}
	for _, line := range drawn {
		for i := 1; i < len(line); i++ {
			for _, piece := range clip.LineString(pad, orb.LineString{line[i-1], line[i]}) {
				long := distance(piece[0], piece[1])
				if long == 0 {
					continue
				}
				on := orb.Point{(piece[1][0] - piece[0][0]) / long, (piece[1][1] - piece[0][1]) / long}
				right := orb.Point{-on[1], on[0]} // down the paper is positive
				for s := next() * dotStep; s < long; s += dotStep {
					p := shifted(shifted(piece[0], on, s), right, 2+(dotReach-2)*next()*next())
					if bounds.Contains(p) && rightOf(drawn, p) {
						dots = append(dots, p)
					}
				}
			}
		}
	}
	return dots
}

// rightOf reports whether a place lies on the right of that of some lines which is nearest.
func rightOf(lines [][]orb.Point, p orb.Point) bool {
	least, right := math.Inf(1), false
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			a, b := line[i-1], line[i]
			if d := off(p, a, b); d < least {
				least, right = d, (b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0]) > 0
			}
		}
	}
	return right
}

// off is how far a place lies off a segment.
func off(p, a, b orb.Point) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := 0.0
	if along := dx*dx + dy*dy; along > 0 {
		t = min(1, max(0, ((p[0]-a[0])*dx+(p[1]-a[1])*dy)/along))
	}
	return math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy)
}

// Hatch fills an area with lines at an angle, in degrees, so far apart.
func (c *Canvas) Hatch(area orb.Polygon, degrees, apart float64, pen Pen) {
	kept := make(orb.Polygon, len(area))
	for i, ring := range area {
		kept[i] = orb.Ring(drawable(ring))
	}
	area = clip.Polygon(c.Bounds, kept)
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	turn := func(p orb.Point) orb.Point { return orb.Point{p[0]*cos + p[1]*sin, -p[0]*sin + p[1]*cos} }
	var path strings.Builder
	for _, span := range spans(area, turn, apart) {
		p := orb.Point{span.from*cos - span.at*sin, span.from*sin + span.at*cos}
		q := orb.Point{span.to*cos - span.at*sin, span.to*sin + span.at*cos}
		path.WriteString(straight([]orb.Point{p, q}))
	}
	c.mark(path.String(), pen)
}

// Dots puts a dot at each place.
func (c *Canvas) Dots(places []orb.Point) {
	var path strings.Builder
	for _, p := range places {
		if c.Bounds.Contains(p) {
			path.WriteString("M" + num(p[0]) + " " + num(p[1]) + "h.01")
		}
	}
	if path.Len() > 0 {
		c.marks.WriteString(`<path d="` + path.String() + `" fill="none" stroke="#000" stroke-width="1.1" stroke-linecap="round"/>`)
	}
}

// Fill blackens an area.
func (c *Canvas) Fill(ring ...orb.Point) {
	c.marks.WriteString(fillText(ring...))
}

func fillText(ring ...orb.Point) string {
	return `<path d="` + straight(ring) + `z" fill="#000"/>`
}

// Arrow draws an arrow from a place in a direction, so long, if all of it lies on the canvas.
func (c *Canvas) Arrow(from, direction orb.Point, long float64) {
	if to := shifted(from, direction, long); c.holds(arrowWide, from, to) {
		c.Line([]orb.Point{from, shifted(from, direction, long-arrowLong/2)}, Edge)
		c.marks.WriteString(arrow(to, direction, -1))
	}
}

// Middle is a place in an area as far from its edges as a look at a few finds one, the middle
// of its box if that is as good.
func Middle(area orb.Polygon) orb.Point {
	b := area.Bound()
	best, most, aside := b.Center(), -1.0, 0.0
	const steps = 9
	for i := range steps {
		for j := range steps {
			x, y := (i+steps/2)%steps, (j+steps/2)%steps
			at := orb.Point{b.Min[0] + (float64(x)+0.5)/steps*(b.Max[0]-b.Min[0]), b.Min[1] + (float64(y)+0.5)/steps*(b.Max[1]-b.Min[1])}
			if !within([]orb.Polygon{area}, at) {
				continue
			}
			least := math.Inf(1)
			for _, ring := range area {
				for k := 1; k < len(ring); k++ {
					least = min(least, off(at, ring[k-1], ring[k]))
				}
			}
			// Of those about as far, the nearest to the middle of all.
			by := distance(at, b.Center())
			if least > most*1.01 || least > most*0.99 && by < aside {
				best, most, aside = at, least, by
			}
		}
	}
	return best
}
