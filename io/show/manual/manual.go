package manual

import (
	"bufio"
	"fmt"
	"io"
	"strings"
)

// Page is one man page.
type Page struct {
	Name    string // fencerow-compare
	Section string // 1 for commands, 7 for what else there is to read
	Date    string // of the release, as 2026-12-01; may be empty
	Release string // what stands at the foot, as "fencerow 1.0.0"
	Short   string // one line of what it is
	Parts   []Part
}

// Part is a part of a page under a heading: what is given of text, items and lines, in this
// order.
type Part struct {
	Heading string
	Text    string   // paragraphs, between them an empty line
	Items   []Item   // a list
	Lines   []string // printed line by line as they are
}

// Item is one of a list: an option, a file, a term.
type Item struct{ Name, Text string }

// File is the name of the page's file: fencerow-compare.1.
func (p Page) File() string { return p.Name + "." + p.Section }

// Write writes the page.
func (p Page) Write(w io.Writer) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, ".TH %s %s %s %s\n", quoted(strings.ToUpper(p.Name)), quoted(p.Section), quoted(p.Date), quoted(p.Release))
	out.WriteString(".nh\n.ad l\n") // no word is cut, so that names can be copied
	fmt.Fprintf(out, ".SH NAME\n%s \\- %s\n", plain(p.Name), plain(p.Short))
	for _, part := range p.Parts {
		fmt.Fprintf(out, ".SH %s\n", plain(strings.ToUpper(part.Heading)))
		for i, paragraph := range paragraphs(part.Text) {
			if i > 0 {
				out.WriteString(".PP\n")
			}
			out.WriteString(paragraph + "\n")
		}
		for _, item := range part.Items {
			fmt.Fprintf(out, ".TP\n\\fB%s\\fR\n%s\n", plain(item.Name), line(item.Text))
		}
		if len(part.Lines) > 0 {
			out.WriteString(".nf\n")
			for _, text := range part.Lines {
				out.WriteString(line(text) + "\n")
			}
			out.WriteString(".fi\n")
		}
	}
	return out.Flush()
}

// paragraphs are those of a text, each with its lines.
func paragraphs(text string) (all []string) {
	var open []string
	for _, of := range append(strings.Split(text, "\n"), "") {
		if of = strings.TrimSpace(of); of != "" {
			open = append(open, line(of))
			continue
		}
		if len(open) > 0 {
			all, open = append(all, strings.Join(open, "\n")), nil
		}
	}
	return all
}

// line is a line of text: one that begins like a request of the formatter is none.
func line(text string) string {
	if strings.HasPrefix(text, ".") || strings.HasPrefix(text, "'") {
		return `\&` + plain(text)
	}
	return plain(text)
}

// plain is a text with what the formatter would take for its own escaped: a hyphen stays the
// one of the keyboard, so that an option can be copied.
func plain(text string) string {
	return strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(text)
}

// quoted is an argument of a request.
func quoted(text string) string { return `"` + strings.ReplaceAll(plain(text), `"`, `\(dq`) + `"` }
