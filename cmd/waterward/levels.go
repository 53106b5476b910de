package main

import (
	"fmt"
	"path/filepath"
	"time"

	"github.com/urfave/cli/v2"

	"waterward/screening/levels"
)

const levelsExample = `waterward levels exposure --station testdata/marrowby/ts01.csv --crest "-0.3 ft" --crest-datum NAVD88 --out chart`

func levelsCommand() *cli.Command {
	command := func(name, usage, description, shown string, action cli.ActionFunc, flags ...cli.Flag) *cli.Command {
		return &cli.Command{
			Name: name, Usage: usage, Description: description, Flags: flags,
			CustomHelpTemplate: example(shown) + cli.CommandHelpTemplate + exitCodes + "\n",
			OnUsageError:       wrongFlag,
			Action: func(c *cli.Context) error {
				if err := refuseArguments(c, false); err != nil {
					return err
				}
				return action(c)
			},
		}
	}
	text := func(name, usage string) cli.Flag { return &cli.StringFlag{Name: name, Usage: usage} }
	station := text("station", "a tide station, `FILE`: JSON of the tide service, or a CSV of its datums and constituents (see waterward help levels)")
	constituents := text("constituents", "its harmonic constituents, `FILE` of the tide service, if they are not in that of the station")
	record := []cli.Flag{
		text("record", "water levels of a gauge, `FILE`: CSV with a time in the first column"),
		text("unit", "the `UNIT` of the record, feet or meters"),
		text("zone", "the time zone of the record, `ZONE`: GMT, or hours from it such as -5"),
	}
	machines := &cli.BoolFlag{Name: "json", Usage: "print JSON"}
	return &cli.Command{
		Name:               "levels",
		Usage:              "tidal datums of a station or a record, time exposed to air by elevation, predictions",
		HideHelpCommand:    true,
		CustomHelpTemplate: example(levelsExample) + cli.SubcommandHelpTemplate,
		Subcommands: []*cli.Command{
			command("datums", "the datums of a station or of a record, and an elevation in all of them",
				"Datums of a record are plain means over it (first reduction). "+capital(levels.NeverLegal)+".",
				`waterward levels datums --station testdata/marrowby/ts01.csv --elevation "0.2 ft" --datum NAVD88`, levelDatums,
				append(record, station,
					&cli.StringSliceFlag{Name: "above", Usage: "show the station's datums above this `DATUM`; may be repeated"},
					text("elevation", "an `ELEVATION` with its unit, to be shown in every datum of the station, such as 0.2 ft"),
					text("datum", "the `DATUM` of the elevation, or of the record"),
					machines)...),
			command("exposure", "how much of the time elevations are out of the water, and the bands in which oysters grow",
				"From a record, from the harmonic constituents of a station, or roughly from its datums and the class of tide; the way is always named. Elevations of 10, 20, 40 and 55 % bound the bands: common practice, no source in any rule.",
				levelsExample, levelExposure,
				append(record, station, constituents,
					text("datum", "the `DATUM` of the record"),
					text("years", "predict the `YEARS` first to last (default: the epoch of the station)"),
					text("class", "the `CLASS` of tide of a station without constituents: semidiurnal; mixed, mainly semidiurnal; mixed, mainly diurnal; diurnal"),
					text("above", "show elevations above this `DATUM` (default: that of the record; of a station NAVD88, else MLLW)"),
					text("every", "the `STEP` between elevations (default: a round one in feet)"),
					text("crest", "the `ELEVATION` of a crest with its unit, to be marked, such as 0.2 ft"),
					text("crest-datum", "the `DATUM` of the crest"),
					text("oysters", "live oysters measured on pilings nearby, `FILE`: CSV or GeoJSON points with top, bottom, unit, datum, date (see waterward help levels)"),
					text("site", "where the site is, `LON,LAT` (default: at the station)"),
					text("out", "write exposure.svg, a chart, and exposure.csv into this `DIR`"),
					replaceFlag,
					&cli.BoolFlag{Name: "csv", Usage: "print the table by elevation as CSV"},
					machines)...),
			command("predict", "the tide of a station as CSV, times in UTC",
				capital(levels.OnlyTide)+".",
				"waterward levels predict --station testdata/marrowby/ts01.csv --from 2026-11-25 --until 2026-11-27", levelPredict,
				station, constituents,
				text("from", "the first `TIME` in UTC, 2026-11-25 or 2026-11-25T06:00"),
				text("until", "the `TIME` in UTC to end before"),
				&cli.DurationFlag{Name: "step", Value: 6 * time.Minute, Usage: "the `TIME` between levels, 6m or 1h"},
				text("datum", "give levels above this `DATUM` (default: MLLW)"),
				text("unit", "give levels in this `UNIT`, ft (default) or m")),
		},
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return usageError("there is no command %q; there are levels datums, exposure and predict", c.Args().First())
			}
			return cli.ShowSubcommandHelp(c)
		},
	}
}

