package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// packedFanout is how many boxes share one above them.
const packedFanout = 16

// packed is an index of boxes that never changes: an R-tree packed by sorting into
// tiles (Leutenegger, Lopez and Edgington 1997), its boxes in one slice, level behind
// level, the leaves first. It takes 36 bytes a box and may be read by many goroutines.
type packed struct {
	boxes  []rect
	ids    []int32 // of the leaves
	levels []int   // where each level ends in boxes
}

// newPacked indexes n boxes, all of them finite, by their numbers.
func newPacked(n int, boxOf func(i int) rect) *packed {
	boxes := make([]rect, n)
	over := rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)} // twice the middles
	for i := range boxes {
		b := boxOf(i)
		boxes[i] = b
		x, y := b.minX+b.maxX, b.minY+b.maxY
		over = rect{min(over.minX, x), min(over.minY, y), max(over.maxX, x), max(over.maxY, y)}
	}
	// The middle in steps of the whole, and the number, so that the order hangs on nothing
	// else.
	keys := make([]uint64, n)
	acrossX, acrossY := steps(over.minX, over.maxX), steps(over.minY, over.maxY)
	for i, b := range boxes {
		keys[i] = uint64((b.minX+b.maxX-over.minX)*acrossX)<<32 | uint64(i)
	}
	slices.Sort(keys)
	groups := (n + packedFanout - 1) / packedFanout
	strip := packedFanout * max(1, int(math.Ceil(math.Sqrt(float64(groups)))))
	for from := 0; from < n; from += strip {
		keys := keys[from:min(from+strip, n)]
		for k, key := range keys {
			b := &boxes[uint32(key)]
			keys[k] = uint64((b.minY+b.maxY-over.minY)*acrossY)<<32 | uint64(uint32(key))
		}
		slices.Sort(keys)
	}
	p := &packed{ids: make([]int32, n), boxes: make([]rect, n, n+n/(packedFanout-1)+8)}
	for k, key := range keys {
		p.ids[k] = int32(uint32(key))
		p.boxes[k] = boxes[p.ids[k]]
	}
	p.levels = append(p.levels, n)
	for from, end := 0, n; end-from > 1; from, end = end, len(p.boxes) {
		for i := from; i < end; i += packedFanout {
			over := p.boxes[i]
			for _, b := range p.boxes[i+1 : min(i+packedFanout, end)] {
				over = rect{min(over.minX, b.minX), min(over.minY, b.minY), max(over.maxX, b.maxX), max(over.maxY, b.maxY)}
			}
			p.boxes = append(p.boxes, over)
		}
		p.levels = append(p.levels, len(p.boxes))
	}
	return p
}

// steps is how many steps there are to a unit when a range has 2^32 of them.
func steps(from, to float64) float64 {
	if !(to > from) {
		return 0
	}
	return (1<<32 - 1) / (to - from)
}

// rectOf is a bound as a rect.
func rectOf(b orb.Bound) rect { return rect{b.Min[0], b.Min[1], b.Max[0], b.Max[1]} }

// touches reports whether two boxes have a point in common.
func (b *rect) touches(o *rect) bool {
	return b.minX <= o.maxX && b.maxX >= o.minX && b.minY <= o.maxY && b.maxY >= o.minY
}

// search visits the numbers of the boxes that touch one, until visit returns false. It
// reports whether all have been visited.
func (p *packed) search(window rect, visit func(i int) bool) bool {
	if len(p.ids) == 0 {
		return true
	}
	top := len(p.levels) - 1
	return p.descend(top, p.levels[top]-1, p.levels[top], &window, visit)
}

// descend searches boxes from..to of a level.
func (p *packed) descend(level, from, to int, window *rect, visit func(i int) bool) bool {
	for i := from; i < to; i++ {
		if !p.boxes[i].touches(window) {
			continue
		}
		if level == 0 {
			if !visit(int(p.ids[i])) {
				return false
			}
			continue
		}
		below := 0 // where the level below starts
		if level > 1 {
			below = p.levels[level-2]
		}
		first := below + (i-p.levels[level-1])*packedFanout
		if !p.descend(level-1, first, min(first+packedFanout, p.levels[level-1]), window, visit) {
			return false
		}
	}
	return true
}
