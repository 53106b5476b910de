package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"waterward/geo/text"
	"waterward/rules"
	"waterward/screening"
	"waterward/screening/job"
)

const screenExample = "waterward screen --job testdata/marrowby/job.yaml --out screened"

func screenCommand() *cli.Command {
	return &cli.Command{
		Name:               "screen",
		Usage:              "measure proposals and say which permit path each falls under",
		CustomHelpTemplate: example(screenExample) + cli.CommandHelpTemplate + exitCodes + "\n",
		Flags: append(layerFlags(),
			&cli.StringSliceFlag{Name: "proposals", Usage: "proposed structures: a `FILE`, a folder, or a pattern such as 'in/*.geojson'; may be repeated"},
			sinceFlag(),
			&cli.StringSliceFlag{Name: "sheets", Usage: "also draw sheets to print, sheets/ID.html, of the proposals with an `ID`, or of all: --sheets all; may be repeated"},
			&cli.BoolFlag{Name: "field", Usage: "also write what is taken to the shore: field.kmz for a phone, field.gpx for a receiver, stakeout.csv"},
			&cli.BoolFlag{Name: "unverified", Usage: "show notices that rest on figures too doubtful for a limit"},
		),
		Action:       screen,
		OnUsageError: wrongFlag,
	}
}

// allSheets asks for the sheets of every proposal.
const allSheets = "all"

// layerFlags are those of every command that works out a job.
func layerFlags() []cli.Flag {
	layer := func(name, what string) cli.Flag {
		return &cli.StringSliceFlag{Name: name, Usage: what + " (`FILE`); may be repeated"}
	}
	return []cli.Flag{
		&cli.StringFlag{Name: "job", Usage: "job `FILE` (YAML); a flag beats what it says"},
		&cli.StringFlag{Name: "out", Usage: "`DIR` for the results (required)"},
		layer("high-water", "mean high water line"),
		layer("low-water", "mean low water line"),
		layer("shoreline", "land areas, or shorelines with a stated side"),
		layer("seagrass", "seagrass areas"),
		layer("wetlands", "wetland areas"),
		layer("channels", "channel areas, or centrelines with width_ft"),
		layer("riparian", "riparian lines"),
		layer("parcels", "parcels"),
		&cli.StringSliceFlag{Name: "area", Usage: "a named area layer, `NAME=FILE`; may be repeated"},
		&cli.StringSliceFlag{Name: "crs", Usage: "the coordinate system a layer is in, `LAYER=EPSG:n`, whatever its file says; may be repeated"},
		&cli.StringSliceFlag{Name: "book", Usage: "rule `BOOK`, built in or a file; may be repeated"},
		&cli.StringFlag{Name: "decision-date", Usage: "the `DAY` whose rules decide, as 2026-11-25"},
		&cli.BoolFlag{Name: "no-repair", Usage: "refuse areas that are not valid instead of rebuilding them"},
		replaceFlag,
		&cli.IntFlag{Name: "workers", Usage: "work at `N` things at once", DefaultText: "one for each processor"},
		&cli.BoolFlag{Name: "strict", Usage: "write nothing if any feature cannot be used"},
		&cli.BoolFlag{Name: "quiet", Usage: "print errors only"},
	}
}

// replaceFlag is that of all commands that write into a folder.
var replaceFlag = &cli.BoolFlag{Name: "replace", Usage: "put the results in the place of whatever the folder holds: of another command's, and of files of the same names"}

// prepare reads what is common to all commands that work out a job. The folder must
// be discarded or committed.
func prepare(c *cli.Context) (*inputs, *job.Job, *staging, error) {
	if err := refuseArguments(c, false); err != nil {
		return nil, nil, nil, err
	}
	if c.String("out") == "" {
		return nil, nil, nil, usageError("--out is missing: name the folder for the results")
	}
	if c.Int("workers") < 0 {
		return nil, nil, nil, usageError("--workers %d: give a number from 1 up", c.Int("workers"))
	}
	files := &inputs{stdin: c.App.Reader}
	j, err := loadJob(c, files)
	if err != nil {
		return nil, nil, nil, err
	}
	out, err := outputFolder(c, c.Command.Name)
	if err != nil {
		return nil, nil, nil, err
	}
	return files, j, out, nil
}

