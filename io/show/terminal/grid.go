package terminal

import (
	"bufio"
	"slices"
	"strings"
	"unicode/utf8"

	"fencerow/io/show/report"
)

// writeGrid sets a grid as loosely as the line allows: two spaces between all columns, else
// one inside a group, else one everywhere; then cells that may be broken are.
func writeGrid(out *bufio.Writer, g report.Grid) {
	for _, line := range g.Title {
		writeWrapped(out, line, "", "")
	}
	gaps, widths := fitted(g)
	for _, row := range headRows(g, gaps, widths) {
		out.WriteString(strings.TrimRight(row, " ") + "\n")
	}
	for _, row := range g.Rows {
		cells := make([][]string, len(row))
		for i, cell := range row {
			cells[i] = []string{cell}
			if g.Columns[i].Wraps && cell != "" {
				cells[i] = wrapWords(cell, widths[i])
			}
		}
		writeCells(out, g, cells, gaps, widths)
	}
	for _, note := range g.Notes {
		writeWrapped(out, note, "", "  ")
	}
}

// fitted returns the space before each column and its width.
func fitted(g report.Grid) (gaps, widths []int) {
	widths = make([]int, len(g.Columns))
	for i, c := range g.Columns {
		for _, line := range strings.Split(c.Head, "\n") {
			widths[i] = max(widths[i], utf8.RuneCountInString(line))
		}
		for _, row := range g.Rows {
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
		}
	}
	for _, loose := range []func(i int) bool{
		func(int) bool { return true },
		func(i int) bool { return g.Columns[i].Over == "" || g.Columns[i].Over != g.Columns[i-1].Over },
		func(int) bool { return false },
	} {
		gaps = make([]int, len(g.Columns))
		for i := 1; i < len(gaps); i++ {
			gaps[i] = 1
			if loose(i) {
				gaps[i] = 2
			}
		}
		if total(gaps, widths) <= lineWidth {
			return gaps, widths
		}
	}
	for total(gaps, widths) > lineWidth {
		widest := -1
		for i, c := range g.Columns {
			if c.Wraps && widths[i] > longestWord(g, i) && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	return gaps, widths
}

// longestWord is the width of the longest word of a column, or line of its head.
func longestWord(g report.Grid, column int) (width int) {
	for _, line := range strings.Split(g.Columns[column].Head, "\n") {
		width = max(width, utf8.RuneCountInString(line))
	}
	for _, row := range g.Rows {
		for _, word := range strings.Fields(row[column]) {
			width = max(width, utf8.RuneCountInString(word))
		}
	}
	return width
}

func total(gaps, widths []int) (sum int) {
	for i := range widths {
		sum += gaps[i] + widths[i]
	}
	return sum
}

// headRows are the lines of the heads. All stand at the foot; one that several columns share
// stands over the first of them, right above their own.
func headRows(g report.Grid, gaps, widths []int) (rows []string) {
	heads, shared := make([][]string, len(g.Columns)), sharedHeads(g, gaps, widths)
	deepest, below := 0, 0 // of all, and of those below a shared one
	for i, c := range g.Columns {
		heads[i] = strings.Split(c.Head, "\n")
		if deepest = max(deepest, len(heads[i])); c.Over != "" {
			below = max(below, len(heads[i]))
		}
	}
	for _, lines := range shared {
		if len(lines) > 0 {
			deepest = max(deepest, below+len(lines))
		}
	}
	for up := deepest; up > 0; up-- { // 1 at the foot
		row, at := "", 0
		for i, c := range g.Columns {
			at += gaps[i]
			text := ""
			switch k := below + len(shared[i]) - up; {
			case up <= len(heads[i]):
				text = heads[i][len(heads[i])-up]
				if pad := widths[i] - utf8.RuneCountInString(text); !c.Left {
					text = strings.Repeat(" ", pad) + text
				}
			case up > below && k >= 0:
				text = shared[i][k]
			}
			if text != "" {
				row += strings.Repeat(" ", max(0, at-utf8.RuneCountInString(row))) + text
			}
			at += widths[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// sharedHeads are the lines of the heads that several columns share, at the first of them.
func sharedHeads(g report.Grid, gaps, widths []int) [][]string {
	shared := make([][]string, len(g.Columns))
	for i := 0; i < len(g.Columns); {
		end := i + 1
		for end < len(g.Columns) && g.Columns[end].Over == g.Columns[i].Over {
			end++
		}
		if over := g.Columns[i].Over; over != "" {
			shared[i] = wrapWords(over, total(gaps[i:end], widths[i:end])-gaps[i])
		}
		i = end
	}
	return shared
}

// wrapWords breaks text at spaces into lines of at most width.
func wrapWords(text string, width int) (lines []string) {
	for _, word := range strings.Fields(text) {
		if n := len(lines); n > 0 && utf8.RuneCountInString(lines[n-1])+1+utf8.RuneCountInString(word) <= width {
			lines[n-1] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines
}

// writeCells writes one row, whose cells have several lines and stand at its top.
func writeCells(out *bufio.Writer, g report.Grid, cells [][]string, gaps, widths []int) {
	deepest := len(slices.MaxFunc(cells, func(a, b []string) int { return len(a) - len(b) }))
	for line := range deepest {
		row := ""
		for i, c := range g.Columns {
			text := ""
			if line < len(cells[i]) {
				text = cells[i][line]
			}
			pad := strings.Repeat(" ", max(0, widths[i]-utf8.RuneCountInString(text)))
			row += strings.Repeat(" ", gaps[i])
			if c.Left {
				row += text + pad
			} else {
				row += pad + text
			}
		}
		out.WriteString(strings.TrimRight(row, " ") + "\n")
	}
}
