package screening

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// wetlandBehind is how far landward of the bank, in metres (30 ft), a wetland may
// begin and still lie behind the structure: marsh grows on both sides of mean
// high water, and surveys of the two seldom meet.
const wetlandBehind = 30 * foot

// ofWetlandBehind are the measures of the wetland behind the structure.
var ofWetlandBehind = []string{"wetland_behind", "wetland_farthest", "wetland_landward_edge"}

// wetlands sets the measures of wetlands. How far the structure stands off them
// is measured of what lies before wetlands of its own shore: neither what lies
// past their end nor the far bank's marsh says anything of that.
func (s *site) wetlands() {
	l := s.layers.layer("wetlands")
	if l == nil {
		why := unknown("no wetlands layer was given; add layers.wetlands")
		s.setAll(why, "wetland_overlap", "wetland_nearest")
		s.setAll(why, ofWetlandBehind...)
		return
	}
	s.cover(l, "wetland_overlap", "wetland_nearest")
	on := s.covered(l)
	switch {
	case on.why != "":
		s.setAll(unknown("%s", on.why), ofWetlandBehind...)
		return
	case s.bank == nil:
		s.setAll(unknown("%s", s.values["bank_length"].Unknown), ofWetlandBehind...)
		return
	}
	// Every outline is turned outward, as if it were an island's.
	faced, _ := s.near(l.geo).FaceWater(geo.Evidence{RingIsIsland: true})
	if far := s.values["mhw_farthest"]; far.Unknown == "" && s.values["wetland_nearest"].Number > 0 {
		// No way to land from the structure is longer, so nothing farther off
		// can lie on one or be nearer than what does.
		b := s.fp.Bound
		faced = faced.Within(b.Center(), math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])/2+math.Max(0, far.Number)+wetlandBehind)
	}
	outer := faced.Outermost(s.fp.Plane, func(at orb.Point) bool { return len(l.geo.AreasAt(at)) > 0 })
	var outline, landward *geo.Footprint
	own := s.bank.Beside(outer)
	if !own.Empty() {
		outline, landward = s.bank.Fronting(s.fp, own, wetlandBehind)
	}
	if outline == nil {
		none := rules.Value{
			Number: on.reach, Bound: rules.MoreThan, Detail: "no wetland lies behind it",
			Accuracy: s.unlabelled(l), Layer: l.name, Date: l.source.Date,
		}
		s.setAll(on.doubted(none), ofWetlandBehind...)
		return
	}
	s.values["wetland_behind"] = on.lacking(s.reachValue("wetland_behind", outline.Nearest(own), own, l), 0)
	s.values["wetland_farthest"] = on.doubted(s.reachValue("wetland_farthest", outline.Farthest(own), own, l))
	s.values["wetland_landward_edge"] = unknown("no landward edge of it lies before the wetland")
	if landward != nil {
		s.values["wetland_landward_edge"] = on.doubted(s.reachValue("wetland_landward_edge", landward.Farthest(own), own, l))
	}
}

func (s *site) setAll(v rules.Value, measures ...string) {
	for _, m := range measures {
		s.values[m] = v
	}
}
