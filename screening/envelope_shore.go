package screening

import (
	"maps"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/rules"
)

// shore is one front with what is mapped round it, in the plane of its site.
type shore struct {
	*site
	front      *front
	line       []orb.Point // the front in the plane
	frontLines *geo.Lines
	reach      float64   // how far out is looked, metres
	extent     orb.Bound // of the plane, in which is looked
	noHigh     string    // why the bank is not known, if it is not
	noLow      string
	waters     []water   // across its sides
	lateral    []lateral // the riparian lines at its ends
	around     map[*geo.Layer]*geo.Lines
	marsh      *geo.Lines // outlines of the wetlands of this shore, if they are asked for
}

// newShore looks round a front. structure is what the modest structure states.
func (e *envelope) newShore(f *front, structure *proposal) (*shore, error) {
	line := orb.LineString(f.points)
	fp, err := geo.NewFootprint(line, 0, 0)
	if err != nil {
		return nil, err
	}
	p := *structure
	p.feature, p.footprint = geojson.NewFeature("", line, e.system), fp
	h := &shore{site: bareSite(&p, e.layers, e.radius), front: f, reach: e.settings.Reach.Metres}
	for _, at := range f.points {
		h.line = append(h.line, fp.Plane.Forward(at))
	}
	h.frontLines = geo.NewLines(h.line)
	h.extent = fp.Bound.Pad(h.reach * 1.01)
	h.noHigh, h.noLow = h.banks()
	if h.bank == nil {
		return h, nil
	}
	h.occupied = h.bank.Occupied()
	h.waters = e.waters(h)
	h.lateral = e.laterals(h)
	// Nothing farther can be nearest to a place within the extent.
	around := h.extent.Pad(2 * h.reach)
	bank := h.bank.Within(around)
	if h.low != nil {
		h.low = h.low.Facing(h.frontLines, bank) // which can lie far beyond the reach
	}
	h.bank = bank.Facing(h.frontLines, bank)
	h.around = map[*geo.Layer]*geo.Lines{}
	for _, l := range e.layers.all() {
		if e.asks[l.name] {
			h.around[l.geo] = l.geo.Near(fp.Plane, e.near(h))
			if l.surveyed != nil {
				h.around[l.surveyed] = l.surveyed.Near(fp.Plane, e.near(h))
			}
		}
	}
	if l := e.layers.layer("wetlands"); l != nil && e.siting.asks(ofWetlandBehind...) {
		h.marsh = h.ownWetlands(l, outward(h.around[l.geo]))
	}
	return h, nil
}

// acrossFront is the least width of the water across the front, as a structure
// along all of it would have it.
func (h *shore) acrossFront() rules.Value {
	if h.unclear != "" {
		return unknown("another high water line is near, but %s", h.unclear)
	}
	across := h.bank.WidthBefore(offFront)
	if across.Distance > h.radius {
		return rules.Value{Number: h.radius, Bound: rules.MoreThan}
	}
	return rules.Value{Number: across.Distance}
}

// offFront is how far off its front a structure is thought to stand, in metres (10 ft), to
// look how wide the water is: farther than most shores wind.
const offFront = 10 * foot

// spot makes a place the facts that the siting criteria of books ask for.
type spot struct{ *site }

// Measure answers for the place, and for what the modest structure states.
func (s spot) Measure(ref rules.Ref) rules.Value {
	if _, ok := placeRecord(ref.Measure); ok || statedBy(ref.Measure) != "" {
		return s.site.Measure(ref)
	}
	return unknown("it is not a matter of the place")
}

// spot measures one place of the plane.
func (h *shore) spot(at orb.Point, e *envelope) spot {
	s := &site{
		p: h.p, fp: geo.NewSpot(h.fp.Plane, at), layers: h.layers, radius: e.spotRadius,
		window: h.window, values: maps.Clone(e.stated), lines: h.around,
		faced: h.faced, bank: h.bank, low: h.low,
	}
	s.offLine(e.siting, h.layers.layer("high_water"), h.bank, h.noHigh, "mhw")
	s.offLine(e.siting, h.layers.layer("low_water"), h.low, h.noLow, "mlw")
	s.surroundings(e.siting)
	if h.marsh != nil {
		h.standsOff(s, at)
	}
	if e.asks["riparian"] {
		s.values["riparian_nearest"] = h.riparianAt(s)
	}
	width := h.widthAt(at)
	s.values["waterway_width"], s.values["waterway_share"] = width, shareOf(width, s.values["mhw_farthest"])
	return spot{s}
}

// standsOff sets how far a place stands off wetlands, as standOff does for a structure.
func (h *shore) standsOff(s *site, at orb.Point) {
	l := h.layers.layer("wetlands")
	on, known := s.coveredBehind(l)
	switch {
	case !known:
		return
	case !h.bank.Before(at, h.marsh, wetlandBehind):
		s.setAll(on.doubted(s.noneBehind(l, on.reach)), ofWetlandBehind...)
		return
	}
	signed, foot := h.marsh.Signed(at)
	for _, measure := range ofWetlandBehind {
		d := signed
		if measure == "wetland_behind" {
			d = math.Max(0, signed)
		}
		s.values[measure] = s.reachValue(measure, geo.Reach{Distance: d, At: at, Foot: foot}, h.marsh, l)
	}
}

// shareOf is the share of the waterway's width that a structure reaching to a place takes.
func shareOf(width, reach rules.Value) rules.Value {
	switch {
	case reach.Unknown != "":
		return reach
	case width.Unknown != "":
		return width
	}
	share := rules.Value{Number: math.Max(0, reach.Number) / width.Number, Whole: width.Number}
	if width.Bound == rules.MoreThan {
		share.Bound = rules.LessThan
	}
	return share
}
