package site

import (
	_ "embed"
	"fmt"
	"html"
	"strings"

	"fencerow/io/show/wording"
)

// siteStyle is laid over the style of printed pages.
//
//go:embed site.css
var siteStyle string

// frame is a page while it is written. Every text of people is escaped by put.
type frame struct {
	strings.Builder
	title string
	step  string // path of the step that the page belongs to
	wide  bool   // the page takes the width of a room's screen
}

func newFrame(title string) *frame { return &frame{title: title} }

// put writes a form with texts, escaped, in place of its %s.
func (f *frame) put(form string, texts ...string) {
	escaped := make([]any, len(texts))
	for i, text := range texts {
		escaped[i] = html.EscapeString(text)
	}
	fmt.Fprintf(f, form, escaped...)
}

// steps are the way through the pages.
var steps = []struct{ path, name string }{{landPath, "Land and base"}, {sharesPath, "Who shares"}, {knownPath, "Prices and county"}, {answerPath, "Answer"}}

// ScriptPath is where the script of the pages lies.
const ScriptPath = "/page.js"

// response is the page.
func (f *frame) response(status int) Response {
	var whole frame
	whole.put(`<!DOCTYPE html>
<html lang="en-US">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>%s</title>
<style>`, f.title+" - PLC or ARC-CO")
	whole.WriteString(Style())
	whole.WriteString("</style>\n<script src=\"" + ScriptPath + "\" defer></script>\n</head>\n<body>\n<a class=\"skip\" href=\"#main\">Skip to the page</a>\n<header class=\"top\"><a href=\"/\">fencerow</a>")
	whole.way(f.step)
	whole.WriteString(`<a class="words" href="` + wordsPath + `">Words</a>`)
	whole.put("</header>\n<main id=\"main\"%s>\n", map[bool]string{true: " class=wide-room"}[f.wide])
	whole.put("<h1>%s</h1>\n", f.title)
	whole.WriteString(f.String())
	whole.WriteString("<datalist id=\"counties\"></datalist>\n</main>\n<footer class=\"top\"><p>Estimates, not a promise, and no advice on what to elect. Nothing you type leaves this computer.</p></footer>\n</body>\n</html>\n")
	return Response{Status: status, Type: "text/html; charset=utf-8", Body: []byte(whole.String())}
}

// way shows where on the way the page is.
func (f *frame) way(at string) {
	if at == "" {
		return
	}
	f.WriteString(`<ol class="way">`)
	for _, step := range steps {
		if step.path == at {
			f.put(`<li aria-current="step">%s</li>`, step.name)
		} else {
			f.put(`<li><button form="page" formaction="%s">%s</button></li>`, step.path, step.name)
		}
	}
	f.WriteString("</ol>")
}

// tokenPlace is where a form has its token; no text that is typed can be like it, since
// put escapes it.
const tokenPlace = "<!--token-->"

// form opens a form that goes to a path; id is "page" for the one that holds the draft, to
// which the steps on top of the page belong.
func (f *frame) form(path, id string) {
	f.WriteString("<form ")
	if id != "" {
		f.put(`id="%s" `, id)
	}
	f.put(`method="post" action="%s" enctype="multipart/form-data">`+tokenPlace+"\n", path)
}

// hidden keeps the fields of a draft that the page does not show.
func (f *frame) hidden(d draft, shown func(name string) bool) {
	keep := func(name, value string) {
		if value != "" && !shown(name) {
			f.put(`<input type="hidden" name="%s" value="%s">`+"\n", name, value)
		}
	}
	for _, one := range d.fields() {
		keep(one.name, *one.at)
	}
	for _, name := range sortedKeys(d.known) {
		keep(name, d.known[name])
	}
	for i, file := range d.files {
		keep(fmt.Sprintf("file%d.name", i+1), file.Name)
		keep(fmt.Sprintf("file%d.text", i+1), string(file.Text))
	}
	keep("demo", d.demo)
	keep("market.text", d.market)
}

// none shows no field.
func none(string) bool { return false }

// wrong lists what is wrong with the field of a name, and gives the attributes that tie
// the field to the list.
func (f *frame) wrong(name string, all faults) {
	for _, one := range all[name] {
		f.put(`<p class="fault" id="fault-%s">%s. %s.</p>`+"\n", name, wording.Capital(one.Reason), wording.Capital(one.Hint))
	}
}

// summary lists on top how much is wrong, and what belongs to no field.
func (f *frame) summary(all faults) {
	if len(all) == 0 {
		return
	}
	n := 0
	for _, of := range all {
		n += len(of)
	}
	f.put(`<div class="banner" role="alert"><p>%s to look at before there is an answer. Nothing you typed is lost.</p>`+"\n", things(n))
	f.WriteString("<ul>\n")
	for _, name := range sortedKeys(all) {
		for _, one := range all[name] {
			if name == "" {
				f.put("<li>%s. %s.</li>\n", wording.Capital(one.Reason), wording.Capital(one.Hint))
			} else {
				f.put(`<li><a href="#%s">%s</a></li>`+"\n", name, wording.Capital(one.Reason))
			}
		}
	}
	f.WriteString("</ul></div>\n")
}

func things(n int) string {
	if n == 1 {
		return "One thing"
	}
	return fmt.Sprintf("%d things", n)
}
