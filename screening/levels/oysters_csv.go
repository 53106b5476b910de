package levels

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
)

// ReadClumps reads a table of live oysters: columns lon, lat, top, bottom, unit,
// datum and, if known, date, in any order. A unit may stand in the names instead
// (top_ft, bottom_ft, top_m, bottom_m).
func ReadClumps(text []byte) ([]Clump, error) {
	table := csv.NewReader(bytes.NewReader(text))
	header, err := table.Read()
	if err != nil {
		return nil, fmt.Errorf("the table of live oysters has no header: %w", err)
	}
	at := map[string]int{}
	for k, cell := range header {
		name := strings.ToLower(strings.TrimSpace(cell))
		if _, twice := at[name]; twice {
			return nil, fmt.Errorf("the column %s is there twice", name)
		}
		at[name] = k
	}
	var clumps []Clump
	for {
		row, err := table.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("this is not a table: %w", err)
		}
		line, _ := table.FieldPos(0)
		cell := func(name string) string {
			if k, known := at[name]; known {
				return row[k]
			}
			return ""
		}
		c := Clump{Label: fmt.Sprintf("line %d", line)}
		if c.Place.Lon, err = parseNumber("lon", cell("lon")); err == nil {
			c.Place.Lat, err = parseNumber("lat", cell("lat"))
		}
		if err == nil {
			err = c.Describe(cell)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Label, err)
		}
		clumps = append(clumps, c)
	}
	if len(clumps) == 0 {
		return nil, fmt.Errorf("the table of live oysters has no rows")
	}
	return clumps, nil
}

// Describe takes heights, datum and date of a clump by the names of its columns or
// properties, and checks it.
func (c *Clump) Describe(text func(name string) string) (err error) {
	for _, end := range []struct {
		name string
		to   *float64
	}{{"top", &c.Top}, {"bottom", &c.Bottom}} {
		if *end.to, err = heightIn(text, end.name); err != nil {
			return err
		}
	}
	if c.Datum, err = ParseDatum(text("datum")); err != nil {
		return err
	}
	c.Date = strings.TrimSpace(text("date"))
	return c.check()
}

// heightIn is a height in metres that stands under a name with its unit, or under the
// bare name with the unit beside it.
func heightIn(text func(name string) string, name string) (float64, error) {
	in, at := Unit(""), ""
	for _, unit := range []Unit{"", Feet, Metres} {
		key := strings.TrimSuffix(name+"_"+string(unit), "_")
		if strings.TrimSpace(text(key)) == "" {
			continue
		}
		if at != "" {
			return 0, fmt.Errorf("%s and %s are both given; keep one", at, key)
		}
		in, at = unit, key
	}
	if at == "" {
		return 0, fmt.Errorf("%s is missing; give lon, lat, top, bottom, unit and datum, or top_ft and bottom_ft", name)
	}
	if beside := text("unit"); in == "" || strings.TrimSpace(beside) != "" {
		unit, err := ParseUnit(beside)
		if err != nil {
			return 0, err
		}
		if in != "" && in != unit {
			return 0, fmt.Errorf("%s stands beside the unit %s; state one", at, unit)
		}
		in = unit
	}
	v, err := parseNumber(at, text(at))
	return in.Metres(v), err
}
