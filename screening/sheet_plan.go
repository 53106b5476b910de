package screening

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/pages"
)

// mapped are the lines and areas of the layers near the structure.
func (p *plan) mapped() (courses []pages.Course, grounds []pages.Ground) {
	s := p.s
	named := func(title, date string) []string {
		if date != "" {
			title += " " + date
		}
		return []string{title}
	}
	tidal := func(name, title string, kind pages.CourseKind, lines *geo.Lines) {
		if l := s.Layers.Layer(name); l != nil && !lines.Empty() {
			courses = append(courses, pages.Course{Kind: kind, Names: named(title, p.dateOf(l, lines)), Lines: p.chains(lines)})
		}
	}
	if s.Faced != nil && !s.Faced.Empty() {
		tidal("high_water", "MEAN HIGH WATER", pages.HighWater, s.Faced)
	} else if l := s.Layers.Layer("high_water"); l != nil {
		tidal("high_water", "MEAN HIGH WATER", pages.HighWaterUnfaced, s.Near(l.Geo))
	}
	if l := s.Layers.Layer("low_water"); l != nil {
		tidal("low_water", "MEAN LOW WATER", pages.LowWater, s.Near(l.Geo))
	}
	for _, of := range []struct {
		layer, title string
		kind         pages.CourseKind
		ground       pages.GroundKind
	}{
		{"riparian", "RIPARIAN LINE", pages.Riparian, pages.OtherArea},
		{"channels", "CHANNEL", pages.Channel, pages.ChannelArea},
		{"parcels", "Parcel", pages.ParcelEdge, pages.ParcelGround},
		{"seagrass", "SEAGRASS", pages.Limit, pages.Grass},
		{"wetlands", "WETLAND", pages.Limit, pages.Marsh},
	} {
		l := s.Layers.Layer(of.layer)
		if l == nil {
			continue
		}
		for _, one := range s.Near(l.Geo).ByItem() {
			item := l.Items[one.Item]
			names := []string{of.title + " " + item.Label}
			switch {
			case item.DrawnHere:
				names = append(names, "constructed, not surveyed")
			case item.Date != "" && of.layer != "parcels":
				names = append(names, item.Date)
			}
			area := l.Geo.Items[one.Item].Area
			if area != nil {
				grounds = append(grounds, pages.Ground{Kind: of.ground, Names: names, Areas: p.nearBy(area)})
			}
			if area == nil || of.layer == "parcels" {
				course := pages.Course{Kind: of.kind, Names: names, Lines: p.chains(one.Lines)}
				if of.layer == "parcels" {
					course.Names = nil
				}
				courses = append(courses, course)
			}
		}
	}
	for _, l := range s.Layers.Areas {
		for _, one := range s.Near(l.Geo).ByItem() {
			if area := l.Geo.Items[one.Item].Area; area != nil {
				grounds = append(grounds, pages.Ground{Kind: pages.OtherArea, Names: []string{strings.ToUpper(strings.ReplaceAll(strings.TrimPrefix(l.Name, "areas."), "_", " ")), l.Items[one.Item].Label}, Areas: p.nearBy(area)})
			}
		}
	}
	return courses, grounds
}

// chains are lines of the site as the plan has them.
func (p *plan) chains(lines *geo.Lines) [][]orb.Point {
	var made [][]orb.Point
	for _, chain := range lines.Chains() {
		made = append(made, p.line(chain))
	}
	return made
}

// dateOf is the date of the line nearest to the structure.
func (p *plan) dateOf(l *layers.Layer, lines *geo.Lines) string {
	return l.Items[lines.Item(p.s.Footprint.Nearest(lines).Foot)].Date
}

// nearBy is what of an area lies within the search radius, of its outline and all within.
func (p *plan) nearBy(area orb.MultiPolygon) []orb.Polygon {
	var made []orb.Polygon
	for _, polygon := range area {
		if kept := clip.Polygon(p.s.Window, polygon.Clone()); len(kept) > 0 {
			made = append(made, p.s.Footprint.Plane.ForwardArea(orb.MultiPolygon{kept})...)
		}
	}
	return p.polygons(made)
}

// limits are the limit lines of the books that bear on the structure, each with who sets it.
func (p *plan) limits() []pages.Course {
	excluded := p.r.excluded()
	var made []pages.Course
	var whose []texts
	at := map[string]int{}
	for _, l := range p.r.limits {
		// What lies as far from the same layer is one line, whatever is measured to it.
		key := fmt.Sprint(l.Layer, l.Distance)
		i, known := at[key]
		for _, of := range l.Of {
			if excluded[of.Path] || !p.applies(of.Criterion) {
				continue
			}
			if !known {
				i, known = len(made), true
				at[key] = i
				title := strings.TrimPrefix(layers.KindOfLayer(l.Layer).Title, "the ")
				made, whose = append(made, pages.Course{Kind: pages.Limit, Names: []string{job.FeetText(l.Distance) + " from " + strings.TrimSuffix(title, " line")}}), append(whose, nil)
			}
			whose[i].add(of.Book.Authority)
		}
		if !known {
			continue
		}
		line := p.line(l.Line)
		if !slices.ContainsFunc(made[i].Lines, func(o []orb.Point) bool { return slices.Equal(o, line) }) {
			made[i].Lines = append(made[i].Lines, line)
		}
	}
	for i := range made {
		made[i].Names[0] += ": " + strings.Join(whose[i], ", ")
	}
	return made
}

// applies reports whether a criterion speaks of this structure.
func (p *plan) applies(c *rules.Criterion) bool {
	for i := range p.r.decisions {
		for k := range p.r.decisions[i].Results {
			if of := &p.r.decisions[i].Results[k]; of.Criterion == c && of.Outcome == rules.NotApplicable {
				return false
			}
		}
	}
	return true
}
