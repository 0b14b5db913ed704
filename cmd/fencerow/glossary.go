package main

import (
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"fencerow/io/show/wording"
	"fencerow/io/source"
)

// newWords is a topic of help, not a verb: what the words of the answers mean.
func newWords() *cobra.Command {
	return &cobra.Command{Use: "words", Short: "what the words of the answers stand for", Long: glossary()}
}

// glossary lays the words out for the terminal, each with its line below it.
func glossary() string {
	const width = 80
	_, last := source.LawYears()
	text := "Words of the answers\n"
	for _, term := range wording.Glossary(last) {
		text += "\n" + term.Word + "\n"
		line := " "
		for _, word := range strings.Fields(term.Line) {
			if utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
				text, line = text+line+"\n", " "
			}
			line += " " + word
		}
		text += line + "\n"
	}
	return text
}
