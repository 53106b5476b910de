package geo

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

const (
	// landDetail is how small, in metres, a part is that is no longer parted to tell how
	// much of it lies on land.
	landDetail = 0.05
	// landParts is how often, at most, a part is halved for that.
	landParts = 14
)

// Landward returns which share of the footprint's area, or of its length if it has none,
// lies landward of the nearest of any mapped shore: 0..1, within about a hundredth.
// Depths say nothing of that across a groin.
func (b *Bank) Landward(fp *Footprint) float64 {
	land, total := 0.0, 0.0
	for i := range fp.Elements {
		e := &fp.Elements[i]
		near := b.all.around(e.centre, e.radius)
		for _, part := range e.parts {
			size := sizeOfPart(part)
			total += size
			land += near.landIn(part, size, landParts)
		}
	}
	if total == 0 {
		return 0
	}
	return land / total
}

// sizeOfPart is the area of a convex part, or the length of an edge.
func sizeOfPart(part []orb.Point) float64 {
	if len(part) == 2 {
		return flat.Distance(part[0], part[1])
	}
	_, area := centreOf(part)
	return area
}

// landIn is how much of a convex part of a size lies right of the lines.
func (l *Lines) landIn(part []orb.Point, size float64, halvings int) float64 {
	var centre orb.Point
	for _, p := range part {
		centre[0] += p[0] / float64(len(part))
		centre[1] += p[1] / float64(len(part))
	}
	radius := 0.0
	for _, p := range part {
		radius = math.Max(radius, flat.Distance(centre, p))
	}
	signed, f := l.Signed(centre)
	if f.Distance >= radius || radius < landDetail || halvings == 0 {
		if signed < 0 {
			return size
		}
		return 0
	}
	long, along := 0.0, orb.Point{}
	for i, p := range part {
		if q := part[(i+1)%len(part)]; flat.Distance(p, q) > long {
			long, along = flat.Distance(p, q), flat.Way(p, q)
		}
	}
	if len(part) == 2 {
		mid := flat.Middle(part[0], part[1])
		return l.landIn([]orb.Point{part[0], mid}, size/2, halvings-1) + l.landIn([]orb.Point{mid, part[1]}, size/2, halvings-1)
	}
	sum, cut := 0.0, flat.Dot(centre, along)
	for _, sign := range [2]float64{1, -1} {
		var half []orb.Point
		for i, p := range part {
			q := part[(i+1)%len(part)]
			a, b := sign*(flat.Dot(p, along)-cut), sign*(flat.Dot(q, along)-cut)
			if a >= 0 {
				half = append(half, p)
			}
			if a > 0 && b < 0 || a < 0 && b > 0 {
				half = append(half, flat.At(p, q, a, b, 0))
			}
		}
		if len(half) > 2 {
			_, area := centreOf(half)
			sum += l.landIn(half, area, halvings-1)
		}
	}
	return sum
}
