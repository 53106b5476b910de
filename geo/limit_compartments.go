package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/flat"
)

// compartmentSlack is how far, in metres, beyond a compartment what is drawn still counts: far more
// than rounding moves it.
const compartmentSlack = 0.001

// Compartments are the pieces of a window between walls in which cells can be gathered from a
// start: what lies in no other piece can be left out without changing any of them.
type Compartments struct{ bounds []flat.Box }

// NewCompartments takes all courses that are walls or start.
func NewCompartments(walls []area.Course, window orb.Bound) (*Compartments, error) {
	pieces, err := area.Divide(walls, window)
	if err != nil {
		return nil, err
	}
	c := &Compartments{}
	for _, cell := range pieces.Cells {
		if cell.Start >= area.LeastStart {
			c.bounds = append(c.bounds, flat.BoxOf(cell.Polygon[0].Bound().Pad(compartmentSlack)))
		}
	}
	return c, nil
}

// Kept is what of courses may lie in the compartments or part them from what lies beside them.
func (c *Compartments) Kept(courses []area.Course) []area.Course {
	var out []area.Course
	for _, course := range courses {
		from := 0 // of the run of edges to be kept
		for i := 1; i <= len(course.Points); i++ {
			if i < len(course.Points) && c.touched(flat.Edge{A: course.Points[i-1], B: course.Points[i]}.Box(0)) {
				continue
			}
			if i-from > 1 {
				out = append(out, area.Course{Points: course.Points[from:i], Wall: course.Wall, Start: course.Start})
			}
			from = i
		}
	}
	return out
}

func (c *Compartments) touched(by flat.Box) bool {
	for i := range c.bounds {
		if c.bounds[i].Touches(&by) {
			return true
		}
	}
	return false
}

// Reached reports whether any place in the compartments may lie at a distance from lines, give
// or take what a ring drawn there may lie off.
func (c *Compartments) Reached(lines *Lines, d float64) bool {
	off := limitTolerance + bufferError*d
	for _, b := range c.bounds {
		centre := orb.Point{(b.MinX + b.MaxX) / 2, (b.MinY + b.MaxY) / 2}
		radius := flat.Distance(centre, orb.Point{b.MinX, b.MinY})
		away := lines.Nearest(centre).Distance
		if away-radius <= d+off && d <= away+radius+off {
			return true
		}
	}
	return false
}
