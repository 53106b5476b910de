package envelope

import (
	"maps"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/front"
	"waterward/screening/job"
	"waterward/screening/site"
)

// shore is one front with what is mapped round it, in the plane of its site.
type shore struct {
	*site.Site
	front      *front.Front
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
func (e *Search) newShore(f *front.Front, structure *site.Proposal) (*shore, error) {
	line := orb.LineString(f.Points)
	fp, err := geo.NewFootprint(line, 0, 0)
	if err != nil {
		return nil, err
	}
	p := *structure
	p.Of, p.Footprint = site.Alone(geojson.NewFeature("", line, e.System), ""), fp
	h := &shore{Site: site.Bare(&p, e.Layers, e.Radius), front: f, reach: e.Settings.Reach.Metres}
	for _, at := range f.Points {
		h.line = append(h.line, fp.Plane.Forward(at))
	}
	h.frontLines = geo.NewLines(h.line)
	h.extent = fp.Bound.Pad(h.reach * 1.01)
	h.noHigh, h.noLow = h.Banks()
	if h.Bank == nil {
		return h, nil
	}
	h.Occupied = h.Bank.Occupied()
	h.waters = e.waters(h)
	h.lateral = e.laterals(h)
	// Nothing farther can be nearest to a place within the extent.
	around := h.extent.Pad(2 * h.reach)
	bank := h.Bank.Within(around)
	if h.Low != nil {
		h.Low = h.Low.Facing(h.frontLines, bank) // which can lie far beyond the reach
	}
	h.Bank = bank.Facing(h.frontLines, bank)
	h.around = map[*geo.Layer]*geo.Lines{}
	for _, l := range e.Layers.All() {
		if e.around.layers[l.Name] {
			h.around[l.Geo] = l.Geo.Near(fp.Plane, e.near(h))
			if l.Surveyed != nil {
				h.around[l.Surveyed] = l.Surveyed.Near(fp.Plane, e.near(h))
			}
		}
	}
	if l := e.Layers.Layer("wetlands"); l != nil && e.around.siting.Asks(site.OfWetlandBehind...) {
		h.marsh = h.OwnWetlands(l, site.Outward(h.around[l.Geo]))
	}
	return h, nil
}

// acrossFront is the least width of the water across the front, as a structure
// along all of it would have it.
func (h *shore) acrossFront() rules.Value {
	if h.Unclear != "" {
		return site.Unknown("another high water line is near, but %s", h.Unclear)
	}
	shore, rock := h.Bank.WidthBefore(offFront)
	if rock.Distance > h.Radius {
		return rules.Value{Number: h.Radius, Bound: rules.MoreThan}
	}
	width := rules.Value{Number: rock.Distance}
	if shore.Distance-rock.Distance > rules.Resolution {
		width.Also = []rules.Also{{Number: math.Min(shore.Distance, h.Radius), Says: h.RockOrShore(shore, rock)}}
	}
	return width
}

// offFront is how far off its front a structure is thought to stand, in metres (10 ft), to
// look how wide the water is: farther than most shores wind.
const offFront = 10 * job.Foot

// spot makes a place the facts that the siting criteria of books ask for.
type spot struct{ *site.Site }

// Measure answers for the place, and for what the modest structure states.
func (s spot) Measure(ref rules.Ref) rules.Value {
	if _, ok := site.PlaceRecord(ref.Measure); ok || site.RecordOf(ref.Measure).Property != "" {
		return s.Site.Measure(ref)
	}
	return site.Unknown("it is not a matter of the place")
}

// spot measures one place of the plane.
func (h *shore) spot(at orb.Point, e *Search, asked *asks) spot {
	s := &site.Site{
		Proposal: h.Proposal, Footprint: geo.NewSpot(h.Footprint.Plane, at), Layers: h.Layers, Radius: e.spotRadius,
		Window: h.Window, Values: maps.Clone(e.stated), Lines: h.around,
		Faced: h.Faced, Bank: h.Bank, Low: h.Low,
	}
	s.OffLine(asked.siting, "high_water", h.Bank, h.noHigh)
	s.OffLine(asked.siting, "low_water", h.Low, h.noLow)
	s.Surroundings(asked.siting)
	if h.marsh != nil && asked.siting.Asks(site.OfWetlandBehind...) {
		h.standsOff(s, at)
	}
	if asked.layers["riparian"] {
		s.Values["riparian_nearest"] = h.riparianAt(s)
	}
	width := h.widthAt(at)
	s.Values["waterway_width"], s.Values["waterway_share"] = width, shareOf(width, s.Values["mhw_farthest"])
	return spot{s}
}

// standsOff sets how far a place stands off wetlands, as standOff does for a structure.
func (h *shore) standsOff(s *site.Site, at orb.Point) {
	l := h.Layers.Layer("wetlands")
	on, known := s.CoveredBehind(l)
	switch {
	case !known:
		return
	case !h.Bank.Before(at, h.marsh, site.WetlandBehind):
		s.SetAll(on.Doubted(s.NoneBehind(l, on.Reach)), site.OfWetlandBehind...)
		return
	}
	signed, foot := h.marsh.Signed(at)
	for _, measure := range site.OfWetlandBehind {
		d := signed
		if measure == "wetland_behind" {
			d = math.Max(0, signed)
		}
		s.Values[measure] = s.ReachValue(measure, geo.Reach{Distance: d, At: at, Foot: foot}, h.marsh, l)
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
	for _, also := range width.Also {
		share.Also = append(share.Also, rules.Also{Number: math.Max(0, reach.Number) / also.Number, Says: also.Says})
	}
	if width.Bound == rules.MoreThan {
		share.Bound = rules.LessThan
	}
	return share
}