func levelDatums(c *cli.Context) error {
	files := &inputs{stdin: c.App.Reader}
	if c.String("record") != "" {
		if c.String("station") != "" || c.String("elevation") != "" || c.IsSet("above") {
			return usageError("levels datums takes --record, or --station with --elevation and --above")
		}
		series, err := openRecord(c, files)
		if err != nil {
			return err
		}
		t, err := series.DatumTable("the record " + filepath.Base(c.String("record")))
		if err != nil {
			return fmt.Errorf("%s: %w", c.String("record"), err)
		}
		return report(c, t, t.Write)
	}
	if c.String("unit") != "" || c.String("zone") != "" {
		return usageError("--unit and --zone are of a --record")
	}
	station, err := openStation(c, files)
	if err != nil {
		return err
	}
	stated, err := parseMark(c, "elevation", "datum")
	if err != nil {
		return err
	}
	var above []levels.Datum
	for _, text := range c.StringSlice("above") {
		d, err := levels.ParseDatum(text)
		if err != nil {
			return usageError("--above: %v", err)
		}
		above = append(above, d)
	}
	t := station.DatumTable(above, stated)
	return report(c, t, t.Write)
}

// longestPrediction is how many levels are printed at most: 60 years at six
// minutes are half of it.
const longestPrediction = 10_000_000

func levelPredict(c *cli.Context) error {
	from, err := parseMoment(c, "from")
	if err != nil {
		return err
	}
	until, err := parseMoment(c, "until")
	if err != nil {
		return err
	}
	step := c.Duration("step")
	switch {
	case step < time.Second || step%time.Second != 0:
		return usageError("--step %v: give whole seconds, such as 6m or 1h", step)
	case !until.After(from):
		return usageError("--until %s is not after --from %s; the tide is predicted from the one to just before the other", c.String("until"), c.String("from"))
	case until.Sub(from)/step > longestPrediction:
		return usageError("--from %s --until %s --step %v are %d levels; ask for %d at most", c.String("from"), c.String("until"), step, until.Sub(from)/step, longestPrediction)
	}
	datum, unit := levels.MLLW, levels.Feet
	if text := c.String("datum"); text != "" {
		if datum, err = levels.ParseDatum(text); err != nil {
			return usageError("--datum: %v", err)
		}
	}
	if text := c.String("unit"); text != "" {
		if unit, err = levels.ParseUnit(text); err != nil {
			return usageError("--unit: %v", err)
		}
	}
	station, err := openStation(c, &inputs{stdin: c.App.Reader})
	if err != nil {
		return err
	}
	tide, err := station.Tide(datum)
	if err != nil {
		return fmt.Errorf("%s: %w", c.String("station"), err)
	}
	series, err := tide.Series(from, until, step)
	if err != nil {
		return err
	}
	say(c.App.ErrWriter, levels.OnlyTide)
	return series.WriteCSV(c.App.Writer, unit)
}
