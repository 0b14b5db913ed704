package site

import (
	"slices"
	"strings"

	"fencerow/io/read/countyname"
	"fencerow/io/read/farmtable"
	"fencerow/io/show/wording"
)

// start is the first page: type the record, open a file, or look at the demo.
func (s *Site) start(d draft, r Request) Response {
	if r.Form.Get("do") == "open" {
		return s.open(d, r)
	}
	return s.startPage(d, r, "")
}

// startPage is the first page, with what is wrong with what was opened; "": nothing.
func (s *Site) startPage(d draft, r Request, wrong string) Response {
	f := newFrame("PLC or ARC-CO: which pays more on your base?")
	if wrong != "" {
		f.put(`<p class="banner" role="alert">%s</p>`+"\n", wrong)
	}
	f.WriteString(`<p class="buttons" hidden id="goon"><button type="button">Go on with what you typed last</button></p>` + "\n")
	f.WriteString("<p>You need the FSA farm record of each farm. It takes five minutes. The last page prints a sheet to take to the county office.</p>\n")
	f.form(startPath, "")
	f.hidden(d, none)
	f.WriteString(`<p class="buttons"><button formaction="` + landPath + `">Type your farm record</button>`)
	if s.Demo.Files != nil {
		f.WriteString(` <button formaction="` + answerPath + `" class="second" name="demo" value="yes">Look at an invented operation</button>`)
	}
	f.WriteString(`</p>
<fieldset><legend>Open a saved file or a table</legend>
<p><label for="opened">A file that you kept (.zip or .yaml, with the files that it names), or a table of farms (.csv)</label> <input type="file" id="opened" name="opened" multiple accept=".yaml,.yml,.csv,.zip"></p>
`)
	f.put(`<p><label for="pasted">Or paste a table: one row per crop, headings first</label> <textarea id="pasted" name="pasted" rows="4" spellcheck="false" placeholder="farm,county,crop,base acres,PLC yield">%s</textarea></p>
<p class="buttons"><button class="second" name="do" value="open">Open</button></p></fieldset></form>
`, r.Form.Get("pasted"))
	f.WriteString("<p>Every farm has a choice for each crop with base acres. Price Loss Coverage (PLC) follows the national price. Agriculture Risk Coverage by county (ARC-CO) follows price times county yield. <a href=\"/words\">Words explained</a>. For a meeting: <a href=\"/room\">one county and crop in large type</a>.</p>\n")
	f.ages(s)
	return f.response(200)
}

// pastedName is the name of a table that was pasted.
const pastedName = "pasted.csv"

// open answers what was opened or pasted.
func (s *Site) open(d draft, r Request) Response {
	d.files, d.demo = nil, ""
	for _, file := range r.Files {
		if file.Name != "" && len(file.Text) > 0 {
			d.files = append(d.files, file)
		}
	}
	if pasted := strings.TrimSpace(r.Form.Get("pasted")); pasted != "" {
		d.files = append(d.files, File{Name: pastedName, Text: []byte(commas(pasted))})
	}
	files, err := unpacked(d.files)
	switch {
	case err != nil:
		return s.startPage(draft{}, r, wording.Capital(err.Error())+".")
	case len(files) == 0:
		return s.startPage(draft{}, r, "Choose a file, or paste a table.")
	}
	d.files = files
	slices.SortStableFunc(d.files, func(a, b File) int { return rank(a) - rank(b) })
	if typed, ok := s.asTyped(d.files); ok {
		d = typed
	}
	return s.answer(d, Request{Path: answerPath})
}

// commas turns a table that was copied from a spreadsheet, with tabs, into one with commas.
func commas(table string) string {
	first, _, _ := strings.Cut(table, "\n")
	if !strings.Contains(first, "\t") {
		return table
	}
	return strings.ReplaceAll(strings.ReplaceAll(table, ",", ""), "\t", ",")
}

// rank puts the operation before the files that it names.
func rank(f File) int {
	if farmtable.IsTable(f.Name) || strings.Contains(string(f.Text), "fencerow/operation/") {
		return 0
	}
	return 1
}

// mostSuggested is how many counties are suggested at most.
const mostSuggested = 12

// counties suggests counties for the letters typed so far.
func (s *Site) counties(_ draft, r Request) Response {
	f := newFrame("")
	for _, name := range countyname.Suggest(r.Form.Get("typed"), mostSuggested) {
		f.put(`<option value="%s"></option>`, name)
	}
	return Response{Status: 200, Type: "text/html; charset=utf-8", Body: []byte(f.String())}
}
