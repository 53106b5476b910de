package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/urfave/cli/v2"

	"waterward/rules"
)

const rulesExample = "waterward rules show us-federal"

func rulesCommand() *cli.Command {
	command := func(name, arguments, usage, description, shown string, action cli.ActionFunc) *cli.Command {
		return &cli.Command{
			Name: name, ArgsUsage: arguments, Usage: usage, Description: description,
			CustomHelpTemplate: example(shown) + cli.CommandHelpTemplate,
			OnUsageError:       wrongFlag,
			Action: func(c *cli.Context) error {
				if err := refuseArguments(c, true); err != nil {
					return err
				}
				return action(c)
			},
		}
	}
	const naming = "BOOK is a built-in book, a built-in book with its edition (us-federal@2021), or a file."
	return &cli.Command{
		Name:               "rules",
		Usage:              "list, show, check and compare rule books",
		HideHelpCommand:    true,
		CustomHelpTemplate: example(rulesExample) + cli.SubcommandHelpTemplate,
		Subcommands: []*cli.Command{
			command("list", "", "the built-in books, their editions and dates, and how many limits do not rest on the rule's own text",
				"", "waterward rules list", listRules),
			command("show", "BOOK", "the paths and criteria of a book with their citations",
				naming+" Without an edition, the latest in force is shown.", rulesExample, showRules),
			command("check", "[BOOK...]", "read rule books strictly and run their examples; all errors at once",
				naming+" Books of one name are checked as editions of one another. Without a BOOK, every built-in one is checked.",
				"waterward rules check county.yaml", checkRules),
			command("diff", "OLD NEW", "what changed from one edition to another, in words",
				naming, "waterward rules diff us-federal@2017 us-federal@2026", diffRules),
		},
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return usageError("there is no command %q; there are rules list, show, check and diff", c.Args().First())
			}
			return cli.ShowSubcommandHelp(c)
		},
	}
}

func listRules(c *cli.Context) error {
	if c.Args().Present() {
		return usageError("unexpected argument %q; rules list takes none", c.Args().First())
	}
	table := tabwriter.NewWriter(c.App.Writer, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "BOOK\tEDITION\tIN FORCE\tLIMITS\tNOT READ\tTITLE")
	for _, name := range rules.BuiltInNames() {
		editions, err := rules.BuiltIn(name)
		if err != nil {
			return err
		}
		for _, b := range editions {
			limits, unread := b.Limits()
			fmt.Fprintf(table, "%s\t%s\t%s\t%d\t%d\t%s\n", b.Name, b.Edition, b.Period(), limits, unread, b.Title)
		}
	}
	return table.Flush()
}

func showRules(c *cli.Context) error {
	if c.NArg() != 1 {
		return usageError("rules show takes one BOOK; rules list names them")
	}
	book, err := oneBook(c, c.Args().First())
	if err != nil {
		return err
	}
	return printed(c.App.Writer, book.Show)
}

func diffRules(c *cli.Context) error {
	if c.NArg() != 2 {
		return usageError("rules diff takes two books, OLD and NEW")
	}
	old, err := oneBook(c, c.Args().Get(0))
	if err != nil {
		return err
	}
	next, err := oneBook(c, c.Args().Get(1))
	if err != nil {
		return err
	}
	changes := rules.Diff(old, next)
	switch {
	case len(changes) == 0:
		changes = []string{"nothing changed"}
	case rules.SameRuling(old, next):
		changes = append(changes, "no path, limit or waiver changed")
	}
	return printed(c.App.Writer, func(page io.Writer) error {
		_, err := fmt.Fprintln(page, strings.Join(changes, "\n"))
		return err
	})
}

func checkRules(c *cli.Context) error {
	names := c.Args().Slice()
	if len(names) == 0 {
		names = rules.BuiltInNames()
	}
	passed := true
	err := printed(c.App.Writer, func(page io.Writer) error {
		passed = checkBooks(page, &inputs{stdin: c.App.Reader}, names)
		return nil
	})
	if err == nil && !passed {
		err = &exitError{exitUsage, errors.New("some books have errors")}
	}
	return err
}

// checkBooks checks books by themselves and as editions of one another.
func checkBooks(page io.Writer, files *inputs, names []string) bool {
	var all []*rules.Book
	passed := true
	fail := func(text string) {
		passed = false
		fmt.Fprintln(page, text)
	}
	for _, name := range names {
		books, err := openBooks(files, name)
		if err != nil {
			fail(err.Error())
			continue
		}
		all = append(all, books...)
		for _, b := range books {
			passed = checkBook(page, name, b) && passed
		}
	}
	if _, err := rules.Gather(all); err != nil {
		fail(err.Error())
	}
	return passed
}

// checkBook runs a book's examples and prints its faults and warnings.
func checkBook(w io.Writer, name string, b *rules.Book) bool {
	faults, warnings := b.Check(), b.Warnings()
	for _, fault := range faults {
		fmt.Fprintf(w, "%s: edition %s: %s\n", name, b.Edition, fault)
	}
	for _, warning := range warnings {
		fmt.Fprintf(w, "%s: edition %s: warning: %s\n", name, b.Edition, warning)
	}
	if len(faults) == 0 {
		fmt.Fprintf(w, "%s: edition %s, %d paths, %d examples: ok\n", name, b.Edition, len(b.Paths), len(b.Examples))
	}
	return len(faults) == 0
}

// openBooks returns the book of a file, an edition of a built-in book, or all of
// its editions.
func openBooks(files *inputs, name string) ([]*rules.Book, error) {
	if rules.IsFile(name) {
		file, err := files.Open(name)
		if err != nil {
			return nil, err
		}
		defer file.Close()
		b, err := rules.Load(name, file)
		if err != nil {
			return nil, err
		}
		return []*rules.Book{b}, nil
	}
	name, edition, one := strings.Cut(name, "@")
	editions, err := rules.BuiltIn(name)
	if err != nil || !one {
		return editions, err
	}
	b, err := editions.Named(edition)
	if err != nil {
		return nil, err
	}
	return []*rules.Book{b}, nil
}

// oneBook is a book as show and diff name it: of several editions the latest in
// force, or the latest if none is.
func oneBook(c *cli.Context, name string) (*rules.Book, error) {
	books, err := openBooks(&inputs{stdin: c.App.Reader}, name)
	if err != nil {
		return nil, &exitError{exitUsage, err}
	}
	for _, b := range slices.Backward(books) {
		if b.Status == rules.InForce {
			return b, nil
		}
	}
	return books[len(books)-1], nil
}
