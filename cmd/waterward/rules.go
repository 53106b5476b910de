package main

import (
	"errors"
	"fmt"

	"github.com/urfave/cli/v2"

	"waterward/rules"
)

const rulesExample = "waterward rules check county.yaml us-fl-state"

func rulesCommand() *cli.Command {
	return &cli.Command{
		Name:            "rules",
		Usage:           "work with rule books",
		HideHelpCommand: true,
		Subcommands: []*cli.Command{{
			Name:               "check",
			Usage:              "read rule books strictly and run their examples; all errors at once",
			Description:        "Without a book, every built-in one is checked.",
			ArgsUsage:          "[BOOK...]",
			CustomHelpTemplate: example(rulesExample) + cli.CommandHelpTemplate,
			Action:             checkRules,
			OnUsageError:       wrongFlag,
		}},
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return usageError("there is no command %q; there is rules check", c.Args().First())
			}
			return cli.ShowSubcommandHelp(c)
		},
	}
}

func checkRules(c *cli.Context) error {
	if err := refuseArguments(c, true); err != nil {
		return err
	}
	names := c.Args().Slice()
	if len(names) == 0 {
		names = rules.BuiltInNames()
	}
	files := &inputs{stdin: c.App.Reader}
	failed := false
	for _, name := range names {
		book, err := openBook(files, name)
		if err != nil {
			failed = true
			fmt.Fprintln(c.App.Writer, err)
			continue
		}
		faults := book.Check()
		for _, fault := range faults {
			failed = true
			fmt.Fprintf(c.App.Writer, "%s: %s\n", name, fault)
		}
		if len(faults) == 0 {
			fmt.Fprintf(c.App.Writer, "%s: edition %s, %d paths, %d examples: ok\n", name, book.Edition, len(book.Paths), len(book.Examples))
		}
	}
	if failed {
		return &exitError{exitUsage, errors.New("some books have errors")}
	}
	return nil
}

func openBook(files *inputs, name string) (*rules.Book, error) {
	if !rules.IsFile(name) {
		return rules.BuiltIn(name)
	}
	file, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return rules.Load(name, file)
}
