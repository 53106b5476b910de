package geo

import (
	"maps"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Contact says how a footprint lies to the areas of a layer.
type Contact struct {
	Nearest Reach   // least distance; 0 on contact
	Item    int     // the area nearest, -1 if none is near
	Touched []int   // the areas it touches or lies in
	Depth   float64 // how deep the footprint reaches into one, metres
}

// Contact measures the footprint against the areas of a layer; near is what of
// the layer lies near the site. If no area is near, the distance is +Inf.
func (fp *Footprint) Contact(layer *Layer, near *Lines) Contact {
	out := Contact{Item: -1, Nearest: Reach{Distance: math.Inf(1)}}
	touched := map[int]bool{}
	for i := range fp.Elements {
		at := fp.Elements[i].parts[0][0]
		for _, item := range layer.AreasAt(fp.Plane.Inverse(at)) {
			touched[item] = true
			out.Nearest = Reach{At: at, Foot: Foot{At: at}}
		}
	}
	if !near.Empty() {
		degrees := Window(orb.Bound{Min: fp.Plane.Inverse(fp.Bound.Min), Max: fp.Plane.Inverse(fp.Bound.Max)}, 1)
		for _, own := range near.ByItem() {
			if it := &layer.Items[own.Item]; it.Area == nil || !it.Bound.Intersects(degrees) {
				continue
			}
			if fp.touches(own.Lines) {
				touched[own.Item] = true
				out.Nearest = fp.Nearest(own.Lines)
			}
		}
		if len(touched) == 0 {
			out.Nearest = fp.Nearest(near)
			out.Item = near.Item(out.Nearest.Foot)
		}
	}
	if len(touched) == 0 {
		return out
	}
	out.Touched = slices.Sorted(maps.Keys(touched))
	for _, item := range out.Touched {
		outline := insideLeft(fp.Plane.forwardArea(layer.Items[item].Area))
		if r := fp.Farthest(outline); r.Distance > out.Depth {
			out.Depth = r.Distance
		}
	}
	out.Item = out.Touched[0]
	return out
}

// SharedArea returns the area, in square metres, that the footprint has in
// common with areas of a layer, which may overlap one another.
func (fp *Footprint) SharedArea(layer *Layer, items []int) (float64, error) {
	if len(items) == 0 {
		return 0, nil
	}
	var own, areas []orb.Polygon
	for _, e := range fp.Elements {
		own = append(own, e.Areas...)
	}
	for _, item := range items {
		areas = append(areas, fp.Plane.forwardArea(layer.Items[item].Area)...)
	}
	return sharedArea(own, areas)
}

// insideLeft returns the outlines of areas, turned so that the inside lies on
// their left.
func insideLeft(polygons []orb.Polygon) *Lines {
	var rings [][]orb.Point
	for _, polygon := range polygons {
		for i, ring := range polygon {
			ring = append(orb.Ring{}, ring...)
			if (ring.Orientation() == orb.CCW) != (i == 0) {
				ring.Reverse()
			}
			rings = append(rings, ring)
		}
	}
	return NewLines(rings...)
}

// DepthInside returns how far inside the areas of a layer, taken as one where they
// overlap or abut, the whole footprint lies from their edge, metres; false if it is
// not wholly inside. near is what of the layer lies near the site.
func (fp *Footprint) DepthInside(layer *Layer, near *Lines) (float64, bool) {
	for i := range fp.Elements {
		inside := false
		fp.Elements[i].eachVertex(func(p orb.Point) { inside = inside || len(layer.holding(fp.Plane.Inverse(p))) > 0 })
		if !inside {
			return 0, false
		}
	}
	if slices.ContainsFunc(near.use, func(k int32) bool { return near.segs[k].strand != near.segs[near.use[0]].strand }) {
		near = near.outward(fp.Plane).Outermost(fp.Plane, func(at orb.Point) bool {
			// Where three areas meet, beside the edge of one may be between the others.
			return len(layer.holding(at)) > 0 || near.Nearest(fp.Plane.Forward(at)).Distance <= abutting/2
		})
	}
	r := fp.Nearest(near)
	return r.Distance, r.Distance > 0
}

// outward turns the outlines of areas so that the inside lies on their right.
func (l *Lines) outward(plane *Plane) *Lines {
	out := &Lines{layer: l.layer, segs: slices.Clone(l.segs), use: l.use}
	for _, k := range l.use {
		s := &out.segs[k]
		mid, side := atPlace(s.a, s.b, 0, 1, 0.5), leftNormal(s.a, s.b, abutting)
		if l.layer.holding(plane.Inverse(orb.Point{mid[0] + side[0], mid[1] + side[1]}))[l.itemOf(k)] {
			s.a, s.b = s.b, s.a
		}
	}
	return out
}

// holding returns the items whose area holds the position: their outlines cross the
// parallel east of it an odd number of times. Unlike AreasAt it looks only at the
// edges there, for outlines of many positions that are asked often.
func (l *Layer) holding(at orb.Point) map[int]bool {
	out := map[int]bool{}
	l.index.search(rect{at[0], at[1], math.Inf(1), at[1]}, func(id int) bool {
		s := l.spans[id]
		points := l.strands[s.strand].points
		for i := s.from; i < s.to; i++ {
			a, b := points[i], points[i+1]
			if (a[1] > at[1]) == (b[1] > at[1]) || at[0] >= a[0]+(at[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
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
	return out
}
