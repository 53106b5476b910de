package screening

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/drawing"
	"waterward/screening/job"
	"waterward/screening/pages"
	"waterward/screening/site"
)

// shownDistances are the distances that are dimensioned, and to what.
var shownDistances = map[string]string{
	"mhw_farthest": "MHW", "mhw_nearest": "MHW", "mlw_farthest": "MLW", "mlw_nearest": "MLW",
	"riparian_nearest": "riparian line", "seagrass_nearest": "seagrass", "wetland_nearest": "wetland", "channel_nearest": "channel",
}

// distances are the distances from what is mapped.
func (p *plan) distances() []pages.Length {
	var made []pages.Length
	for _, d := range p.s.Distances() {
		v := p.s.Values[d.Measure]
		if v.Unknown != "" || v.Bound != rules.Exact {
			continue
		}
		number := job.Fixed(math.Abs(d.Length)/job.Foot, 2)
		to, shown := shownDistances[d.Measure]
		length := pages.Length{
			Kind: pages.Distance, From: p.at(d.Line[0]), To: p.at(d.Line[len(d.Line)-1]), Text: number + " to " + to,
			Tidal: strings.HasPrefix(d.Measure, "mhw_") || strings.HasPrefix(d.Measure, "mlw_"),
		}
		switch {
		case d.Length >= 0, d.Layer == "low_water": // as is seen
		case d.Layer == "riparian":
			length.Text = strings.TrimSpace(number + " across " + to + " " + d.Feature)
		default:
			length.Text = number + " landward of " + to
		}
		length.Others = p.alike(d)
		length.Name = strings.ToUpper(d.Title[:1]) + d.Title[1:] + ": " + number + " ft" + d.Side()
		if d.Feature != "" {
			length.Name += " (" + d.Feature + ")"
		}
		same := slices.ContainsFunc(made, func(o pages.Length) bool { return o.Text == length.Text && o.From == length.From && o.To == length.To })
		if shown && d.Length != 0 && !same {
			made = append(made, length)
		}
	}
	return made
}

// An edge of the structure this long, in metres (3 ft), is looked at in so many places for
// others at which a distance is the same, to half of the last digit shown (metres).
const (
	edgeToSlide  = 3 * job.Foot
	slideSteps   = 12
	sameDistance = 0.005 * job.Foot
)

// alike are the places where a distance from a tidal line is the same: along an edge of the
// structure that runs beside it.
func (p *plan) alike(d site.DrawnLine) [][2]orb.Point {
	var lines *geo.Lines
	switch {
	case d.Layer == "high_water" && p.s.Bank != nil:
		lines = p.s.Bank.Lines
	case d.Layer == "low_water" && p.s.Low != nil:
		lines = p.s.Low.Lines
	default:
		return nil
	}
	from, to := d.Line[0], d.Line[len(d.Line)-1]
	long := math.Abs(d.Length)
	same := func(q orb.Point) (foot orb.Point, is bool) {
		at := lines.Nearest(q)
		foot = at.At
		// To the same side too: else it is waterward here and landward there.
		turned := (foot[0]-q[0])*(to[0]-from[0]) + (foot[1]-q[1])*(to[1]-from[1])
		return foot, math.Abs(at.Distance-long) <= sameDistance && turned > 0.99*long*at.Distance
	}
	var made [][2]orb.Point
	for i := range p.s.Footprint.Elements {
		for _, area := range p.s.Footprint.Elements[i].Areas {
			for k := 1; k < len(area[0]); k++ {
				a, b := area[0][k-1], area[0][k]
				if math.Hypot(b[0]-a[0], b[1]-a[1]) < edgeToSlide {
					continue
				}
				if _, is := same(a); !is {
					continue
				}
				for n := 1; n < slideSteps; n++ {
					t := float64(n) / slideSteps
					q := orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
					if foot, is := same(q); is {
						made = append(made, [2]orb.Point{p.at(q), p.at(foot)})
					}
				}
			}
		}
	}
	return made
}

// straightWithin is what the length of an element may differ by from that between its ends, in
// metres (0.01 ft), and be drawn as one.
const straightWithin = 0.01 * job.Foot

