package pages

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	written "waterward/geo/text"
)

// waterRow is what is said of a water body.
type waterRow struct {
	Name                         string
	Parcels, Miles               string
	Every, Lesser, Unknown, Rest string // miles: on every easiest path, on fewer, not known, all else
	Bar                          template.HTML
}

// figure is a map with what stands by it.
type figure struct {
	waterRow
	Number     int
	Wide, High int // of its frame, in units of the drawing
	Base       int // where its scale stands
	Lines      template.HTML
	Scale      scale
	Boxes      []box // of an overview
}

// scale is a bar of a length.
type scale struct {
	Wide int
	Text string
}

// box shows where another map lies.
type box struct {
	Number                 int
	Name                   string
	X, Y, Wide, High       int
	LabelX, LabelY, Across int
}

// waters fills in the maps and the rows of the water bodies.
func (p *CountyPage) waters(data *countyData, d digits) {
	all := p.glance.byMiles()
	miles := make([]float64, len(all))
	for i, w := range all {
		miles[i] = w.miles
		data.Names = append(data.Names, written.Visible(w.name))
	}
	units := d.parts(d.units(p.glance.miles), miles)
	row := func(i int) waterRow { return p.glance.waterRow(all[i], units[i], d) }
	shown := all[:min(len(all), mostMapped)]
	var shift float64
	if len(p.mapped.fronts) > 0 {
		shift = p.mapped.fronts[0].line[0][0]
	}
	fronts, points := p.mapped.of(shown), mostPoints-overviewPoints
	var places []place
	for i, w := range shown {
		bound := boundOf(fronts[w.name], shift)
		c := newChart(bound, shift, smallWide, smallHigh)
		drawn, used := c.lines(stretches(fronts[w.name]), points/(len(shown)-i))
		points -= used
		shown := c.figure(drawn)
		shown.waterRow, shown.Number = row(i), i+1
		data.Maps = append(data.Maps, shown)
		places = append(places, place{i + 1, written.Visible(w.name), bound.Min, bound.Max})
	}
	rest := &water{name: "others"}
	restUnits := 0
	for i := len(shown); i < len(all); i++ {
		if i < mostMapped+mostTabled {
			data.Waters = append(data.Waters, row(i))
			continue
		}
		rest.merge(all[i])
		restUnits += units[i]
	}
	if restUnits > 0 || rest.parcels > 0 {
		rest.name = fmt.Sprintf("%s others, see summary.csv", grouped(len(all)-mostMapped-mostTabled))
		r := p.glance.waterRow(rest, restUnits, d)
		data.Beyond = &r
	}
	if len(p.mapped.fronts) == 0 {
		return
	}
	c := newChart(boundOf(p.mapped.fronts, shift), shift, overviewWide, overviewHigh)
	drawn, _ := c.lines(stretches(p.mapped.fronts), overviewPoints)
	data.Overview = c.figure(drawn)
	data.Overview.Boxes = c.boxes(places)
}

// merge adds a water body to this.
func (w *water) merge(o *water) {
	w.parcels, w.miles = w.parcels+o.parcels, w.miles+o.miles
	for k := range w.joint {
		w.joint[k].parcels += o.joint[k].parcels
		w.joint[k].miles += o.joint[k].miles
	}
}

// waterRow is the row of a water body with so many units of shore.
func (g *glance) waterRow(w *water, units int, d digits) waterRow {
	j := &w.joint
	four := []float64{j[every].miles, j[butOne].miles + j[butMore].miles + j[noneOf].miles, j[notKnown].miles + j[noResult].miles, j[nobodys].miles + j[whoseUnknown].miles}
	parts := d.parts(units, four)
	return waterRow{
		Name: written.Visible(w.name), Parcels: grouped(w.parcels), Miles: d.text(units),
		Every: d.text(parts[0]), Lesser: d.text(parts[1]), Unknown: d.text(parts[2]), Rest: d.text(parts[3]),
		Bar: outcomeBar(j, w.miles),
	}
}

// outcomeBar is the shore of a water body as a bar, the easiest first.
func outcomeBar(j *[classes]sum, whole float64) template.HTML {
	var b strings.Builder
	x := 0.0
	for k := range j {
		if wide := 100 * j[k].miles / math.Max(whole, 1e-12); wide > 0 {
			fmt.Fprintf(&b, `<rect class="%s" x="%.2f" width="%.2f" height="6"/>`, class(k).mark(), x, wide)
			x += wide
		}
	}
	return template.HTML(b.String())
}

// whole10 are pixels in units of the drawing.
func whole10(pixels float64) int { return int(math.Round(pixels * inPixel)) }

// figure is the chart with its scale below it.
func (c *chart) figure(lines template.HTML) figure {
	long, text := c.scaleBar()
	high := whole10(c.high + scaleHigh)
	return figure{Wide: whole10(c.wide), High: high, Base: high - whole10(scaleHigh/2), Lines: lines, Scale: scale{whole10(long), text}}
}

// scaleHigh is how high the scale stands below a map, in pixels.
const scaleHigh = 24.0
