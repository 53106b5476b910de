package crs

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Meeting returns the systems that would place a layer with the bound raw, in
// coordinates of the system, so that it meets near, in degrees. Only systems
// whose area of use meets near are tried. First come those whose area of use
// holds most of the layer, then those that put its middle nearest.
func Meeting(raw orb.Bound, near orb.Bound) []*System {
	type fit struct {
		crs    *System
		inside float64 // share of the layer in the area of use, in tenths
		off    float64 // of the middles, kilometres
	}
	if raw.IsEmpty() || near.IsEmpty() {
		return nil
	}
	var fits []fit
	for _, c := range known {
		if !c.area.Intersects(near) || c.IsDegrees() && share(raw, world) < 1 {
			continue
		}
		there := c.bound(orb.Bound{
			Min: orb.Point{math.Max(near.Min[0], c.area.Min[0]), math.Max(near.Min[1], c.area.Min[1])},
			Max: orb.Point{math.Min(near.Max[0], c.area.Max[0]), math.Min(near.Max[1], c.area.Max[1])},
		})
		// Written so that bounds of NaN meet nothing.
		if raw.Min[0] <= there.Max[0] && raw.Max[0] >= there.Min[0] && raw.Min[1] <= there.Max[1] && raw.Max[1] >= there.Min[1] {
			fits = append(fits, fit{c, math.Round(10 * share(raw, c.bound(c.area))),
				math.Round(flat.Distance(raw.Center(), there.Center()) * c.metres / 1000)})
		}
	}
	// Rounded, so that systems which differ by nothing that can be seen keep
	// their order.
	slices.SortStableFunc(fits, func(a, b fit) int {
		return cmp.Or(cmp.Compare(b.inside, a.inside), cmp.Compare(a.off, b.off))
	})
	var out []*System
	for _, f := range fits {
		out = append(out, f.crs)
	}
	return out
}

// share returns how much of a bound lies in another; a side of no length counts
// whole or not at all.
func share(of, in orb.Bound) float64 {
	whole := 1.0
	for i := range 2 {
		low, high := math.Max(of.Min[i], in.Min[i]), math.Min(of.Max[i], in.Max[i])
		if low > high {
			return 0
		}
		if length := of.Max[i] - of.Min[i]; length > 0 {
			whole *= (high - low) / length
		}
	}
	return whole
}
