package site

import (
	"github.com/paulmach/orb"

	"waterward/geo"
)

// land returns what the shoreline layer knows of land near the site, nil if it
// knows nothing. Land areas speak for themselves; a shoreline drawn as a line
// speaks only if its side is stated.
func (s *Site) land() func(orb.Point) bool {
	l := s.Layers.Layer("shoreline")
	if l == nil {
		return nil
	}
	near := s.Near(l.Geo)
	if near.Empty() {
		return nil
	}
	lines, _ := near.OnlyItems(func(item int) bool { return l.Geo.Items[item].Area == nil }).
		FaceWater(geo.Evidence{Stated: l.Side})
	return func(at orb.Point) bool {
		if len(l.Geo.AreasAt(at)) > 0 {
			return true
		}
		if lines.Empty() {
			return false
		}
		signed, _ := lines.Signed(s.Footprint.Plane.Forward(at))
		return signed < 0
	}
}
