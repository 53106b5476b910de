package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"waterward/screening/levels"
)

// readText reads a whole file of water levels.
func readText(files *inputs, name string) ([]byte, error) {
	file, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	text, err := levels.ReadText(file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return text, nil
}

// openStation reads the station, with the constituents that stand in a file of
// their own.
func openStation(c *cli.Context, files *inputs) (*levels.Station, error) {
	name := c.String("station")
	if name == "" {
		if c.Command.Name == "predict" {
			return nil, usageError("--station FILE is missing: the tide is predicted from the constituents of a station")
		}
		return nil, usageError("give --station FILE, or --record FILE with its --unit, --datum and --zone")
	}
	text, err := readText(files, name)
	if err != nil {
		return nil, err
	}
	station, err := levels.ReadStation(text)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if name = c.String("constituents"); name == "" {
		return station, nil
	}
	if len(station.Constituents) > 0 {
		return nil, usageError("--constituents: %s has its own in %s; leave one of them out", station, c.String("station"))
	}
	if text, err = readText(files, name); err != nil {
		return nil, err
	}
	if station.Constituents, err = levels.ReadConstituents(text); err == nil && len(station.Constituents) == 0 {
		err = errors.New("it lists no harmonic constituents; ask the tide service for them")
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return station, nil
}

// openRecord reads the record, of which the flags say what it does not.
func openRecord(c *cli.Context, files *inputs) (*levels.Series, error) {
	var stated levels.Stated
	var err error
	if stated.Unit, err = levels.ParseUnit(c.String("unit")); err != nil {
		return nil, usageError("--unit of the record: %v", err)
	}
	if stated.Datum, err = levels.ParseDatum(c.String("datum")); err != nil {
		return nil, usageError("--datum of the record: %v", err)
	}
	if stated.Zone, err = levels.ParseZone(c.String("zone")); err != nil {
		return nil, usageError("--zone of the record: %v", err)
	}
	name := c.String("record")
	text, err := readText(files, name)
	if err != nil {
		return nil, err
	}
	series, err := levels.ReadSeries(text, stated)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return series, nil
}

// parseHeight reads a number and its unit.
func parseHeight(text string) (float64, levels.Unit, error) {
	number, name, _ := strings.Cut(strings.TrimSpace(text), " ")
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || !(v > -highest && v < highest) {
		return 0, "", fmt.Errorf("%q is not a height; write a number and its unit, such as \"0.2 ft\" or \"-0.1 m\"", text)
	}
	unit, err := levels.ParseUnit(name)
	if err != nil {
		return 0, "", fmt.Errorf("%q: %w", text, err)
	}
	return v, unit, nil
}

// highest is beyond any crest, in either unit: more is a slip of the pen.
const highest = 1000

// parseMark reads an elevation and its datum from their flags; nil if neither
// is given.
func parseMark(c *cli.Context, elevation, datum string) (*levels.Mark, error) {
	text := strings.TrimSpace(c.String(elevation))
	if text == "" {
		if c.String(datum) != "" {
			return nil, usageError("--%s is given and no --%s", datum, elevation)
		}
		return nil, nil
	}
	v, unit, err := parseHeight(text)
	if err != nil {
		return nil, usageError("--%s: %v", elevation, err)
	}
	d, err := levels.ParseDatum(c.String(datum))
	if err != nil {
		return nil, usageError("--%s of --%s: %v", datum, elevation, err)
	}
	return &levels.Mark{Text: text, Metres: unit.Metres(v), Datum: d}, nil
}

// parseMoment reads a time in UTC.
func parseMoment(c *cli.Context, flag string) (time.Time, error) {
	text := strings.TrimSpace(c.String(flag))
	if text == "" {
		return time.Time{}, usageError("--%s is missing; give a time in UTC, as 2026-11-25 or 2026-11-25T06:00", flag)
	}
	for _, layout := range []string{time.DateOnly, "2006-01-02T15:04", "2006-01-02 15:04", "2006-01-02T15:04Z07:00", time.RFC3339} {
		if at, err := time.Parse(layout, text); err == nil {
			return at.UTC(), nil
		}
	}
	return time.Time{}, usageError("--%s: %q is not a time; write it as 2026-11-25 or 2026-11-25T06:00, in UTC", flag, text)
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
