package main

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// aimed is the share of proposals drawn round a limit of the books.
const aimed = 0.45

// propose writes the proposals due by now and returns where nothing else may be put.
func (c *coast) propose(p plane, rng *rand.Rand, s *stretch) []quiet {
	var taken []quiet
	due := int(float64(c.proposals) * min(1, c.metres/(c.km*1000)))
	if c.metres >= c.km*1000-slack {
		due = c.proposals
	}
	for c.layers["proposals"].features < due {
		d := draft(rng)
		if rng.Float64() < aimed {
			d.aim(rng, s.kind == "wall")
		}
		f, found := s.pick(rng, d.span()*foot)
		for !found { // a shorter one
			d.shorten()
			f, found = s.pick(rng, d.span()*foot)
		}
		if q, brings := c.build(p, rng, f, d); brings {
			taken = append(taken, q)
		}
	}
	return taken
}

// build writes a proposal and what it brings with it.
func (c *coast) build(p plane, rng *rand.Rand, f site, d design) (quiet, bool) {
	span, shore, reach := d.span(), f.mhw, d.reach
	if !math.IsNaN(d.lowReach) {
		shore, reach = f.mlw, d.lowReach
	}
	far := f.settle(shore, span*foot, reach*foot) / foot
	if f.across > 0 { // in a canal, where no seagrass is
		far, d.grass = min(far, f.across/foot-2), math.NaN()
	}
	b := frame{f, d, span, far}
	number := c.layers["proposals"].features + 1
	drawn := b.footprint()
	properties := d.properties(rng, number, &drawn)
	c.put("proposals", p, properties, drawn)
	return quiet{f.place(span/2*foot, 0), (span + 130) * foot}, c.bring(p, rng, b)
}

// frame is a structure in its place, its waterward edge so far out, all in feet.
type frame struct {
	site
	design
	span, far float64
}

func (b frame) at(s, h float64) point { return b.place(s*foot, h*foot) }

func (b frame) box(s0, h0, s1, h1 float64) []point {
	return []point{b.at(s0, h0), b.at(s1, h0), b.at(s1, h1), b.at(s0, h1), b.at(s0, h0)}
}

// footprint draws the elements.
func (b frame) footprint() shape {
	drawn, s, middle := shape{form: b.form}, 0.0, b.far-b.width/2
	for i, l := range b.lengths {
		switch b.form {
		case "Point": // as many discs as find room
			n := math.Max(1, math.Floor(l/(b.width+0.5)))
			for j := range int(n) {
				drawn.parts = append(drawn.parts, [][]point{{b.at(s+l*(float64(j)+0.5)/n, middle)}})
			}
		case "LineString":
			drawn.parts = append(drawn.parts, [][]point{{b.at(s, middle), b.at(s+l, middle)}})
		default:
			drawn.parts = append(drawn.parts, [][]point{b.box(s, b.far-b.width, s+l, b.far)})
		}
		if s += l; i < len(b.gaps) {
			s += b.gaps[i]
		}
	}
	return drawn
}

// bring writes what a structure brings to be measured from, and says whether it does.
func (c *coast) bring(p plane, rng *rand.Rand, b frame) (some bool) {
	if g := b.grass; !math.IsNaN(g) {
		some = true
		const over, vertices, deep = 10.0, 60, 20.0
		left, right, near := -over, b.span+over, b.far+g
		ring := []point{b.at(left, near), b.at(right, near)}
		for i := range vertices {
			ring = append(ring, b.at(right-(right-left)*float64(i)/(vertices-1), b.far+math.Max(0, g)+deep*(1+rng.Float64()/2)))
		}
		c.put("seagrass", p, c.named("seagrass", "S").text("cover", "continuous"), polygon(append(ring, ring[0])))
		c.beds--
	}
	if r := b.riparian; !math.IsNaN(r) {
		some = true
		end := b.far + 80
		if b.across > 0 {
			end = min(end, b.across/foot-2)
		}
		c.put("riparian", p, c.named("riparian", "R"), line(b.at(b.span+r, -2), b.at(b.span+r, end)))
	}
	if w := b.wetland; !math.IsNaN(w) {
		some = true
		c.put("wetlands", p, c.named("wetlands", "W").text("cover", "cordgrass marsh"), polygon(b.box(-20, b.far-b.width-8, w/b.width, b.far+1)))
	}
	return some
}

// properties are what the applicant states. Of two hundred one leaves something out
// and one, drawn as nothing or as a bow tie, cannot be used.
func (d *design) properties(rng *rand.Rand, number int, drawn *shape) fields {
	lacks := ""
	switch number % 200 {
	case 20:
		lacks = choose(rng, "kind", "material", "crest_elev_ft", "bed_elev_ft", "width_ft")
	case 40:
		if drawn.form != "Polygon" {
			drawn.parts = nil
			break
		}
		ring := drawn.parts[0][0]
		ring[1], ring[2] = ring[2], ring[1]
	}
	f := fields{}.text("id", fmt.Sprintf("P-%06d", number))
	text := func(name, value string) {
		if name != lacks {
			f = f.text(name, value)
		}
	}
	figure := func(name string, value float64) {
		if name != lacks && !math.IsNaN(value) {
			f = f.number(name, value)
		}
	}
	text("kind", d.kind)
	switch d.form {
	case "LineString":
		figure("width_ft", d.width)
	case "Point":
		f = f.number("diameter_ft", d.width)
	}
	text("datum", "NAVD88")
	figure("crest_elev_ft", highWater+d.crest)
	figure("bed_elev_ft", highWater+d.bed)
	figure("crest_width_ft", d.top)
	text("material", d.material)
	text("fill", d.fill)
	figure("side_slope", d.slope)
	figure("stone_size_ft", d.stone)
	if number%25 < 2 { // pairs of one project
		text("project", fmt.Sprintf("Reach %d", number/25))
	}
	return f
}
