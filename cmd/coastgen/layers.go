package main

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

var layerNames = []string{"mhw", "mlw", "seagrass", "channels", "riparian", "parcels", "wetlands", "habitat", "preserve", "surveyed", "proposals"}

// Heights of the tidal lines over NAVD88, in feet.
const highWater, lowWater = 0.62, -1.58

// quiet is a place round a proposal that brings what it is measured from; nothing
// else is put there.
type quiet struct {
	middle point
	radius float64
}

// write writes a stretch with all that lies on it.
func (c *coast) write(p plane, rng *rand.Rand, s *stretch) {
	c.lines(p, rng, s)
	places := c.propose(p, rng, s)
	taken := func(a point) bool {
		return slices.ContainsFunc(places, func(q quiet) bool { return a.distance(q.middle) < q.radius })
	}
	ripe := rng.Float64() < 0.6 // whether its riparian lines are drawn
	c.lots(p, s, func(a, b point) {
		if ripe && !taken(a) && !taken(b) {
			c.put("riparian", p, c.named("riparian", "R"), line(a, b))
		}
	})
	c.seagrass(p, rng, s, taken)
	if s.kind == "natural" {
		c.fringes(p, rng, s, taken)
	}
	c.channels(p, rng, s)
}

func (c *coast) put(layer string, p plane, f fields, s shape) { c.layers[layer].put(p, f, s) }

// named are the properties of the next feature of a layer.
func (c *coast) named(layer, prefix string) fields {
	return named(prefix, c.layers[layer].features+1)
}

// lines writes the tidal lines; half of them were digitised the other way.
func (c *coast) lines(p plane, rng *rand.Rand, s *stretch) {
	accuracy := []float64{0.1, 0.5, 2, 4}[rng.IntN(4)]
	for _, pair := range [][2][]point{{s.mhw, s.mlw}, {s.ring, s.low}} {
		if pair[0] == nil {
			continue
		}
		side, high, low := "water_left", slices.Clone(pair[0]), pair[1]
		if rng.IntN(2) == 0 {
			side = "water_right"
			slices.Reverse(high)
		}
		c.put("mhw", p, c.named("mhw", "H").number("elevation_ft", highWater).number("accuracy_ft", accuracy).text("side", side), line(high...))
		c.put("mlw", p, c.named("mlw", "L").number("elevation_ft", lowWater).number("accuracy_ft", accuracy), line(low...))
	}
}

// lots writes the parcels behind the shore and hands over the riparian lines from
// their corners.
func (c *coast) lots(p plane, s *stretch, riparian func(a, b point)) {
	if s.kind != "canal" {
		c.shoreLots(p, s, riparian)
	}
	for _, k := range s.canals {
		c.canalLots(p, k, riparian)
	}
}

func (c *coast) parcel(p plane, ring ...point) {
	number := fmt.Sprintf("MB-%06d", c.layers["parcels"].features+1)
	c.put("parcels", p, fields{}.text("parcel_id", number), polygon(append(ring, ring[0])))
}

// shoreLots cuts the land behind a natural or walled shore at its corners.
func (c *coast) shoreLots(p plane, s *stretch, riparian func(a, b point)) {
	const back, intoWater = 35.0, 45.0
	last, since, at := -1, 0.0, 0
	for _, i := range s.corners {
		since += length(s.mhw[at : i+1])
		at = i
		if last >= 0 && since < c.front {
			continue
		}
		if last >= 0 {
			since -= c.front
			ring := slices.Clone(s.mhw[last : i+1])
			deep := slices.MinFunc(ring, func(a, b point) int { return cmp.Compare(a.y, b.y) }).y - back
			c.parcel(p, append(ring, point{s.mhw[i].x, deep}, point{s.mhw[last].x, deep})...)
		} else {
			since = 0
		}
		riparian(s.mhw[i], s.mhw[i].plus(point{0, intoWater}))
		last = i
	}
}

// canalLots cuts the land along both walls and the end of a canal.
func (c *coast) canalLots(p plane, k canal, riparian func(a, b point)) {
	n := math.Max(1, math.Round(-k.end/c.front))
	for _, side := range []struct{ wall, into float64 }{{k.left, 1}, {k.right, -1}} {
		for i := range int(n) {
			y0, y1 := k.end*float64(i)/n, k.end*float64(i+1)/n
			back := side.wall - side.into*lotDepth
			c.parcel(p, point{side.wall, y0}, point{back, y0}, point{back, y1}, point{side.wall, y1})
			if i > 0 {
				riparian(point{side.wall, y0}, point{side.wall + side.into*0.45*(k.right-k.left), y0})
			}
		}
	}
	c.parcel(p, point{k.left, k.end}, point{k.left, k.end - lotDepth}, point{k.right, k.end - lotDepth}, point{k.right, k.end})
}
