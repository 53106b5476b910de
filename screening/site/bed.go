package site

import (
	"fmt"
	"math"
	"slices"

	"waterward/rules"
	"waterward/screening/job"
)

// bedOff is by how much, in metres (0.5 ft), a stated bed may lie off that of a straight
// foreshore: common practice, no source. Bars and scour make less of a difference; a
// datum mixed up or a line misplaced makes more.
const bedOff = 0.5 * job.Foot

// bedExpected is the elevation, in the proposal's datum, that the bed would have midway
// under the structure were the foreshore straight from the line of mean high water to
// that of mean low water. Waterward of that one nothing says how the bed falls, so it is
// not known there.
func (s *Site) bedExpected() rules.Value {
	high, low := s.over(s.meanHigh(), 0, "bed"), s.over(s.meanLow(), 0, "bed")
	for _, v := range []rules.Value{high, low} {
		if v.Unknown != "" {
			return v
		}
	}
	offHigh, why := s.midway("mhw")
	if why != "" {
		return Unknown("%s", why)
	}
	offLow, why := s.midway("mlw")
	switch {
	case why != "":
		return Unknown("%s", why)
	case low.Number <= high.Number:
		return Unknown("mean high water is not above mean low water here; check the elevations of both lines")
	case offHigh < 0 || offLow > 0:
		return Unknown("it does not stand between mean high and mean low water, where a straight foreshore is to be expected")
	}
	share := offHigh / math.Max(offHigh-offLow, rules.Resolution) // of the way from mean high to mean low water
	high.Number = -high.Number + share*(high.Number-low.Number)
	high.Detail = fmt.Sprintf("%s of the %s from mean high to mean low water", job.FeetText(offHigh), job.FeetText(offHigh-offLow))
	high.Also, high.Doubts = nil, nil
	high.Accuracy = append(high.Accuracy, low.Accuracy...)
	high.Date = older(high.Date, low.Date)
	return high
}

// midway is how far waterward of a tidal line the middle of the structure lies.
func (s *Site) midway(line string) (metres float64, why string) {
	nearest, farthest := s.Values[line+"_nearest"], s.Values[line+"_farthest"]
	for _, v := range []rules.Value{nearest, farthest} {
		if v.Unknown != "" {
			return 0, v.Unknown
		}
	}
	return (nearest.Number + farthest.Number) / 2, ""
}

// doubtBed doubts what rests on a stated bed that contradicts the tidal lines, and with
// it every decision: either the bed is not there, or the structure is not.
func (s *Site) doubtBed() {
	says := s.bedContradicts()
	if says == "" {
		return
	}
	s.Unsettled = append(s.Unsettled, says)
	for _, name := range ofBed {
		if v := s.Values[name]; v.Unknown == "" {
			s.Values[name] = Doubting(v, says, 0)
		}
	}
}

// bedContradicts says how a stated bed contradicts the tidal lines; empty if it does not.
func (s *Site) bedContradicts() string {
	if len(s.Proposal.beds) == 0 {
		return ""
	}
	mean, lowest, highest := s.Proposal.Bed(), slices.Min(s.Proposal.beds), slices.Max(s.Proposal.beds)
	at := func(elevation float64) string { return job.FeetText(elevation) + " " + s.Proposal.Words["datum"] }
	const check = ": check the bed, its datum and the lines"
	expected := s.Values["bed_expected"]
	if off := mean - expected.Number; expected.Unknown == "" && math.Abs(off) > bedOff+rules.Resolution {
		return fmt.Sprintf("the bed stated, %s, lies %s off that of a straight foreshore between the tidal lines, %s (%s)"+check, at(mean), job.FeetText(math.Abs(off)), at(expected.Number), expected.Detail)
	}
	low := s.over(s.meanLow(), lowest, "bed")
	far, near := s.Values["mlw_farthest"], s.Values["mlw_nearest"]
	switch {
	case low.Unknown != "" || far.Unknown != "" || near.Unknown != "":
	case far.Number < 0 && low.Number < -rules.Resolution:
		return fmt.Sprintf("the bed stated, %s, lies %s below mean low water, though all of it stands landward of that line"+check, at(lowest), job.FeetText(-low.Number))
	case near.Number > 0 && low.Number+highest-lowest > bedOff:
		return fmt.Sprintf("the bed stated, %s, lies %s above mean low water, though all of it stands waterward of that line"+check, at(highest), job.FeetText(low.Number+highest-lowest))
	}
	if s.Proposal.Crest <= highest {
		return fmt.Sprintf("the crest, %s, does not stand above all of the bed stated, %s at its highest"+check, at(s.Proposal.Crest), at(highest))
	}
	return ""
}
