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

// wetlands sets the measures of wetlands.
func (s *site) wetlands() {
	l := s.layers.layer("wetlands")
	if l == nil {
		why := unknown("no wetlands layer was given; add layers.wetlands")
		s.setAll(why, "wetland_overlap", "wetland_nearest")
		s.setAll(why, ofWetlandBehind...)
		return
	}
	s.cover(l, "wetland_overlap", "wetland_nearest")
	s.standOff(l)
}

// standOff sets how far the structure stands off wetlands. It is measured of what lies
// before wetlands of its own shore: neither what lies past their end nor the far bank's
// marsh says anything of that.
func (s *site) standOff(l *layer) {
	on, known := s.coveredBehind(l)
	if !known {
		return
	}
	faced := outward(s.near(l.geo))
	if far := s.values["mhw_farthest"]; far.Unknown == "" && s.values["wetland_nearest"].Number > 0 {
		// No way to land from the structure is longer, so nothing farther off
		// can lie on one or be nearer than what does.
		b := s.fp.Bound
		faced = faced.Within(b.Center(), math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])/2+math.Max(0, far.Number)+wetlandBehind)
	}
	own := s.ownWetlands(l, faced)
	var outline, landward *geo.Footprint
	if !own.Empty() {
		outline, landward = s.bank.Fronting(s.fp, own, wetlandBehind)
	}
	if outline == nil {
		s.setAll(on.doubted(s.noneBehind(l, on.reach)), ofWetlandBehind...)
		return
	}
	behind := outline.Nearest(own)
	if behind.Distance > 0 && s.values["wetland_nearest"].Number == 0 {
		if deepest := outline.Least(own); deepest.Distance < 0 { // all of it stands on it
			behind.Distance, behind.Foot.At = 0, behind.At
		}
	}
	s.values["wetland_behind"] = on.lacking(s.reachValue("wetland_behind", behind, own, l), 0)
	s.values["wetland_farthest"] = on.doubted(s.reachValue("wetland_farthest", outline.Farthest(own), own, l))
	s.values["wetland_landward_edge"] = unknown("no landward edge of it lies before the wetland")
	if landward != nil {
		s.values["wetland_landward_edge"] = on.doubted(s.reachValue("wetland_landward_edge", landward.Farthest(own), own, l))
	}
}

// coveredBehind says what the layer answers for; where it cannot be told what lies
// behind, it sets why.
func (s *site) coveredBehind(l *layer) (coverage, bool) {
	on := s.covered(l)
	if on.why == "" && s.bank == nil {
		on.why = s.values["mhw_farthest"].Unknown
	}
	if on.why != "" {
		s.setAll(unknown("%s", on.why), ofWetlandBehind...)
	}
	return on, on.why == ""
}

// outward turns the outlines of areas outward, each as if it were an island's.
func outward(outlines *geo.Lines) *geo.Lines {
	faced, _ := outlines.FaceWater(geo.Evidence{RingIsIsland: true})
	return faced
}

// ownWetlands are the outermost of some outlines of wetlands, of this shore alone.
func (s *site) ownWetlands(l *layer, faced *geo.Lines) *geo.Lines {
	return s.bank.Beside(faced.Outermost(s.fp.Plane, func(at orb.Point) bool { return len(l.geo.AreasAt(at)) > 0 }))
}

// noneBehind is the value of every distance to a wetland behind where none is.
func (s *site) noneBehind(l *layer, reach float64) rules.Value {
	return rules.Value{
		Number: reach, Bound: rules.MoreThan, Detail: "no wetland lies behind it",
		Accuracy: s.unlabelled(l), Layer: l.name, Date: l.source.Date,
	}
}

func (s *site) setAll(v rules.Value, measures ...string) {
	for _, m := range measures {
		s.values[m] = v
	}
}
