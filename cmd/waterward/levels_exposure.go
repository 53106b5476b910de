package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"waterward/geo/text"
	"waterward/screening/layers"
	"waterward/screening/levels"
)

// levelsAYear is how many levels a year has at six minutes.
const levelsAYear = 366 * 240

func levelExposure(c *cli.Context) error {
	if c.Bool("csv") && c.Bool("json") {
		return usageError("give --csv or --json, not both")
	}
	asked, err := askedOf(c)
	if err != nil {
		return err
	}
	var out *staging
	if c.String("out") != "" {
		if out, err = outputFolder(c, "levels"); err != nil {
			return err
		}
		defer out.discard()
	}
	files := &inputs{stdin: c.App.Reader}
	if err := askOysters(c, files, &asked); err != nil {
		return err
	}
	t, err := exposureTable(c, files, asked)
	if err != nil {
		return err
	}
	if out != nil {
		if err := writeExposure(out, files, t); err != nil {
			return err
		}
	}
	if c.Bool("csv") {
		for _, text := range t.Mind {
			say(c.App.ErrWriter, text)
		}
		return t.WriteCSV(c.App.Writer)
	}
	return report(c, t, t.Write)
}

func askedOf(c *cli.Context) (asked levels.Asked, err error) {
	if text := c.String("above"); text != "" {
		if asked.Above, err = levels.ParseDatum(text); err != nil {
			return asked, usageError("--above: %v", err)
		}
	}
	if text := c.String("every"); text != "" {
		asked.Every.Size, asked.Every.Unit, err = parseHeight(text)
		if err != nil || asked.Every.Size <= 0 {
			return asked, usageError("--every %q is not a step; write a number above 0 and its unit, such as \"0.1 ft\"", text)
		}
	}
	asked.Crest, err = parseMark(c, "crest", "crest-datum")
	return asked, err
}

// askOysters reads the oysters that were measured, and where the site is.
func askOysters(c *cli.Context, files *inputs, asked *levels.Asked) (err error) {
	name, site := c.String("oysters"), c.String("site")
	switch {
	case name == "" && site == "":
		return nil
	case name == "":
		return usageError("--site is given and no --oysters")
	case site != "":
		if asked.Site, err = levels.ParsePlace(site); err != nil {
			return usageError("--site: %v", err)
		}
	}
	text, err := readText(files, name)
	if err != nil {
		return err
	}
	asked.Clumps, err = layers.ReadOysters(name, text)
	return err
}

// exposureTable is the exposure in the way that the flags choose.
func exposureTable(c *cli.Context, files *inputs, asked levels.Asked) (*levels.ExposureTable, error) {
	var station *levels.Station
	var err error
	name := c.String("record")
	if name == "" || c.String("station") != "" {
		if station, err = openStation(c, files); err != nil {
			return nil, err
		}
	}
	var t *levels.ExposureTable
	years, class := c.String("years"), c.String("class")
	switch {
	case name != "" && (years != "" || class != "" || c.String("constituents") != ""):
		return nil, usageError("--years, --class and --constituents are of a station alone; a --record is taken as it is")
	case name != "":
		series, err := openRecord(c, files)
		if err != nil {
			return nil, err
		}
		if t, err = series.ExposureTable("the record "+filepath.Base(name), station, asked); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		return t, nil
	case c.String("unit") != "" || c.String("zone") != "" || c.String("datum") != "":
		return nil, usageError("--unit, --datum and --zone are of a --record; the datum of the table is --above, that of the crest --crest-datum")
	case len(station.Constituents) > 0:
		if class != "" {
			return nil, usageError("--class is for a station without constituents, and %s has them; leave it out", station)
		}
		span := station.Epoch
		if years != "" {
			if span, err = levels.ParseEpoch(years); err != nil {
				return nil, usageError("--years: %v", err)
			}
		}
		if span == (levels.Epoch{}) {
			return nil, usageError("%s states no epoch; give --years, such as 1983-2001", station)
		}
		if most := longestPrediction / levelsAYear; span.Last-span.First >= most {
			return nil, usageError("--years %s: %d years at most", span, most)
		}
		t, err = station.PredictedTable(span, asked)
	case years != "":
		return nil, usageError("--years: %s has no harmonic constituents to predict them from; give --constituents, or --class for a rough answer", station)
	case class == "":
		return nil, usageError("%s has datums only; give its --constituents, or for a rough answer the --class of its tide (such as semidiurnal)", station)
	default:
		var of levels.Class
		if of, err = levels.ParseClass(class); err != nil {
			return nil, usageError("--class: %v", err)
		}
		t, err = station.RoughTable(of, asked)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.String("station"), err)
	}
	return t, nil
}

// writeExposure writes the chart and the table into their folder.
func writeExposure(out *staging, files *inputs, t *levels.ExposureTable) error {
	for _, o := range []struct {
		name  string
		write func(io.Writer) error
	}{{"exposure.svg", t.Chart}, {"exposure.csv", t.WriteCSV}, {manifest, writtenByLevels}} {
		var page bytes.Buffer
		if err := o.write(&page); err != nil {
			return err
		}
		file, err := out.Create(o.name)
		if err != nil {
			return err
		}
		_, err = io.WriteString(file, text.Lines(page.String()))
		if closed := file.Close(); err == nil {
			err = closed
		}
		if err != nil {
			return err
		}
	}
	if name := files.overwritten(out); name != "" {
		return usageError("the output %s would replace an input of this run; give another folder by --out", out.place(name))
	}
	return out.commit()
}

// writtenByLevels says that a folder holds a chart and its table.
func writtenByLevels(to io.Writer) error {
	_, err := fmt.Fprintf(to, `{"tool": "waterward", "version": %q, "command": "levels", "outputs": [{"file": "exposure.svg"}, {"file": "exposure.csv"}]}`+"\n", version)
	return err
}