// outputFolder opens the folder that --out names for a command.
func outputFolder(c *cli.Context, command string) (*staging, error) {
	dir := c.String("out")
	out, err := take(c.Context, func() (*staging, error) { return newStaging(dir, command, c.Bool("replace")) })
	if err == nil && out.mended {
		say(c.App.ErrWriter, fmt.Sprintf("a run into %s was killed while it put its outputs in place; the folder is as it was before that run", dir))
	}
	return out, err
}

// deliver puts the results in their place and says what came of the run, what of the inputs
// could not be used, each once, and what else there is to say; told to be quiet, only the
// second.
func deliver(c *cli.Context, files *inputs, out *staging, result, faults, more []string) error {
	faults = once(faults)
	sayAll := func(texts []string) {
		for _, line := range texts {
			say(c.App.ErrWriter, text.Visible(line))
		}
	}
	shown := few(faults, faultsShown, "features that cannot be used")
	if len(faults) > 0 && c.Bool("strict") {
		sayAll(shown)
		return &exitError{exitNoResult, fmt.Errorf("--strict: some features cannot be used, so nothing was written")}
	}
	if name := files.overwritten(out); name != "" {
		sayAll(shown)
		return usageError("the output %s would replace an input of this run; give another folder by --out", name)
	}
	if err := out.commit(); err != nil {
		return err
	}
	if !c.Bool("quiet") {
		sayAll(result)
	}
	sayAll(shown)
	if !c.Bool("quiet") {
		sayAll(more)
	}
	if len(faults) > 0 {
		return &exitError{exitSomeUnusable, errReported}
	}
	return nil
}

// once keeps the first of texts that are the same.
func once(texts []string) []string {
	seen := map[string]bool{}
	return slices.DeleteFunc(slices.Clone(texts), func(text string) bool {
		again := seen[text]
		seen[text] = true
		return again
	})
}

func screen(c *cli.Context) error {
	files, j, out, err := prepare(c)
	if err != nil {
		return err
	}
	defer out.discard()
	options := screening.Options{Workers: c.Int("workers"), Version: version, Field: c.Bool("field")}
	for _, id := range c.StringSlice("sheets") {
		if id == allSheets {
			options.Sheets.All = true
		} else {
			options.Sheets.IDs = append(options.Sheets.IDs, id)
		}
	}
	options.Since = since(c)
	var stop func()
	options.Progress, stop = follow(c, "proposals")
	report, err := screening.Run(c.Context, j, files, out, options)
	stop()
	if err != nil {
		return err
	}
	aside := ""
	if report.Aside > 0 {
		aside = fmt.Sprintf(", %d that are earlier versions or parts of others", report.Aside)
	}
	result := append([]string{fmt.Sprintf("%d proposals, %d of them without a result%s; see %s",
		report.Proposals, report.Unusable, aside, filepath.Join(c.String("out"), "index.html"))}, slices.Concat(report.Outcomes, report.Requests)...)
	if report.Compared > 0 {
		result = append(result, fmt.Sprintf("the alternatives of %s are set side by side; see alternatives.html", job.Count(report.Compared, "project")))
	}
	if c.String("since") != "" {
		result = append(result, fmt.Sprintf("%d proposals are new or came out otherwise than in %s; see changes.csv", report.Changed, c.String("since")))
	}
	more := slices.Concat(few(report.Repairs, repairsShown, "areas that were rebuilt"), report.Warnings, report.Doubts, report.Idle, report.Datums, report.Notices)
	if len(report.NoLayer) > 0 {
		more = append(more, "notices of the books were not checked for want of layers: "+strings.Join(report.NoLayer, ", "))
	}
	more = append(more, fmt.Sprintf("%d of the %d limits used rest on accounts, practice or memory and not on the rule's own text (evidence, in criteria.csv)", report.Unread, report.Limits))
	return deliver(c, files, out, result, report.Messages, more)
}

