package pages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/screening/drawing"
)

// Scales of sections, feet an inch.
var (
	sectionAcross = []float64{1, 2, 5, 10, 20, 30, 40, 50, 60, 100, 200, 300, 400, 500, 1000}
	sectionUp     = []float64{0.5, 1, 2, 2.5, 3, 4, 5, 10, 20, 40, 50, 100}
)

// Where the parts of a section stand in its frame, hundredths of an inch.
const (
	axisLeft, axisRight = 72.0, 684.0
	sectionHead         = 74.0 // of paper above the highest height drawn: two lines of words, the names of the axes
	sectionFoot         = 62.0 // below the lowest, for the lengths
	plotLeft, plotWide  = 92.0, 440.0
	labelsLeft          = 556.0
	levelApart          = 13.0 // between the words of two levels
)

// section draws the cut into a rectangle.
type section struct {
	*Section
	*drawing.Canvas
	top, bottom   float64
	across, up    float64 // feet an inch
	from, highest float64 // at the left and the upper edge of the plot
}

// draw draws the section; what cannot be drawn is said, and what of that found no place is
// returned.
func (s *Section) draw(left, top, right, bottom float64) (drawn *drawing.Canvas, unsaid []string) {
	own := *s
	own.Words = slices.Clone(s.Words)
	d := &section{Section: &own, Canvas: drawing.NewCanvas(left, top, right, bottom), top: top, bottom: bottom}
	if s.Missing != "" {
		d.Text(orb.Point{left + 10, top + 24}, "start", "SECTION", 20, true)
		for i, line := range drawing.Wrapped("No section: "+s.Missing+".", drawing.NameSize, false, right-left-30) {
			d.Text(orb.Point{left + 10, top + 52 + 18*float64(i)}, "start", line, drawing.NameSize, false)
		}
		return d.Canvas, nil
	}
	d.scale()
	head := "at the farthest toe T, looking " + s.Looking + ". 1 in = " + plain(d.across) + " ft across"
	if d.tied() {
		head += ", 1 in = " + plain(d.up) + " ft up"
		if times := d.across / d.up; times != 1 {
			head += " (heights " + plain(times) + " times)"
		}
	}
	d.Text(orb.Point{left + 10, top + 24}, "start", "SECTION A-A", 20, true)
	d.Text(orb.Point{left + 160, top + 23}, "start", head, drawing.NameSize, false)
	if d.tied() {
		d.axes()
		d.levels()
		d.ground()
	}
	d.mound()
	d.lengths()
	for _, text := range append(d.say(), d.Place()...) {
		unsaid = append(unsaid, "Of the section: "+text+".")
	}
	return d.Canvas, unsaid
}

// tied reports whether heights can be drawn: mean high water is known in the datum of the
// proposal.
func (s *Section) tied() bool { return !math.IsNaN(s.High) && s.Datum != "" }

// known are those of some numbers that are.
func known(all ...float64) []float64 {
	return slices.DeleteFunc(all, math.IsNaN)
}

func (d *section) scale() {
	far := slices.Max(known(d.Toe, d.Low, d.Out))
	d.from = -0.12 * far
	d.across = sectionAcross[len(sectionAcross)-1]
	for _, a := range sectionAcross {
		if (1.1*far-d.from)*drawing.Inch/a <= plotWide {
			d.across = a
			break
		}
	}
	d.from = -(plotWide*d.across/drawing.Inch - far) / 3
	if !d.tied() {
		return
	}
	heights := known(d.High, d.LowWater, d.Crest, d.Bed, d.Placed, 0)
	low, high := slices.Min(heights), slices.Max(heights)
	d.up = sectionUp[len(sectionUp)-1]
	for _, u := range sectionUp {
		if (high-low)*drawing.Inch/u <= d.bottom-d.top-sectionHead-sectionFoot-12 {
			d.up = u
			break
		}
	}
	d.highest = high
}

func (d *section) x(feet float64) float64 {
	return plotLeft + (feet-d.from)*drawing.Inch/d.across
}

func (d *section) y(feet float64) float64 {
	if !d.tied() {
		return d.top + sectionHead + 60
	}
	return d.top + sectionHead + 6 + (d.highest-feet)*drawing.Inch/d.up
}

func (d *section) floor() float64 { return d.bottom - sectionFoot }

// axes are scales of height on both sides: of the proposal's datum, and of another that the
// station ties to it.
func (d *section) axes() {
	other, name := 0.0, ""
	for _, want := range []string{"NAVD88", "MLLW", "MLW", "MSL", "MHW"} {
		at := slices.IndexFunc(d.Planes, func(l Level) bool { return l.Name == want })
		if name == "" && want != d.Datum && at >= 0 {
			name, other = want, d.Planes[at].Feet
		}
	}
	d.axis(axisLeft, -1, "ft "+d.Datum, 0)
	if name != "" {
		d.axis(axisRight, 1, "ft "+name, other)
	}
}

