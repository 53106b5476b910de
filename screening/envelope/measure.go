package envelope

import "waterward/screening/site"

// measured is a candidate with every measure that is asked for, as site.New has them.
func (e *Search) measured(p *site.Proposal, of site.Asked) *site.Site {
	s := site.Bare(p, e.Layers, e.Radius)
	s.Stated()
	s.Lengths()
	if of.OnShore() {
		s.Tidal()
		s.Vertical()
	}
	s.OfProject(nil)
	s.Surroundings(of)
	if l := e.Layers.Layer("wetlands"); l != nil && of.Asks(site.OfWetlandBehind...) {
		s.StandOff(l)
	}
	if l := e.Layers.Layer("riparian"); l != nil && of.AsksOf("riparian") {
		s.Values["riparian_nearest"] = s.Riparian(l)
	}
	return s
}
