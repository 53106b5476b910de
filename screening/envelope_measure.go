package screening

// measured is a candidate with every measure that is asked for, as newSite has them.
func (e *envelope) measured(p *proposal, of asked) *site {
	s := bareSite(p, e.layers, e.radius)
	s.stated()
	s.lengths()
	if of.onShore() {
		s.tidal()
		s.vertical()
	}
	s.ofProject(nil)
	s.surroundings(of)
	if l := e.layers.layer("wetlands"); l != nil && of.asks(ofWetlandBehind...) {
		s.standOff(l)
	}
	if l := e.layers.layer("riparian"); l != nil && of.asks("riparian_") {
		s.values["riparian_nearest"] = s.riparian(l)
	}
	return s
}