// axis draws a scale of heights whose zero lies so high, its ticks to the left (-1) or the
// right.
func (d *section) axis(x, side float64, title string, zero float64) {
	top, bottom := d.y(d.highest)-6, d.floor()
	d.Line([]orb.Point{{x, top}, {x, bottom}}, drawing.Edge)
	anchor := "start"
	if side < 0 {
		anchor = "end"
	}
	d.Text(orb.Point{x + side*2, top - 8}, anchor, title, 12, true)
	step := tick(24 * d.up / drawing.Inch)
	for k := math.Ceil((d.highest-zero)/step) - 1000; k <= (d.highest-zero)/step+1; k++ {
		if y := d.y(zero + k*step); y >= top && y <= bottom {
			d.Line([]orb.Point{{x, y}, {x + side*6, y}}, drawing.Edge)
			d.Text(orb.Point{x + side*9, y + 4}, anchor, signed(k*step, 1), 12, false)
		}
	}
}

// tick is a step of a scale no smaller than so much.
func tick(least float64) float64 {
	for _, s := range []float64{0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50} {
		if s >= least {
			return s
		}
	}
	return 100
}

// signed writes a height with its sign.
func signed(v float64, decimals int) string {
	if text := fmt.Sprintf("%+.*f", decimals, v); text != fmt.Sprintf("%+.*f", decimals, math.Copysign(0, -1)) && text != fmt.Sprintf("%+.*f", decimals, 0.0) {
		return text
	}
	return fmt.Sprintf("%.*f", decimals, 0.0)
}

// plain writes a number without zeros behind it.
func plain(v float64) string { return fmt.Sprintf("%g", math.Round(v*100)/100) }

// levels are the water levels and the zero of the datum, named at the right.
func (d *section) levels() {
	type level struct {
		name string
		at   float64
		pen  drawing.Pen
		from float64
	}
	all := []level{{"MHW " + signed(d.High, 2), d.High, drawing.Shore, axisLeft}}
	if !math.IsNaN(d.LowWater) {
		all = append(all, level{"MLW " + signed(d.LowWater, 2), d.LowWater, drawing.LowShore, axisLeft})
	}
	if d.Datum != "MHW" && d.Datum != "MLW" {
		all = append(all, level{d.Datum + " 0.00", 0, drawing.Chain, axisLeft})
	}
	slices.SortFunc(all, func(a, b level) int { return int(math.Copysign(1, b.at-a.at)) })
	last := math.Inf(-1)
	for _, l := range all {
		y := d.y(l.at)
		d.Line([]orb.Point{{l.from, y}, {labelsLeft - 14, y}}, l.pen)
		words := max(y+4, last+levelApart)
		last = words
		d.Line([]orb.Point{{labelsLeft - 14, y}, {labelsLeft - 3, words - 4}}, drawing.Measure)
		d.Text(orb.Point{labelsLeft, words}, "start", l.name, 12, false)
	}
}

// ground is what is known of it: that it meets the two tidal lines.
func (d *section) ground() {
	if math.IsNaN(d.Low) || math.IsNaN(d.LowWater) {
		return
	}
	line := []orb.Point{{d.x(0), d.y(d.High)}, {d.x(d.Low), d.y(d.LowWater)}}
	owner := d.LineOf(0, line, drawing.Thin)
	d.LineName("ground not surveyed", []string{"Ground: not surveyed"}, false, owner, line)
}

// obliqueTold is from how much longer an oblique cut is told as one (8 degrees).
const obliqueTold = 1.01

// mound is the structure, as far as it is stated.
func (d *section) mound() {
	if math.IsNaN(d.In) {
		d.words("its width is not stated: no structure is drawn")
		return
	}
	left, right := d.x(d.In), d.x(d.Out)
	if !d.tied() {
		y := d.y(0)
		d.Line([]orb.Point{{d.x(d.from) + 10, y}, {labelsLeft - 20, y}}, drawing.Thin)
		d.Line([]orb.Point{{left, y}, {right, y}}, drawing.Structure)
		d.PointName("the structure", []string{"the structure"}, false, 0, orb.Point{(left + right) / 2, y}, false)
		for _, h := range []struct {
			name string
			feet float64
		}{{"crest", d.Crest}, {"bed", d.Bed}} {
			d.height(h.name, h.feet)
		}
		d.words("its heights cannot be set against mean high water, so none is drawn")
		return
	}
	for _, h := range []struct {
		name string
		feet float64
	}{{"crest", d.Crest}, {"bed", d.Bed}} {
		if math.IsNaN(h.feet) {
			d.height(h.name, h.feet)
		}
	}
	rises := d.Crest - d.Bed
	middle := (left + right) / 2
	if d.Oblique > obliqueTold {
		d.words(fmt.Sprintf("the cut runs %.0f degrees off square across the structure", math.Acos(1/d.Oblique)*180/math.Pi))
	}
	for _, c := range d.Others {
		d.shape(c)
	}
	if d.shape(Cut{d.In, d.Out, d.Oblique}) {
		words := "Crest " + signed(d.Crest, 2) + " as stated"
		if !math.IsNaN(d.CrestWidth) {
			words += ", " + fmt.Sprintf("%.2f", d.CrestWidth) + " wide"
		} else {
			words += ", sides " + plain(d.Slope) + " : 1"
		}
		d.PointName(words, []string{words}, false, 0, orb.Point{middle, d.y(d.Crest)}, false)
		words = "Bed " + d.stated("bed", d.Bed)
		d.PointName(words, []string{words}, false, 0, orb.Point{middle, d.y(d.Bed)}, false)
	} else {
		for _, h := range []struct {
			name string
			feet float64
		}{{"Crest", d.Crest}, {"Bed", d.Bed}} {
			if !math.IsNaN(h.feet) {
				y := d.y(h.feet)
				words := h.name + " " + d.stated(h.name, h.feet)
				d.PointName(words, []string{words}, false, 0, orb.Point{middle, y}, false)
			}
		}
		switch {
		case math.IsNaN(rises):
		case rises <= 0:
			d.words("the crest as stated is not above the bed: no sides are drawn")
		case math.IsNaN(d.Oblique):
			d.words("the cut takes off a corner of the structure: its sides are not drawn")
		default:
			d.words("neither crest width nor side slope that fits is stated: its sides are not drawn")
		}
	}
	if !math.IsNaN(d.Placed) {
		y := d.y(d.Placed)
		d.Line([]orb.Point{{left + (right-left)/3, y}, {right - (right-left)/3, y}}, drawing.Thin)
		words := "as placed " + signed(d.Placed, 2) + ", before it settles"
		d.PointName(words, []string{words}, false, 0, orb.Point{middle, y}, false)
	}
}

