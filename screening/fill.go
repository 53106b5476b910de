package screening

import (
	"math"
	"strings"

	"waterward/geo"
	"waterward/rules"
)

// farDrawn is how far off, in metres (10 ft), a structure is thought to be drawn where
// nobody says how well (common practice, no source).
const farDrawn = 10 * foot

// fill sets the volumes of the structure: of all of it, of what lies below mean high
// water and of what lies below the high tide line.
func (s *site) fill() {
	mounds, height, why := s.mounds()
	if why != "" {
		v := unknown("%s", why)
		s.setAll(v, "fill_volume", "fill_below_mhw", "fill_below_htl")
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
			if s.values["side_slope"].Unknown != "" && rises > 0 {
				m.slope = math.Max(0, m.width-s.p.crestWidth) / (2 * rises)
			}
			sum += m.Volume(math.Max(0, math.Min(over+higher, rises)), m.slope)
		}
		return sum
	}
	upTo := func(over float64) rules.Value {
		v := rules.Value{Number: volume(over, 0, 0)}
		s.offHeights(&v, "the bed", s.p.levelled, func(by float64) float64 { return volume(over, by, 0) })
		own := s.ofLengths()
		v.Accuracy = append(v.Accuracy, own...)
		drawn, unstated := own[0].Guard()
		if len(unstated) > 0 {
			drawn = farDrawn
		}
		tried(&v, drawn, func(by float64) float64 { return volume(over, 0, by) })
		return v
	}
	s.values["fill_volume"] = upTo(height)
	s.values["fill_below_mhw"] = s.values["mhw_mean_depth"]
	if depth := s.values["mhw_mean_depth"]; depth.Unknown == "" {
		below := upTo(depth.Number)
		below.Doubts = depth.Doubts
		s.values["fill_below_mhw"] = below
	}
	s.values["fill_below_htl"] = unknown("the proposal states no high_tide_line_elev_ft")
	if line := s.p.highTideLine; !math.IsNaN(line) {
		s.values["fill_below_htl"] = upTo(line - s.p.bed())
	}
}

// fillPerLength is the volume per length of bank.
func (s *site) fillPerLength() rules.Value {
	volume, length := s.values["fill_volume"], s.values["bank_length"]
	switch {
	case volume.Unknown != "":
		return volume
	case length.Unknown != "":
		return length
	case length.Number == 0:
		return unknown("the structure occupies no length of bank")
	}
	v := scaled(volume, 1/length.Number)
	v.Layer, v.Feature, v.Date = length.Layer, length.Feature, length.Date
	v.Doubts = append(v.Doubts[:len(v.Doubts):len(v.Doubts)], length.Doubts...)
	return v
}

// mounds are the elements as mounds with all sides sloped, and their height, or why
// they are not known.
func (s *site) mounds() (all []mound, height float64, why string) {
	p := s.p
	if v, bad := s.incomplete(); bad {
		return nil, 0, v.Unknown
	}
	height = p.crest - p.bed()
	stated := s.values["side_slope"]
	switch {
	case math.IsNaN(height):
		return nil, 0, "the fill needs crest_elev_ft and bed_elev_ft, in one datum"
	case math.IsNaN(p.crestWidth) && stated.Unknown != "":
		return nil, 0, "the fill needs crest_width_ft or side_slope"
	case height <= 0:
		return nil, 0, "the crest is not above the bed"
	}
	for i := range s.fp.Elements {
		m := baseOf(&s.fp.Elements[i])
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

// fillOfElements lists the volume of each element in cubic yards, in the order drawn;
// empty if it is not known.
func (s *site) fillOfElements() string {
	mounds, height, why := s.mounds()
	if why != "" {
		return ""
	}
	out := make([]string, len(mounds))
	for i, m := range mounds {
		out[i] = formatFixed(m.Volume(height, m.slope)/cubicYard, 2)
	}
	return strings.Join(out, "; ")
}

// units is how many modules of the stated length the elements take, NaN if none is
// stated.
func (s *site) units() float64 {
	if math.IsNaN(s.p.unitLength) || s.p.unitLength == 0 {
		return math.NaN()
	}
	n := 0.0
	for i := range s.fp.Elements {
		// A length drawn to 9 decimals of a degree may be a hair over whole modules.
		n += math.Ceil(s.fp.Elements[i].Length/s.p.unitLength - rules.Resolution/s.p.unitLength)
	}
	return n
}

// solid is the volume of the fill without the stated voids, NaN if it is not known.
func (s *site) solid() float64 {
	v := s.values["fill_volume"]
	if v.Unknown != "" || s.p.voids > 1 {
		return math.NaN()
	}
	return v.Number * (1 - s.p.voids)
}

// placed is the volume to be placed so that the crest stands as stated after settling:
// a mound higher by the settlement, with the same crest and slopes.
func (s *site) placed() float64 {
	mounds, height, why := s.mounds()
	if why != "" || math.IsNaN(s.p.settlement) {
		return math.NaN()
	}
	sum := 0.0
	for _, m := range mounds {
		wider := 2 * m.slope * s.p.settlement
		m.length, m.width = m.length+wider, m.width+wider
		sum += m.Volume(height+s.p.settlement, m.slope)
	}
	return sum
}
