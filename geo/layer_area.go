package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/area"
	"waterward/geo/crs"
	"waterward/geo/flat"
)

const (
	// wholeArea is how many positions an area may have that is asked and carried into a
	// plane as a whole; of a larger one only the edges near the site are.
	wholeArea = 1000
	// fewSpans is how many pieces of outlines the way east from a place may meet before
	// the way north is tried: along a shore that runs east it meets them all.
	fewSpans = 64
	// besideFootprint is how far round a footprint, in metres, an area is cut off: farther
	// than anything that bears on what they share.
	besideFootprint = 1.0
)

// large reports whether an item is asked by its edges near the site.
func (l *Layer) large(item int) bool { return l.Items[item].size > wholeArea }

func sizeOfArea(area orb.MultiPolygon) int {
	n := 0
	for _, polygon := range area {
		for _, ring := range polygon {
			n += len(ring)
		}
	}
	return n
}

// AreasAt returns the items whose area holds the position.
func (l *Layer) AreasAt(at orb.Point) []int {
	var out []int
	var held map[int]bool
	l.areas.Search(flat.Edge{A: at, B: at}.Box(0), func(i int) bool {
		id := int(l.withArea[i])
		if !l.large(id) {
			if planar.MultiPolygonContains(l.Items[id].Area, at) {
				out = append(out, id)
			}
			return true
		}
		if held == nil {
			held = l.holding(at)
		}
		if held[id] {
			out = append(out, id)
		}
		return true
	})
	slices.Sort(out)
	return out
}

// holding returns the items whose area holds the position: the way east or north from there
// crosses their outlines an odd number of times. Unlike AreasAt it looks only at the edges
// there, for outlines of many positions that are asked often.
func (l *Layer) holding(at orb.Point) map[int]bool {
	for most := fewSpans; ; most *= 16 {
		for axis := range 2 {
			if out, all := l.crossed(at, axis, most); all {
				return out
			}
		}
	}
}

// crossed returns the items whose outlines the way along an axis crosses an odd number of
// times; false if it meets more pieces of outlines than may be looked at.
func (l *Layer) crossed(at orb.Point, axis, most int) (out map[int]bool, all bool) {
	ahead := flat.Box{MinX: at[0], MinY: at[1], MaxX: at[0], MaxY: at[1]}
	if axis == 0 {
		ahead.MaxX = math.Inf(1)
	} else {
		ahead.MaxY = math.Inf(1)
	}
	out = map[int]bool{}
	across := 1 - axis
	all = l.index.Search(ahead, func(id int) bool {
		if most--; most < 0 {
			return false
		}
		s := l.spans[id]
		points := l.strands[s.strand].points
		for i := s.from; i < s.to; i++ {
			a, b := points[i], points[i+1]
			if (a[across] > at[across]) == (b[across] > at[across]) || at[axis] >= a[axis]+(at[across]-a[across])/(b[across]-a[across])*(b[axis]-a[axis]) {
				continue
			}
			if item, _ := l.itemAt(s.strand, i); out[item] {
				delete(out, item)
			} else {
				out[item] = true
			}
		}
		return true
	})
	return out, all
}

// areaNear is an item's area in the plane, or what of a large one lies in a bound there.
func (l *Layer) areaNear(plane *crs.Plane, item int, bound orb.Bound) ([]orb.Polygon, error) {
	if !l.large(item) {
		return plane.ForwardArea(l.Items[item].Area), nil
	}
	bound = bound.Pad(besideFootprint)
	degrees := crs.Window(orb.Bound{Min: plane.Inverse(bound.Min), Max: plane.Inverse(bound.Max)}, besideFootprint)
	var outlines []area.Course
	for _, line := range l.Near(plane, degrees).OnlyItems(func(i int) bool { return i == item }).Chains() {
		outlines = append(outlines, area.Course{Points: line})
	}
	cells, err := area.Divide(outlines, bound)
	if err != nil {
		return nil, err
	}
	return cells.Join(func(cell int) bool { return l.holding(plane.Inverse(cells.Cells[cell].Inside))[item] }), nil
}

// insideLeft are the lines of areas, turned so that the inside lies on their left.
func (l *Lines) insideLeft() *Lines {
	right := func(k int32) bool { return l.layer.strands[l.segs[k].strand].insideRight }
	if !slices.ContainsFunc(l.use, right) {
		return l
	}
	out := &Lines{layer: l.layer, segs: append([]segment{}, l.segs...), use: l.use}
	for _, k := range l.use {
		if s := &out.segs[k]; right(k) {
			s.a, s.b, s.prev, s.next = s.b, s.a, s.next, s.prev
		}
	}
	return out
}
