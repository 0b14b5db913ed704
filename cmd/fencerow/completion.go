package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

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
			return work(func() error { return completionOf(c.Root(), args[0]) })
		},
	}
}

// completionOf prints the script of a shell.
func completionOf(root *cobra.Command, shell string) error {
	w := root.OutOrStdout()
	switch shell {
	case "bash":
		return root.GenBashCompletionV2(w, true)
	case "zsh":
		return root.GenZshCompletion(w)
	case "fish":
		return root.GenFishCompletion(w, true)
	}
	return root.GenPowerShellCompletionWithDesc(w)
}

// values are what the value of a flag can be.
type values struct {
	words  []string // one of these
	ending []string // or a file that ends so; "" is any file
	folder bool     // or a folder
}

var (
	tables  = []string{"csv", "xlsx", "parquet"}
	yaml    = []string{"yaml", "yml"}
	anyFile = []string{""}
)

// flagValues are the values of flags by the flag's name, where a list or a kind of file is
// known. Of all others the shell offers nothing.
var flagValues = map[string]values{
	"model": {words: []string{string(answer.UsualOdds), string(answer.PastHistory)}}, "tail": {words: []string{string(answer.NormalTail), string(answer.StudentTTail)}},
	"sheet": {words: []string{forLender, byOffice, bySigner}}, "people": {words: []string{allPeople}}, "builtin": {words: []string{noTables}},
	"book": {words: []string{noTables}, ending: []string{"db"}}, "market": {ending: yaml}, "columns": {ending: yaml}, "insurance": {ending: yaml}, "county-file": {ending: yaml},
	"save": {ending: yaml}, "county-table": {ending: []string{"xlsx"}}, "workbook": {ending: []string{"xlsx"}}, "template": {ending: []string{"xlsx"}}, "page": {ending: []string{"html"}},
	"since": {ending: []string{"json"}}, "record": {ending: anyFile}, "before-table": {ending: tables}, "after-table": {ending: tables},
	"out": {folder: true, ending: anyFile}, "county-folder": {folder: true}, "data": {folder: true},
	"commodity": {words: cropNames()},
}

// cropNames are the names of crops in files and flags.
func cropNames() (names []string) {
	for _, k := range crop.Commodities() {
		names = append(names, string(k))
	}
	return names
}

// argumentValues are those of the arguments of commands. Others take none, or what no list has.
var argumentValues = map[string]values{
	"compare": {ending: append(slices.Clone(yaml), tables...)}, "check": {ending: append(slices.Clone(yaml), tables...)}, "explain": {ending: yaml}, "replay": {ending: append(slices.Clone(yaml), tables...)},
	"base": {ending: append(slices.Clone(yaml), tables...)}, "batch": {ending: tables}, "batch join": {folder: true}, "batch diff": {folder: true}, "county import": {ending: anyFile},
	"market import": {ending: anyFile}, "market save": {ending: yaml}, "rules": {words: cropNames()}, "market show": {words: cropNames()}, "handout": {ending: yaml},
}

// complete tells the shell what values flags and arguments can have.
func complete(c *cobra.Command) {
	c.LocalNonPersistentFlags().VisitAll(func(f *pflag.Flag) {
		if f.Value.Type() != "bool" {
			_ = c.RegisterFlagCompletionFunc(f.Name, flagValues[f.Name].complete) // a second registration alone is an error
		}
	})
	if path := strings.TrimPrefix(c.CommandPath(), c.Root().Name()+" "); c.ValidArgs == nil {
		c.ValidArgsFunction = argumentValues[path].complete
	}
	for _, sub := range c.Commands() {
		complete(sub)
	}
}

// complete is what cobra asks for a value of which the beginning is typed.
func (v values) complete(_ *cobra.Command, _ []string, typed string) (words []string, how cobra.ShellCompDirective) {
	for _, word := range v.words {
		if strings.HasPrefix(word, typed) {
			words = append(words, word)
		}
	}
	switch {
	case v.words != nil && v.ending != nil || slices.Contains(v.ending, ""):
		return words, cobra.ShellCompDirectiveDefault
	case v.ending != nil:
		return v.ending, cobra.ShellCompDirectiveFilterFileExt
	case v.folder:
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}
