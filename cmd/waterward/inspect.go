package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"waterward/geo/text"
	"waterward/screening/inspect"
	"waterward/screening/job"
)

const inspectExample = "waterward inspect testdata/marrowby/mhw.geojson"

func inspectCommand() *cli.Command {
	return &cli.Command{
		Name:               "inspect",
		Usage:              "say what files of features hold and what to mind before they are used",
		ArgsUsage:          "FILE...",
		CustomHelpTemplate: example(inspectExample) + cli.CommandHelpTemplate + exitCodes + "\n",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "crs", Usage: "the coordinate system of the files, `EPSG:n`, whatever they say"},
			&cli.StringFlag{Name: "job", Usage: "inspect the files of a job `FILE`, and what its books ask that they cannot answer"},
			&cli.StringFlag{Name: "write-job", Usage: "print a draft of a job for the layers in a `FOLDER`"},
			&cli.BoolFlag{Name: "json", Usage: "print JSON, a line for each file"},
		},
		Action:       inspectFiles,
		OnUsageError: wrongFlag,
	}
}

func inspectFiles(c *cli.Context) error {
	if err := refuseArguments(c, true); err != nil {
		return err
	}
	switch {
	case c.String("job") != "":
		return inspectJob(c)
	case c.String("write-job") != "":
		return draftJob(c)
	}
	if !c.Args().Present() {
		return usageError("inspect takes one FILE or more, or --job FILE")
	}
	var crs job.System
	if text := c.String("crs"); text != "" {
		var err error
		if crs, err = job.ParseSystem(text); err != nil {
			return usageError("--crs: %v", err)
		}
	}
	files := &inputs{stdin: c.App.Reader}
	var failed []string
	var all []*inspect.Inspection
	for _, name := range c.Args().Slice() {
		found, err := inspect.File(files, name, crs)
		if err != nil {
			failed = append(failed, err.Error())
			continue
		}
		all = append(all, found)
	}
	inspect.Compare(all)
	unusable := false
	for _, found := range all {
		unusable = unusable || found.Unusable > 0 || found.Page != ""
		if err := report(c, found, found.Write); err != nil {
			return err
		}
	}
	switch {
	case len(failed) > 0:
		return &exitError{exitNoResult, errors.New(strings.Join(failed, "\n"))}
	case unusable:
		return &exitError{exitSomeUnusable, errReported}
	}
	return nil
}

// report prints what was found, for machines or for a person.
func report(c *cli.Context, found any, write func(io.Writer) error) error {
	if c.Bool("json") {
		page, err := json.Marshal(found)
		if err == nil {
			_, err = c.App.Writer.Write(append(text.JSON(page), '\n'))
		}
		return err
	}
	return printed(c.App.Writer, write)
}

func inspectJob(c *cli.Context) error {
	if c.Args().Present() || c.String("crs") != "" {
		return usageError("inspect --job takes no files and no --crs beside it: the job names them")
	}
	files := &inputs{stdin: c.App.Reader}
	j, err := loadJob(c, files)
	if err != nil {
		return err
	}
	found, err := inspect.Job(files, j)
	if err != nil {
		return err
	}
	if err := report(c, found, found.Write); err != nil {
		return err
	}
	if len(found.Refused) > 0 {
		return &exitError{exitNoResult, errors.New("this job cannot be screened; what is refused in the report says why")}
	}
	for _, in := range found.Files {
		if in.Unusable > 0 {
			return &exitError{exitSomeUnusable, errReported}
		}
	}
	return nil
}

// draftJob prints a job for the layers of a folder, to be put into that folder.
func draftJob(c *cli.Context) error {
	if c.Args().Present() || c.String("crs") != "" || c.Bool("json") {
		return usageError("inspect --write-job takes nothing beside it")
	}
	folder := c.String("write-job")
	files := &inputs{stdin: c.App.Reader, base: folder}
	names, others, err := files.folder("", folder)
	if err != nil {
		return usageError("--write-job: the folder cannot be read: %v", err)
	}
	if len(names) == 0 {
		return &exitError{exitNoResult, fmt.Errorf("no layers in %s: files ending in %s are looked at", folder, strings.Join(readable, ", "))}
	}
	_, err = fmt.Fprint(c.App.Writer, inspect.Draft(files, names, others, job.Day{Time: time.Now()}))
	return err
}
