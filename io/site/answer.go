package site

import (
	"bytes"
	"cmp"
	"strings"

	"fencerow/io/show/page"
	"fencerow/io/show/personal"
	"fencerow/io/show/report"
	"fencerow/io/show/sheet"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
)

// answer is the page that everything leads to: the sheets of the comparison, boxes for a
// price and a yield, and what can be printed or kept.
func (s *Site) answer(d draft, r Request) Response {
	c, err := s.compare(d)
	if err != nil {
		return s.sorry(500, err)
	}
	if len(c.faults) > 0 {
		return s.wrongPage(d, c.faults)
	}
	f := newFrame("The answer")
	f.step = answerPath
	for _, note := range c.notes {
		f.put(`<p class="small">Note: %s.</p>`+"\n", strings.TrimSuffix(note, "."))
	}
	body, err := page.Body(sheet.Of(c.found, false))
	if err != nil {
		return s.sorry(500, err)
	}
	f.form(answerPath, "page")
	f.hidden(d, none)
	f.WriteString(`<p class="buttons"><button formaction="` + sheetPath + `" name="which" value="` + forAll + `">Sheets to print</button>`)
	if !d.opened() && d.demo == "" {
		f.WriteString(` <button class="second" formaction="` + landPath + `">Change the record</button> <button class="second" formaction="` + knownPath + `">Change prices and yields</button>`)
	}
	f.WriteString("</p>\n")
	f.inShort(c.found.CropYears[0])
	f.WriteString("<div class=\"sheets\">" + body + "</div>\n")
	f.people(c.found)
	f.tries(c, r)
	f.outputs(s, c)
	f.WriteString("</form>\n")
	return f.response(200)
}

// wrongPage shows what is wrong on the page where it can be changed.
func (s *Site) wrongPage(d draft, wrong faults) Response {
	if d.opened() || d.demo != "" {
		f := newFrame("The file cannot be answered yet")
		f.summary(wrong)
		f.WriteString("<p>Change the file and open it again.</p>\n<p><a href=\"/\">Back to the first page</a></p>\n")
		return f.response(200)
	}
	for name := range wrong {
		if isKnown(name) {
			return s.knownPage(d, wrong)
		}
	}
	for name := range wrong {
		if strings.HasPrefix(name, "w") || strings.HasSuffix(name, "share") {
			return s.sharesPage(d, wrong)
		}
	}
	return s.landPage(d, wrong, false)
}

// outputs are the buttons to other sheets and files.
func (f *frame) outputs(s *Site, c compared) {
	f.WriteString("<h2>To print, to hand on, to keep</h2>\n<p class=\"buttons\">")
	for _, one := range kindsOfSheets(c)[1:] {
		f.put(`<button class="second" formaction="`+sheetPath+`" name="which" value="%s">%s</button> `, one.which, one.name)
	}
	if s.Workbook != nil {
		f.WriteString(` <button class="second" formaction="` + workbookPath + `">Spreadsheet</button>`)
	}
	f.WriteString(` <button class="second" formaction="` + keepPath + `">Save what you typed</button></p>` + "\n<p id=\"kept\" role=\"status\"></p>\n")
	f.WriteString(`<p hidden><input type="checkbox" id="remember"> <label for="remember">Remember what I typed in this browser, on this computer</label></p>` + "\n")
}

// sheetKind is a sheet that can be asked for.
type sheetKind struct{ which, name string }

// kindsOfSheets are the sheets of a comparison: that of the farms first.
func kindsOfSheets(c compared) []sheetKind {
	all := []sheetKind{{forAll, "For the county office"}}
	for _, p := range c.Operation.Producers {
		name := wording.Capital(p.ID) + "'s sheet"
		if p.ID == you {
			name = "Your own dollars"
		}
		all = append(all, sheetKind{"person:" + p.ID, name})
	}
	return append(all, sheetKind{forLender, "For a lender"})
}

// sheet is a sheet to print, with a way back that is not printed.
func (s *Site) sheet(d draft, r Request) Response {
	which := cmp.Or(r.Form.Get("other"), r.Form.Get("which"), forAll)
	var years []crop.CropYear
	if which == forLender {
		years = personal.LenderYears(s.today(d))
	}
	c, err := s.compare(d, years...)
	if err != nil {
		return s.sorry(500, err)
	}
	if len(c.faults) > 0 {
		return s.wrongPage(d, c.faults)
	}
	laid := s.laid(c, which)
	if r.Form.Get("do") == "keep" {
		var out bytes.Buffer
		if err := page.Write(&out, laid); err != nil {
			return s.sorry(500, err)
		}
		return Response{Status: 200, Type: "text/html; charset=utf-8", Name: "sheets.html", Body: out.Bytes()}
	}
	f := newFrame("Sheets to print")
	body, err := page.Body(laid)
	if err != nil {
		return s.sorry(500, err)
	}
	f.form(sheetPath, "")
	f.hidden(d, none)
	f.WriteString(`<p class="buttons">`)
	for _, one := range kindsOfSheets(c) {
		if one.which == which {
			f.put(`<strong class="chosen">%s</strong> `, one.name)
		} else {
			f.put(`<button class="second" name="other" value="%s">%s</button> `, one.which, one.name)
		}
	}
	f.WriteString("</p>\n")
	f.put(`<p class="buttons"><button type="button" data-print>Print</button> <button class="second" name="do" value="keep">Save this sheet as a file</button><input type="hidden" name="which" value="%s"> <button class="second" formaction="`+answerPath+`">Back to the answer</button></p></form>`+"\n", which)
	f.WriteString(`<div class="sheets">` + body + "</div>\n")
	return f.response(200)
}

// forAll asks for the sheets of the farms, forLender for the lender's.
const forAll, forLender = "all", "lender"

// laid lays out the sheets that are asked for: all, of a person, or a lender's.
func (s *Site) laid(c compared, which string) report.Report {
	if id, is := strings.CutPrefix(which, "person:"); is {
		for _, p := range c.Operation.Producers {
			if p.ID == id {
				return personal.OfPerson(c.found, id)
			}
		}
	}
	if which == forLender {
		return personal.OfLender(c.found, false)
	}
	return sheet.Of(c.found, false)
}
