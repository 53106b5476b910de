package pages

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/screening/drawing"
)

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
