package flat

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// packedFanout is how many boxes share one above them.
const packedFanout = 16

// Index is an index of boxes that never changes: an R-tree packed by sorting into
// tiles (Leutenegger, Lopez and Edgington 1997), its boxes in one slice, level behind
// level, the leaves first. It takes 36 bytes a box and may be read by many goroutines.
type Index struct {
	boxes  []Box
	ids    []int32 // of the leaves
	levels []int   // where each level ends in boxes
}

// NewIndex indexes n boxes, all of them finite, by their numbers.
func NewIndex(n int, boxOf func(i int) Box) *Index {
	boxes := make([]Box, n)
	over := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)} // twice the middles
	for i := range boxes {
		b := boxOf(i)
		boxes[i] = b
		x, y := b.MinX+b.MaxX, b.MinY+b.MaxY
		over = Box{min(over.MinX, x), min(over.MinY, y), max(over.MaxX, x), max(over.MaxY, y)}
	}
	// The middle in steps of the whole, and the number, so that the order hangs on nothing
	// else.
	keys := make([]uint64, n)
	acrossX, acrossY := steps(over.MinX, over.MaxX), steps(over.MinY, over.MaxY)
	for i, b := range boxes {
		keys[i] = uint64((b.MinX+b.MaxX-over.MinX)*acrossX)<<32 | uint64(i)
	}
	slices.Sort(keys)
	groups := (n + packedFanout - 1) / packedFanout
	strip := packedFanout * max(1, int(math.Ceil(math.Sqrt(float64(groups)))))
	for from := 0; from < n; from += strip {
		keys := keys[from:min(from+strip, n)]
		for k, key := range keys {
			b := &boxes[uint32(key)]
			keys[k] = uint64((b.MinY+b.MaxY-over.MinY)*acrossY)<<32 | uint64(uint32(key))
		}
		slices.Sort(keys)
	}
	p := &Index{ids: make([]int32, n), boxes: make([]Box, n, n+n/(packedFanout-1)+8)}
	for k, key := range keys {
		p.ids[k] = int32(uint32(key))
		p.boxes[k] = boxes[p.ids[k]]
	}
	p.levels = append(p.levels, n)
	for from, end := 0, n; end-from > 1; from, end = end, len(p.boxes) {
		for i := from; i < end; i += packedFanout {
			over := p.boxes[i]
			for _, b := range p.boxes[i+1 : min(i+packedFanout, end)] {
				over = Box{min(over.MinX, b.MinX), min(over.MinY, b.MinY), max(over.MaxX, b.MaxX), max(over.MaxY, b.MaxY)}
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

// Search visits the numbers of the boxes that touch one, until visit returns false. It
// reports whether all have been visited.
func (p *Index) Search(window Box, visit func(i int) bool) bool {
	if len(p.ids) == 0 {
		return true
	}
	top := len(p.levels) - 1
	return p.descend(top, p.levels[top]-1, p.levels[top], &window, visit)
}

// descend searches boxes from..to of a level.
func (p *Index) descend(level, from, to int, window *Box, visit func(i int) bool) bool {
	for i := from; i < to; i++ {
		if !p.boxes[i].Touches(window) {
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

// Nearest returns the number, the least of several, of what is nearest to a place and the
// square of how far off it is, given by squared; -1 if all of it is farther than a limit,
// squared too.
func (p *Index) Nearest(at orb.Point, limit float64, squared func(i int) float64) (best int, least float64) {
	best, least = -1, limit
	if len(p.ids) > 0 {
		top := len(p.levels) - 1
		p.nearest(top, p.levels[top]-1, p.levels[top], at, squared, &best, &least)
	}
	return best, least
}

// nearest looks through boxes from..to of a level, the nearest first.
func (p *Index) nearest(level, from, to int, at orb.Point, squared func(i int) float64, best *int, least *float64) {
	type box struct {
		at   int
		away float64
	}
	var room [packedFanout]box
	boxes := room[:0]
	for i := from; i < to; i++ {
		boxes = append(boxes, box{i, p.boxes[i].Squared(at)})
	}
	slices.SortFunc(boxes, func(a, b box) int { return cmp.Compare(a.away, b.away) })
	for _, b := range boxes {
		if b.away > Beyond(*least) {
			return
		}
		if level == 0 {
			i := int(p.ids[b.at])
			if d := squared(i); d < *least || d == *least && (*best < 0 || i < *best) {
				*best, *least = i, d
			}
			continue
		}
		below := 0
		if level > 1 {
			below = p.levels[level-2]
		}
		first := below + (b.at-p.levels[level-1])*packedFanout
		p.nearest(level-1, first, min(first+packedFanout, p.levels[level-1]), at, squared, best, least)
	}
}
