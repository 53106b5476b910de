package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/urfave/cli/v2"

	"waterward/rules"
	"waterward/screening"
	"waterward/screening/levels"
)

const helpExample = "waterward help rules"

// topics are the pages of help: each is the README that stands beside its subject.
var topics = []struct{ name, about, page string }{
	{"screening", "job file, layers, what comes out, what firm needs, where something could go", screening.Guide},
	{"rules", "built-in rule books, a book of your own, the keys of the format", rules.Guide},
	{"levels", "tide stations, gauge records, datums, time exposed to air", levels.Guide},
}

func helpCommand() *cli.Command {
	return &cli.Command{
		Name:               "help",
		Usage:              "print a page of help: " + topicNames(),
		ArgsUsage:          "[TOPIC]",
		CustomHelpTemplate: example(helpExample) + cli.CommandHelpTemplate + topicList(),
		Action:             help,
		OnUsageError:       wrongFlag,
	}
}

// topicList is the part of a help text that names the pages.
func topicList() string {
	var list strings.Builder
	list.WriteString("\nTOPICS (waterward help TOPIC):\n")
	for _, t := range topics {
		fmt.Fprintf(&list, "   %-10s %s\n", t.name, t.about)
	}
	return list.String()
}

func topicNames() string {
	var names []string
	for _, t := range topics {
		names = append(names, t.name)
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

func help(c *cli.Context) error {
	if err := refuseArguments(c, true); err != nil {
		return err
	}
	if !c.Args().Present() {
		return cli.ShowAppHelp(c)
	}
	if c.NArg() > 1 {
		return usageError("help takes one TOPIC of %s", topicNames())
	}
	name := c.Args().First()
	for _, t := range topics {
		if t.name == name {
			return printed(c.App.Writer, func(page io.Writer) error {
				_, err := io.WriteString(page, t.page)
				return err
			})
		}
	}
	if c.App.Command(name) != nil {
		return usageError("there is no page on %q; waterward %s --help says how it is used", name, name)
	}
	return usageError("there is no page on %q; there are pages on %s", name, topicNames())
}
