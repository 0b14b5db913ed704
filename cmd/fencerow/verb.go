package main

import (
	"encoding/json"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// partlyError says why some of several files were left out, the others taken.
type partlyError struct{ left farm.Mistakes }

func (e partlyError) Error() string { return e.left.Error() }

// usageError is a wrong use of the command line, with what to do about it.
type usageError struct{ message, hint string }

func (e usageError) Error() string { return e.message }

// faultError marks an error that came out of the program's own work.
type faultError struct{ error }

func (e faultError) Unwrap() error { return e.error }

// work runs what a verb does and marks what goes wrong there as a fault, so
// that it is not taken for a wrong command line.
func work(do func() error) error {
	if err := do(); err != nil {
		return faultError{err}
	}
	return nil
}

// atMost allows up to n arguments named by what.
func atMost(n int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) > n {
			return usageError{fmt.Sprintf("%s takes %s, not %d arguments", c.Name(), what, len(args)), "see 'fencerow " + c.Name() + " --help'"}
		}
		return nil
	}
}

// answered reads what a question is about, asks it, and prints the answer: as
// JSON, or laid out for people.
func answered[T any](c *cobra.Command, args []string, q *question, ask func(answer.Question) (T, error), lay func(T) report.Report) error {
	asked, err := q.caseOf(c, args)
	if err != nil {
		return err
	}
	found, err := ask(asked)
	if err != nil {
		return err
	}
	return shown(c, q, found, lay)
}

// shown prints an answer.
func shown[T any](c *cobra.Command, q *question, found T, lay func(T) report.Report) error {
	if q.json {
		return printJSON(c.OutOrStdout(), found)
	}
	return terminal.Write(c.OutOrStdout(), lay(found))
}

// listed prints a list: as JSON, or a line for each.
func listed[T any](c *cobra.Command, q *question, all []T, line func(T) string) error {
	if q.json {
		return printJSON(c.OutOrStdout(), all)
	}
	for _, one := range all {
		fmt.Fprintln(c.OutOrStdout(), line(one))
	}
	return nil
}

// printJSON writes an answer with fixed key order.
func printJSON(w io.Writer, answer any) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	return encoder.Encode(answer)
}
