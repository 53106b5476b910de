package screening

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/screening/job"
	"waterward/screening/pages"
)

// sectionOf is the cut through the structure.
func sectionOf(p *plan) pages.Section {
	s := p.s
	t, why := s.Transect()
	if why != "" {
		return pages.Section{Missing: why}
	}
	h := s.Heights()
	feet := func(metres float64) float64 { return metres / job.Foot }
	made := pages.Section{
		Looking: looking(t.Foot, t.Toe), Toe: feet(math.Hypot(t.Toe[0]-t.Foot[0], t.Toe[1]-t.Foot[1])), Low: feet(t.Low), In: feet(t.In), Out: feet(t.Out),
		Crest: feet(h.Crest), Bed: feet(h.Bed), Beds: h.Beds, Oblique: t.Oblique, Placed: math.NaN(), CrestWidth: feet(h.CrestWidth), Slope: h.Slope,
		High: math.NaN(), LowWater: math.NaN(), Datum: s.Proposal.Words["datum"],
		ToeText: job.Fixed(s.Values["mhw_farthest"].Number/job.Foot, 2),
	}
	for _, c := range t.Others {
		made.Others = append(made.Others, pages.Cut{In: feet(c.In), Out: feet(c.Out), Oblique: c.Oblique})
	}
	if h.Settlement > 0 { // not so if it is not stated
		made.Placed = feet(h.Crest + h.Settlement)
	}
	high, low := s.Planes()
	if high.Unknown == "" {
		made.High = feet(high.Number)
	}
	if low.Unknown == "" {
		made.LowWater = feet(low.Number)
	}
	if len(high.Doubts)+len(high.Also)+len(low.Doubts)+len(low.Also) > 0 {
		made.Words = append(made.Words, "the heights of mean high or mean low water are in doubt: see what is to be asked for")
	}
	planes, _, _ := s.DatumPlanes()
	for _, level := range planes {
		made.Planes = append(made.Planes, pages.Level{Name: level.Name, Feet: feet(level.Metres)})
	}
	return made
}

// looking is the direction in which a section is looked at: to the right of who comes from
// the shore.
func looking(foot, toe orb.Point) string {
	return compass(orb.Point{toe[1] - foot[1], foot[0] - toe[0]})
}

// compass names the nearest of eight directions.
func compass(way orb.Point) string {
	names := [...]string{"north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"}
	return names[(int(math.Round(math.Atan2(way[0], way[1])*4/math.Pi))+8)%8]
}
