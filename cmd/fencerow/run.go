package main

import (
	"errors"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/cmd/fencerow/help"
	"fencerow/io/file"
	"fencerow/io/read/book"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
)

// Exit codes; docs/exitcodes.md explains them.
const (
	exitDone  = 0
	exitFault = 1 // an unforeseen fault of the program
	exitUsage = 2 // wrong use
	exitInput = 3 // the input is wrong or incomplete
	exitSome  = 4 // some rows of a batch were refused, or files of an import left out; the others are done

	exitRefused = 5 // the computer refused: a full disk, no permission, an interruption
)

// exitCodes are all of them in words, for the man pages and docs/exitcodes.md.
var exitCodes = []struct {
	code    int
	meaning string
}{
	{exitDone, "done"},
	{exitFault, "a fault of the program: please report it"},
	{exitUsage, "wrong use of the command line, or the name of an output that leads nowhere or to an input; the message says what to do instead"},
	{exitInput, "the input is wrong or incomplete: every mistake is listed with file, line and column, and nothing was written"},
	{exitSome, "some rows of a batch were refused, or some files of an import left out, each with the reason; the others are done"},
	{exitRefused, "the computer refused: the disk is full, writing is not permitted, a device failed, or the run was interrupted (Ctrl-C); no file is half written"},
}

// run carries out one command line: results on stdout, talk on stderr.
func run(args []string, stdout, stderr io.Writer) int {
	stderr = terminal.NewPlain(stderr)
	out := &output{Writer: terminal.NewPlain(stdout)}
	root := newRoot(out, stderr)
	root.SetArgs(args)
	return ended(root.Execute, out, args, stderr)
}

// ended carries do out and returns the exit code of what came of it.
func ended(do func() error, out *output, args []string, stderr io.Writer) int {
	err := parallel.Try(do)
	if out.failed != nil { // printers do not always say so
		err = &file.Error{Path: "the standard output", Reason: out.failed.Error(), Hint: "print to a place that has room and stays open", Err: out.failed}
	}
	var fault *parallel.Fault
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &fault):
		return faulted(fault, args, stderr)
	}
	return complain(err, slices.Contains(args, "--json"), stderr)
}

func newRoot(stdout, stderr io.Writer) *cobra.Command {
	root := &cobra.Command{
		Use:           "fencerow",
		Short:         "Compare PLC and ARC-CO on a farm's base acres: what each may pay, how often, and what to check",
		Long:          "Compare PLC and ARC-CO on a farm's base acres: what each may pay, how often, and\nwhat to check. Start with fencerow compare --demo. Your farm's data stay on your\nown computer, and you need not enter real names.\n",
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.NoArgs,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetOut(stdout)
	root.SetErr(stderr)
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return usageError{err.Error(), "see 'fencerow " + c.Name() + " --help'"}
	})
	root.AddCommand(newNew(), newCompare(), newExplain(), newCheck(), newRules(), newReplay(), newBase(), newHandout(), newBatch(), newCounty(), newMarket(), newScore(), newServe(), newVersion(), newCompletion(), newManual(), newWords())
	help.Complete(root, flagValues, argumentValues)
	return root
}

// complain prints an error with its hints and returns the exit code.
func complain(err error, asJSON bool, stderr io.Writer) int {
	var mistakes farm.Mistakes
	var usage usageError
	var some refusedError
	var partly partlyError
	var unwritten *file.Error
	var wrong source.Wrong
	var refused *book.Refused
	code := exitFault
	switch {
	case errors.As(err, &some):
		code, mistakes = exitSome, farm.Mistakes{{Reason: some.Error(), Hint: "fix these rows and run them as a table of their own, or run everything again into a new folder"}}
	case errors.As(err, &partly):
		code, mistakes = exitSome, partly.left
	case errors.As(err, &mistakes):
		code = exitInput
	case errors.As(err, &usage):
		code, mistakes = exitUsage, farm.Mistakes{{Reason: usage.message, Hint: usage.hint}}
	case errors.As(err, &wrong):
		code, mistakes = exitUsage, farm.Mistakes{asFlags(wrong)}
	case errors.As(err, &refused):
		code, mistakes = exitRefused, farm.Mistakes{{File: refused.Path, Reason: refused.Reason, Hint: refused.Hint}}
	case errors.As(err, &unwritten):
		if code = exitUsage; unwritten.Refused() {
			code = exitRefused
		}
		mistakes = farm.Mistakes{{Reason: err.Error(), Hint: unwritten.Hint}}
	case errors.Is(err, law.ErrNoValue):
		code, mistakes = exitInput, farm.Mistakes{{Reason: err.Error(), Hint: "ask about a crop year and crop that the law covers: see 'fencerow rules'"}}
	case errors.Is(err, odds.ErrCorrelations):
		code, mistakes = exitInput, farm.Mistakes{{Reason: err.Error(), Hint: "change or leave out one of them under correlation in the market file"}}
	case isCobraUsage(err):
		code, mistakes = exitUsage, farm.Mistakes{{Reason: err.Error(), Hint: "see 'fencerow --help'"}}
	default:
		mistakes = farm.Mistakes{{Reason: err.Error(), Hint: "this is a fault of the program: please report the command and this line"}}
	}
	if asJSON {
		printJSON(stderr, terminal.ErrorOf(mistakes))
		return code
	}
	terminal.WriteMistakes(stderr, mistakes)
	return code
}

// asFlags tells what is wrong with a question in the words of the command line.
func asFlags(wrong source.Wrong) farm.Mistake {
	m := farm.Mistake{Reason: wrong.Reason, Hint: wrong.Hint}
	if wrong.Field != "" {
		m.Reason = "--" + wrong.Field + " " + wrong.Reason
	}
	if m.Hint == "" {
		m.Hint = "name one with --" + wrong.OneOf + ": " + strings.Join(wrong.Choices, ", ")
	}
	return m
}

// isCobraUsage tells the errors that cobra itself makes of a wrong command.
func isCobraUsage(err error) bool {
	var fault faultError
	return !errors.As(err, &fault)
}
