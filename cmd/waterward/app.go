package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"

	"github.com/urfave/cli/v2"

	"waterward/screening/job"
)

const version = "0.1.0"

// Exit codes.
const (
	exitDone         = 0
	exitNoResult     = 1
	exitUsage        = 2   // usage, job or rule book
	exitSomeUnusable = 3   // done, but some features could not be used
	exitInterrupted  = 130 // by the person who started it, or who reads what it prints
)

const exitCodes = `
EXIT CODES:
   0    done (a proposal that needs an individual permit is an answer, not an error)
   1    no result
   2    an error in the usage, the job or a rule book
   3    done, but some features could not be used; each is named
   130  interrupted`

// exitError carries the code to leave with.
type exitError struct {
	code int
	err  error
}

func (e *exitError) Error() string { return e.err.Error() }
func (e *exitError) Unwrap() error { return e.err }

func usageError(format string, args ...any) error {
	return &exitError{exitUsage, fmt.Errorf(format, args...)}
}

func wrongFlag(_ *cli.Context, err error, _ bool) error { return usageError("%v", err) }

// errReported ends a command that has already said what is wrong.
var errReported = errors.New("")

// run is the whole command; the tests call it in their own process.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	app := &cli.App{
		Name:                      "waterward",
		Usage:                     "which permit path does a reef breakwater or sill fall under, how surely, and why",
		Version:                   version,
		Suggest:                   true,
		DisableSliceFlagSeparator: true,
		Flags:                     []cli.Flag{cli.HelpFlag}, // which the library leaves out where help is a command
		HideHelpCommand:           true,
		Reader:                    stdin,
		Writer:                    stdout,
		ErrWriter:                 stderr,
		ExitErrHandler:            func(*cli.Context, error) {},
		Commands:                  []*cli.Command{screenCommand(), envelopeCommand(), inspectCommand(), levelsCommand(), rulesCommand(), helpCommand()},
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return usageError("there is no command %q; there are screen, envelope, inspect, levels, rules and help", c.Args().First())
			}
			return cli.ShowAppHelp(c)
		},
		OnUsageError: wrongFlag,
	}
	app.CustomAppHelpTemplate = example(screenExample+"\n   "+envelopeExample+"\n   "+inspectExample+"\n   "+levelsExample+"\n   "+rulesExample) + cli.AppHelpTemplate + topicList() + exitCodes + "\n"
	err := attended(ctx, stderr, func(ctx context.Context) error { return app.RunContext(ctx, args) })
	return finish(err, stderr)
}

// example opens a help text.
func example(command string) string { return "EXAMPLE:\n   " + command + "\n\n" }

// finish says what went wrong and chooses the exit code.
func finish(err error, stderr io.Writer) int {
	if err == nil {
		return exitDone
	}
	if errors.Is(err, syscall.EPIPE) { // whoever read what is printed has seen enough
		return exitInterrupted
	}
	code := exitNoResult
	var exit *exitError
	var j *job.Error
	if errors.As(err, &exit) {
		code = exit.code
	} else if errors.As(err, &j) {
		code = exitUsage
	}
	if !errors.Is(err, errReported) {
		say(stderr, err.Error())
	}
	return code
}

// refuseArguments catches flags that stand behind an argument, which the
// command line library would take for arguments.
func refuseArguments(c *cli.Context, allowed bool) error {
	for _, arg := range c.Args().Slice() {
		if strings.HasPrefix(arg, "-") && arg != "-" {
			return usageError("the flag %s stands behind the argument %q; put flags first", arg, c.Args().First())
		}
	}
	if c.Args().Present() && !allowed {
		return usageError("unexpected argument %q; files are given by flags (see --help)", c.Args().First())
	}
	return nil
}
