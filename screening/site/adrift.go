package site

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// adrift says of a proposal that lies beyond the search radius of every tidal line how far
// off they are, and in which coordinate systems its positions would lie beside them. Wrong
// is empty if it does not, or if that is not known, as features of a line are lost.
func (s *Site) adrift() (wrong, remedy string) {
	var extent orb.Bound
	known := false
	for _, name := range []string{"high_water", "low_water"} {
		l := s.Layers.Layer(name)
		if l == nil {
			continue
		}
		near := s.Near(l.Geo)
		if s.defect(l) != "" || !near.Empty() && s.nearestOn(near).Distance <= s.Radius {
			return "", ""
		}
		if b, ok := l.Geo.Bound(); ok && known {
			extent = extent.Union(b)
		} else if ok {
			extent, known = b, true
		}
	}
	if !known {
		return "", ""
	}
	wrong = fmt.Sprintf("no tidal line is mapped within %s of it", job.FeetText(s.Radius))
	here := s.place()
	lines := levels.Place{Lon: math.Max(extent.Min[0], math.Min(here.Lon, extent.Max[0])), Lat: math.Max(extent.Min[1], math.Min(here.Lat, extent.Max[1]))}
	if off := here.Distance(lines); off > s.Radius {
		wrong += fmt.Sprintf(", and what is mapped of them begins %s off", job.MilesText(off))
	}
	remedy = "give the layers of its shore, or correct where it is drawn"
	if system := s.Proposal.Of.CRS(); !system.IsDegrees() {
		b := s.Proposal.Of.Bound()
		raw := orb.MultiPoint{system.Projected(b.Min), system.Projected(b.Max)}.Bound()
		if fits := layers.Fitting(raw, crs.Window(extent, s.Radius)); fits != "" {
			remedy = "it is read as " + system.String() + ", and would lie beside them as " + fits + ": correct its coordinate system, or " + remedy
		}
	}
	return wrong, remedy
}
