package site

import (
	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// setbackMargin is how far round a footprint, in metres (100 ft), its limit
// lines are drawn.
const setbackMargin = 100 * job.Foot

// limitLine is a limit of the books that can be drawn: so far from a line.
type limitLine struct {
	Measure  string
	Distance float64 // metres
	Limit    string  // what is demanded, in words: "at most 10 ft"
	Of       []LimitOf
}

// LimitOf is a criterion of a book that sets a limit.
type LimitOf struct {
	Book      *rules.Book
	Path      *rules.Path
	Criterion *rules.Criterion
}

// LimitLines gathers the limits of all books, each once for all criteria that set it.
func LimitLines(books []*rules.Book) []*limitLine {
	var out []*limitLine
	for _, b := range books {
		for _, path := range b.Paths {
			for _, c := range path.Criteria {
				for _, in := range c.Inputs() {
					if RecordOf(in.Ref.Measure).Drawn && c.Limit > 0 {
						out = addLimit(out, limitLine{in.Ref.Measure, c.Limit, c.LimitText(), []LimitOf{{b, path, c}}})
					}
				}
			}
		}
	}
	return out
}

func addLimit(all []*limitLine, limit limitLine) []*limitLine {
	for _, l := range all {
		if l.Measure == limit.Measure && l.Distance == limit.Distance && l.Limit == limit.Limit {
			l.Of = append(l.Of, limit.Of...)
			return all
		}
	}
	return append(all, &limit)
}

// Setbacks draws the limit lines round the site.
func (s *Site) Setbacks(limits []*limitLine) []DrawnLimit {
	var out []DrawnLimit
	window := s.Footprint.Bound.Pad(setbackMargin)
	for _, limit := range limits {
		from := RecordOf(limit.Measure)
		l := s.Layers.Layer(from.Layer)
		if l == nil || limit.Distance > s.Radius {
			continue
		}
		for _, lines := range s.LimitSources(l) {
			for _, line := range geo.LimitLines(lines.Lines, limit.Distance+lines.Extra, from.side, window) {
				if from.side == geo.BothSides && s.insideArea(l, line) {
					continue
				}
				out = append(out, DrawnLimit{limit, l.Name, line})
			}
		}
	}
	return out
}

// DrawnLimit is a limit line in the plane of its site.
type DrawnLimit struct {
	*limitLine
	Layer string
	Line  []orb.Point
}

// LimitSource is lines to draw a limit from; Extra is added to the distance
// (half the width of a channel given by its centreline).
type LimitSource struct {
	Lines *geo.Lines
	Extra float64
}

func (s *Site) LimitSources(l *layers.Layer) []LimitSource {
	switch l.Name {
	case "high_water":
		if s.Bank == nil {
			return nil
		}
		return []LimitSource{{s.Bank.Lines, 0}}
	case "low_water":
		if s.Low == nil {
			return nil
		}
		return []LimitSource{{s.Low.Lines, 0}}
	}
	near := s.Near(l.Geo)
	if l.Name != "channels" {
		return []LimitSource{{near, 0}}
	}
	out := []LimitSource{{near.OnlyItems(func(item int) bool { return l.Geo.Items[item].Area != nil }), 0}}
	for _, one := range near.ByItem() {
		item := one.Item
		if l.Geo.Items[item].Area == nil && l.Items[item].Width > 0 {
			out = append(out, LimitSource{one.Lines, l.Items[item].Width / 2})
		}
	}
	return out
}

// insideArea reports whether a limit line round an area lies within an area of
// the same layer, where the limit is not what matters.
func (s *Site) insideArea(l *layers.Layer, line []orb.Point) bool {
	return len(l.Geo.AreasAt(s.Footprint.Plane.Inverse(line[len(line)/2]))) > 0
}
