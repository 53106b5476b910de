package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Stationing finds the stations of many points of a line.
type Stationing struct {
	base  Baseline
	edges []flat.Edge
	boxes []flat.Box // what lies on each edge lies in its box
}

// NewStationing stations a line of the plane from its first point.
func NewStationing(line []orb.Point) *Stationing {
	s := &Stationing{base: NewBaseline(line)}
	for i := 1; i < len(line); i++ {
		e := flat.Edge{A: line[i-1], B: line[i]}
		s.edges, s.boxes = append(s.edges, e), append(s.boxes, e.Box(2*onLine))
	}
	return s
}

// Of returns the station of a point of the line; false if it lies off it.
func (s *Stationing) Of(p orb.Point) (float64, bool) {
	for i := range s.boxes {
		if s.boxes[i].Squared(p) > 0 {
			continue
		}
		if at, t := flat.Project(s.edges[i].A, s.edges[i].B, p); flat.Distance(p, at) <= onLine {
			return s.base.Station(i, t), true
		}
	}
	return 0, false
}
