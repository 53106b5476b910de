package screening

import (
	"fmt"
	"math"
	"slices"

	"waterward/rules"
)

// bedOff is by how much, in metres (0.5 ft), a stated bed may lie off that of a straight
// foreshore: common practice, no source. Bars and scour make less of a difference; a
// datum mixed up or a line misplaced makes more.
const bedOff = 0.5 * foot

// onBed are the measures that rest on the elevation of the bed stated.
var onBed = []string{
	"mhw_mean_depth", "mlw_greatest_depth", "bed_exposed", "crest_share_mhw", "crest_share_msl",
	"fill_volume", "fill_below_mhw", "fill_below_htl", "fill_per_length",
}

// bedExpected is the elevation, in the proposal's datum, that the bed would have midway
// under the structure were the foreshore straight from the line of mean high water to
// that of mean low water. Waterward of that one nothing says how the bed falls, so it is
// not known there.
func (s *site) bedExpected() rules.Value {
	high, low := s.over(s.meanHigh(), 0, "bed"), s.over(s.meanLow(), 0, "bed")
	for _, v := range []rules.Value{high, low} {
		if v.Unknown != "" {
			return v
		}
	}
	offHigh, why := s.midway("mhw")
	if why != "" {
		return unknown("%s", why)
	}
	offLow, why := s.midway("mlw")
	switch {
	case why != "":
		return unknown("%s", why)
	case low.Number <= high.Number:
		return unknown("mean high water is not above mean low water here; check the elevations of both lines")
	case offHigh < 0 || offLow > 0:
		return unknown("it does not stand between mean high and mean low water, where a straight foreshore is to be expected")
	}
	share := offHigh / math.Max(offHigh-offLow, rules.Resolution) // of the way from mean high to mean low water
	high.Number = -high.Number + share*(high.Number-low.Number)
	high.Detail = fmt.Sprintf("%s of the %s from mean high to mean low water", feetText(offHigh), feetText(offHigh-offLow))
	high.Also, high.Doubts = nil, nil
	high.Accuracy = append(high.Accuracy, low.Accuracy...)
	high.Date = older(high.Date, low.Date)
	return high
}

// midway is how far waterward of a tidal line the middle of the structure lies.
func (s *site) midway(line string) (metres float64, why string) {
	nearest, farthest := s.values[line+"_nearest"], s.values[line+"_farthest"]
	for _, v := range []rules.Value{nearest, farthest} {
		if v.Unknown != "" {
			return 0, v.Unknown
		}
	}
	return (nearest.Number + farthest.Number) / 2, ""
}

// doubtBed doubts what rests on a stated bed that contradicts the tidal lines, and with
// it every decision: either the bed is not there, or the structure is not.
func (s *site) doubtBed() {
	says := s.bedContradicts()
	if says == "" {
		return
	}
	s.doubts = append(s.doubts, says)
	for _, name := range onBed {
		if v := s.values[name]; v.Unknown == "" {
			s.values[name] = doubting(v, says, 0)
		}
	}
}

// bedContradicts says how a stated bed contradicts the tidal lines; empty if it does not.
func (s *site) bedContradicts() string {
	if len(s.p.beds) == 0 {
		return ""
	}
	mean, lowest, highest := s.p.bed(), slices.Min(s.p.beds), slices.Max(s.p.beds)
	at := func(elevation float64) string { return feetText(elevation) + " " + s.p.words["datum"] }
	const check = ": check the bed, its datum and the lines"
	expected := s.values["bed_expected"]
	if off := mean - expected.Number; expected.Unknown == "" && math.Abs(off) > bedOff+rules.Resolution {
		return fmt.Sprintf("the bed stated, %s, lies %s off that of a straight foreshore between the tidal lines, %s (%s)"+check, at(mean), feetText(math.Abs(off)), at(expected.Number), expected.Detail)
	}
	low := s.over(s.meanLow(), lowest, "bed")
	far, near := s.values["mlw_farthest"], s.values["mlw_nearest"]
	switch {
	case low.Unknown != "" || far.Unknown != "" || near.Unknown != "":
	case far.Number < 0 && low.Number < -rules.Resolution:
		return fmt.Sprintf("the bed stated, %s, lies %s below mean low water, though all of it stands landward of that line"+check, at(lowest), feetText(-low.Number))
	case near.Number > 0 && low.Number+highest-lowest > bedOff:
		return fmt.Sprintf("the bed stated, %s, lies %s above mean low water, though all of it stands waterward of that line"+check, at(highest), feetText(low.Number+highest-lowest))
	}
	if s.p.crest <= highest {
		return fmt.Sprintf("the crest, %s, does not stand above all of the bed stated, %s at its highest"+check, at(s.p.crest), at(highest))
	}
	return ""
}
