package site

import (
	"fmt"
	"math"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
)

// flattest is the flattest side of a mound, horizontal to one vertical, that is thought
// of where none is stated: reefs and sills are built at 1.5 to 3 (common practice, no
// source).
const flattest = 5

// asPlaced are the measures of place, and how many times the widening of the foot they
// are longer or farther for a mound that has not yet settled: one side's, both ends', or
// what that takes from the water between. So it is straight off a shore and straight
// along it, and less elsewhere.
var asPlaced = []struct {
	measure string
	times   float64
	stops   bool // at 0, on contact; others go on past the line
}{
	{"mhw_farthest", 1, false}, {"mhw_nearest", -1, false}, {"mhw_landward_edge", -1, false},
	{"mlw_farthest", 1, false}, {"mlw_nearest", -1, false}, {"mlw_landward_edge", -1, false},
	{"wetland_farthest", 1, false}, {"wetland_landward_edge", -1, false}, {"riparian_nearest", -1, false},
	{"seagrass_nearest", -1, true}, {"wetland_nearest", -1, true}, {"wetland_behind", -1, true}, {"channel_nearest", -1, true},
	{"overall_length", 2, false}, {"project_length", 2, false}, {"longest_overlap", 2, false},
	{"bank_length", 2, false}, {"project_bank_length", 2, false}, {"narrowest_opening", -2, true},
}

// overlaps are the areas that a wider foot may cover more of, and how near it lies to
// them.
var overlaps = []struct{ measure, nearest string }{
	{"seagrass_overlap", "seagrass_nearest"}, {"wetland_overlap", "wetland_nearest"},
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
	near := map[string]float64{} // as drawn
	for _, m := range asPlaced {
		near[m.measure] = s.Values[m.measure].Number
		if m.measure == "narrowest_opening" && len(s.Footprint.Links) == 0 {
			continue
		}
		number := near[m.measure] + m.times*made
		if m.stops {
			number = math.Max(0, number)
		}
		s.setPlaced(m.measure, number)
	}
	more := s.widerBase(made)
	s.setPlaced("footprint_area", s.Values["footprint_area"].Number+more)
	for _, m := range overlaps {
		if near[m.nearest] < made {
			s.setPlaced(m.measure, s.Values[m.measure].Number+more) // at most
		}
	}
	s.setPlaced("element_length", s.Footprint.Length()+2*made*float64(len(s.Footprint.Elements)))
	if share := s.Values["waterway_share"]; share.Whole > 0 {
		s.setPlaced("waterway_share", share.Number+made/share.Whole)
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
	doubt := func(name string, within float64) {
		if v, known := s.Values[name]; known && v.Unknown == "" {
			s.Values[name] = Doubting(v, says, within)
		}
	}
	for _, m := range asPlaced {
		doubt(m.measure, math.Abs(m.times)*flattest*s.Proposal.settlement)
	}
	for _, m := range overlaps {
		doubt(m.measure, 0)
	}
	doubt("footprint_area", 0)
	doubt("element_length", 0)
	doubt("waterway_share", flattest*s.Proposal.settlement)
}

// setPlaced sets beside a measure what it is of the mound as placed.
func (s *Site) setPlaced(measure string, number float64) {
	v, known := s.Values[measure]
	if !known || v.Unknown != "" {
		return
	}
	s.Values[measure] = s.placedToo(v, measure, number)
	s.asPlaced[measure] = number
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
	if ref.Measure == "longest_run" || ref.Measure == "opening_spacing" {
		number += 2 * made
	}
	return s.placedToo(v, ref.Measure, number)
}

// PlacedCell is a column of what the mound measures as placed; empty where no settlement
// is stated, or the slope is not known.
func PlacedCell(measure string, perUnit float64, decimals int) func(*Site) out.Cell {
	return func(s *Site) out.Cell {
		if number, known := s.asPlaced[measure]; known {
			return out.Number(number/perUnit, decimals)
		}
		return out.Text("")
	}
}
