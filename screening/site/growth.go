package site

import (
	"fmt"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// growth is at which heights oysters can be looked for at a site.
type growth struct {
	Band    string // in which the crest falls
	Targets string // the elevations exposed so much of the time
	Living  string // where oysters live nearby
}

// grow sets where oysters can grow at the site, computed and as measured nearby.
func (s *Site) grow(crest rules.Value) {
	if crest.Unknown == "" {
		s.Growth.Band = string(levels.BandOf(100 * crest.Number))
	}
	e, station, _, why := s.exposureOf()
	datum, err := levels.ParseDatum(s.Proposal.Words["datum"])
	if why == "" && err != nil {
		datum, err = e.Datum, nil
	}
	if err != nil {
		return
	}
	low, high, known := 0.0, 0.0, false
	if why == "" && e.Undecided() == "" {
		s.Growth.Targets, low, high, known = targetsText(e, station, datum)
	}
	living, err := s.livingNear(station, datum)
	if err != nil || living == nil {
		if err != nil {
			s.Notice("the oysters measured nearby cannot be used: %v", err)
		}
		return
	}
	s.Growth.Living = fmt.Sprintf("from %s to %s ft %s", job.Fixed(living.Bottom/job.Foot, 2), job.Fixed(living.Top/job.Foot, 2), datum)
	where := fmt.Sprintf("%s measured %s to %s away", job.Count(living.Count, "place"), job.MilesText(living.Nearest), job.MilesText(living.Farthest))
	if known && living.Disagrees(high, low) {
		s.Notice("oysters live nearby %s (%s), more than 0.5 ft from what is computed (%s): the measured heights are to be preferred (common practice, no source)", s.Growth.Living, where, s.Growth.Targets)
	} else {
		s.Notice("oysters live nearby %s (%s)", s.Growth.Living, where)
	}
}

// targetsText lists the elevations at the limits of the bands in a datum, and gives the
// lowest and the highest; known is false if any is not.
func targetsText(e *levels.Exposure, station *layers.TideStation, datum levels.Datum) (text string, low, high float64, known bool) {
	var out []string
	for i, t := range e.Targets() {
		at, err := t.Metres, error(nil)
		switch {
		case t.Unknown != "":
			return "", 0, 0, false
		case datum != t.Datum && station == nil:
			return "", 0, 0, false
		case datum != t.Datum:
			at, err = station.Convert(t.Metres, t.Datum, datum)
		}
		if err != nil {
			return "", 0, 0, false
		}
		if i == 0 {
			low = at
		}
		high = at
		out = append(out, fmt.Sprintf("%g %%: %s", levels.BandLimits[i], job.Fixed(at/job.Foot, 2)))
	}
	return strings.Join(out, "; ") + " ft " + string(datum), low, high, true
}

// livingNear is where oysters live round the site; nil if none were measured near it.
func (s *Site) livingNear(station *layers.TideStation, datum levels.Datum) (*levels.Living, error) {
	t := s.Layers.Tides
	if t == nil || len(t.Clumps) == 0 {
		return nil, nil
	}
	ties := &levels.Station{}
	if station != nil {
		ties = station.Station
	}
	return levels.LivingNear(s.place(), t.Clumps, ties, datum)
}
