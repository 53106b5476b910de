package site

import (
	"math"
	"strings"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
)

// farDrawn is how far off, in metres (10 ft), a structure is thought to be drawn where
// nobody says how well (common practice, no source).
const farDrawn = 10 * job.Foot

// fill sets the volumes of the structure: of all of it, of what lies below mean high
// water and of what lies below the high tide line.
func (s *Site) fill() {
	mounds, height, why := s.mounds()
	if why != "" {
		v := Unknown("%s", why)
		s.SetAll(v, "fill_volume", "fill_below_mhw", "fill_below_htl")
		return
	}
	// volume is that up to so far over the bed of a structure that ends at its crest, were
	// the crest so much higher over it and the foot so much farther out all round. Where no
	// slope is stated, it is the crest's width that stays.
	volume := func(over, higher, wider float64) float64 {
		sum := 0.0
		for _, m := range mounds {
			rises := math.Max(0, height+higher)
			m.length, m.width = math.Max(0, m.length+2*wider), math.Max(0, m.width+2*wider)
			if s.Values["side_slope"].Unknown != "" && rises > 0 {
				m.slope = math.Max(0, m.width-s.Proposal.crestWidth) / (2 * rises)
			}
			sum += m.volume(math.Max(0, math.Min(over+higher, rises)), m.slope)
		}
		return sum
	}
	upTo := func(over float64) rules.Value {
		v := rules.Value{Number: volume(over, 0, 0)}
		s.offHeights(&v, "the bed", s.Proposal.levelled, func(by float64) float64 { return volume(over, by, 0) })
		own := s.ofLengths()
		v.Accuracy = append(v.Accuracy, own...)
		drawn, unstated := own[0].Tolerance()
		if len(unstated) > 0 {
			drawn = farDrawn
		}
		tried(&v, drawn, func(by float64) float64 { return volume(over, 0, by) })
		return v
	}
	s.Values["fill_volume"] = upTo(height)
	s.Values["fill_below_mhw"] = s.Values["mhw_mean_depth"]
	if depth := s.Values["mhw_mean_depth"]; depth.Unknown == "" {
		below := upTo(depth.Number)
		below.Doubts = depth.Doubts
		s.Values["fill_below_mhw"] = below
	}
	s.Values["fill_below_htl"] = Unknown("the proposal states no high_tide_line_elev_ft")
	if line := s.Proposal.highTideLine; !math.IsNaN(line) {
		s.Values["fill_below_htl"] = upTo(line - s.Proposal.Bed())
	}
}

// fillPerLength is the volume per length of bank.
func (s *Site) fillPerLength() rules.Value {
	volume, length := s.Values["fill_volume"], s.Values["bank_length"]
	switch {
	case volume.Unknown != "":
		return volume
	case length.Unknown != "":
		return length
	case length.Number == 0:
		return Unknown("the structure occupies no length of bank")
	}
	v := scaled(volume, 1/length.Number)
	v.Layer, v.Feature, v.Date = length.Layer, length.Feature, length.Date
	v.Doubts = append(v.Doubts[:len(v.Doubts):len(v.Doubts)], length.Doubts...)
	return v
}

// mounds are the elements as mounds with all sides sloped, and their height, or why
// they are not known.
func (s *Site) mounds() (all []mound, height float64, why string) {
	p := s.Proposal
	if v, bad := s.incomplete(); bad {
		return nil, 0, v.Unknown
	}
	height = p.Crest - p.Bed()
	stated := s.Values["side_slope"]
	switch {
	case math.IsNaN(height):
		return nil, 0, "the fill needs crest_elev_ft and bed_elev_ft, in one datum"
	case math.IsNaN(p.crestWidth) && stated.Unknown != "":
		return nil, 0, "the fill needs crest_width_ft or side_slope"
	case height <= 0:
		return nil, 0, "the crest is not above the bed"
	}
	for i := range s.Footprint.Elements {
		m := baseOf(&s.Footprint.Elements[i])
		m.slope = stated.Number
		if stated.Unknown != "" {
			m.slope = (m.width - p.crestWidth) / (2 * height)
		}
		if m.slope < 0 || 2*m.slope*height > m.width {
			return nil, 0, "crest width, side slope, height and the width of the footprint do not fit one another"
		}
		all = append(all, m)
	}
	return all, height, ""
}

// baseOf is the base of an element, its sides upright.
func baseOf(e *geo.Element) mound {
	m := mound{length: e.Length, width: e.Length, disc: e.IsDisc()}
	if !m.disc {
		m.width = e.Area() / e.Length
	}
	return m
}

// FillOfElements lists the volume of each element in cubic yards, in the order drawn;
// empty if it is not known.
func (s *Site) FillOfElements() string {
	mounds, height, why := s.mounds()
	if why != "" {
		return ""
	}
	out := make([]string, len(mounds))
	for i, m := range mounds {
		out[i] = job.Fixed(m.volume(height, m.slope)/job.CubicYard, 2)
	}
	return strings.Join(out, "; ")
}

// Units is how many modules of the stated length the elements take, NaN if none is
// stated.
func (s *Site) Units() float64 {
	if math.IsNaN(s.Proposal.unitLength) || s.Proposal.unitLength == 0 {
		return math.NaN()
	}
	n := 0.0
	for i := range s.Footprint.Elements {
		// A length drawn to 9 decimals of a degree may be a hair over whole modules.
		n += math.Ceil(s.Footprint.Elements[i].Length/s.Proposal.unitLength - rules.Resolution/s.Proposal.unitLength)
	}
	return n
}

// Solid is the volume of the fill without the stated voids, NaN if it is not known.
func (s *Site) Solid() float64 {
	v := s.Values["fill_volume"]
	if v.Unknown != "" || s.Proposal.voids > 1 {
		return math.NaN()
	}
	return v.Number * (1 - s.Proposal.voids)
}

// Placed is the volume to be placed so that the crest stands as stated after settling:
// a mound higher by the settlement, with the same crest and slopes.
func (s *Site) Placed() float64 {
	mounds, height, why := s.mounds()
	if why != "" || math.IsNaN(s.Proposal.settlement) {
		return math.NaN()
	}
	sum := 0.0
	for _, m := range mounds {
		wider := 2 * m.slope * s.Proposal.settlement
		m.length, m.width = m.length+wider, m.width+wider
		sum += m.volume(height+s.Proposal.settlement, m.slope)
	}
	return sum
}
