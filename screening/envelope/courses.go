package envelope

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/area"
	"waterward/screening/layers"
	"waterward/screening/site"
)

// courses are all lines along which an answer to what is asked can change before the front.
func (e *Search) courses(h *shore, asked *asks) ([]area.Course, error) {
	var plain []area.Course
	walls := h.Near(h.Layers.Layer("high_water").Geo).Courses(h.Bank.Lines.Turned(h.line))
	wall := func(lines [][]orb.Point) { walls = appendCourses(walls, lines, true) }
	wall(h.walls(e))
	// Beyond the reach nothing is asked, so it need not be gathered.
	err := h.rings(site.LimitSource{Lines: h.Bank.Lines, Extra: 0}, h.reach, wall)
	if err != nil {
		return nil, err
	}
	compartments, err := geo.NewCompartments(walls, h.extent)
	if err != nil {
		return nil, err
	}
	within := func(from site.LimitSource, distance float64) error {
		if from.Lines.Empty() || !compartments.Reached(from.Lines, math.Max(0, distance)) {
			return nil
		}
		return h.rings(from, distance, func(lines [][]orb.Point) { plain = appendCourses(plain, lines, false) })
	}
	for _, limit := range asked.limits {
		if limit.distance > h.reach+e.spotRadius {
			continue
		}
		l := h.Layers.Layer(limit.of.Layer)
		if l == nil && limit.of.Layer != "riparian" {
			continue
		}
		if l != nil && l.Surveyed != nil { // nearer to its edge the layer answers for less
			if err := within(site.LimitSource{Lines: h.around[l.Surveyed], Extra: 0}, limit.distance); err != nil {
				return nil, err
			}
		}
		for _, source := range h.sources(limit.of, l) {
			if err := within(source, limit.distance+source.Extra); err != nil {
				return nil, err
			}
		}
	}
	if h.marsh != nil && asked.siting.Asks(site.OfWetlandBehind...) { // beyond the reach, as a line that ends parts nothing
		plain = appendCourses(plain, h.Bank.Within(h.extent).Shadows(h.marsh, site.WetlandBehind, lateralExcess*h.reach), false)
	}
	plain = appendCourses(plain, h.corners(), false)
	for _, share := range append([]float64{0.5}, asked.shares...) {
		for _, w := range h.waters {
			if off := share * w.width.Number; w.width.Unknown == "" && off <= h.reach {
				if err := within(site.LimitSource{Lines: h.Bank.Lines, Extra: 0}, off); err != nil {
					return nil, err
				}
			}
		}
	}
	for _, l := range h.Layers.All() {
		if !asked.layers[l.Name] || l.Name == "high_water" || l.Name == "low_water" {
			continue
		}
		plain = appendCourses(plain, h.around[l.Geo].Chains(), false)
		if l.Surveyed != nil {
			plain = appendCourses(plain, h.around[l.Surveyed].Chains(), false)
		}
	}
	return compartments.Kept(append(walls, plain...)), nil
}

func appendCourses(to []area.Course, lines [][]orb.Point, wall bool) []area.Course {
	for _, line := range lines {
		to = append(to, area.Course{Points: line, Wall: wall})
	}
	return to
}

// rings draws all places at a distance from lines, or the lines themselves if that is
// nothing.
func (h *shore) rings(from site.LimitSource, distance float64, add func([][]orb.Point)) error {
	if from.Lines.Empty() || math.IsNaN(distance) {
		return nil
	}
	if distance <= 0 {
		add(from.Lines.Chains())
		return nil
	}
	rings, err := geo.LimitRings(from.Lines, distance, h.extent)
	if err != nil {
		return err
	}
	add(rings)
	return nil
}

// sources are the lines a distance measure is taken from before this front.
func (h *shore) sources(of site.Record, l *layers.Layer) []site.LimitSource {
	if of.Layer == "riparian" {
		out := []site.LimitSource{{Lines: h.constructed(h.Footprint.Plane), Extra: 0}}
		if l != nil {
			out = append(out, site.LimitSource{Lines: h.around[l.Geo], Extra: 0})
		}
		return out
	}
	if of.Layer == "wetlands" && of.Shore {
		return []site.LimitSource{{Lines: h.marsh, Extra: 0}}
	}
	s := *h.Site
	s.Lines = h.around
	return s.LimitSources(l)
}
