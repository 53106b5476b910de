package levels

import (
	"fmt"
	"math"
	"strings"
)

// Station is a tide station: its datums, and its tide if that is known.
type Station struct {
	ID, Name     string
	Place        Place // NaN if not stated
	Epoch        Epoch
	Accepted     string            // the day the datums were accepted, as the file gives it
	Datums       map[Datum]float64 // m above one zero, as a rule STND; some may be missing
	Constituents []Constituent     // none if not known
	Source       string            // where the figures come from
}

// String names the station as messages do.
func (s *Station) String() string {
	name := strings.TrimSpace(s.ID + " " + s.Name)
	if name == "" {
		return "the station"
	}
	return "station " + name
}

// Called reports whether the station goes by a name: its number or its name.
func (s *Station) Called(name string) bool {
	return strings.EqualFold(s.ID, name) || strings.EqualFold(s.Name, name)
}

// Convert turns an elevation in metres above one datum into metres above
// another, at this station. It is exact: a difference of two published levels.
func (s *Station) Convert(elevation float64, from, to Datum) (float64, error) {
	if from == to {
		return elevation, nil
	}
	zero, err := s.level(from)
	if err != nil {
		return math.NaN(), err
	}
	other, err := s.level(to)
	if err != nil {
		return math.NaN(), err
	}
	return elevation + zero - other, nil
}

func (s *Station) level(d Datum) (float64, error) {
	level, known := s.Datums[d]
	switch {
	case known:
		return level, nil
	case d == NAVD88:
		return 0, fmt.Errorf("%s has no tie to NAVD88, so its tidal datums cannot be set against NAVD88; name a station that has one, or give the elevation in a tidal datum", s)
	}
	return 0, fmt.Errorf("%s has no %s", s, d)
}

// Elevation is one elevation as it stands in one datum, or why it is unknown.
type Elevation struct {
	Datum   Datum
	Metres  float64 // NaN if unknown
	Unknown string
}

// InAll is an elevation in every datum, in the order of datums.
func (s *Station) InAll(elevation float64, from Datum) []Elevation {
	all := make([]Elevation, len(datums))
	for i, to := range datums {
		v, err := s.Convert(elevation, from, to)
		all[i] = Elevation{Datum: to, Metres: v}
		if err != nil {
			all[i].Unknown = err.Error()
		}
	}
	return all
}

// Tide is the tide of the station in metres above a datum.
func (s *Station) Tide(above Datum) (*Tide, error) {
	if len(s.Constituents) == 0 {
		return nil, fmt.Errorf("%s has no harmonic constituents, so its tide cannot be predicted", s)
	}
	mean, err := s.Convert(0, MSL, above)
	if err != nil {
		return nil, err
	}
	t, err := newTide(s.Constituents, mean)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s, err)
	}
	t.datum = above
	return t, nil
}

// Nearest is the station nearest to a place and its distance in metres; nil if
// none of them says where it is.
func Nearest(stations []*Station, to Place) (*Station, float64) {
	var nearest *Station
	least := math.Inf(1)
	for _, s := range stations {
		if d := s.Place.Distance(to); d < least {
			nearest, least = s, d
		}
	}
	return nearest, least
}

// check refuses datums that cannot be those of one tide.
func (s *Station) check() error {
	if len(s.Datums) == 0 {
		return fmt.Errorf("%s gives none of %s", s, listDatums())
	}
	var above Datum
	for _, d := range []Datum{MHHW, MHW, MTL, MLW, MLLW} {
		level, known := s.Datums[d]
		if !known {
			continue
		}
		if above != "" && level > s.Datums[above] {
			return fmt.Errorf("%s has %s above %s; check its datums", s, d, above)
		}
		above = d
	}
	for _, d := range datums {
		if !(math.Abs(s.Datums[d]) < tallest) {
			return fmt.Errorf("%s has %s at %g m, which is no level of a gauge; leave out what it has no figure for", s, d, s.Datums[d])
		}
	}
	for _, a := range datums {
		for _, b := range datums {
			high, known := s.Datums[a]
			low, too := s.Datums[b]
			if known && too && a != STND && b != STND && high-low > Highest {
				return fmt.Errorf("%s has %s %.0f ft above %s, more than any shore has; leave out what it has no figure for", s, a, (high-low)/foot, b)
			}
		}
	}
	if !math.IsNaN(s.Place.Lon+s.Place.Lat) && !s.Place.onEarth() {
		return fmt.Errorf("%s lies at longitude %g, latitude %g, which is no place", s, s.Place.Lon, s.Place.Lat)
	}
	return nil
}