// lengths are the lengths of the elements, the openings between them and the whole.
func (p *plan) lengths(order []int) []pages.Length {
	fp := p.s.Footprint
	var made []pages.Length
	outlines := make([][]orb.Point, len(order))
	var whole []orb.Point
	for n, i := range order {
		e := &fp.Elements[i]
		outlines[n] = outlineOf(e)
		whole = append(whole, outlines[n]...)
		name := fmt.Sprintf("Element %d", n+1)
		along, across := p.axes(e, outlines[n])
		text := job.Fixed(e.Length/job.Foot, 2)
		if e.IsDisc() {
			text = "diameter " + text
		}
		length := pages.Length{Kind: pages.Along, Text: text, Name: name + ": " + text + " ft along"}
		if e.IsDisc() {
			length.Kind, length.Name = pages.Across, name+": "+text+" ft"
		}
		if along != nil {
			length.From, length.To, length.Shape = p.at(along[0]), p.at(along[1]), p.line(outlines[n])
			length.Away = p.away(along[0], along[1], outlines[n])
		} else { // it is bent
			length.Text += " along"
			if on := p.polygons(e.Areas); len(on) > 0 {
				length.From = drawing.Middle(on[0])
			} else {
				length.From = p.at(e.Lines[0][len(e.Lines[0])/2])
			}
			length.To = length.From
		}
		made = append(made, length)
		if across != nil && fp.Incomplete == "" {
			wide := job.Fixed(math.Hypot(across[1][0]-across[0][0], across[1][1]-across[0][1])/job.Foot, 2)
			way := orb.Point{across[0][0] - (along[0][0]+along[1][0])/2, across[0][1] - (along[0][1]+along[1][1])/2}
			side := orb.Point{across[1][0] - across[0][0], across[1][1] - across[0][1]}
			long := math.Hypot(side[0], side[1])
			out := orb.Point{side[1] / long, -side[0] / long}
			if out[0]*way[0]+out[1]*way[1] < 0 {
				out = orb.Point{-out[0], -out[1]}
			}
			made = append(made, pages.Length{Kind: pages.Across, From: p.at(across[0]), To: p.at(across[1]), Text: wide, Name: name + ": " + wide + " ft wide", Away: out, Shape: p.line(outlines[n])})
		}
	}
	made = typical(made, len(order))
	if fp.Incomplete != "" {
		return made
	}
	for _, o := range p.s.Openings() {
		shape := slices.Concat(outlines[o.First-1], outlines[o.Second-1])
		text := job.Fixed(o.Width/job.Foot, 2)
		made = append(made, pages.Length{Kind: pages.Opening, From: p.at(o.From), To: p.at(o.To), Text: text, Name: "Opening " + o.Name() + ": " + text + " ft", Away: p.away(o.From, o.To, shape), Shape: p.line(shape)})
	}
	if len(order) > 1 {
		text := job.Fixed(fp.OverallLength()/job.Foot, 2)
		length := pages.Length{Kind: pages.Overall, Text: text + " overall", Name: "Overall, elements and openings: " + text + " ft"}
		if from, to, is := ends(outlines[0], outlines[len(order)-1], whole, fp.OverallLength()); is {
			length.From, length.To, length.Away, length.Shape = p.at(from), p.at(to), p.away(from, to, whole), p.line(whole)
		}
		made = append(made, length)
	}
	return made
}

// typical leaves of the widths of all elements one, if they read the same.
func typical(all []pages.Length, elements int) []pages.Length {
	var widths []pages.Length
	for _, l := range all {
		if l.Kind == pages.Across {
			widths = append(widths, l)
		}
	}
	if elements < 2 || len(widths) < elements || slices.ContainsFunc(widths, func(l pages.Length) bool { return l.Text != widths[0].Text }) {
		return all
	}
	one := widths[len(widths)-1]
	_, says, _ := strings.Cut(one.Name, ": ")
	one.Text, one.Name = one.Text+" typ.", "Each element: "+says
	return append(slices.DeleteFunc(all, func(l pages.Length) bool { return l.Kind == pages.Across }), one)
}

