package main

import (
	"math"
	"math/rand/v2"
)

// around is a figure far under, far over, or near or at a limit; near is half a step
// and a twentieth of one.
func around(rng *rand.Rand, limit, under, over, step float64) float64 {
	return []float64{under, limit - 0.5*step, limit - 0.05*step, limit, limit + 0.05*step, limit + 0.5*step, over}[rng.IntN(7)]
}

// aim draws the structure round one of the limits of the built-in books; those of
// long structures need a wall.
func (d *design) aim(rng *rand.Rand, wall bool) {
	of := aims
	if wall && rng.IntN(2) == 0 {
		of = longAims
	}
	of[rng.IntN(len(of))](d, rng)
}

// plain is what every book would let pass but for what an aim changes.
func (d *design) plain(rng *rand.Rand, lengths ...float64) {
	d.kind, d.material, d.fill = choose(rng, "breakwater", "sill"), choose(rng, "oyster shell", "shell bags", "rock"), "no"
	d.form = choose(rng, "LineString", "Polygon")
	d.lengths, d.width, d.reach, d.crest = lengths, 5, 8, -0.5
	d.open(6)
	d.top = 2
}

// equal are elements that with openings of 6 ft come to a length.
func equal(total float64) []float64 {
	n := math.Ceil(total / 75)
	out := make([]float64, int(n))
	for i := range out {
		out[i] = (total - 6*(n-1)) / n
	}
	return out
}

var aims = []func(*design, *rand.Rand){
	func(d *design, rng *rand.Rand) { // reach from mean high water
		d.plain(rng, 40, 30)
		d.reach = around(rng, 10, 6, 16, 1)
	},
	func(d *design, rng *rand.Rand) { // run without an opening
		d.plain(rng, 30, around(rng, 75, 60, 95, 1))
	},
	func(d *design, rng *rand.Rand) { // width of an opening
		d.plain(rng, 45, 48)
		d.open(around(rng, 5, 2, 9, 1))
	},
	func(d *design, rng *rand.Rand) { // crest
		d.plain(rng, 40)
		d.crest = around(rng, 0, -1, 1, 1)
	},
	func(d *design, rng *rand.Rand) { // distance to seagrass
		d.plain(rng, 50, 40)
		d.material, d.reach, d.grass = "oyster shell", 18, around(rng, 50, 15, 90, 1)
	},
	func(d *design, rng *rand.Rand) { // seagrass covered
		d.plain(rng, 50)
		d.grass = around(rng, 0, -3, 5, 1)
	},
	func(d *design, rng *rand.Rand) { // riparian lines
		d.plain(rng, 30)
		d.riparian = around(rng, 25, 4, 60, 1)
	},
	func(d *design, rng *rand.Rand) { // reach from mean low water
		d.plain(rng, 60)
		d.lowReach = around(rng, 30, 12, 55, 1)
	},
	func(d *design, rng *rand.Rand) { // fill to a foot of bank
		d.plain(rng, 70)
		d.kind, d.form, d.width, d.top, d.bed = "seawall", "Polygon", 9, 5, -3
		d.reach = 10
		d.crest = d.bed + around(rng, 1, 0.4, 1.6, 0.1)*27*d.span()/d.section()
	},
	func(d *design, rng *rand.Rand) { // stone, least
		d.armour(rng)
		d.stone = around(rng, 1, 0.5, 1.6, 0.2)
	},
	func(d *design, rng *rand.Rand) { // stone, greatest
		d.armour(rng)
		d.stone = around(rng, 3, 2.2, 4, 0.2)
	},
	func(d *design, rng *rand.Rand) { // side slope
		d.armour(rng)
		d.slope = around(rng, 2, 1.5, 2.6, 0.2)
		d.width = 2*d.slope*(d.crest-d.bed) + 0.3
	},
	func(d *design, rng *rand.Rand) { // reach of riprap
		d.armour(rng)
		d.reach = around(rng, 8, 6.5, 12, 1)
	},
	func(d *design, rng *rand.Rand) { // wetland under riprap
		d.armour(rng)
		d.lengths, d.wetland = []float64{60}, around(rng, 100, 40, 180, 2)
	},
}

var longAims = []func(*design, *rand.Rand){
	func(d *design, rng *rand.Rand) { // overall length, and length of bank
		d.plain(rng, equal(around(rng, 500, 380, 640, 1))...)
	},
	func(d *design, rng *rand.Rand) { // area
		d.plain(rng, equal(420)...)
		d.form, d.material, d.reach, d.crest = "Polygon", "oyster shell", 45, -1
		// Seven decimals leave some 10 sq ft of a quarter of an acre open.
		d.width = around(rng, 10890, 8000, 14000, 40) / sum(d.lengths)
	},
	func(d *design, rng *rand.Rand) { // length of a bulkhead
		d.plain(rng, around(rng, 1000, 800, 1060, 1))
		d.kind, d.material, d.width, d.top, d.reach = "bulkhead", "concrete", 2, 1.5, 3
	},
}

// section is the volume in cubic feet of one foot of height of a mound on each of its
// elements, with all sides sloped evenly up to the crest: the prismoidal formula.
func (d *design) section() (volume float64) {
	in := (d.width - d.top) / 2
	for _, l := range d.lengths {
		volume += (l*d.width + 4*(l-in)*(d.width-in) + (l-2*in)*d.top) / 6
	}
	return volume
}
