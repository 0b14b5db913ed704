package site

import "fencerow/io/show/wording"

// words explains the words of the pages.
func (s *Site) words(_ draft, _ Request) Response {
	f := newFrame("Words")
	f.WriteString(`<p class="buttons" hidden><button type="button" class="second" data-back>Back to where you were</button></p>` + "\n<dl>\n")
	for _, entry := range wording.Glossary(s.Today.Year()) {
		f.put("<dt>%s</dt><dd>%s</dd>\n", entry.Word, entry.Line)
	}
	f.WriteString("</dl>\n")
	return f.response(200)
}
