package geo

import (
	"maps"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/crs"
)

// Contact says how a footprint lies to the areas of a layer.
type Contact struct {
	Nearest Reach   // least distance; 0 on contact
	Item    int     // the area nearest, -1 if none is near
	Touched []int   // the areas it touches or lies in
	Depth   float64 // how deep the footprint reaches into one, metres; +Inf: no edge of that is near
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
		degrees := crs.Window(orb.Bound{Min: fp.Plane.Inverse(fp.Bound.Min), Max: fp.Plane.Inverse(fp.Bound.Max)}, 1)
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
		out.Depth = max(out.Depth, fp.depthIn(layer, item, near))
	}
	out.Item = out.Touched[0]
	return out
}

// depthIn is how deep the footprint reaches into an area of a layer that it touches.
func (fp *Footprint) depthIn(layer *Layer, item int, near *Lines) float64 {
	if !layer.large(item) {
		return fp.Farthest(insideLeft(fp.Plane.ForwardArea(layer.Items[item].Area))).Distance
	}
	own := near.OnlyItems(func(i int) bool { return i == item })
	if own.Empty() {
		return math.Inf(1)
	}
	return fp.Farthest(own.insideLeft()).Distance
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
		near, err := layer.areaNear(fp.Plane, item, fp.Bound)
		if err != nil {
			return 0, err
		}
		areas = append(areas, near...)
	}
	return area.Shared(own, areas)
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

// OnAreas reports whether any element stands with its middle on an area of a layer.
func (fp *Footprint) OnAreas(layer *Layer) bool {
	return slices.ContainsFunc(fp.Elements, func(e Element) bool { return len(layer.AreasAt(fp.Plane.Inverse(e.middle()))) > 0 })
}
