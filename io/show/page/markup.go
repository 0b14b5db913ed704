package page

import (
	"fmt"
	"html"
	"strings"

	"fencerow/io/show/report"
)

// markup is a page while it is written.
type markup struct{ strings.Builder }

// put writes a form with texts of people, escaped, in place of its %s.
func (m *markup) put(form string, texts ...string) {
	escaped := make([]any, len(texts))
	for i, text := range texts {
		escaped[i] = html.EscapeString(text)
	}
	fmt.Fprintf(m, form, escaped...)
}

// markup is the whole page.
func (d document) markup() string {
	var m markup
	start, rest, _ := strings.Cut(pageHead, "</title>")
	m.WriteString(start)
	m.put("%s</title>", d.Title)
	m.WriteString(rest)
	m.sheets(d)
	m.put("</main>\n</body>\n</html>\n")
	return m.String()
}

// sheets are the sheets of a page, one after the other.
func (m *markup) sheets(d document) {
	for i, s := range d.Sheets {
		m.put(`<section style="%s"`, s.Style)
		if i > 0 {
			m.put(` id="`+sheetID+`%s"`, fmt.Sprint(i))
		}
		if s.Name != "" {
			m.put(` aria-label="%s"`, s.Name)
		}
		m.put(">\n")
		for k, b := range s.Blocks {
			m.block(b)
			if k == 0 && s.Corner != "" {
				m.put(`<p class="corner">%s</p>`+"\n", s.Corner)
			}
		}
		m.put("</section>\n")
	}
}

func (m *markup) block(b block) {
	switch {
	case b.Table != nil:
		m.table(*b.Table)
	case len(b.Pictures) > 0:
		m.WriteString(`<div class="pictures">` + "\n")
		for _, p := range b.Pictures {
			m.put(`<figure style="%s">`, p.Style)
			if p.Question != "" {
				m.put("<figcaption>%s</figcaption>", p.Question)
			}
			m.WriteString(p.SVG)
			m.WriteString("</figure>\n")
		}
		m.WriteString("</div>\n")
	case b.Columns != nil:
		m.WriteString(`<div class="beside">` + "\n")
		for _, column := range b.Columns {
			m.WriteString("<div>\n")
			for _, inner := range column {
				m.block(inner)
			}
			m.WriteString("</div>\n")
		}
		m.WriteString("</div>\n")
	default:
		m.words(b.Text)
	}
}

// words writes a block of text.
func (m *markup) words(b report.Block) {
	switch b := b.(type) {
	case report.Heading:
		level := fmt.Sprint(b.Level)
		m.put("<h%s>%s</h%s>\n", level, b.Text, level)
	case report.Text:
		m.put("<p>%s</p>\n", string(b))
	case report.Lead:
		m.put(`<p class="lead">%s</p>`+"\n", string(b))
	case report.Banner:
		m.put(`<p class="banner">%s</p>`+"\n", string(b))
	case report.Small:
		m.put(`<p class="small">%s</p>`+"\n", string(b))
	case report.Checklist:
		m.WriteString(`<ul class="checks">` + "\n")
		for _, text := range b {
			m.put("<li>%s</li>\n", text)
		}
		m.WriteString("</ul>\n")
	case report.List:
		m.list(b)
	}
}

func (m *markup) list(points report.List) {
	m.WriteString("<ul>\n")
	for _, point := range points {
		m.WriteString("<li>")
		if point.Mark != "" {
			m.put("<strong>%s:</strong> ", point.Mark)
		}
		m.put("%s</li>\n", point.Text)
	}
	m.WriteString("</ul>\n")
}

// longCell is the most letters of a cell with a space that are kept on a line.
const longCell = 13

// wrapping is the class of a cell that may be broken, if it is longer than so many letters
// and has a space: "toss-up" never is.
func wrapping(text string, from int) string {
	if len(text) > from && strings.Contains(text, " ") {
		return ` class="wrap"`
	}
	return ""
}

// mostOnPhone is the most columns that a phone shows side by side; of a table with more it
// shows each row as a card.
const mostOnPhone = 4

// sheetID begins the names of sheets after the first, which links go to.
const sheetID = "sheet-"

// group writes row k of a table, a heading of those below it. One over another heading has
// a class of its own.
func (m *markup) group(t table, k int) {
	class := "group"
	if k+1 < len(t.Rows) && len(t.Rows[k+1]) == 1 {
		class = "group over"
	}
	if k > 0 {
		m.put("</tbody>\n<tbody>\n")
	}
	m.put(`<tr class="`+class+`"><th scope="rowgroup" colspan="%s">%s</th></tr>`+"\n", fmt.Sprint(len(t.Columns)), t.Rows[k][0])
}

func (m *markup) table(t table) {
	class := ""
	if len(t.Columns) > mostOnPhone {
		class = ` class="cards"`
	}
	m.put(`<div class="wide" tabindex="0" role="region" aria-label="%s"><table`+class+`>`+"\n", t.Name)
	if t.Title != "" {
		m.put("<caption>%s</caption>\n", t.Title)
	}
	m.put("<thead><tr>")
	for _, column := range t.Columns {
		if column == "" {
			m.put("<td></td>")
			continue
		}
		m.put(`<th scope="col"`+wrapping(column, 0)+`>%s</th>`, column)
	}
	m.put("</tr></thead>\n<tbody>\n")
	for k, row := range t.Rows {
		if len(row) == 1 {
			m.group(t, k)
			continue
		}
		m.put("<tr>")
		for i, text := range row {
			if i == 0 {
				m.put(`<th scope="row">%s</th>`, text)
				continue
			}
			if t.ToSheet && i == len(row)-1 {
				m.put(`<td data-head="%s"><a href="#`+sheetID+`%s">%s</a></td>`, t.Columns[i], text, text)
				continue
			}
			m.put(`<td data-head="%s"`+wrapping(text, longCell)+`>%s</td>`, t.Columns[i], text)
		}
		m.put("</tr>\n")
	}
	m.put("</tbody>\n</table></div>\n")
	for _, note := range t.Notes {
		m.put(`<p class="note">%s</p>`+"\n", note)
	}
}
