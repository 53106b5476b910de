package screening

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// wetlands sets the measures of wetlands. Of how far the structure stands off
// them, only those of its own shore count.
func (s *site) wetlands() {
	farthest, landward := "wetland_farthest", "wetland_landward_edge"
	l := s.layers.layer("wetlands")
	if l == nil {
		why := unknown("no wetlands layer was given; add layers.wetlands")
		for _, name := range []string{"wetland_overlap", "wetland_nearest", farthest, landward} {
			s.values[name] = why
		}
		return
	}
	s.cover(l, "wetland_overlap", "wetland_nearest")
	nearest := s.values["wetland_nearest"]
	none := nearest // unknown, or none so near: then all of it is farther
	if nearest.Unknown == "" && s.bank == nil {
		none = unknown("%s", s.values["bank_length"].Unknown)
	}
	var own *geo.Lines
	if none.Unknown == "" {
		faced, _ := s.near(l.geo).FaceWater(geo.Evidence{
			Land:  func(at orb.Point) bool { return len(l.geo.AreasAt(at)) > 0 },
			Plane: s.fp.Plane, RingIsIsland: true,
		})
		if own = s.bank.Beside(faced); own.Empty() {
			reach, _ := s.reached(l)
			none = rules.Value{Number: reach, Bound: rules.MoreThan, Detail: "on its own shore", Accuracy: s.unlabelled(l), Layer: l.name, Date: l.source.Date}
		}
	}
	if own.Empty() || nearest.Bound != rules.Exact {
		s.values[farthest], s.values[landward] = none, none
		return
	}
	value := func(name string, r geo.Reach) {
		item := l.items[own.Item(r.Foot)]
		s.draw(name, r.At, r.Foot.At, l.name, item.label)
		s.values[name] = rules.Value{
			Number: r.Distance, Room: math.NaN(), Accuracy: s.accuracy(item),
			Layer: l.name, Feature: item.label, Date: l.source.Date,
		}
	}
	value(farthest, s.fp.Farthest(own))
	value(landward, s.fp.LandwardEdge(own))
}
