package levels

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// ReadStation reads a station from the JSON of the open tide service or from a table of
// our own.
func ReadStation(text []byte) (*Station, error) {
	if IsJSON(text) {
		return readStationJSON(text)
	}
	return readStationCSV(text)
}

// readStationCSV reads a station from a table of our own, a key and a value in
// each row; unit and epoch must be stated, and the order does not matter:
//
//	station,8720030
//	name,Fernandina Beach
//	lon,-81.4658
//	lat,30.6714
//	source,datum sheet of the station
//	unit,meters
//	epoch,1983-2001
//	MHW,2.410
//	MLW,0.575
//	NAVD88,1.683
//	M2,0.870,33.7
//
// Datums are heights above one zero; a harmonic constituent has its amplitude
// in the unit and its phase in degrees at Greenwich. A first row "datum,value"
// and rows that start with # are passed over.
func readStationCSV(text []byte) (*Station, error) {
	table := csv.NewReader(bytes.NewReader(text))
	table.FieldsPerRecord, table.TrimLeadingSpace, table.Comment = -1, true, '#'
	s := &Station{Place: Place{math.NaN(), math.NaN()}, Datums: map[Datum]float64{}}
	var unit Unit
	said := map[string]bool{}
	for first := true; ; first = false {
		row, err := table.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("this is not a table: %w", err)
		}
		line, _ := table.FieldPos(0)
		key := strings.TrimSpace(row[0])
		if first && strings.EqualFold(key, "datum") {
			continue
		}
		if len(row) < 2 {
			return nil, fmt.Errorf("line %d: %q has no value; part the two by a comma", line, key)
		}
		if said[strings.ToLower(key)] {
			return nil, fmt.Errorf("line %d: %q is given twice", line, key)
		}
		said[strings.ToLower(key)] = true
		if strings.EqualFold(key, "unit") {
			unit, err = ParseUnit(row[1])
		} else {
			err = s.set(key, row[1:])
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", line, err)
		}
	}
	if unit == "" {
		return nil, fmt.Errorf("no unit is stated; add a row \"unit,feet\" or \"unit,meters\"")
	}
	if s.Epoch == (Epoch{}) {
		return nil, fmt.Errorf("no epoch is stated; add a row such as \"epoch,1983-2001\"")
	}
	for d, v := range s.Datums {
		s.Datums[d] = unit.Metres(v)
	}
	for i := range s.Constituents {
		s.Constituents[i].Amplitude = unit.Metres(s.Constituents[i].Amplitude)
	}
	return s, s.check()
}

// set takes one row, heights still in the unit of the table.
func (s *Station) set(key string, values []string) (err error) {
	text := strings.TrimSpace(values[0])
	switch strings.ToLower(key) {
	case "station":
		s.ID = text
	case "name":
		s.Name = text
	case "source":
		s.Source = text
	case "epoch":
		s.Epoch, err = ParseEpoch(text)
	case "lon":
		s.Place.Lon, err = parseNumber(key, text)
	case "lat":
		s.Place.Lat, err = parseNumber(key, text)
	default:
		return s.setHeight(key, values)
	}
	return cmp.Or(err, only(1, key, values))
}

func (s *Station) setHeight(key string, values []string) error {
	height, err := parseNumber(key, values[0])
	if err != nil {
		return err
	}
	if d, err := ParseDatum(key); err == nil {
		s.Datums[d] = height
		return only(1, key, values)
	}
	if findConstituent(key) == nil {
		return fmt.Errorf("%q is no datum (%s), no harmonic constituent known here, and none of station, name, lon, lat, source, unit, epoch", key, listDatums())
	}
	if len(values) < 2 {
		return fmt.Errorf("constituent %s needs an amplitude and a phase in degrees at Greenwich", key)
	}
	phase, err := parseNumber("phase of "+key, values[1])
	s.Constituents = append(s.Constituents, Constituent{key, height, phase})
	return cmp.Or(err, only(2, key, values))
}

// only refuses a row with more values than it has: a decimal comma parts a number in two.
func only(n int, key string, values []string) error {
	if more := values[n:]; strings.TrimSpace(strings.Join(more, "")) != "" {
		return fmt.Errorf("%s has %d values, not %d; write decimals with a point, and a text with a comma in quotes", key, len(values), n)
	}
	return nil
}

func parseNumber(what, text string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if decimalComma.MatchString(strings.TrimSpace(text)) {
		return 0, fmt.Errorf("%s: %q has a decimal comma; %s", what, text, usePoints)
	}
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%s: %q is not a number", what, text)
	}
	return v, nil
}
