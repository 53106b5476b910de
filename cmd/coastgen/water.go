package main

import (
	"math"
	"math/rand/v2"
	"slices"
)

// seagrass lays beds in two rows off the shore, 12 to 45 m and 60 to 100 m out. None
// lies in canals; theirs are laid off the next open shore.
func (c *coast) seagrass(p plane, rng *rand.Rand, s *stretch, taken func(point) bool) {
	const closest = 10.0 // beds of both rows along the shore
	c.beds += c.grass * s.shore / 1000
	if s.kind == "canal" {
		return
	}
	pairs := int(min(c.beds, (s.x1-s.x0)/closest) / 2)
	step := (s.x1 - s.x0) / float64(max(1, pairs))
	for i := range 2 * pairs {
		middle := point{s.x0 + step*(float64(i/2)+0.5), 12 + 26*rng.Float64()}
		if i%2 == 1 {
			middle.y = 60 + 40*rng.Float64()
		}
		b := bed{middle: middle, wide: min(40, step*(0.3+0.15*rng.Float64())), deep: 4 + 5*rng.Float64(), turn: 7 * rng.Float64(), trend: s.trend}
		b.middle.y += b.deep
		vertices, pick := 20+rng.IntN(84), rng.Float64()
		cover := []string{"continuous", "patchy"}[rng.IntN(2)]
		if taken(point{middle.x, middle.y + s.trend(middle.x)}) {
			continue
		}
		c.beds--
		drawn := polygon(b.ring(rng, vertices, 1))
		switch {
		case pick < 0.08:
			hole := b.ring(rng, 8+vertices/3, 0.4)
			slices.Reverse(hole)
			drawn = polygon(drawn.parts[0][0], hole)
		case pick < 0.13: // in two parts
			l, r := b, b
			l.wide, r.wide = b.wide*0.45, b.wide*0.45
			l.middle.x, r.middle.x = b.middle.x-b.wide/2, b.middle.x+b.wide/2
			drawn.parts = [][][]point{{l.ring(rng, 4+vertices/2, 1)}, {r.ring(rng, 4+vertices/2, 1)}}
		}
		c.put("seagrass", p, c.named("seagrass", "S").text("cover", cover), drawn)
	}
}

// bed is a patch that bends with the shore.
type bed struct {
	middle           point // y from the trend of the shore
	wide, deep, turn float64
	trend            func(x float64) float64
}

// ring is its outline, drawn in by a factor; as seen from its middle it never turns back.
func (b bed) ring(rng *rand.Rand, vertices int, factor float64) []point {
	var out []point
	for i := range vertices {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(vertices))
		r := factor * (0.85 + 0.1*math.Sin(b.turn+6*math.Pi*float64(i)/float64(vertices)) + 0.05*(2*rng.Float64()-1))
		at := b.middle.plus(point{b.wide * r * cos, b.deep * r * sin})
		out = append(out, point{at.x, at.y + b.trend(at.x)})
	}
	return append(out, out[0])
}

// fringes lays marsh along parts of a natural shore.
func (c *coast) fringes(p plane, rng *rand.Rand, s *stretch, taken func(point) bool) {
	const vertices, share, every = 60, 0.4, 2
	for from := 0; from+vertices < len(s.mhw); from += vertices {
		inland, out, pick := 2+3*rng.Float64(), 0.5+2*rng.Float64(), rng.Float64()
		var back, edge []point
		free := pick < share
		for i := from; i <= from+vertices-4; i += every {
			at := s.mhw[i]
			free = free && !taken(at)
			back = append(back, at.minus(point{0, inland}))
			edge = append(edge, at.plus(point{0, out}))
		}
		if !free {
			continue
		}
		slices.Reverse(edge)
		ring := append(back, edge...)
		c.put("wetlands", p, c.named("wetlands", "W").text("cover", "cordgrass marsh"), polygon(append(ring, ring[0])))
	}
}

// channels lays a channel off half of the open shores and canals: off the shore as an
// area or a centreline, in canals as a centreline.
func (c *coast) channels(p plane, rng *rand.Rand, s *stretch) {
	const near, far = 125.0, 155.0
	for _, k := range s.canals {
		if middle := (k.left + k.right) / 2; rng.IntN(2) == 0 {
			c.put("channels", p, c.named("channels", "C").number("width_ft", 12), line(point{middle, k.end + 8}, point{middle, 40}))
		}
	}
	if s.kind == "canal" || rng.IntN(2) == 0 {
		return
	}
	offset := func(h float64) (out []point) {
		for _, at := range along(point{s.x0 + 20, h}, point{s.x1 - 20, h}, 25) {
			out = append(out, point{at.x, h + s.trend(at.x)})
		}
		return out
	}
	if rng.IntN(3) == 0 {
		c.put("channels", p, c.named("channels", "C").number("width_ft", 100), line(offset((near+far)/2)...))
		return
	}
	ring, outer := offset(near), offset(far)
	slices.Reverse(outer)
	ring = append(ring, outer...)
	c.put("channels", p, c.named("channels", "C"), polygon(append(ring, ring[0])))
}

// areas writes a strand's preserve, its habitat and how far its waters were surveyed:
// all of them but a gap.
func (c *coast) areas(p plane, rng *rand.Rand, end float64) {
	const landward, waterward, beyond, gap = -400.0, 1200.0, 700.0, 800.0
	cut := 6000 + 2000*rng.Float64()
	c.put("preserve", p, c.named("preserve", "Preserve "), rectangle(2000, -300, 3500+2000*rng.Float64(), 900))
	c.put("habitat", p, c.named("habitat", "Habitat "), rectangle(9000, -300, 10000+2000*rng.Float64(), 900))
	c.put("surveyed", p, c.named("surveyed", "V"), rectangle(-beyond, landward, cut, waterward))
	c.put("surveyed", p, c.named("surveyed", "V"), rectangle(cut+gap, landward, max(end, cut+gap)+beyond, waterward))
}