// outlineOf are the corners of an element.
func outlineOf(e *geo.Element) []orb.Point {
	var made []orb.Point
	for _, polygon := range e.Areas {
		made = append(made, polygon[0]...)
	}
	if made == nil {
		for _, line := range e.Lines {
			made = append(made, line...)
		}
	}
	return made
}

// axes are the two ends of an element between which its length is, and across it those of its
// width; nil if it is not straight.
func (p *plan) axes(e *geo.Element, outline []orb.Point) (along, across *[2]orb.Point) {
	if e.IsDisc() {
		c, r := e.Lines[0][0], e.Length/2
		return &[2]orb.Point{{c[0] - r, c[1]}, {c[0] + r, c[1]}}, nil
	}
	least := math.Inf(1)
	for i := 1; i < len(outline); i++ {
		dx, dy := outline[i][0]-outline[i-1][0], outline[i][1]-outline[i-1][1]
		long := math.Hypot(dx, dy)
		if long == 0 {
			continue
		}
		on := orb.Point{dx / long, dy / long}
		u0, u1, v0, v1 := spread(outline, on)
		wide, high := u1-u0, v1-v0
		if wide < high { // the length is the greater
			on, u0, u1, v0, v1 = orb.Point{-on[1], on[0]}, v0, v1, -u1, -u0
			wide, high = high, wide
		}
		if math.Abs(wide-e.Length) > straightWithin || wide*high >= least {
			continue
		}
		least = wide * high
		place := func(u, v float64) orb.Point { return orb.Point{u*on[0] - v*on[1], u*on[1] + v*on[0]} }
		along = &[2]orb.Point{place(u0, v0), place(u1, v0)}
		across = nil
		if high > straightWithin && math.Abs(wide*high-e.Area()) <= straightWithin*(wide+high) {
			end := u1 // that which is farther out in the row
			if u := p.middle[0]*on[0] + p.middle[1]*on[1]; u-u0 > u1-u {
				end = u0
			}
			across = &[2]orb.Point{place(end, v0), place(end, v1)}
		}
	}
	return along, across
}

// spread is how far points reach along a direction and to its left.
func spread(points []orb.Point, on orb.Point) (u0, u1, v0, v1 float64) {
	u0, v0, u1, v1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range points {
		u, v := q[0]*on[0]+q[1]*on[1], q[1]*on[0]-q[0]*on[1]
		u0, u1, v0, v1 = min(u0, u), max(u1, u), min(v0, v), max(v1, v)
	}
	return u0, u1, v0, v1
}

// ends are the two ends of a straight row of elements, if that is as long as the row.
func ends(first, last, whole []orb.Point, overall float64) (from, to orb.Point, is bool) {
	a, b := orb.MultiPoint(first).Bound().Center(), orb.MultiPoint(last).Bound().Center()
	long := math.Hypot(b[0]-a[0], b[1]-a[1])
	if long == 0 {
		return from, to, false
	}
	on := orb.Point{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
	u0, u1, v0, _ := spread(whole, on)
	place := func(u float64) orb.Point { return orb.Point{u*on[0] - v0*on[1], u*on[1] + v0*on[0]} }
	return place(u0), place(u1), math.Abs(u1-u0-overall) <= straightWithin
}

// away is the side of a length on which the water is, as far as that is known.
func (p *plan) away(from, to orb.Point, shape []orb.Point) orb.Point {
	long := math.Hypot(to[0]-from[0], to[1]-from[1])
	if long == 0 {
		return orb.Point{}
	}
	left := orb.Point{-(to[1] - from[1]) / long, (to[0] - from[0]) / long}
	middle := orb.MultiPoint(shape).Bound().Center()
	shore := orb.Point{middle[0], middle[1] - 1}
	if p.s.Bank != nil {
		shore = p.s.Bank.Lines.Nearest(middle).At
	}
	if left[0]*(middle[0]-shore[0])+left[1]*(middle[1]-shore[1]) < 0 {
		return orb.Point{-left[0], -left[1]}
	}
	return left
}
