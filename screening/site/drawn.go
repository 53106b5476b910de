package site

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
	"waterward/rules"
)

// witness is a line that a measure was taken along, in the plane.
type witness struct {
	measure        string
	line           []orb.Point
	layer, feature string
}

func (s *Site) draw(measure string, line []orb.Point, layer, feature string) {
	s.witnesses = append(s.witnesses, witness{measure, line, layer, feature})
}

// DrawnLine is a line on which a measure can be looked up, in the plane of its site.
type DrawnLine struct {
	Measure        string // its name, or NarrowOpening
	Title          string // the same in words
	Line           []orb.Point
	Length         float64 // metres, negative landward or across
	Tolerance      float64 // metres, how far that may be off; NaN where nothing is stated
	Layer, Feature string  // what it was taken from
}

// Side says on which side of what it was taken from a length below zero lies; empty of others.
func (d DrawnLine) Side() string {
	switch {
	case d.Length >= 0:
		return ""
	case d.Layer == "riparian":
		return " across it"
	}
	return " landward of it"
}

// NarrowOpening stands for an opening that is not the narrowest, which is no measure.
const NarrowOpening = "opening"

// DrawnLines are the lines of all distances, of the openings that are narrower than narrow
// (metres) and the narrowest of all, of the longest overlap, and of the longest run between
// openings of at least opening (metres). What touches is at no distance and has no line.
func (s *Site) DrawnLines(opening, narrow float64) []DrawnLine {
	made := slices.DeleteFunc(s.measured(), func(d DrawnLine) bool { return d.Length == 0 })
	return append(append(made, s.narrowOpenings(narrow)...), s.longestRun(opening)...)
}

// Distances are the lines of all distances to what is mapped, from the structure; those of
// what touches too.
func (s *Site) Distances() []DrawnLine {
	return slices.DeleteFunc(s.measured(), func(d DrawnLine) bool { return d.Measure == longestOverlap })
}

// longestOverlap is the measure whose line is one of the bank.
const longestOverlap = "longest_overlap"

// measured are the lines that measures were taken along.
func (s *Site) measured() []DrawnLine {
	var made []DrawnLine
	for _, w := range s.witnesses {
		v := s.Values[w.measure]
		d := DrawnLine{Measure: w.measure, Title: titleOf(w.measure), Line: w.line, Length: lengthOf(w.line), Tolerance: v.Tolerance(), Layer: w.layer, Feature: w.feature}
		if v.Unknown == "" && v.Number < 0 { // it lies landward, or across
			d.Length = -d.Length
		}
		made = append(made, d)
	}
	return made
}

// narrowOpenings are the openings between the elements drawn, of which the narrowest are a
// measure.
func (s *Site) narrowOpenings(narrow float64) []DrawnLine {
	v := s.Values["narrowest_opening"]
	if v.Unknown != "" || len(s.Footprint.Links) == 0 {
		return nil
	}
	var made []DrawnLine
	narrowest := s.Footprint.Links[0].Width + rules.Resolution
	for _, o := range s.Openings() {
		d := DrawnLine{Measure: NarrowOpening, Title: NarrowOpening, Line: []orb.Point{o.From, o.To}, Length: o.Width, Tolerance: v.Tolerance()}
		if o.Width < narrowest {
			d.Measure, d.Title = "narrowest_opening", titleOf("narrowest_opening")
		}
		d.Title += " " + o.Name()
		if o.Width < max(narrowest, narrow) {
			made = append(made, d)
		}
	}
	return made
}

// longestRun is the line along the longest run of the structure, if it has a length.
func (s *Site) longestRun(opening float64) []DrawnLine {
	const measure = "longest_run"
	v := s.Measure(rules.Ref{Measure: measure, Opening: opening})
	if v.Unknown != "" || v.Number == 0 {
		return nil
	}
	whole, first := s.structure(), 0
	if s.Whole != nil {
		first = s.Whole.first[s.Proposal.Of.Order]
	}
	line := whole.LongestRunLine(opening, first)
	if whole != s.Footprint { // which has a plane of its own
		for i, at := range line {
			line[i] = s.Footprint.Plane.Forward(whole.Plane.Inverse(at))
		}
	}
	return []DrawnLine{{Measure: measure, Title: titleOf(measure), Line: line, Length: v.Number, Tolerance: v.Tolerance()}}
}

func lengthOf(line []orb.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += flat.Distance(line[i-1], line[i])
	}
	return sum
}

func titleOf(measure string) string {
	m, _ := rules.FindMeasure(measure)
	return m.Title
}
