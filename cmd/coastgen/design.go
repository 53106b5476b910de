package main

import (
	"math"
	"math/rand/v2"
	"slices"
)

// design is a structure in feet, before it has a place. NaN is what it has not.
type design struct {
	kind, material, form, fill string
	lengths, gaps              []float64
	width                      float64
	reach, lowReach            float64 // of its waterward edge from mean high or, if stated, from mean low water
	crest, bed                 float64 // over mean high water
	top                        float64 // width of its crest
	slope, stone               float64
	grass, riparian            float64 // how far off it brings some
	wetland                    float64 // how much of it lies on some, in square feet
}

// draft is a structure of everyday figures.
func draft(rng *rand.Rand) design {
	none := math.NaN()
	d := design{
		kind: choose(rng, "breakwater", "breakwater", "sill", "sill", "sill", "reef", "riprap", "bulkhead"), fill: "no",
		material: choose(rng, "oyster shell", "shell bags", "rock", "limestone", "concrete", "timber"),
		form:     choose(rng, "LineString", "Polygon", "Polygon", "Point"),
		width:    4 + 8*rng.Float64(), reach: 5 + 5*rng.Float64(), lowReach: none,
		crest: -1.5 * rng.Float64(), bed: -3 - 2*rng.Float64(),
		slope: none, stone: none, grass: none, riparian: none, wetland: none,
	}
	if rng.IntN(3) > 0 {
		d.reach = 10 + 70*rng.Float64()*rng.Float64()
	}
	d.width = math.Min(d.width, d.reach-0.5)
	if rng.IntN(12) == 0 {
		d.fill = "yes"
	}
	for range 1 + rng.IntN(4) {
		d.lengths = append(d.lengths, 15+55*rng.Float64())
	}
	d.open(5 + 4*rng.Float64())
	d.top = d.width * (0.2 + 0.3*rng.Float64())
	if d.kind == "riprap" {
		d.armour(rng)
	}
	return d
}

// armour makes it riprap against a wall.
func (d *design) armour(rng *rand.Rand) {
	d.kind, d.material, d.form = "riprap", choose(rng, "rock", "limestone", "granite"), "Polygon"
	d.lengths, d.gaps = []float64{30 + 50*rng.Float64()}, nil
	d.reach, d.crest, d.bed, d.top = 7, 0.2, -0.8, math.NaN()
	d.slope, d.stone = 2.1+0.7*rng.Float64(), 1.2+1.6*rng.Float64()
	d.width = 2*d.slope*(d.crest-d.bed) + 0.3
}

func choose(rng *rand.Rand, words ...string) string { return words[rng.IntN(len(words))] }

// open sets all gaps between its elements.
func (d *design) open(gap float64) {
	d.gaps = slices.Repeat([]float64{gap}, len(d.lengths)-1)
}

// span is its overall length.
func (d *design) span() float64 { return sum(d.lengths) + sum(d.gaps) }

func sum(all []float64) (total float64) {
	for _, v := range all {
		total += v
	}
	return total
}

// shorten takes an element away, or half of the last.
func (d *design) shorten() {
	if n := len(d.lengths); n > 1 {
		d.lengths, d.gaps = d.lengths[:n-1], d.gaps[:n-2]
		return
	}
	d.lengths[0] /= 2
}
