package geo

import "github.com/paulmach/orb"

// roomSlack is how far, in metres, beyond a room what is drawn still counts: far more
// than rounding moves it.
const roomSlack = 0.001

// Rooms are the pieces of a window between walls in which cells can be gathered from a
// start: what lies in no other piece can be left out without changing any of them.
type Rooms struct{ bounds []rect }

// NewRooms takes all courses that are walls or start.
func NewRooms(walls []Course, window orb.Bound) (*Rooms, error) {
	pieces, err := Divide(walls, window)
	if err != nil {
		return nil, err
	}
	r := &Rooms{}
	for _, c := range pieces.Cells {
		if c.start >= leastStart {
			r.bounds = append(r.bounds, rectOf(c.Polygon[0].Bound().Pad(roomSlack)))
		}
	}
	return r, nil
}

// Kept is what of courses may lie in the rooms or part them from what lies beside them.
func (r *Rooms) Kept(courses []Course) []Course {
	var out []Course
	for _, c := range courses {
		from := 0 // of the run of edges to be kept
		for i := 1; i <= len(c.Points); i++ {
			if i < len(c.Points) && r.touched(ringEdge{c.Points[i-1], c.Points[i]}.rect(0)) {
				continue
			}
			if i-from > 1 {
				out = append(out, Course{c.Points[from:i], c.Wall, c.Start})
			}
			from = i
		}
	}
	return out
}

func (r *Rooms) touched(by rect) bool {
	for i := range r.bounds {
		if r.bounds[i].touches(&by) {
			return true
		}
	}
	return false
}

// Reached reports whether any place in the rooms may lie at a distance from lines, give
// or take what a ring drawn there may lie off.
func (r *Rooms) Reached(lines *Lines, d float64) bool {
	off := limitTolerance + bufferError*d
	for _, b := range r.bounds {
		centre := orb.Point{(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2}
		radius := distance(centre, orb.Point{b.minX, b.minY})
		away := lines.Nearest(centre).Distance
		if away-radius <= d+off && d <= away+radius+off {
			return true
		}
	}
	return false
}
