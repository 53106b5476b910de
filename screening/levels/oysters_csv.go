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
func ReadClumps(r io.Reader) ([]Clump, error) {
	raw, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	table := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(raw, []byte("\ufeff"))))
	header, err := table.Read()
	if err != nil {
		return nil, fmt.Errorf("the table of live oysters has no header: %w", err)
	}
	unit, at := Unit(""), map[string]int{}
	for k, cell := range header {
		name := strings.ToLower(strings.TrimSpace(cell))
		for _, u := range []Unit{Feet, Metres} {
			if bare, cut := strings.CutSuffix(name, "_"+string(u)); cut && (bare == "top" || bare == "bottom") {
				if unit != "" && unit != u {
					return nil, fmt.Errorf("top and bottom are in different units; give both in one")
				}
				name, unit = bare, u
			}
		}
		if _, twice := at[name]; twice {
			return nil, fmt.Errorf("the column %s is there twice", name)
		}
		at[name] = k
	}
	if _, stated := at["unit"]; stated == (unit != "") {
		return nil, fmt.Errorf("state the unit of top and bottom once: a column unit, or top_ft and bottom_ft")
	}
	for _, name := range []string{"lon", "lat", "top", "bottom", "datum"} {
		if _, known := at[name]; !known {
			return nil, fmt.Errorf("the table of live oysters has no column %s; it needs lon, lat, top, bottom, unit and datum", name)
		}
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
		c, err := readClump(row, at, unit)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", line, err)
		}
		c.Label = fmt.Sprintf("line %d", line)
		if err := c.Check(); err != nil {
			return nil, err
		}
		clumps = append(clumps, c)
	}
	if len(clumps) == 0 {
		return nil, fmt.Errorf("the table of live oysters has no rows")
	}
	return clumps, nil
}

func readClump(row []string, at map[string]int, unit Unit) (c Clump, err error) {
	for _, cell := range []struct {
		name string
		to   *float64
	}{{"lon", &c.Place.Lon}, {"lat", &c.Place.Lat}, {"top", &c.Top}, {"bottom", &c.Bottom}} {
		if *cell.to, err = parseNumber(cell.name, row[at[cell.name]]); err != nil {
			return c, err
		}
	}
	if unit == "" {
		if unit, err = ParseUnit(row[at["unit"]]); err != nil {
			return c, err
		}
	}
	if c.Datum, err = ParseDatum(row[at["datum"]]); err != nil {
		return c, err
	}
	if k, known := at["date"]; known {
		c.Date = strings.TrimSpace(row[k])
	}
	c.Top, c.Bottom = unit.Metres(c.Top), unit.Metres(c.Bottom)
	return c, nil
}
