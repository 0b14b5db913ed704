package page

import (
	"fmt"
	"html"
	"strings"
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
	for _, s := range d.Sheets {
		m.put(`<section style="%s"`, s.Style)
		if s.Name != "" {
			m.put(` aria-label="%s"`, s.Name)
		}
		m.put(">\n")
		for _, b := range s.Blocks {
			m.block(b)
		}
		m.put("</section>\n")
	}
	m.put("</main>\n</body>\n</html>\n")
	return m.String()
}

func (m *markup) block(b block) {
	switch {
	case b.Heading.Level > 0:
		level := fmt.Sprint(b.Heading.Level)
		m.put("<h%s>%s</h%s>\n", level, b.Heading.Text, level)
	case b.Text != "":
		m.put("<p>%s</p>\n", b.Text)
	case len(b.List) > 0:
		m.put("<ul>\n")
		for _, point := range b.List {
			m.put("<li>")
			if point.Mark != "" {
				m.put("<strong>%s:</strong> ", point.Mark)
			}
			m.put("%s</li>\n", point.Text)
		}
		m.put("</ul>\n")
	case b.Table != nil:
		m.table(*b.Table)
	case len(b.Pictures) > 0:
		m.put(`<div class="pictures">` + "\n")
		for _, p := range b.Pictures {
			m.put(`<figure style="%s"><figcaption>%s</figcaption>`, p.Style, p.Question)
			m.WriteString(p.SVG)
			m.put("</figure>\n")
		}
		m.put("</div>\n")
	}
}

func (m *markup) table(t table) {
	m.put(`<div class="wide" tabindex="0" role="region" aria-label="%s"><table>`+"\n", t.Name)
	if t.Title != "" {
		m.put("<caption>%s</caption>\n", t.Title)
	}
	m.put("<thead><tr>")
	for _, column := range t.Columns {
		if column == "" {
			m.put("<td></td>")
			continue
		}
		m.put(`<th scope="col">%s</th>`, column)
	}
	m.put("</tr></thead>\n<tbody>\n")
	for _, row := range t.Rows {
		m.put("<tr>")
		for i, text := range row {
			if i == 0 {
				m.put(`<th scope="row">%s</th>`, text)
				continue
			}
			m.put("<td>%s</td>", text)
		}
		m.put("</tr>\n")
	}
	m.put("</tbody>\n</table></div>\n")
	for _, note := range t.Notes {
		m.put(`<p class="note">%s</p>`+"\n", note)
	}
}
