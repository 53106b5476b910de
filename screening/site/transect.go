package site

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
	"waterward/rules"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// Transect is the cut through the structure that shows how far out it stands: from mean high
// water to the farthest toe and on. Lengths along it are metres from its foot.
type Transect struct {
	Foot, Toe orb.Point // in the plane
	Low       float64   // where it first crosses mean low water, NaN if it does not within [lowWithin] lengths
	Cut                 // that of the structure at the toe; its ends NaN without a footprint
	Others    []Cut     // of the structure landward of it
}

// Cut is where a transect enters and leaves the structure.
type Cut struct {
	In, Out float64
	// Oblique is how many times longer it is within the structure than one square across, NaN
	// if it enters and leaves by sides that do not run alike: it cuts off a corner.
	Oblique float64
}

// A cut at a corner of an element runs along its edge, or takes off the corner; it is tried
// ever farther to either side, in metres (0.5 in, doubled up to 2.7 ft), until it runs from
// side to side.
const (
	aside     = 0.0127
	mostAside = 64 * aside
)

// lowWithin is how far out, in lengths of the cut, mean low water is looked for: what lies
// farther makes of the structure a speck.
const lowWithin = 5

// Transect returns the cut, or why there is none.
func (s *Site) Transect() (t Transect, why string) {
	if v := s.Values["mhw_farthest"]; v.Unknown != "" {
		return t, v.Unknown
	}
	if s.Values["mhw_farthest"].Number < 0 {
		return t, "it lies landward of mean high water"
	}
	at := slices.IndexFunc(s.witnesses, func(w witness) bool { return w.measure == "mhw_farthest" })
	if at < 0 || lengthOf(s.witnesses[at].line) == 0 {
		return t, "it does not stand off mean high water"
	}
	none := Cut{math.NaN(), math.NaN(), math.NaN()}
	t = Transect{Foot: s.witnesses[at].line[1], Toe: s.witnesses[at].line[0], Low: math.NaN(), Cut: none}
	along, long := flat.Direction(t.Foot, t.Toe), flat.Distance(t.Foot, t.Toe)
	if s.Low != nil {
		for _, chain := range s.Low.Lines.Chains() {
			for _, c := range met(t.Foot, along, chain) {
				if off := c.off; off >= 0 && off <= lowWithin*long && !(off >= t.Low) {
					t.Low = off
				}
			}
		}
	}
	for by := 0.0; by <= mostAside && math.IsNaN(t.Oblique); by = max(aside, 2*by) {
		for _, by := range [2]float64{by, -by} {
			from := orb.Point{t.Foot[0] - by*along[1], t.Foot[1] + by*along[0]}
			for _, c := range s.cuts(from, along) {
				if at := c.In <= long && long <= c.Out+2*aside; at && (math.IsNaN(t.In) || math.IsNaN(t.Oblique) && !math.IsNaN(c.Oblique)) {
					t.Cut = c
				}
			}
		}
	}
	t.Others = slices.DeleteFunc(s.cuts(t.Foot, along), func(c Cut) bool { return !(c.Out < t.In) })
	return t, ""
}

// cuts are where a line from a place in a direction enters and leaves the elements, in the
// order of these.
func (s *Site) cuts(from, along orb.Point) []Cut {
	var made []Cut
	for i := range s.Footprint.Elements {
		var all []crossing
		for _, polygon := range s.Footprint.Elements[i].Areas {
			for _, ring := range polygon {
				all = append(all, met(from, along, ring)...)
			}
		}
		slices.SortFunc(all, func(a, b crossing) int { return cmp.Compare(a.off, b.off) })
		for k := 1; k < len(all); k += 2 {
			made = append(made, Cut{all[k-1].off, all[k].off, oblique(all[k-1], all[k])})
		}
	}
	return made
}

// runAlike is the least cosine of the angle between sides that run alike (5 degrees: the sides
// of a strip, and of a disc where the cut passes its middle).
const runAlike = 0.996

// oblique is [Cut.Oblique] of one between two sides.
func oblique(in, out crossing) float64 {
	if math.Abs(in.edge[0]*out.edge[0]+in.edge[1]*out.edge[1]) < runAlike {
		return math.NaN()
	}
	return 1 / math.Abs(out.edge[1])
}

// crossing is where a drawn line crosses a cut: how far along, and its direction there, of
// length 1, as the cut sees it.
type crossing struct {
	off  float64
	edge orb.Point
}

// met are the places along a line, from a place in a direction, where a drawn line crosses it.
func met(from, along orb.Point, line []orb.Point) []crossing {
	local := func(p orb.Point) (on, off float64) {
		dx, dy := p[0]-from[0], p[1]-from[1]
		return dx*along[0] + dy*along[1], dy*along[0] - dx*along[1]
	}
	var made []crossing
	for i := 1; i < len(line); i++ {
		a, offA := local(line[i-1])
		b, offB := local(line[i])
		if (offA > 0) != (offB > 0) { // each vertex on it counts once
			long := math.Hypot(b-a, offB-offA)
			made = append(made, crossing{a + (b-a)*offA/(offA-offB), orb.Point{(b - a) / long, (offB - offA) / long}})
		}
	}
	return made
}

// Planes are the elevations of mean high and mean low water in the proposal's own datum.
func (s *Site) Planes() (high, low rules.Value) {
	return scaled(s.over(s.meanHigh(), 0, "crest"), -1), scaled(s.over(s.meanLow(), 0, "crest"), -1)
}

// Plane is a datum, and its zero in the proposal's own.
type Plane struct {
	Name   string
	Metres float64
}

// DatumPlanes are the datums of the nearest station that can be set against the proposal's
// own, and which station that is; none without a datum, or a station so near that its datums
// are those of the site.
func (s *Site) DatumPlanes() (planes []Plane, station string, away float64) {
	of, away := s.station()
	datum, err := levels.ParseDatum(s.Proposal.Words["datum"])
	if of == nil || err != nil || !(away <= farStation) {
		return nil, "", 0
	}
	for _, e := range of.InAll(0, datum) {
		if e.Unknown == "" {
			planes = append(planes, Plane{string(e.Datum), -e.Metres})
		}
	}
	return planes, of.String(), away
}

// Heights are what the proposal states of the cut through its structure, in metres, elevations
// above its datum; NaN if it does not.
type Heights struct {
	Crest, Bed, Settlement, CrestWidth float64
	Beds                               int     // of how many stated the bed is the mean
	Slope                              float64 // of its sides, horizontal to one vertical
}

// Heights returns them.
func (s *Site) Heights() Heights {
	p := s.Proposal
	h := Heights{p.Crest, p.Bed(), p.settlement, p.crestWidth, len(p.beds), math.NaN()}
	if v := s.Values["side_slope"]; v.Unknown == "" {
		h.Slope = v.Number
	}
	return h
}

// ShoreItem is what is known of the mean high water line nearest to the structure, on its
// home bank, which must be known.
func (s *Site) ShoreItem() layers.Attributes {
	return s.Layers.Layer("high_water").Items[s.Bank.Lines.Item(s.nearestOn(s.Bank.Lines).Foot)]
}
