package site

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// WetlandBehind is how far landward of the bank, in metres (30 ft), a wetland may
// begin and still lie behind the structure: marsh grows on both sides of mean
// high water, and surveys of the two seldom meet.
const WetlandBehind = 30 * job.Foot

// wetlands sets the measures of wetlands.
func (s *Site) wetlands() {
	l := s.Layers.Layer("wetlands")
	if l == nil {
		s.SetAll(Unknown("no wetlands layer was given; add layers.wetlands"), ofLayer["wetlands"]...)
		return
	}
	s.cover(l, "wetland_overlap", "wetland_nearest")
	s.StandOff(l)
}

// StandOff sets how far the structure stands off wetlands. It is measured of what lies
// before wetlands of its own shore: neither what lies past their end nor the far bank's
// marsh says anything of that.
func (s *Site) StandOff(l *layers.Layer) {
	on, known := s.CoveredBehind(l)
	if !known {
		return
	}
	faced := Outward(s.Near(l.Geo))
	if far := s.Values["mhw_farthest"]; far.Unknown == "" && s.Values["wetland_nearest"].Number > 0 {
		// No way to land from the structure is longer, so nothing farther off
		// can lie on one or be nearer than what does.
		b := s.Footprint.Bound
		faced = faced.Within(b.Center(), math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])/2+math.Max(0, far.Number)+WetlandBehind)
	}
	own := s.OwnWetlands(l, faced)
	var outline, landward *geo.Footprint
	if !own.Empty() {
		outline, landward = s.Bank.Fronting(s.Footprint, own, WetlandBehind)
	}
	if outline == nil {
		s.SetAll(on.Doubted(s.NoneBehind(l, on.Reach)), OfWetlandBehind...)
		return
	}
	behind := outline.Nearest(own)
	if behind.Distance > 0 && s.Values["wetland_nearest"].Number == 0 {
		if deepest := outline.Least(own); deepest.Distance < 0 { // all of it stands on it
			behind.Distance, behind.Foot.At = 0, behind.At
		}
	}
	s.Values["wetland_behind"] = on.lacking(s.ReachValue("wetland_behind", behind, own, l), 0)
	s.Values["wetland_farthest"] = on.Doubted(s.ReachValue("wetland_farthest", outline.Farthest(own), own, l))
	s.Values["wetland_landward_edge"] = Unknown("no landward edge of it lies before the wetland")
	if landward != nil {
		s.Values["wetland_landward_edge"] = on.Doubted(s.ReachValue("wetland_landward_edge", landward.Farthest(own), own, l))
	}
}

// CoveredBehind says what the layer answers for; where it cannot be told what lies
// behind, it sets why.
func (s *Site) CoveredBehind(l *layers.Layer) (coverage, bool) {
	on := s.covered(l)
	if on.why == "" && s.Bank == nil {
		on.why = s.Values["mhw_farthest"].Unknown
	}
	if on.why != "" {
		s.SetAll(Unknown("%s", on.why), OfWetlandBehind...)
	}
	return on, on.why == ""
}

// Outward turns the outlines of areas outward, each as if it were an island's.
func Outward(outlines *geo.Lines) *geo.Lines {
	faced, _ := outlines.FaceWater(geo.Evidence{RingIsIsland: true})
	return faced
}

// OwnWetlands are the outermost of some outlines of wetlands, of this shore alone.
func (s *Site) OwnWetlands(l *layers.Layer, faced *geo.Lines) *geo.Lines {
	return s.Bank.Beside(faced.Outermost(s.Footprint.Plane, func(at orb.Point) bool { return len(l.Geo.AreasAt(at)) > 0 }))
}

// NoneBehind is the value of every distance to a wetland behind where none is.
func (s *Site) NoneBehind(l *layers.Layer, reach float64) rules.Value {
	return rules.Value{
		Number: reach, Bound: rules.MoreThan, Detail: "no wetland lies behind it",
		Accuracy: s.unlabelled(l), Layer: l.Name, Date: l.Source.Date,
	}
}

func (s *Site) SetAll(v rules.Value, measures ...string) {
	for _, m := range measures {
		s.Values[m] = v
	}
}
