package pages

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/screening/drawing"
)

// vicinityScales are the scales of vicinities, feet an inch.
var vicinityScales = []float64{200, 400, 500, 1000, 2000, 4000, 5000, 10000, 20000}

// vicinity is where the plan lies along the shore.
func (s *Sheet) vicinity(plan *view) *drawing.Canvas {
	top, bottom := planHigh+stripHigh+sectionHigh, sheetHigh-stripLabel
	scale := vicinityScales[len(vicinityScales)-1]
	for _, v := range vicinityScales {
		if v >= 2.5*plan.scale && vicinityWide*v/drawing.Inch >= 2*s.Plan.Reach {
			scale = v
			break
		}
	}
	v := newView(0, top, vicinityWide, bottom, scale, plan.middle)
	for _, c := range s.Plan.Lines {
		switch c.Kind {
		case HighWater:
			v.Dots(drawing.Ashore(v.Bounds, v.lines(c.Lines)))
			fallthrough
		case HighWaterUnfaced:
			for _, line := range c.Lines {
				v.Line(v.line(line), drawing.Border)
			}
		case Channel:
			for _, line := range c.Lines {
				v.Line(v.line(line), drawing.Dotted)
			}
		}
	}
	b := plan.Bounds
	var site []orb.Point
	for _, corner := range b.ToRing() {
		site = append(site, v.at(plan.feet(corner)))
	}
	v.Line(site, drawing.Structure)
	v.PointName("SITE", []string{"SITE"}, true, 0, site[0], false)
	if s.Title.Waterbody != "" {
		name := drawing.Shortened(s.Title.Waterbody, drawing.NameSize, false, vicinityWide-40)
		v.AreaName(name, []string{name}, false, 0, orb.Polygon{{{0, top}, {vicinityWide, top}, {vicinityWide, bottom}, {0, bottom}, {0, top}}})
	}
	v.Place()
	v.Text(orb.Point{8, bottom + 17}, "start", "VICINITY", drawing.NameSize, true)
	v.Text(orb.Point{8, bottom + 35}, "start", "1 in = "+plain(scale)+" ft", 12, false)
	v.Text(orb.Point{84, bottom + 17}, "start", "shore as mapped within "+plain(math.Round(s.Plan.Reach))+" ft", 9.5, false)
	v.Text(orb.Point{vicinityWide - 8, bottom + 35}, "end", "north is up", 12, false)
	return v.Canvas
}
