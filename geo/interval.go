package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// interval is a piece of a chord, by its share.
type interval struct{ from, to float64 }

// clipped is what of a chord lies in a window.
func clipped(p, q orb.Point, window *orb.Bound) (interval, bool) {
	in := interval{0, 1}
	if window.Contains(p) && window.Contains(q) {
		return in, true
	}
	for axis := range 2 {
		from, to := p[axis], q[axis]
		low, high := window.Min[axis], window.Max[axis]
		if from == to {
			if from < low || from > high {
				return in, false
			}
			continue
		}
		enter, leave := (low-from)/(to-from), (high-from)/(to-from)
		if enter > leave {
			enter, leave = leave, enter
		}
		in.from, in.to = max(in.from, enter), min(in.to, leave)
	}
	return in, in.from < in.to
}

// nearer is the piece of the chord from p to q that lies within reach of the segment
// from a to b: what lies within reach of a segment is convex, so there is one at most.
func nearer(p, q, a, b orb.Point, reach float64) (interval, bool) {
	in := interval{math.Inf(1), math.Inf(-1)}
	dx, dy := q[0]-p[0], q[1]-p[1]
	length2 := dx*dx + dy*dy
	for _, end := range [2]orb.Point{a, b} {
		// |p + u (q - p) - end| = reach
		fx, fy := p[0]-end[0], p[1]-end[1]
		half, rest := fx*dx+fy*dy, fx*fx+fy*fy-reach*reach
		if root := half*half - length2*rest; root > 0 {
			root = math.Sqrt(root)
			in.from, in.to = min(in.from, (-half-root)/length2), max(in.to, (-half+root)/length2)
		}
	}
	// Between the ends: beside the segment by reach at most.
	ex, ey := b[0]-a[0], b[1]-a[1]
	long := math.Hypot(ex, ey)
	ex, ey = ex/long, ey/long
	side := interval{0, 1}
	for _, slab := range [2]struct{ at, by, low, high float64 }{
		{(p[0]-a[0])*ex + (p[1]-a[1])*ey, dx*ex + dy*ey, 0, long},
		{(p[1]-a[1])*ex - (p[0]-a[0])*ey, dy*ex - dx*ey, -reach, reach},
	} {
		if slab.by == 0 {
			if slab.at < slab.low || slab.at > slab.high {
				side.to = -1
			}
			continue
		}
		enter, leave := (slab.low-slab.at)/slab.by, (slab.high-slab.at)/slab.by
		side.from, side.to = max(side.from, min(enter, leave)), min(side.to, max(enter, leave))
	}
	if side.from < side.to {
		in.from, in.to = min(in.from, side.from), max(in.to, side.to)
	}
	in.from, in.to = max(in.from, 0), min(in.to, 1)
	return in, in.from < in.to
}

// without takes a piece out of others.
func without(free []interval, taken interval) []interval {
	for i := 0; i < len(free); i++ {
		f := free[i]
		switch {
		case taken.to <= f.from || taken.from >= f.to:
		case taken.from <= f.from && taken.to >= f.to:
			free = slices.Delete(free, i, i+1)
			i--
		case taken.from <= f.from:
			free[i].from = taken.to
		case taken.to >= f.to:
			free[i].to = taken.from
		default:
			free = slices.Insert(free, i+1, interval{taken.to, f.to})
			free[i].to = taken.from
			i++
		}
	}
	return free
}
