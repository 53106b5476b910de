package front

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
)

// claim is how near a parcel comes to a place of the shore.
type claim struct {
	parcel   int
	gap      float64 // 0 where it holds the place
	outlines *geo.Lines
	foot     geo.Foot // on them
}

// surroundings are what lies near some edges.
type surroundings struct {
	shore    geo.Shore
	outlines *geo.Lines // of the parcels
	at       orb.Point  // a point of them
	holders  []int      // the parcels that hold it
}

// holding are the parcels that hold a point: of a parcel with a long outline only what
// is near is looked at.
func (s *surroundings) holding(at orb.Point) []int {
	out := slices.Clone(s.holders)
	for _, parcel := range s.outlines.Crossed(s.at, at) {
		if k := slices.Index(out, parcel); k >= 0 {
			out = slices.Delete(out, k, k+1)
		} else {
			out = append(out, parcel)
		}
	}
	return out
}

// claims are those of the parcels that may front a place, in order of parcel.
func (w *walk) claims(p shorePlace) []claim {
	if known, ok := w.known[p.station]; ok {
		return known
	}
	near, edge, at := w.near(p.edge), w.edges[p.edge], w.base.At(p.station)
	holders := near.holding(at)
	var out []claim
	for _, foot := range near.shore.Behind(edge, at, near.outlines, w.tolerance) {
		c := claim{near.outlines.Item(foot), foot.Distance, near.outlines, foot}
		if k := slices.Index(holders, c.parcel); k >= 0 {
			c.gap, holders = 0, slices.Delete(holders, k, k+1)
		}
		if foot.Distance == 0 { // its outline is the shore: water is no land with a shore
			landward, waterward := near.shore.Beside(edge, at, besideShore)
			if slices.Contains(near.holding(waterward), c.parcel) && !slices.Contains(near.holding(landward), c.parcel) {
				continue
			}
		}
		out = append(out, c)
	}
	for _, parcel := range holders {
		out = append(out, claim{parcel: parcel})
	}
	slices.SortFunc(out, func(a, b claim) int { return cmp.Compare(a.parcel, b.parcel) })
	w.known[p.station] = out
	return out
}

// claim is that of one parcel, if it has one.
func (w *walk) claim(p shorePlace, parcel int) (claim, bool) {
	all := w.claims(p)
	k, ok := slices.BinarySearchFunc(all, parcel, func(c claim, parcel int) int { return cmp.Compare(c.parcel, parcel) })
	if !ok {
		return claim{}, false
	}
	return all[k], true
}

// near is what lies near an edge.
func (w *walk) near(edge int) *surroundings {
	if s := w.around[edge]; s != nil {
		return s
	}
	points, _ := w.shore.Strand(w.c.strand)
	s, start := &surroundings{}, w.base.Station(edge, 0)
	bound := points[w.edges[edge]].Bound()
	for e := edge; e == edge || e < len(w.around) && w.base.Station(e, 1)-start <= aroundLength; e++ {
		bound = bound.Extend(points[w.edges[e]+1])
		w.around[e] = s
	}
	window := crs.Window(bound, w.tolerance+geo.SideLine)
	s.shore = geo.Shore{Near: w.shore.Near(w.c.plane, window), Strand: w.c.strand, Water: w.c.water}
	s.outlines = w.parcels.Near(w.c.plane, window)
	// A point on an outline would be held, or not, by chance: take one off all of them.
	for k, clear := 1, false; !clear && k <= mostTried; k++ {
		_, t := math.Modf(float64(k) * math.Phi)
		s.at, _ = s.shore.Beside(w.edges[edge], w.base.At(w.base.Station(edge, t)), (1+t)*besideShore)
		clear = s.outlines.Nearest(s.at).Distance > equallyNear
	}
	s.holders = w.parcels.AreasAt(w.c.plane.Inverse(s.at))
	return s
}
