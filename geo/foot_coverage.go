package geo

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// DepthInside returns how far inside the areas of a layer, taken as one where they
// overlap or abut, the whole footprint lies from their edge, metres; false if it is
// not wholly inside. near is what of the layer lies near the site.
//
// Of what lives in the water land needs no coverage: with shore, faced to the water,
// only what lies more than slack metres waterward of it counts, of the footprint and of
// the edge. The edge is taken as waterward where it is so within shoreBit.
func (fp *Footprint) DepthInside(layer *Layer, near, shore *Lines, slack float64) (float64, bool) {
	wet := func(p orb.Point) bool {
		if shore.Empty() {
			return true
		}
		signed, _ := shore.Signed(p)
		return signed > slack
	}
	for i := range fp.Elements {
		e := &fp.Elements[i]
		inside, lacks := false, false
		each := e.eachVertex
		if near.Nearest(e.centre).Distance > e.radius+touching { // no edge parts its places
			each = func(ask func(orb.Point)) { ask(e.centre) }
		}
		each(func(p orb.Point) {
			if len(layer.holding(fp.Plane.Inverse(p))) > 0 {
				inside = true
			} else {
				lacks = lacks || wet(p)
			}
		})
		if !inside || lacks && !shore.Empty() {
			return 0, false
		}
	}
	if slices.ContainsFunc(near.use, func(k int32) bool { return near.segs[k].strand != near.segs[near.use[0]].strand }) {
		near = near.outward(fp.Plane).Outermost(fp.Plane, func(at orb.Point) bool {
			// Where three areas meet, beside the edge of one may be between the others.
			return len(layer.holding(at)) > 0 || near.Nearest(fp.Plane.Forward(at)).Distance <= abutting/2
		})
	}
	if !shore.Empty() {
		near = near.WaterwardOf(shore, slack, true)
	}
	r := fp.Nearest(near)
	return r.Distance, r.Distance > 0
}

// shoreBit is how finely, in metres (a tenth of a foot), an edge is asked whether it lies
// waterward of a shore.
const shoreBit = 0.03

// WaterwardOf keeps of the lines what lies more than slack metres waterward of a shore,
// faced to the water, to shoreBit. No place of a piece lies farther from the shore than its
// middle by more than half its length. What lies past the end of the shore, where nobody
// can say on which side of it, is kept with pastEnds only.
func (l *Lines) WaterwardOf(shore *Lines, slack float64, pastEnds bool) *Lines {
	out := &Lines{layer: l.layer, segs: slices.Clone(l.segs)}
	for _, k := range l.use {
		s := l.segs[k]
		var keep func(a, b orb.Point)
		keep = func(a, b orb.Point) {
			half := flat.Distance(a, b) / 2
			mid := flat.Middle(a, b)
			signed, foot := shore.Signed(mid)
			past := shore.pastEnd(mid, foot)
			switch {
			case signed+half <= slack, past && !pastEnds && 2*half <= shoreBit:
				return
			case past && !pastEnds:
			case signed-half > slack || 2*half <= shoreBit:
				s.a, s.b, s.prev, s.next = a, b, cutEnd, cutEnd
				out.use = append(out.use, int32(len(out.segs)))
				out.segs = append(out.segs, s)
				return
			}
			keep(a, flat.Middle(a, b))
			keep(flat.Middle(a, b), b)
		}
		keep(s.a, s.b)
	}
	return out
}

// outward turns the outlines of areas so that the inside lies on their right.
func (l *Lines) outward(plane *crs.Plane) *Lines {
	out := &Lines{layer: l.layer, segs: slices.Clone(l.segs), use: l.use}
	for _, k := range l.use {
		s := &out.segs[k]
		mid, side := flat.At(s.a, s.b, 0, 1, 0.5), flat.LeftNormal(s.a, s.b, abutting)
		if l.layer.holding(plane.Inverse(orb.Point{mid[0] + side[0], mid[1] + side[1]}))[l.itemOf(k)] {
			s.a, s.b = s.b, s.a
		}
	}
	return out
}
