package screening

import (
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
	reach, why := s.reached(l)
	switch {
	case why != "":
		s.setAll(unknown("%s", why), ofWetlandBehind...)
		return
	case s.bank == nil:
		s.setAll(unknown("%s", s.values["bank_length"].Unknown), ofWetlandBehind...)
		return
	}
	faced, _ := s.near(l.geo).FaceWater(geo.Evidence{
		Land:  func(at orb.Point) bool { return len(l.geo.AreasAt(at)) > 0 },
		Plane: s.fp.Plane, RingIsIsland: true,
	})
	var outline, landward *geo.Footprint
	// Where areas abut, the edge they share is no edge of the wetland.
	own := s.bank.Beside(faced.Outermost(s.fp.Plane, func(at orb.Point) bool { return len(l.geo.AreasAt(at)) > 0 }))
	if !own.Empty() {
		outline, landward = s.bank.Fronting(s.fp, own, wetlandBehind)
	}
	if outline == nil {
		s.setAll(rules.Value{
			Number: reach, Bound: rules.MoreThan, Detail: "no wetland lies behind it",
			Accuracy: s.unlabelled(l), Layer: l.name, Date: l.source.Date,
		}, ofWetlandBehind...)
		return
	}
	s.values["wetland_behind"] = s.reachValue("wetland_behind", outline.Nearest(own), own, l)
	s.values["wetland_farthest"] = s.reachValue("wetland_farthest", outline.Farthest(own), own, l)
	s.values["wetland_landward_edge"] = unknown("no landward edge of it lies before the wetland")
	if landward != nil {
		s.values["wetland_landward_edge"] = s.reachValue("wetland_landward_edge", landward.Farthest(own), own, l)
	}
}

func (s *site) setAll(v rules.Value, measures ...string) {
	for _, m := range measures {
		s.values[m] = v
	}
}
