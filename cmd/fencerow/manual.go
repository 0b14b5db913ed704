package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"fencerow/io/file"
	"fencerow/io/show/manual"
	"fencerow/io/show/wording"
	"fencerow/io/source"
)

func newManual() *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:     "manual --out DIR",
		Short:   "write the manual as man pages, one for each command",
		Long:    "Writes man pages into DIR, made from the help of each command. Copy them to where\nman looks, such as ~/.local/share/man/man1 (docs/install.md).\n" + exitHelp,
		Example: "  fencerow manual --out man",
		Args:    atMost(0, "no arguments"),
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error { return writeManual(c, out) })
		},
	}
	c.Flags().StringVar(&out, "out", "", "the folder that the pages go to; made if it is not there")
	return c
}

// writeManual writes the pages of all commands into a folder.
func writeManual(c *cobra.Command, folder string) error {
	if folder == "" {
		return usageError{"no folder is given", "name one with --out"}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return &file.Error{Path: folder, Reason: err.Error(), Hint: "name another folder", Err: err}
	}
	files := file.NewRun()
	pages := manualOf(c.Root())
	for _, p := range pages {
		if err := files.Write(filepath.Join(folder, p.File()), p.Write); err != nil {
			return err
		}
	}
	fmt.Fprintf(c.ErrOrStderr(), "fencerow: wrote %d man pages to %s\n", len(pages), folder)
	return nil
}

// manualOf are the pages of a command and of those under it, and that of the words.
func manualOf(root *cobra.Command) []manual.Page {
	_, last := source.LawYears()
	words := manual.Page{Name: "fencerow-words", Section: "7", Short: "what the words of the answers stand for", Parts: []manual.Part{{Heading: "words"}}}
	for _, term := range wording.Glossary(last) {
		words.Parts[0].Items = append(words.Parts[0].Items, manual.Item{Name: term.Word, Text: term.Line})
	}
	pages := append(pagesUnder(root), words)
	for i := range pages {
		pages[i].Date, pages[i].Release = released, "fencerow "+version
	}
	return pages
}

func pagesUnder(c *cobra.Command) []manual.Page {
	pages := []manual.Page{pageOf(c)}
	for _, sub := range commandsOf(c) {
		pages = append(pages, pagesUnder(sub)...)
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
func pageOf(c *cobra.Command) manual.Page {
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
	parts = append(parts, exitPart(), manual.Part{Heading: "see also", Text: strings.Join(see, ", ")})
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

// exitPart lists the exit codes.
func exitPart() manual.Part {
	part := manual.Part{Heading: "exit status"}
	for _, e := range exitCodes {
		part.Items = append(part.Items, manual.Item{Name: fmt.Sprint(e.code), Text: e.meaning})
	}
	return part
}
