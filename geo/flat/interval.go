package flat

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Interval is a piece of a chord, by its share.
type Interval struct{ From, To float64 }

// Clipped is what of a chord lies in a window.
func Clipped(p, q orb.Point, window *orb.Bound) (Interval, bool) {
	in := Interval{0, 1}
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
		in.From, in.To = max(in.From, enter), min(in.To, leave)
	}
	return in, in.From < in.To
}

// Nearer is the piece of the chord from p to q that lies within reach of the segment
// from a to b: what lies within reach of a segment is convex, so there is one at most.
func Nearer(p, q, a, b orb.Point, reach float64) (Interval, bool) {
	in := Interval{math.Inf(1), math.Inf(-1)}
	dx, dy := q[0]-p[0], q[1]-p[1]
	length2 := dx*dx + dy*dy
	for _, end := range [2]orb.Point{a, b} {
		// |p + u (q - p) - end| = reach
		fx, fy := p[0]-end[0], p[1]-end[1]
		half, rest := fx*dx+fy*dy, fx*fx+fy*fy-reach*reach
		if root := half*half - length2*rest; root > 0 {
			root = math.Sqrt(root)
			in.From, in.To = min(in.From, (-half-root)/length2), max(in.To, (-half+root)/length2)
		}
	}
	// Between the ends: beside the segment by reach at most.
	ex, ey := b[0]-a[0], b[1]-a[1]
	long := math.Hypot(ex, ey)
	ex, ey = ex/long, ey/long
	side := Interval{0, 1}
	for _, slab := range [2]struct{ at, by, low, high float64 }{
		{(p[0]-a[0])*ex + (p[1]-a[1])*ey, dx*ex + dy*ey, 0, long},
		{(p[1]-a[1])*ex - (p[0]-a[0])*ey, dy*ex - dx*ey, -reach, reach},
	} {
		if slab.by == 0 {
			if slab.at < slab.low || slab.at > slab.high {
				side.To = -1
			}
			continue
		}
		enter, leave := (slab.low-slab.at)/slab.by, (slab.high-slab.at)/slab.by
		side.From, side.To = max(side.From, min(enter, leave)), min(side.To, max(enter, leave))
	}
	if side.From < side.To {
		in.From, in.To = min(in.From, side.From), max(in.To, side.To)
	}
	in.From, in.To = max(in.From, 0), min(in.To, 1)
	return in, in.From < in.To
}

// Without takes a piece out of others.
func Without(free []Interval, taken Interval) []Interval {
	for i := 0; i < len(free); i++ {
		f := free[i]
		switch {
		case taken.To <= f.From || taken.From >= f.To:
		case taken.From <= f.From && taken.To >= f.To:
			free = slices.Delete(free, i, i+1)
			i--
		case taken.From <= f.From:
			free[i].From = taken.To
		case taken.To >= f.To:
			free[i].To = taken.From
		default:
			free = slices.Insert(free, i+1, Interval{taken.To, f.To})
			free[i].To = taken.From
			i++
		}
	}
	return free
}