// How many repairs, and how many features that cannot be used, are printed; run.json
// lists all of them.
const (
	repairsShown = 5
	faultsShown  = 100
)

// few keeps the first of many texts and says how many more there are.
func few(texts []string, most int, what string) []string {
	if more := len(texts) - most; more > 0 {
		return append(texts[:most:most], fmt.Sprintf("and %d more %s; run.json lists them", more, what))
	}
	return texts
}

// loadJob reads the job file, if there is one, and lets flags beat it.
func loadJob(c *cli.Context, files *inputs) (*job.Job, error) {
	j := &job.Job{}
	if name := c.String("job"); name != "" {
		file, err := files.Open(name)
		if err != nil {
			return nil, usageError("job: cannot be opened: %v", err)
		}
		defer file.Close()
		if j, err = job.Load(name, file); err != nil {
			return nil, &exitError{exitUsage, err}
		}
		files.base = filepath.Dir(name)
		files.named = j.FileNames()
	}
	// What the job states of its own files does not hold for others.
	if names := c.StringSlice("proposals"); len(names) > 0 {
		j.Proposals = job.ProposalSources{{}}
		for _, name := range names {
			j.Proposals[0].Files = append(j.Proposals[0].Files, files.given(name))
		}
	}
	layers := &j.Layers
	for _, l := range []struct {
		flag string
		into **job.LayerSource
	}{
		{"high-water", &layers.HighWater}, {"low-water", &layers.LowWater}, {"shoreline", &layers.Shoreline},
		{"seagrass", &layers.Seagrass}, {"wetlands", &layers.Wetlands}, {"channels", &layers.Channels}, {"riparian", &layers.Riparian},
		{"parcels", &layers.Parcels},
	} {
		var names job.FileList
		for _, name := range c.StringSlice(l.flag) {
			names = append(names, files.given(name))
		}
		if names != nil {
			*l.into = &job.LayerSource{Files: names}
		}
	}
	again := map[string]job.FileList{} // an area of several files
	for _, area := range c.StringSlice("area") {
		name, file, ok := strings.Cut(area, "=")
		if !ok || file == "" {
			return nil, usageError("--area %s: write --area NAME=FILE", area)
		}
		if layers.Areas == nil {
			layers.Areas = map[string]job.LayerSource{}
		}
		layers.Areas[name] = job.LayerSource{Files: append(again[name], files.given(file))}
		again[name] = layers.Areas[name].Files
	}
	for _, text := range c.StringSlice("crs") {
		name, system, ok := strings.Cut(text, "=")
		if !ok {
			return nil, usageError("--crs %s: write --crs LAYER=EPSG:n", text)
		}
		crs, err := job.ParseSystem(system)
		if err == nil {
			err = j.SetCRS(name, crs)
		}
		if err != nil {
			return nil, usageError("--crs %s: %v", text, err)
		}
	}
	if books := c.StringSlice("book"); len(books) > 0 {
		j.Books = nil
		for _, b := range books {
			if rules.IsFile(b) {
				b = files.given(b)
			}
			j.Books = append(j.Books, b)
		}
	}
	if text := c.String("decision-date"); text != "" {
		day, err := job.ParseDay(text)
		if err != nil {
			return nil, usageError("--decision-date: %v", err)
		}
		j.DecisionDate = day
	}
	j.Unverified = j.Unverified || c.Bool("unverified")
	j.NoRepair = j.NoRepair || c.Bool("no-repair")
	return j, nil
}

func sinceFlag() cli.Flag {
	return &cli.StringFlag{Name: "since", Usage: "say what has changed since the results in a `DIR` of an earlier run"}
}

// since opens the files of the results that a run is compared with; nil if with none.
func since(c *cli.Context) func(name string) (io.ReadCloser, error) {
	dir := c.String("since")
	if dir == "" {
		return nil
	}
	return func(name string) (io.ReadCloser, error) { return os.Open(filepath.Join(dir, name)) }
}
