package pages

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"
	"unicode"

	"github.com/paulmach/orb"

	"waterward/screening/drawing"
)

// A sheet is letter paper with an inch left free above and half an inch on the other sides
// (Fort Worth district's checklist; 33 CFR 325.1(d) asks for drawings fit for a public
// notice), its frame this large, in hundredths of an inch.
const (
	sheetWide, sheetHigh = 750.0, 940.0

	planHigh     = 386.0 // of the plan on the first sheet
	stripHigh    = 54.0  // scale and north
	sectionHigh  = 282.0
	vicinityWide = 236.0
	titleHigh    = 92.0
	stripLabel   = 46.0 // below the vicinity
)

// Notes of the first sheet are set in letters of this size, so far apart.
const (
	noteSize = 11.2
	noteStep = 12.6
)

// capital begins a text with a capital.
func capital(text string) string {
	runes := []rune(text)
	if len(runes) > 0 {
		runes[0] = unicode.ToUpper(runes[0])
	}
	return string(runes)
}

// drawings are the sheets with drawings, without their title blocks, and what was not drawn:
// lengths that found no place, and notes.
type drawings struct {
	sheets   []drawnSheet
	unplaced []string
	notes    []string
}

// drawnSheet is one of them, with what it shows and at how many feet an inch.
type drawnSheet struct {
	page  *drawing.Canvas
	label string
	scale float64
}

func (s *Sheet) drawings() *drawings {
	made := &drawings{}
	scale, middle := s.Plan.overview(sheetWide, planHigh)
	parts := []*view{}
	partHigh := sheetHigh - stripHigh - titleHigh
	if scale > smallestPlan {
		for _, at := range s.Plan.parts(smallestPlan, sheetWide, partHigh) {
			parts = append(parts, newView(0, 0, sheetWide, partHigh, smallestPlan, at))
		}
	}
	kinds := map[LengthKind]int{}
	for _, l := range s.Plan.Dimensions {
		kinds[l.Kind]++
	}
	in := func(v *view, l Length) bool {
		placed := l.Kind != Overall || l.From != l.To
		return placed && kinds[l.Kind] <= mostLengths && v.shown(l.From, l.To)
	}
	first := newView(0, 0, sheetWide, planHigh, scale, middle)
	drawn := map[string]bool{}
	for _, v := range parts {
		for _, l := range s.Plan.Dimensions {
			if l.Kind != Overall && in(v, l) {
				drawn[l.Name] = true
			}
		}
	}
	var off []string
	for _, l := range s.Plan.Dimensions {
		switch {
		case drawn[l.Name] || in(first, l):
		case l.Kind == Distance || l.Kind == Overall: // of few, whoever looks at the drawing asks for them
			off = append(off, l.Name)
		default:
			made.unplaced = append(made.unplaced, l.Name)
		}
	}
	var unnamed []string
	draw := func(v *view, chosen func(Length) bool) {
		unplaced, names := s.Plan.draw(v, chosen)
		made.unplaced = append(made.unplaced, unplaced...)
		for _, name := range names {
			if !slices.Contains(unnamed, name) {
				unnamed = append(unnamed, name)
			}
		}
	}
	draw(first, func(l Length) bool { return in(first, l) && (!drawn[l.Name] || l.Tidal) })
	page := drawing.NewCanvas(0, 0, sheetWide, sheetHigh)
	strip(page, first, planHigh, s)
	section, unsaid := s.Section.draw(0, planHigh+stripHigh, sheetWide, planHigh+stripHigh+sectionHigh)
	vicinity := s.vicinity(first)
	if off != nil {
		s.Notes = slices.Insert(slices.Clone(s.Notes), min(1, len(s.Notes)), "Not dimensioned: "+strings.Join(off, "; ")+".")
	}
	made.notes = append(unsaid, s.firstNotes(page, scale)...)
	page.Add(first.Canvas, section, vicinity)
	frame(page, planHigh, planHigh+stripHigh, planHigh+stripHigh+sectionHigh)
	foot := planHigh + stripHigh + sectionHigh
	page.Line([]orb.Point{{vicinityWide, foot}, {vicinityWide, sheetHigh}}, drawing.Border)
	page.Line([]orb.Point{{0, sheetHigh - stripLabel}, {vicinityWide, sheetHigh - stripLabel}}, drawing.Border)
	made.sheets = append(made.sheets, drawnSheet{page, fmt.Sprintf("Plan, section and vicinity of %s", s.ID), scale})
	for i, v := range parts {
		matchLines(v, parts, i)
		draw(v, func(l Length) bool { return l.Kind != Overall && in(v, l) })
		page := drawing.NewCanvas(0, 0, sheetWide, sheetHigh)
		page.Add(v.Canvas)
		strip(page, v, partHigh, s)
		frame(page, partHigh, partHigh+stripHigh)
		made.sheets = append(made.sheets, drawnSheet{page, fmt.Sprintf("Plan of %s, part %d of %d", s.ID, i+1, len(parts)), v.scale})
	}
	if unnamed != nil {
		made.notes = append(made.notes, "Not named on every plan, for want of room: "+strings.Join(unnamed, "; ")+".")
	}
	return made
}

