package terminal

import (
	"bufio"
	"io"
	"strings"
	"unicode/utf8"

	"fencerow/io/show/report"
)

// lineWidth is the width of a line.
const lineWidth = 80

// Write prints a report; the error is that of w. Pictures are left out: what they show is
// also in words.
func Write(w io.Writer, r report.Report) error {
	out := bufio.NewWriter(w)
	writeBlocks(out, r.Blocks)
	return out.Flush()
}

func writeBlocks(out *bufio.Writer, blocks []report.Block) {
	for i, block := range blocks {
		if i > 0 {
			out.WriteByte('\n')
		}
		switch b := block.(type) {
		case report.Heading:
			writeHeading(out, b)
		case report.Text:
			writeWrapped(out, string(b), "", "")
		case report.Lead:
			writeWrapped(out, string(b), "", "")
		case report.Banner:
			writeWrapped(out, string(b), "", "")
		case report.Small:
			writeWrapped(out, string(b), "", "")
		case report.Checklist:
			for _, text := range b {
				writeWrapped(out, text, "[ ] ", "    ")
			}
		case report.Beside:
			writeBlocks(out, b.Left)
			out.WriteByte('\n')
			writeBlocks(out, b.Right)
		case report.List:
			writeList(out, b)
		case report.Table:
			writeTable(out, b)
		case report.Grid:
			writeGrid(out, b)
		case report.Lines:
			for _, text := range b {
				writeWrapped(out, text, "", "  ")
			}
		}
	}
}

func writeList(out *bufio.Writer, list report.List) {
	for _, point := range list {
		first := "- "
		if point.Mark != "" {
			first = "- " + point.Mark + ": "
		}
		writeWrapped(out, point.Text, first, "  ")
	}
}

// rules under a heading, by level.
var rules = map[int]string{1: "=", 2: "=", 3: "-"}

func writeHeading(out *bufio.Writer, h report.Heading) {
	writeWrapped(out, h.Text, "", "")
	if rule := rules[h.Level]; rule != "" {
		out.WriteString(strings.Repeat(rule, min(lineWidth, utf8.RuneCountInString(h.Text))) + "\n")
	}
}

// writeWrapped breaks text at spaces; first and rest open its lines.
func writeWrapped(out *bufio.Writer, text, first, rest string) {
	line, open := first, true
	for _, word := range strings.Fields(text) {
		if !open && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > lineWidth {
			out.WriteString(line + "\n")
			line, open = rest, true
		}
		if !open {
			line += " "
		}
		line, open = line+word, false
	}
	out.WriteString(strings.TrimRight(line, " ") + "\n")
}

// writeTable sets the first column left and the others right; a row too wide
// for the line has its first column wrapped.
func writeTable(out *bufio.Writer, t report.Table) {
	if t.Title != "" {
		writeWrapped(out, t.Title, "", "")
	}
	widths := columnWidths(t)
	for _, row := range append([][]string{t.Columns}, t.Rows...) {
		writeRow(out, row, widths)
	}
	for _, note := range t.Notes {
		writeWrapped(out, note, "  ", "  ")
	}
}

const gap = "  "

// columnWidths fits the table into the line by narrowing the first column.
func columnWidths(t report.Table) []int {
	widths := make([]int, len(t.Columns))
	for _, row := range append([][]string{t.Columns}, t.Rows...) {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	others := 0
	for _, w := range widths[1:] {
		others += len(gap) + w
	}
	const indent, narrowest = 2, 12
	widths[0] = max(narrowest, min(widths[0], lineWidth-indent-others))
	return widths
}

func writeRow(out *bufio.Writer, row []string, widths []int) {
	lines := wrapCell(row[0], widths[0])
	for k, first := range lines {
		line := "  " + first + strings.Repeat(" ", max(0, widths[0]-utf8.RuneCountInString(first)))
		if k == len(lines)-1 {
			for i, cell := range row[1:] {
				line += gap + strings.Repeat(" ", widths[i+1]-utf8.RuneCountInString(cell)) + cell
			}
		}
		out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

// wrapCell breaks a cell at spaces into lines of at most width.
func wrapCell(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			lines = append(lines, line)
			line = "  " + word
			continue
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}
