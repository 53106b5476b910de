package screening

import (
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// setbackMargin is how far round a footprint, in metres (100 ft), its limit
// lines are drawn.
const setbackMargin = 100 * foot

// limitLine is a limit of the books that can be drawn: so far from a line.
type limitLine struct {
	measure  string
	distance float64 // metres
	criteria []string
}

// limitLines gathers the limits of all books, each place once.
func limitLines(books []*rules.Book) []*limitLine {
	var out []*limitLine
	for _, b := range books {
		for _, path := range b.Paths {
			for _, c := range path.Criteria {
				name := strings.Join([]string{b.Name, path.ID, c.ID}, "/")
				for _, in := range c.Inputs() {
					if _, ok := drawnRecord(in.Ref.Measure); ok && c.Limit > 0 {
						out = addLimit(out, in.Ref.Measure, c.Limit, name)
					}
				}
			}
		}
	}
	return out
}

func addLimit(all []*limitLine, measure string, distance float64, name string) []*limitLine {
	for _, l := range all {
		if l.measure == measure && l.distance == distance {
			l.criteria = append(l.criteria, name)
			return all
		}
	}
	return append(all, &limitLine{measure, distance, []string{name}})
}

// setbacks draws the limit lines round the site.
func (s *site) setbacks(limits []*limitLine) []drawnLimit {
	var out []drawnLimit
	window := s.fp.Bound.Pad(setbackMargin)
	for _, limit := range limits {
		from, _ := drawnRecord(limit.measure)
		l := s.layers.layer(from.layer)
		if l == nil || limit.distance > s.radius {
			continue
		}
		for _, lines := range s.limitSources(l) {
			for _, line := range geo.LimitLines(lines.lines, limit.distance+lines.extra, from.side, window) {
				if from.side == geo.BothSides && s.insideArea(l, line) {
					continue
				}
				out = append(out, drawnLimit{limit, l.name, line})
			}
		}
	}
	return out
}

// drawnLimit is a limit line in the plane of its site.
type drawnLimit struct {
	*limitLine
	layer string
	line  []orb.Point
}

// limitSource is lines to draw a limit from; extra is added to the distance
// (half the width of a channel given by its centreline).
type limitSource struct {
	lines *geo.Lines
	extra float64
}

func (s *site) limitSources(l *layer) []limitSource {
	switch l.name {
	case "high_water":
		if s.bank == nil {
			return nil
		}
		return []limitSource{{s.bank.Lines, 0}}
	case "low_water":
		if s.low == nil {
			return nil
		}
		return []limitSource{{s.low.Lines, 0}}
	}
	near := s.near(l.geo)
	if l.name != "channels" {
		return []limitSource{{near, 0}}
	}
	out := []limitSource{{near.OnlyItems(func(item int) bool { return l.geo.Items[item].Area != nil }), 0}}
	for _, one := range near.ByItem() {
		item := one.Item
		if l.geo.Items[item].Area == nil && l.items[item].width > 0 {
			out = append(out, limitSource{one.Lines, l.items[item].width / 2})
		}
	}
	return out
}

// insideArea reports whether a limit line round an area lies within an area of
// the same layer, where the limit is not what matters.
func (s *site) insideArea(l *layer, line []orb.Point) bool {
	return len(l.geo.AreasAt(s.fp.Plane.Inverse(line[len(line)/2]))) > 0
}
