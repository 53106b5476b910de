package geo

import (
	"container/heap"

	"github.com/paulmach/orb"
)

// tolerance is how close branch and bound comes to the greatest distance, in
// metres: 0.001 ft, a tenth of what every measure must be right within.
const tolerance = 0.001 * metresPerFoot

// Reach is an extreme distance of a footprint from some lines, with the two
// witness points between which it is measured.
type Reach struct {
	Distance float64   // metres, signed
	At       orb.Point // on the footprint
	Foot     Foot      // on the lines
}

// sense says which side of the lines counts as positive.
type sense float64

const (
	eitherSide sense = 0
	leftSide   sense = 1
	rightSide  sense = -1
)

// Farthest returns the greatest signed distance of any part of the footprint,
// its inside included, from the lines (positive on their left): a directed
// Hausdorff distance, found within 0.001 ft below the true value. It is
// negative if all of the footprint lies on their right. The sign is sure where
// the side changes only across the lines: not past their free ends.
func (fp *Footprint) Farthest(lines *Lines) Reach {
	if r := fp.greatest(lines, leftSide); r.Distance > 0 {
		return r
	}
	r := fp.Nearest(lines)
	r.Distance = -r.Distance
	return r
}

// Least returns the least signed distance of any part of the footprint from
// the lines: negative, and as far as it reaches, if some of it lies on their
// right.
func (fp *Footprint) Least(lines *Lines) Reach {
	if r := fp.greatest(lines, rightSide); r.Distance > 0 {
		r.Distance = -r.Distance
		return r
	}
	return fp.Nearest(lines)
}

// FarthestUnsigned is Farthest without regard to sides.
func (fp *Footprint) FarthestUnsigned(lines *Lines) Reach { return fp.greatest(lines, eitherSide) }

// greatest returns the greatest distance on the side that counts, 0 if nothing
// of the footprint lies there.
func (fp *Footprint) greatest(lines *Lines, side sense) Reach {
	var best Reach
	for i := range fp.Elements {
		e := &fp.Elements[i]
		best = search(e.triangles, lines.around(e.centre, e.radius), side, best)
	}
	return best
}

// corner is a point of the footprint whose distance has been taken.
type corner struct {
	at     orb.Point
	foot   Foot
	signed float64
}

// patch is a triangle still to be searched and a bound on the signed distance
// of all its points.
type patch struct {
	corners [3]corner
	bound   float64
}

type patches []patch

func (q patches) Len() int           { return len(q) }
func (q patches) Less(i, j int) bool { return q[i].bound > q[j].bound }
func (q patches) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *patches) Push(x any)        { *q = append(*q, x.(patch)) }
func (q *patches) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}

// search is branch and bound over triangles. Distance to a segment is convex,
// so over a triangle it is greatest at a corner: the nearest segment of any of
// its points gives a bound, and so does the mean of two segments, which alone
// settles the ridge midway between two parallel shores. The bound by the size
// of the triangle alone (distance is 1-Lipschitz) would never settle an edge
// parallel to the shore.
func search(triangles []triangle, lines *Lines, side sense, best Reach) Reach {
	if lines.Empty() {
		return best
	}
	visit := func(p orb.Point) corner {
		f := lines.Nearest(p)
		c := corner{p, f, f.Distance}
		if side != eitherSide {
			c.signed *= float64(side) * lines.side(p, f)
		}
		if c.signed > best.Distance {
			best = Reach{c.signed, p, f}
		}
		return c
	}
	var queue patches
	push := func(c [3]corner) {
		if bound := lines.boundOver(c, side, visit); bound > best.Distance+tolerance {
			heap.Push(&queue, patch{c, bound})
		}
	}
	for _, t := range triangles {
		push([3]corner{visit(t[0]), visit(t[1]), visit(t[2])})
	}
	for queue.Len() > 0 {
		top := heap.Pop(&queue).(patch)
		if top.bound <= best.Distance+tolerance {
			break
		}
		// Halve the longest edge.
		c := top.corners
		long, k := 0.0, 0
		for i := range 3 {
			if d := distance(c[i].at, c[(i+1)%3].at); d > long {
				long, k = d, i
			}
		}
		a, b, o := c[k], c[(k+1)%3], c[(k+2)%3]
		mid := visit(middle(a.at, b.at))
		push([3]corner{a, mid, o})
		push([3]corner{mid, b, o})
	}
	return best
}

// Beyond returns how far the footprint reaches across a line that it crosses,
// from the side on which it reaches farther: the lesser of its two reaches.
func (fp *Footprint) Beyond(line *Lines) Reach {
	left, right := fp.greatest(line, leftSide), fp.greatest(line, rightSide)
	if left.Distance < right.Distance {
		return left
	}
	return right
}

// Span returns the least and the greatest signed distance of an area of the plane from
// lines faced to the water, its inside included, as [Footprint.Nearest] and
// [Footprint.Farthest] take them.
func Span(area orb.MultiPolygon, lines *Lines) (least, greatest float64) {
	fp := alone(Element{Areas: area})
	return fp.Nearest(lines).Distance, fp.Farthest(lines).Distance
}
