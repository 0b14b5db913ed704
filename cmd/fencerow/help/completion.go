package help

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Script prints the script that lets a shell complete: bash, zsh, fish, or else PowerShell.
func Script(root *cobra.Command, shell string) error {
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

// Values are what the value of a flag or argument can be. Of the zero Values the shell offers
// nothing.
type Values struct {
	Words  []string // one of these
	Ending []string // or a file that ends so; "" is any file
	Folder bool     // or a folder
}

// Complete tells the shell what values flags can have, by the flag's name, and arguments, by the
// words of the command.
func Complete(c *cobra.Command, flags, arguments map[string]Values) {
	c.LocalNonPersistentFlags().VisitAll(func(f *pflag.Flag) {
		if f.Value.Type() != "bool" {
			_ = c.RegisterFlagCompletionFunc(f.Name, flags[f.Name].complete) // a second registration alone is an error
		}
	})
	if path := strings.TrimPrefix(c.CommandPath(), c.Root().Name()+" "); c.ValidArgs == nil {
		c.ValidArgsFunction = arguments[path].complete
	}
	for _, sub := range c.Commands() {
		Complete(sub, flags, arguments)
	}
}

// complete is what cobra asks for a value of which the beginning is typed.
func (v Values) complete(_ *cobra.Command, _ []string, typed string) (words []string, how cobra.ShellCompDirective) {
	for _, word := range v.Words {
		if strings.HasPrefix(word, typed) {
			words = append(words, word)
		}
	}
	switch {
	case v.Words != nil && v.Ending != nil || slices.Contains(v.Ending, ""):
		return words, cobra.ShellCompDirectiveDefault
	case v.Ending != nil:
		return v.Ending, cobra.ShellCompDirectiveFilterFileExt
	case v.Folder:
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}
