package site

import (
	"fmt"
	"math"

	"waterward/rules"
	"waterward/screening/job"
)

// flattest is the flattest side of a mound, horizontal to one vertical, that is thought
// of where none is stated: reefs and sills are built at 1.5 to 3 (common practice, no
// source).
const flattest = 5

// widened is how a measure differs for a mound that has not yet settled, by how much
// farther out its foot lies all round: so it is straight off a shore and straight along
// it, and less elsewhere.
type widened struct {
	times float64 // that much it is longer or farther: one side's, both ends', or what that takes from the water between; 0: it is no distance
	stops bool    // at 0, on contact; others go on past the line
	// to is what it comes to where that is more than adding up; false where it is the same.
	to func(s *Site, v rules.Value, made float64) (float64, bool)
}

var (
	outward        = &widened{times: 1}
	inward         = &widened{times: -1}
	nearer         = &widened{times: -1, stops: true}
	longer         = &widened{times: 2}
	narrower       = &widened{times: -2, stops: true, to: narrowerOpening}
	longerElements = &widened{to: func(s *Site, v rules.Value, made float64) (float64, bool) {
		return v.Number + 2*made*float64(len(s.Footprint.Elements)), true
	}}
	widerFoot = &widened{to: func(s *Site, v rules.Value, made float64) (float64, bool) {
		return v.Number + s.widerBase(made), true
	}}
	moreShare = &widened{times: 1, to: func(_ *Site, v rules.Value, made float64) (float64, bool) {
		return v.Number + made/v.Whole, v.Whole > 0
	}}
)

// narrowerOpening is the narrowest opening, if there is one.
func narrowerOpening(s *Site, v rules.Value, made float64) (float64, bool) {
	return math.Max(0, v.Number-2*made), len(s.Footprint.Links) > 0
}

// coversMore is for an area that a wider foot may cover more of, all of it at most, if it
// lies so near.
func coversMore(nearest string) *widened {
	return &widened{to: func(s *Site, v rules.Value, made float64) (float64, bool) {
		return v.Number + s.widerBase(made), s.Values[nearest].Number < made
	}}
}

// from is what a value of the mound as settled comes to for the mound as placed.
func (w *widened) from(s *Site, v rules.Value, made float64) (float64, bool) {
	switch {
	case w.to != nil:
		return w.to(s, v, made)
	case w.stops:
		return math.Max(0, v.Number+w.times*made), true
	}
	return v.Number + w.times*made, true
}

// widening is how much farther out, in metres, the foot of the mound lies as placed,
// before it settles by as much as is stated: its crest is then as wide and its sides are
// as steep, but it is higher. 0 if no settlement is stated; why says why it is not known.
func (s *Site) widening() (metres float64, why string) {
	settlement := s.Proposal.settlement
	if math.IsNaN(settlement) || settlement == 0 {
		return 0, ""
	}
	if stated := s.Values["side_slope"]; stated.Unknown == "" {
		return stated.Number * settlement, ""
	}
	mounds, _, why := s.mounds()
	for _, m := range mounds {
		metres = math.Max(metres, m.slope*settlement)
	}
	return metres, why
}

// placing sets beside every measure of place what it is of the mound as placed.
func (s *Site) placing() {
	made, why := s.widening()
	if why != "" {
		s.widerBy(why)
		return
	}
	if made == 0 {
		return
	}
	s.asPlaced = map[string]float64{}
	for _, r := range records {
		v, known := s.Values[r.Name]
		if r.placed == nil || !known || v.Unknown != "" {
			continue
		}
		if number, differs := r.placed.from(s, v, made); differs {
			s.Values[r.Name] = s.placedToo(v, r.Name, number)
			s.asPlaced[r.Name] = number
		}
	}
	for name, v := range s.Values {
		if v.Unknown == "" && v.Edge != nil { // whether an area is touched
			s.Values[name] = Doubting(v, s.placedText(""), made)
		}
	}
}

// widerBy doubts all that settlement may change where the slope is not known.
func (s *Site) widerBy(why string) {
	says := fmt.Sprintf("as placed, before it settles %s, its foot is wider, by how much is not known: %s; state side_slope", job.FeetText(s.Proposal.settlement), why)
	for _, r := range records {
		if v, known := s.Values[r.Name]; r.placed != nil && known && v.Unknown == "" {
			s.Values[r.Name] = Doubting(v, says, math.Abs(r.placed.times)*flattest*s.Proposal.settlement)
		}
	}
}

// placedToo is a value with what it is of the mound as placed.
func (s *Site) placedToo(v rules.Value, measure string, number float64) rules.Value {
	m, _ := rules.FindMeasure(measure)
	of := job.Fixed(number, 2)
	switch m.Quantity {
	case rules.Length:
		of = job.FeetText(number)
	case rules.Area:
		of = job.Fixed(number/job.SquareFoot, 1) + " sq ft"
	}
	v.Also = append(v.Also[:len(v.Also):len(v.Also)], rules.Also{Number: number, Says: s.placedText(" (" + m.Title + " " + of + ")")})
	return v
}

// placedText says how the mound as placed differs, and what of it.
func (s *Site) placedText(of string) string {
	made, _ := s.widening()
	return fmt.Sprintf("as placed, before it settles %s, its toe lies %s farther out all round%s: draw it as placed", job.FeetText(s.Proposal.settlement), job.FeetText(made), of)
}

// widerBase is by how much the base of the mounds is larger, in square metres, where its
// edge lies so much farther out all round.
func (s *Site) widerBase(made float64) float64 {
	sum := 0.0
	for i := range s.Footprint.Elements {
		m := baseOf(&s.Footprint.Elements[i])
		sum += m.inset(-made) - m.inset(0)
	}
	return sum
}

// placedRuns sets beside a measure of openings what it is of the mounds as placed: each
// is longer by both its ends, which the openings beside it lose. That is what is drawn,
// with both ends of it all longer, were openings to be so much wider to count. The
// spacing of openings is that at most.
func (s *Site) placedRuns(v rules.Value, ref rules.Ref, take func(rules.Ref, float64) float64) rules.Value {
	made, why := s.widening()
	switch {
	case why != "":
		return Doubting(v, fmt.Sprintf("as placed, before it settles %s, it is longer and its openings narrower, by how much is not known: %s; state side_slope", job.FeetText(s.Proposal.settlement), why), 0)
	case made == 0:
		return v
	}
	wider := ref
	wider.Opening += 2 * made
	number := take(wider, s.Footprint.OverallLength()+2*made)
	if m, _ := rules.FindMeasure(ref.Measure); m.Quantity == rules.Length {
		number += 2 * made
	}
	return s.placedToo(v, ref.Measure, number)
}