// frame draws the frame of a sheet and the lines across it.
func frame(c *drawing.Canvas, across ...float64) {
	c.Line([]orb.Point{{0, 0}, {sheetWide, 0}, {sheetWide, sheetHigh}, {0, sheetHigh}, {0, 0}}, drawing.Structure)
	for _, y := range across {
		c.Line([]orb.Point{{0, y}, {sheetWide, y}}, drawing.Border)
	}
}

// matchLines names the sheets on which a part of the plan goes on; the first part is sheet 2.
func matchLines(v *view, parts []*view, of int) {
	for i, other := range parts {
		if i == of {
			continue
		}
		dx, dy := other.middle[0]-v.middle[0], other.middle[1]-v.middle[1]
		text := fmt.Sprintf("MATCH LINE, SHEET %d", i+2)
		b := v.Bounds
		switch wide, high := (b.Max[0]-b.Min[0])*v.scale/drawing.Inch, (b.Max[1]-b.Min[1])*v.scale/drawing.Inch; {
		case math.Abs(dy) < 1 && math.Abs(math.Abs(dx)-wide) < 1:
			x, turn := b.Max[0]-8, -90.0
			if dx < 0 {
				x = b.Min[0] + 16
			}
			v.Turned(orb.Point{x, b.Min[1] + 100}, text, 12, turn)
		case math.Abs(dx) < 1 && math.Abs(math.Abs(dy)-high) < 1:
			y := b.Min[1] + 16
			if dy < 0 {
				y = b.Max[1] - 8
			}
			v.Turned(orb.Point{b.Min[0] + 100, y}, text, 12, 0)
		}
	}
}

// strip is the scale, the bars, the corners and north, below a plan.
func strip(page *drawing.Canvas, v *view, top float64, s *Sheet) {
	page.Text(orb.Point{8, top + 24}, "start", "PLAN", 20, true)
	page.Text(orb.Point{8, top + 43}, "start", "1 in = "+plain(v.scale)+" ft", drawing.NameSize, false)
	bar := func(y, unit float64, name string, below bool) {
		step := niceStep(unit * v.scale) // in units, about an inch
		long := step / (unit * v.scale) * drawing.Inch
		x := 150.0
		page.Fill(orb.Point{x, y}, orb.Point{x + long/2, y}, orb.Point{x + long/2, y + 6}, orb.Point{x, y + 6})
		page.Fill(orb.Point{x + long, y}, orb.Point{x + 2*long, y}, orb.Point{x + 2*long, y + 6}, orb.Point{x + long, y + 6})
		page.Line([]orb.Point{{x, y}, {x + 2*long, y}, {x + 2*long, y + 6}, {x, y + 6}, {x, y}}, drawing.Edge)
		at := y - 4
		if below {
			at = y + 17
		}
		page.Text(orb.Point{x, at}, "middle", "0", 12, false)
		page.Text(orb.Point{x + long, at}, "middle", plain(step), 12, false)
		page.Text(orb.Point{x + 2*long, at}, "middle", plain(2*step)+" "+name, 12, false)
	}
	bar(top+19, 1, "ft", false)
	bar(top+26, 0.3048, "m", true)
	if s.Plan.Corner != nil {
		b := v.Bounds
		page.Text(orb.Point{390, top + 20}, "start", "NW corner "+s.Plan.Corner(v.feet(b.Min)), 11, false)
		page.Text(orb.Point{390, top + 35}, "start", "SE corner "+s.Plan.Corner(v.feet(b.Max)), 11, false)
		page.Text(orb.Point{390, top + 49}, "start", "Scale as printed on letter paper at 100 %", 10, false)
	}
	page.Text(orb.Point{696, top + 36}, "middle", "N", 22, true)
	page.Fill(orb.Point{724, top + 5}, orb.Point{724, top + 47}, orb.Point{715, top + 50})
	page.Line([]orb.Point{{724, top + 5}, {733, top + 50}, {724, top + 47}}, drawing.Edge)
}

