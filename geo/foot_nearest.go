package geo

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// betweenSegments returns the least distance between two segments and where it
// is taken on each; 0 if they cross.
func betweenSegments(a, b, c, d orb.Point) (float64, orb.Point, orb.Point) {
	d1, d2 := flat.Cross(c, d, a), flat.Cross(c, d, b)
	d3, d4 := flat.Cross(a, b, c), flat.Cross(a, b, d)
	if (d1 > 0) != (d2 > 0) && (d3 > 0) != (d4 > 0) && d1 != d2 {
		t := d1 / (d1 - d2)
		at := flat.At(a, b, 0, 1, t)
		return 0, at, at
	}
	p := a
	q, _ := flat.Project(c, d, a)
	best := flat.Squared(p, q)
	if on, _ := flat.Project(c, d, b); flat.Squared(b, on) < best {
		best, p, q = flat.Squared(b, on), b, on
	}
	if on, _ := flat.Project(a, b, c); flat.Squared(c, on) < best {
		best, p, q = flat.Squared(c, on), on, c
	}
	if on, _ := flat.Project(a, b, d); flat.Squared(d, on) < best {
		best, p, q = flat.Squared(d, on), on, d
	}
	return math.Sqrt(best), p, q
}

// boundsApart is the distance of the bounds of two segments from one another, no more
// than their own.
func boundsApart(a, b, c, d orb.Point) float64 {
	dx := max(min(c[0], d[0])-max(a[0], b[0]), 0, min(a[0], b[0])-max(c[0], d[0]))
	dy := max(min(c[1], d[1])-max(a[1], b[1]), 0, min(a[1], b[1])-max(c[1], d[1]))
	return max(dx, dy)
}

// fromDisc is the least distance of a disc from lines on which its middle has a foot.
func fromDisc(centre orb.Point, radius float64, f Foot) Reach {
	if f.Distance <= radius {
		return Reach{0, f.At, Foot{At: f.At, seg: f.seg, t: f.t}}
	}
	at := flat.At(centre, f.At, 0, f.Distance, radius)
	f.Distance -= radius
	return Reach{f.Distance, at, f}
}

// touches reports whether any of the footprint lies on the lines or has them inside.
func (fp *Footprint) touches(lines *Lines) bool {
	for i := range fp.Elements {
		e := &fp.Elements[i]
		if lines.Nearest(e.centre).Distance <= e.radius+flat.BoxSlack {
			return fp.Nearest(lines).Distance == 0
		}
	}
	return false
}

// Nearest returns the least distance of the footprint from the lines, without
// regard to sides; 0 on contact.
func (fp *Footprint) Nearest(lines *Lines) Reach {
	best := Reach{Distance: math.Inf(1)}
	for i := range fp.Elements {
		e := &fp.Elements[i]
		if centre, radius, is := e.disc(); is {
			if f := lines.Nearest(centre); f.Distance-radius < best.Distance {
				best = fromDisc(centre, radius, f)
			}
			continue
		}
		limit := lines.Nearest(e.centre).Distance + e.radius
		boxes := lines.boxed()
		for j := range boxes {
			if math.Sqrt(boxes[j].Squared(e.centre))-e.radius > math.Min(limit, best.Distance)+flat.BoxSlack {
				continue
			}
			for _, k := range lines.inBox(j) {
				s := &lines.segs[k]
				if away, _ := flat.Project(s.a, s.b, e.centre); flat.Distance(away, e.centre)-e.radius > math.Min(limit, best.Distance) {
					continue
				}
				along := flat.Edge{A: s.a, B: s.b}.Box(0)
				e.edgesNear(&along, best.Distance, func(a, b orb.Point) {
					if boundsApart(a, b, s.a, s.b) > best.Distance+flat.BoxSlack {
						return
					}
					if w, p, q := betweenSegments(a, b, s.a, s.b); w < best.Distance {
						_, t := flat.Project(s.a, s.b, q)
						best = Reach{w, p, Foot{Distance: w, At: q, seg: k, t: t}}
					}
				})
				if best.Distance > 0 && flat.Distance(s.a, e.centre) <= e.radius && e.contains(s.a) {
					best = Reach{0, s.a, Foot{At: s.a, seg: k}}
				}
			}
		}
	}
	return best
}

// farOff is no less than how far any place of the footprint lies from lines.
func (fp *Footprint) farOff(lines *Lines) float64 {
	most := 0.0
	for i := range fp.Elements {
		e := &fp.Elements[i]
		most = max(most, lines.Nearest(e.centre).Distance+e.radius)
	}
	return most
}

// Beside reports whether other lines come no farther from the footprint than lines lie
// from the farthest of its places.
func (fp *Footprint) Beside(lines, other *Lines) bool {
	d := fp.Nearest(other).Distance
	return d <= fp.farOff(lines) && d <= fp.FarthestUnsigned(lines).Distance
}
