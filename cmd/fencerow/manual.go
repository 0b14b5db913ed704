package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"fencerow/cmd/fencerow/help"
	"fencerow/io/file"
	"fencerow/io/show/manual"
	"fencerow/io/show/wording"
	"fencerow/io/source"
)

func newManual() *cobra.Command {
	var out string
	var force bool
	c := &cobra.Command{
		Use:     "manual --out DIR",
		Short:   "write the manual as man pages, one for each command",
		Long:    "Writes man pages into DIR, made from the help of each command. Copy them to where\nman looks, such as ~/.local/share/man/man1 (docs/install.md).\n" + exitHelp,
		Example: "  fencerow manual --out man",
		Args:    atMost(0, "no arguments"),
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error { return writeManual(c, out, force) })
		},
	}
	c.Flags().StringVar(&out, "out", "", "the folder that the pages go to; made if it is not there")
	addForce(c, &force)
	return c
}

// writeManual writes the pages of all commands into a folder, none of them over a file that
// is there unless force says so.
func writeManual(c *cobra.Command, folder string, force bool) error {
	if folder == "" {
		return usageError{"no folder is given", "name one with --out"}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return &file.Error{Path: folder, Reason: err.Error(), Hint: "name another folder", Err: err}
	}
	files, pages := file.NewRun().Keep(!force), manualOf(c.Root())
	names := make([]string, len(pages))
	for i, p := range pages {
		names[i] = filepath.Join(folder, p.File())
	}
	if err := files.Check(names...); err != nil {
		return err
	}
	for i, p := range pages {
		if err := files.Write(names[i], p.Write); err != nil {
			return err
		}
	}
	fmt.Fprintf(c.ErrOrStderr(), "fencerow: wrote %d man pages to %s\n", len(pages), folder)
	return nil
}

// manualOf are the pages of all commands, and that of the words.
func manualOf(root *cobra.Command) []manual.Page {
	_, last := source.LawYears()
	words := manual.Page{Name: "fencerow-words", Section: "7", Short: "what the words of the answers stand for", Parts: []manual.Part{{Heading: "words"}}}
	for _, term := range wording.Glossary(last) {
		words.Parts[0].Items = append(words.Parts[0].Items, manual.Item{Name: term.Word, Text: term.Line})
	}
	pages := append(help.Pages(root, exitPart()), words)
	for i := range pages {
		pages[i].Date, pages[i].Release = released, "fencerow "+version
	}
	return pages
}

// exitPart lists the exit codes.
func exitPart() manual.Part {
	part := manual.Part{Heading: "exit status"}
	for _, e := range exitCodes {
		part.Items = append(part.Items, manual.Item{Name: fmt.Sprint(e.code), Text: e.meaning})
	}
	return part
}
