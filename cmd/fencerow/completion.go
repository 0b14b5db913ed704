package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/cmd/fencerow/help"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// shells are those that completion writes a script for.
var shells = []string{"bash", "zsh", "fish", "powershell"}

func newCompletion() *cobra.Command {
	return &cobra.Command{
		Use:   "completion " + strings.Join(shells, "|"),
		Short: "print a script that lets your shell complete commands and flags",
		Long: `Prints a script for your shell. Once the shell has read it, the Tab key completes
commands, flags, crops and names of files. The script asks fencerow itself, so it stays
current. Where it goes: docs/install.md.
` + exitHelp,
		Example:   "  source <(fencerow completion bash)\n  fencerow completion fish > ~/.config/fish/completions/fencerow.fish",
		Args:      atMost(1, "the name of a shell"),
		ValidArgs: shells,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 || !slices.Contains(shells, args[0]) {
				return usageError{fmt.Sprintf("the shell is %q", strings.Join(args, "")), "it can be " + strings.Join(shells, ", ")}
			}
			return work(func() error { return help.Script(c.Root(), args[0]) })
		},
	}
}

var (
	tables  = []string{"csv", "xlsx", "parquet"}
	yaml    = []string{"yaml", "yml"}
	anyFile = []string{""}
)

// flagValues are the values of flags by the flag's name, where a list or a kind of file is
// known. Of all others the shell offers nothing.
var flagValues = map[string]help.Values{
	"model": {Words: []string{string(answer.UsualOdds), string(answer.PastHistory)}}, "tail": {Words: []string{string(answer.NormalTail), string(answer.StudentTTail)}},
	"sheet": {Words: []string{forLender, byOffice, bySigner}}, "people": {Words: []string{allPeople}}, "builtin": {Words: []string{noTables}},
	"book": {Words: []string{noTables}, Ending: []string{"db"}}, "market": {Ending: yaml}, "columns": {Ending: yaml}, "insurance": {Ending: yaml}, "county-file": {Ending: yaml},
	"save": {Ending: yaml}, "county-table": {Ending: []string{"xlsx"}}, "workbook": {Ending: []string{"xlsx"}}, "template": {Ending: []string{"xlsx"}}, "page": {Ending: []string{"html"}},
	"since": {Ending: []string{"json"}}, "record": {Ending: anyFile}, "check": {Ending: yaml}, "before-table": {Ending: tables}, "after-table": {Ending: tables},
	"out": {Folder: true, Ending: anyFile}, "county-folder": {Folder: true}, "data": {Folder: true},
	"commodity": {Words: cropNames()},
}

// cropNames are the names of crops in files and flags.
func cropNames() (names []string) {
	for _, k := range crop.Commodities() {
		names = append(names, string(k))
	}
	return names
}

// argumentValues are those of the arguments of commands. Others take none, or what no list has.
var argumentValues = map[string]help.Values{
	"compare": {Ending: append(slices.Clone(yaml), tables...)}, "check": {Ending: append(slices.Clone(yaml), tables...)}, "explain": {Ending: yaml}, "replay": {Ending: append(slices.Clone(yaml), tables...)},
	"base": {Ending: append(slices.Clone(yaml), tables...)}, "batch": {Ending: tables}, "batch join": {Folder: true}, "batch diff": {Folder: true}, "county import": {Ending: anyFile},
	"market import": {Ending: anyFile}, "market save": {Ending: yaml}, "rules": {Words: cropNames()}, "market show": {Words: cropNames()}, "handout": {Ending: yaml},
}
