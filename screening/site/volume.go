package site

import "math"

// mound is the base of one element of fill: a rectangle of equal area and
// perimeter, or a disc.
type mound struct {
	length, width float64
	disc          bool
	slope         float64 // of its sides, horizontal to one vertical
}

// inset is the area of the base drawn in by t all round.
func (m mound) inset(t float64) float64 {
	if m.disc {
		r := math.Max(0, m.width/2-t)
		return math.Pi * r * r
	}
	return math.Max(0, m.length-2*t) * math.Max(0, m.width-2*t)
}

// volume is the volume of a mound of that base, height and side slope, ends
// sloped like the sides: the prismoidal formula, exact for it.
func (m mound) volume(height, slope float64) float64 {
	return height / 6 * (m.inset(0) + 4*m.inset(slope*height/2) + m.inset(slope*height))
}
