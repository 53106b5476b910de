package drawing

import (
	"math"
	"slices"

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
