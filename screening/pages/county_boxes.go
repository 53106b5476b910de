package pages

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// place is where another map lies, in degrees.
type place struct {
	number   int
	name     string
	min, max [2]float64
}

const (
	// labelHigh and digitWide are the size of a box's number, in pixels.
	labelHigh, digitWide = 18.0, 10.0
	// boxLeast is how wide and high a box is at least, in pixels: it is to be touched where the map
	// is drawn smaller, too.
	boxLeast = 34.0
)

// boxes are the places of other maps with their numbers, which stand where they cover no other
// number if they can.
func (c *chart) boxes(places []place) []box {
	type rect struct{ x, y, wide, high float64 }
	var taken []rect
	var made []box
	for _, f := range places {
		a, b := c.at(orb.Point{f.min[0], f.max[1]}), c.at(orb.Point{f.max[0], f.min[1]})
		at := rect{a[0], a[1], b[0] - a[0], b[1] - a[1]}
		if grow := boxLeast - at.wide; grow > 0 {
			at.x, at.wide = at.x-grow/2, boxLeast
		}
		if grow := boxLeast - at.high; grow > 0 {
			at.y, at.high = at.y-grow/2, boxLeast
		}
		wide := digitWide*float64(len(fmt.Sprint(f.number))) + 4
		best, least := rect{}, math.Inf(1)
		for _, try := range []rect{
			{at.x, at.y - labelHigh, wide, labelHigh}, {at.x + at.wide - wide, at.y - labelHigh, wide, labelHigh},
			{at.x, at.y + at.high, wide, labelHigh}, {at.x + at.wide - wide, at.y + at.high, wide, labelHigh},
			{at.x - wide, at.y, wide, labelHigh}, {at.x + at.wide, at.y, wide, labelHigh}, {at.x, at.y, wide, labelHigh},
		} {
			covered := 0.0
			for _, t := range append(taken, rect{-1e6, -1e6, 1e6, 3e6}, rect{c.wide, -1e6, 1e6, 3e6}, rect{-1e6, -1e6, 3e6, 1e6}, rect{-1e6, c.high, 3e6, 1e6}) {
				x := math.Min(try.x+try.wide, t.x+t.wide) - math.Max(try.x, t.x)
				y := math.Min(try.y+try.high, t.y+t.high) - math.Max(try.y, t.y)
				covered += math.Max(0, x) * math.Max(0, y)
			}
			if covered < least {
				best, least = try, covered
			}
		}
		taken = append(taken, best)
		made = append(made, box{
			Number: f.number, Name: f.name, X: whole10(at.x), Y: whole10(at.y), Wide: whole10(at.wide), High: whole10(at.high),
			LabelX: whole10(best.x), LabelY: whole10(best.y), Across: whole10(wide),
		})
	}
	return made
}