// shape draws a mound if its crest and its sides are stated and fit, else of it what is.
func (d *section) shape(c Cut) (fits bool) {
	across := (c.Out - c.In) / c.Oblique
	half := d.CrestWidth / 2
	if math.IsNaN(half) {
		half = across/2 - d.Slope*(d.Crest-d.Bed)
	}
	left, right := d.x(c.In), d.x(c.Out)
	if half >= 0 && half <= across/2+0.0001 && d.Crest > d.Bed {
		middle := (left + right) / 2
		half *= c.Oblique * drawing.Inch / d.across
		shape := orb.Polygon{{{left, d.y(d.Bed)}, {right, d.y(d.Bed)}, {middle + half, d.y(d.Crest)}, {middle - half, d.y(d.Crest)}, {left, d.y(d.Bed)}}}
		d.Hatch(shape, structureHatch, structureApart, drawing.Hair)
		owner := d.AreaOf(0, shape, drawing.Structure)
		d.Keep(shape, owner)
		return true
	}
	for _, h := range known(d.Crest, d.Bed) {
		d.Line([]orb.Point{{left, d.y(h)}, {right, d.y(h)}}, drawing.Structure)
	}
	return false
}

// height says what is stated of a height that cannot be drawn.
func (d *section) height(name string, feet float64) {
	switch {
	case math.IsNaN(feet):
		d.words(name + " not stated")
	case d.Datum == "":
		d.words(name + " " + d.stated(name, feet) + ", in no stated datum")
	default:
		d.words(name + " " + d.stated(name, feet) + " (ft " + d.Datum + ")")
	}
}

// stated is a height with whose it is.
func (d *section) stated(name string, feet float64) string {
	if strings.EqualFold(name, "bed") && d.Beds > 1 {
		return fmt.Sprintf("%s, mean of %d stated", signed(feet, 2), d.Beds)
	}
	return signed(feet, 2) + " as stated"
}

// words adds what is said in the section for want of a line.
func (d *section) words(text string) { d.Words = append(d.Words, text) }

// lengths are those along the cut, below it.
func (d *section) lengths() {
	y := d.floor() + 16
	length := func(from, to, y float64, text string) {
		d.Dimension(drawing.Dimension{From: orb.Point{d.x(from), y}, To: orb.Point{d.x(to), y}, Text: text, Name: text})
		for _, at := range [2]float64{from, to} {
			d.Line([]orb.Point{{d.x(at), y - 10}, {d.x(at), y + 6}}, drawing.Measure)
		}
	}
	if !math.IsNaN(d.Low) && d.Low > 0 {
		length(0, d.Low, y, fmt.Sprintf("%.2f MHW to MLW", d.Low))
		if d.Toe > d.Low {
			length(d.Low, d.Toe, y, fmt.Sprintf("%.2f", d.Toe-d.Low))
		}
	} else {
		d.words("mean low water is not on this section")
	}
	length(0, d.Toe, y+27, d.ToeText+" MHW to farthest toe T")
}

// saidLines is how many lines of words a section has room for above its plot.
const saidLines = 2

// say writes what is said for want of lines and returns what there is no room for.
func (d *section) say() (unsaid []string) {
	text, said := "", []string(nil)
	for i, w := range d.Words {
		if i > 0 {
			w = text + "; " + w
		}
		all := drawing.Wrapped(capital(w)+".", 12, true, 700)
		if len(all) > saidLines {
			unsaid = d.Words[i:]
			break
		}
		text, said = w, all
	}
	for i, line := range said {
		d.Text(orb.Point{10, d.top + 40 + 13*float64(i)}, "start", line, 12, true)
	}
	return unsaid
}
