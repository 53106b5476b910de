package main

import (
	"fmt"
	"path/filepath"
	"slices"

	"github.com/urfave/cli/v2"

	"waterward/screening"
	"waterward/screening/job"
)

const envelopeExample = "waterward envelope --job testdata/marrowby/job.yaml --out shore"

func envelopeCommand() *cli.Command {
	return &cli.Command{
		Name:               "envelope",
		Usage:              "say where along the shore of every parcel a structure could go, how far out and how long, and what blocks it",
		CustomHelpTemplate: example(envelopeExample) + cli.CommandHelpTemplate + exitCodes + "\n",
		Flags: append(layerFlags(),
			&cli.StringFlag{Name: "width", Usage: "how wide the structure is, as `LENGTH` (6 ft)"},
			&cli.StringFlag{Name: "least-length", Usage: "the least `LENGTH` worth building (20 ft)"},
			&cli.BoolFlag{Name: "all-paths", Usage: "work out and draw every path of the books, not only the easiest that is open"},
			&cli.StringSliceFlag{Name: "parcels-from", Usage: "only the parcels whose ids are in a CSV `FILE`, in the column of that name or its only one; - is standard input; may be repeated"},
			&cli.StringFlag{Name: "window", Usage: "only parcels of which a front meets a window of degrees, `W,S,E,N`: --window=-76.52,34.70,-76.48,34.74"},
			sinceFlag(),
			&cli.StringFlag{Name: "reach", Usage: "how far out from mean high water is looked, as `LENGTH` (150 ft)"},
		),
		Action:       envelope,
		OnUsageError: wrongFlag,
	}
}

func envelope(c *cli.Context) error {
	files, j, out, err := prepare(c)
	if err != nil {
		return err
	}
	defer out.discard()
	for _, f := range []struct {
		flag string
		into *job.Distance
	}{{"width", &j.Envelope.Width}, {"least-length", &j.Envelope.Least}, {"reach", &j.Envelope.Reach}} {
		if text := c.String(f.flag); text != "" {
			if *f.into, err = job.ParseDistance(text); err != nil {
				return usageError("--%s: %v", f.flag, err)
			}
		}
	}
	options := screening.Options{Workers: c.Int("workers"), Version: version, AllPaths: c.Bool("all-paths")}
	if options.Chosen, err = chosen(c, files); err != nil {
		return err
	}
	options.Since = since(c)
	var stop func()
	options.Progress, stop = follow(c, "parcels")
	report, err := screening.Envelope(c.Context, j, files, out, options)
	stop()
	if err != nil {
		return err
	}
	done := fmt.Sprintf("%d parcels with shore, %d fronts without a result; see %s",
		report.Parcels, report.Unusable, filepath.Join(c.String("out"), "parcels.csv"))
	told := append([]string{done}, report.Told...)
	if options.Since != nil {
		told = append(told, fmt.Sprintf("%d parcels are new, gone or came out otherwise than in %s; see changes.csv", report.Changed, c.String("since")))
	}
	return deliver(c, files, out, told, report.Messages, slices.Concat(few(report.Repairs, repairsShown, "areas that were rebuilt"), report.Warnings, report.Doubts, report.Idle))
}

// chosen are the parcels that flags ask for.
func chosen(c *cli.Context, files *inputs) (of screening.Chosen, err error) {
	for _, name := range c.StringSlice("parcels-from") {
		of.Lists = append(of.Lists, files.given(name))
	}
	if text := c.String("window"); text != "" {
		window, err := job.ParseWindow(text)
		if err != nil {
			return of, usageError("--window %v", err)
		}
		of.Window = &window
	}
	return of, nil
}
