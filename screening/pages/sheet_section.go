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
	head := "at the farthest toe T, looking " + s.Looking + "."
	if s.shrunk {
		head += " Not to scale"
	} else {
		head += " 1 in = " + plain(d.across) + " ft across"
	}
	if d.tied() && !s.shrunk {
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
