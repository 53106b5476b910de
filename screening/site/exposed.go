package site

import (
	"fmt"
	"math"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// exposureOf is the exposure to air that holds at the site: of the record if the job
// gives one, else predicted at the nearest station; or why there is none. where says
// of what tide and years.
func (s *Site) exposureOf() (e *levels.Exposure, station *layers.TideStation, where, why string) {
	t := s.Layers.Tides
	if t == nil {
		return nil, nil, "", "no tide station or record was given; add levels"
	}
	station, distance := s.station()
	if t.Broken != "" {
		return nil, nil, "", t.Broken
	}
	if t.Record != nil {
		return t.Record, station, fmt.Sprintf("%s (%s)", t.Record.Way, t.Span), ""
	}
	if by, far := s.stationOf(predicts); by != nil {
		station, distance = by, far
	}
	if station == nil {
		return nil, nil, "", s.noStation()
	}
	e, err := station.Exposed()
	if err != nil {
		return nil, station, "", err.Error()
	}
	return e, station, fmt.Sprintf("%s at %s, %s, over %s", e.Way, station, job.AwayText(distance), station.Epoch), ""
}

func predicts(of *levels.Station) bool { return len(of.Constituents) > 0 }

// station is the tide station of the site and how far off it is, in metres (NaN if it
// does not say where it is); nil if there is none.
func (s *Site) station() (*layers.TideStation, float64) {
	return s.stationOf(func(*levels.Station) bool { return true })
}

// stationOf is the station that the proposal names, or else the nearest, of those wanted.
func (s *Site) stationOf(wanted func(*levels.Station) bool) (*layers.TideStation, float64) {
	t, name := s.Layers.Tides, s.Proposal.Words["station"]
	switch {
	case t == nil:
		return nil, 0
	case name == "":
		return t.Nearest(s.place(), wanted)
	}
	for _, of := range t.Stations {
		if of.Called(name) && wanted(of.Station) {
			return of, s.place().Distance(of.Place)
		}
	}
	return nil, 0
}

// noStation says why a site has no station.
func (s *Site) noStation() string {
	if name := s.Proposal.Words["station"]; name != "" {
		return fmt.Sprintf("no station of the job is called %.40q, as the proposal names it", name)
	}
	return "no station of the job says where it is"
}

// place is the middle of the site.
func (s *Site) place() levels.Place {
	at := s.Proposal.Of.Bound().Center()
	return levels.Place{Lon: at[0], Lat: at[1]}
}

// InDatums is an elevation of the proposal in every datum that the nearest station
// ties, as text; empty without a station.
func (s *Site) InDatums(elevation float64) string {
	station, _ := s.station()
	from, err := levels.ParseDatum(s.Proposal.Words["datum"])
	if station == nil || err != nil || math.IsNaN(elevation) {
		return ""
	}
	var out []string
	for _, e := range station.InAll(elevation, from) {
		if e.Unknown == "" {
			out = append(out, fmt.Sprintf("%s %s", e.Datum, job.Fixed(e.Metres/job.Foot, 2)))
		}
	}
	if len(out) < 2 {
		return ""
	}
	return strings.Join(out, "; ") + " ft (" + station.String() + ")"
}

// exposure sets the measures of how much of the time the structure is out of the
// water.
func (s *Site) exposure() {
	crest := Unknown("the proposal states no crest_elev_ft")
	bed := Unknown("the proposal states no bed_elev_ft")
	if !math.IsNaN(s.Proposal.Crest) {
		crest = s.exposedAt(s.Proposal.Crest, "crest")
	}
	if len(s.Proposal.beds) > 0 {
		bed = s.exposedAt(s.Proposal.Bed(), "bed")
	}
	s.Values["crest_exposed"], s.Values["bed_exposed"] = crest, bed
	s.Values["crest_share_mhw"] = s.shareOfDepth(levels.MHW)
	s.Values["crest_share_msl"] = s.shareOfDepth(levels.MSL)
	if crest.Unknown == "" {
		s.Notice("the crest is out of the water %.1f %% of the time: %s for oysters (common practice after North Carolina reefs); %s; closed lagoons need observations, and live oysters on pilings nearby are the better guide",
			100*crest.Number, levels.BandOf(100*crest.Number), crest.Detail)
	}
	s.grow(crest)
}

// exposedAt is the share of the time in which an elevation of the proposal is out of the
// water.
func (s *Site) exposedAt(elevation float64, what string) rules.Value {
	e, station, where, why := s.exposureOf()
	if why != "" {
		return Unknown("%s", why)
	}
	at, why := s.inDatum(station, elevation, e.Datum, what)
	if why != "" {
		return Unknown("%s", why)
	}
	if why := e.Undecided(); why != "" {
		return Unknown("%s", why)
	}
	percent, err := e.Percent(at)
	if err != nil {
		return Unknown("%v", err)
	}
	v := rules.Value{Number: percent / 100, Detail: where}
	off, of := e.HeightError()
	s.offHeights(&v, of, off, func(by float64) float64 {
		percent, _ := e.Percent(at + by) // as above
		return percent / 100
	})
	if e.Coverage < 1 {
		least, most := e.Bounds(percent)
		says := fmt.Sprintf("%.1f %% of the levels of the record are missing; with them the %s may be out of the water %.1f to %.1f %% of the time: give a record without gaps", 100*(1-e.Coverage), what, least, most)
		v.Also = append(v.Also, rules.Also{Number: least / 100, Says: says}, rules.Also{Number: most / 100, Says: says})
	}
	v = s.ofRecord(v)
	if from, _ := levels.ParseDatum(s.Proposal.Words["datum"]); s.Layers.Tides.Record == nil || from != e.Datum {
		v = s.atStation(v, station)
	}
	if s.Layers.Tides.Record != nil {
		return v
	}
	for _, other := range s.beside(station, predicts) {
		there, err := other.Exposed()
		if err != nil {
			continue
		}
		if at, why := s.inDatum(other, elevation, there.Datum, what); why == "" {
			percent, _ := there.Percent(at)
			v.Also = append(v.Also, rules.Also{Number: percent / 100, Says: s.otherwise(other, fmt.Sprintf("the %s is out of the water %.1f %% of the time", what, percent))})
		}
	}
	return v
}

// inDatum carries an elevation of the proposal into a datum by a station.
func (s *Site) inDatum(station *layers.TideStation, elevation float64, to levels.Datum, what string) (float64, string) {
	text := s.Proposal.Words["datum"]
	if text == "" {
		return 0, fmt.Sprintf("the %s elevation has no datum; state it", what)
	}
	from, err := levels.ParseDatum(text)
	if err != nil {
		return 0, err.Error()
	}
	if from == to {
		return elevation, ""
	}
	if station == nil {
		why := "no station ties them"
		if s.Proposal.Words["station"] != "" {
			why = s.noStation()
		}
		return 0, fmt.Sprintf("the %s is in %s and the levels in %s, and %s", what, from, to, why)
	}
	at, err := station.Convert(elevation, from, to)
	if err != nil {
		return 0, err.Error()
	}
	return at, ""
}

// shareOfDepth is the height of the structure over its bed as a share of the depth of
// the water there at a tidal datum.
func (s *Site) shareOfDepth(datum levels.Datum) rules.Value {
	height := s.Proposal.Crest - s.Proposal.Bed()
	if math.IsNaN(height) {
		return Unknown("the height needs crest_elev_ft and bed_elev_ft")
	}
	station, _ := s.station()
	depth, why := s.inDatum(station, s.Proposal.Bed(), datum, "bed")
	switch {
	case why != "":
		return Unknown("%s", why)
	case depth >= 0:
		return Unknown("the bed is not below %s", datum)
	}
	v := rules.Value{Number: height / -depth, Whole: -depth, Accuracy: s.ofHeights("the depth", s.Proposal.levelled)}
	if from, _ := levels.ParseDatum(s.Proposal.Words["datum"]); from != datum {
		v = s.atStation(v, station)
	}
	return v
}
