package levels

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// number is a JSON number that may be written as text; NaN if blank or null.
type number float64

func (n *number) UnmarshalJSON(raw []byte) error {
	text := strings.TrimSpace(strings.Trim(string(raw), `"`))
	if text == "" || text == "null" {
		*n = number(math.NaN())
		return nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("%s is not a number", raw)
	}
	*n = number(v)
	return nil
}

// word is JSON text that some files give as a number or a truth value.
type word string

func (w *word) UnmarshalJSON(raw []byte) error {
	*w = word(strings.TrimSpace(strings.Trim(string(raw), `"`)))
	if *w == "null" || *w == "false" {
		*w = ""
	}
	return nil
}

// The answers of the open tide service: a station, its datums, its harmonic
// constituents. A station may hold the other two.
type (
	serviceStation struct {
		ID       word           `json:"id"`
		Name     string         `json:"name"`
		Lon      *number        `json:"lng"`
		Lat      *number        `json:"lat"`
		Datums   *serviceDatums `json:"datums"`
		Harmonic *serviceHarmon `json:"harmonicConstituents"`
	}
	serviceDatums struct {
		Accepted   word   `json:"accepted"`
		Superseded word   `json:"superseded"`
		Epoch      string `json:"epoch"`
		Units      string `json:"units"`
		Datums     []struct {
			Name  string `json:"name"`
			Value number `json:"value"`
		} `json:"datums"`
	}
	serviceHarmon struct {
		Units        string `json:"units"`
		Constituents []struct {
			Name      string  `json:"name"`
			Amplitude number  `json:"amplitude"`
			Phase     *number `json:"phase_GMT"`
		} `json:"HarmonicConstituents"`
	}
)

// readStationJSON reads what the open tide service says of one station: its
// datums, or the station with its datums and harmonic constituents in it. Who
// asks for the datums alone knows the station; a name and a place are then for
// the caller to set.
func readStationJSON(text []byte) (*Station, error) {
	var file struct {
		Stations []serviceStation `json:"stations"`
		Error    any              `json:"error"`
	}
	if err := json.Unmarshal(text, &file); err != nil {
		return nil, fmt.Errorf("this is not the JSON of a tide station: %w", err)
	}
	given := serviceStation{}
	switch {
	case file.Error != nil:
		return nil, fmt.Errorf("the tide service answered with an error instead of a station: %v", file.Error)
	case len(file.Stations) > 1:
		return nil, fmt.Errorf("there are %d stations in this file; give one", len(file.Stations))
	case len(file.Stations) == 1:
		given = file.Stations[0]
	default:
		given.Datums = &serviceDatums{}
		if err := json.Unmarshal(text, given.Datums); err != nil {
			return nil, fmt.Errorf("this is not the JSON of a station's datums: %w", err)
		}
	}
	s := &Station{ID: string(given.ID), Name: given.Name, Place: Place{math.NaN(), math.NaN()}, Source: "tide service"}
	if given.Lon != nil && given.Lat != nil {
		s.Place = Place{float64(*given.Lon), float64(*given.Lat)}
	}
	if given.Datums == nil || len(given.Datums.Datums) == 0 {
		return nil, fmt.Errorf("%s has no list of datums; ask the tide service for them", s)
	}
	if err := given.Datums.into(s); err != nil {
		return nil, fmt.Errorf("%s: %w", s, err)
	}
	if given.Harmonic != nil {
		var err error
		if s.Constituents, err = given.Harmonic.list(); err != nil {
			return nil, fmt.Errorf("%s: %w", s, err)
		}
	}
	return s, s.check()
}

func (g *serviceDatums) into(s *Station) error {
	if g.Superseded != "" && g.Superseded != "0" {
		return fmt.Errorf("these datums were superseded (%s); give the ones in force", g.Superseded)
	}
	unit, err := ParseUnit(g.Units)
	if err != nil {
		return err
	}
	if g.Epoch != "" {
		if s.Epoch, err = ParseEpoch(g.Epoch); err != nil {
			return err
		}
	}
	s.Accepted, s.Datums = string(g.Accepted), map[Datum]float64{}
	for _, of := range g.Datums {
		d, err := ParseDatum(of.Name)
		if err != nil || math.IsNaN(float64(of.Value)) {
			continue // ranges, intervals and datums not used here stand in the same list
		}
		if _, twice := s.Datums[d]; twice {
			return fmt.Errorf("%s is given twice", d)
		}
		s.Datums[d] = unit.Metres(float64(of.Value))
	}
	return nil
}

// ReadConstituents reads the answer of the open tide service on harmonic
// constituents; the phases taken are those referred to Greenwich.
func ReadConstituents(text []byte) ([]Constituent, error) {
	var file serviceHarmon
	if err := json.Unmarshal(text, &file); err != nil {
		return nil, fmt.Errorf("this is not the JSON of harmonic constituents: %w", err)
	}
	return file.list()
}

func (g *serviceHarmon) list() ([]Constituent, error) {
	if len(g.Constituents) == 0 {
		return nil, nil
	}
	unit, err := ParseUnit(g.Units)
	if err != nil {
		return nil, fmt.Errorf("harmonic constituents: %w", err)
	}
	list := make([]Constituent, 0, len(g.Constituents))
	for _, c := range g.Constituents {
		if c.Phase == nil || math.IsNaN(float64(c.Amplitude)+float64(*c.Phase)) {
			return nil, fmt.Errorf("constituent %s needs an amplitude and a phase_GMT", c.Name)
		}
		list = append(list, Constituent{c.Name, unit.Metres(float64(c.Amplitude)), float64(*c.Phase)})
	}
	return list, nil
}