// niceStep is a round number near an amount, no greater.
func niceStep(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{5, 2, 1} {
		if m*p <= v*1.0001 {
			return m * p
		}
	}
	return p
}

// notASurvey stands on every drawing.
const notASurvey = "Screening drawing from mapped data; not a survey. Dimensions in feet."

// firstNotes writes what notes fit beside the vicinity and returns the others.
func (s *Sheet) firstNotes(page *drawing.Canvas, scale float64) (rest []string) {
	left, top := vicinityWide+10, planHigh+stripHigh+sectionHigh
	wide := sheetWide - left - 8
	y := top + 15
	page.Text(orb.Point{left, y}, "start", notASurvey, noteSize, true)
	notes := s.Notes
	if scale > smallestPlan {
		notes = append([]string{fmt.Sprintf("Some offices ask for the proposed work at 1 in = %d ft or larger: its parts follow at that scale.", smallestPlan)}, notes...)
	}
	for i, note := range notes {
		lines := drawing.Wrapped(note, noteSize, false, wide)
		if y+noteStep*float64(len(lines))+2 > sheetHigh-titleHigh-6 {
			if i == 0 || y+noteStep > sheetHigh-titleHigh-6 {
				return notes[i:]
			}
			page.Text(orb.Point{left, y + noteStep + 1}, "start", "More notes: see the sheets that follow.", noteSize, false)
			return notes[i:]
		}
		for _, line := range lines {
			y += noteStep
			page.Text(orb.Point{left, y}, "start", line, noteSize, false)
		}
	}
	return nil
}

// titleBlock draws the block of a drawing sheet in its lower right corner, over the width
// left of it: captions of 7 points, what is known in 10; what nobody has stated is left free.
func (s *Sheet) titleBlock(page *drawing.Canvas, sheet, of int, scale string) {
	left := vicinityWide
	top := sheetHigh - titleHigh
	page.Line([]orb.Point{{left, top}, {sheetWide, top}}, drawing.Structure)
	cell := func(x0, x1 float64, row int, caption, value string) {
		y := top + float64(row)*titleHigh/4
		page.Line([]orb.Point{{x0, y}, {x1, y}}, drawing.Edge)
		if x0 > left {
			page.Line([]orb.Point{{x0, y}, {x0, y + titleHigh/4}}, drawing.Edge)
		}
		page.Text(orb.Point{x0 + 4, y + 8.5}, "start", caption, 8, false)
		page.Text(orb.Point{x0 + 4, y + 20}, "start", drawing.Shortened(value, 13, true, x1-x0-8), 13, true)
	}
	b, c := left+205, left+385
	cell(left, b, 0, "PROPOSAL", s.ID)
	cell(b, c, 0, "ACTIVITY", s.Title.Activity)
	cell(c, sheetWide, 0, "SHEET", fmt.Sprintf("%d of %d", sheet, of))
	cell(left, b, 1, "WATERBODY", s.Title.Waterbody)
	cell(b, c, 1, "PARCEL", s.Title.Parcels)
	cell(c, sheetWide, 1, "COUNTY", "")
	cell(left, b, 2, "MATERIAL", s.Title.Material)
	cell(b, c, 2, "DRAWN FOR THE RULES OF", s.Title.Day)
	cell(c, sheetWide, 2, "DRAWN BY", "")
	cell(left, b, 3, "APPLICANT", "")
	cell(b, c, 3, "SCALE OF PLAN", scale)
	cell(c, sheetWide, 3, "FILE NO.", "")
}

// svg is a sheet as a picture that a page can hold.
func svg(page *drawing.Canvas, label string, number int) template.HTML {
	var b strings.Builder
	title := template.HTMLEscapeString(label)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="7.5in" height="9.4in" viewBox="0 0 %g %g" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif" role="img" aria-labelledby="drawing%d"><title id="drawing%d">%s</title><path d="M0 0H%[1]gV%[2]gH0z" fill="#fff"/>`, sheetWide, sheetHigh, number, number, title)
	b.WriteString(page.SVG())
	b.WriteString("</svg>")
	return template.HTML(b.String())
}
