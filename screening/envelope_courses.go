package screening

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/area"
)

// courses are all lines along which the answer of some path can change before the
// front.
func (e *envelope) courses(h *shore) ([]area.Course, error) {
	var plain []area.Course
	walls := h.near(h.layers.layer("high_water").geo).Courses(h.bank.Lines.Turned(h.line))
	wall := func(lines [][]orb.Point) { walls = appendCourses(walls, lines, true) }
	wall(h.walls(e))
	// Beyond the reach nothing is asked, so it need not be gathered.
	err := h.rings(limitSource{h.bank.Lines, 0}, h.reach, wall)
	if err != nil {
		return nil, err
	}
	compartments, err := geo.NewCompartments(walls, h.extent)
	if err != nil {
		return nil, err
	}
	within := func(from limitSource, distance float64) error {
		if from.lines.Empty() || !compartments.Reached(from.lines, math.Max(0, distance)) {
			return nil
		}
		return h.rings(from, distance, func(lines [][]orb.Point) { plain = appendCourses(plain, lines, false) })
	}
	for _, limit := range e.limits {
		if limit.distance > h.reach+e.spotRadius {
			continue
		}
		l := h.layers.layer(limit.of.layer)
		if l == nil && limit.of.layer != "riparian" {
			continue
		}
		if l != nil && l.surveyed != nil { // nearer to its edge the layer answers for less
			if err := within(limitSource{h.around[l.surveyed], 0}, limit.distance); err != nil {
				return nil, err
			}
		}
		for _, source := range h.sources(limit.of, l) {
			if err := within(source, limit.distance+source.extra); err != nil {
				return nil, err
			}
		}
	}
	if h.marsh != nil { // beyond the reach, as a line that ends parts nothing
		plain = appendCourses(plain, h.bank.Within(h.extent).Shadows(h.marsh, wetlandBehind, lateralExcess*h.reach), false)
	}
	plain = appendCourses(plain, h.corners(), false)
	for _, share := range append([]float64{0.5}, e.shares...) {
		for _, w := range h.waters {
			if off := share * w.width.Number; w.width.Unknown == "" && off <= h.reach {
				if err := within(limitSource{h.bank.Lines, 0}, off); err != nil {
					return nil, err
				}
			}
		}
	}
	for _, l := range h.layers.all() {
		if !e.asks[l.name] || l.name == "high_water" || l.name == "low_water" {
			continue
		}
		plain = appendCourses(plain, h.around[l.geo].Chains(), false)
		if l.surveyed != nil {
			plain = appendCourses(plain, h.around[l.surveyed].Chains(), false)
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
func (h *shore) rings(from limitSource, distance float64, add func([][]orb.Point)) error {
	if from.lines.Empty() || math.IsNaN(distance) {
		return nil
	}
	if distance <= 0 {
		add(from.lines.Chains())
		return nil
	}
	rings, err := geo.LimitRings(from.lines, distance, h.extent)
	if err != nil {
		return err
	}
	add(rings)
	return nil
}

// sources are the lines a distance measure is taken from before this front.
func (h *shore) sources(of measureRecord, l *layer) []limitSource {
	if of.layer == "riparian" {
		out := []limitSource{{h.constructed(h.fp.Plane), 0}}
		if l != nil {
			out = append(out, limitSource{h.around[l.geo], 0})
		}
		return out
	}
	if of.layer == "wetlands" && of.shore {
		return []limitSource{{h.marsh, 0}}
	}
	s := *h.site
	s.lines = h.around
	return s.limitSources(l)
}
