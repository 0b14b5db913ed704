package help

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"fencerow/io/show/manual"
)

// Pages are the man pages of a command and of all under it. ending is the part of every page
// that says how the program ends.
func Pages(c *cobra.Command, ending manual.Part) []manual.Page {
	pages := []manual.Page{pageOf(c, ending)}
	for _, sub := range commandsOf(c) {
		pages = append(pages, Pages(sub, ending)...)
	}
	return pages
}

// commandsOf are the commands under c that people are shown.
func commandsOf(c *cobra.Command) (all []*cobra.Command) {
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() && sub.Name() != "help" {
			all = append(all, sub)
		}
	}
	return all
}

// pageOf is the page of one command, from its help.
func pageOf(c *cobra.Command, ending manual.Part) manual.Page {
	parts := []manual.Part{{Heading: "synopsis", Lines: []string{c.UseLine()}}}
	about, _, _ := strings.Cut(c.Long, "\nExit codes:") // a part of its own
	if about == "" {
		about = strings.ToUpper(c.Short[:1]) + c.Short[1:] + "."
	}
	parts = append(parts, manual.Part{Heading: "description", Text: about})
	see := []string{"fencerow-words(7)"}
	if c.HasParent() {
		see = append(see, pageName(c.Parent())+"(1)")
	}
	under := manual.Part{Heading: "commands"}
	for _, sub := range commandsOf(c) {
		under.Items = append(under.Items, manual.Item{Name: sub.Name(), Text: sub.Short})
		see = append(see, pageName(sub)+"(1)")
	}
	if len(under.Items) > 0 {
		parts = append(parts, under)
	}
	options := manual.Part{Heading: "options"}
	c.InitDefaultHelpFlag()
	c.LocalFlags().VisitAll(func(f *pflag.Flag) { options.Items = append(options.Items, optionOf(f)) })
	parts = append(parts, options)
	if c.Example != "" {
		parts = append(parts, manual.Part{Heading: "examples", Lines: strings.Split(c.Example, "\n")})
	}
	parts = append(parts, ending, manual.Part{Heading: "see also", Text: strings.Join(see, ", ")})
	return manual.Page{Name: pageName(c), Section: "1", Short: c.Short, Parts: parts}
}

// pageName is the name of a command's page: fencerow-county-import.
func pageName(c *cobra.Command) string { return strings.ReplaceAll(c.CommandPath(), " ", "-") }

// optionOf is a flag as its help has it.
func optionOf(f *pflag.Flag) manual.Item {
	name := "--" + f.Name
	if f.Shorthand != "" {
		name = "-" + f.Shorthand + ", " + name
	}
	kind, usage := pflag.UnquoteUsage(f)
	if kind != "" {
		name += " " + kind
	}
	if zero := f.DefValue == "" || f.DefValue == "0" || f.DefValue == "false" || f.DefValue == "[]"; !zero {
		usage += " (default " + f.DefValue + ")"
	}
	return manual.Item{Name: name, Text: usage}
}
