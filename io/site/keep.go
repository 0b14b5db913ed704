package site

import (
	"archive/zip"
	"bytes"
	"time"
)

// keep gives what was typed as a file: the operation file, or a .zip with the files that
// it names where prices or yields are typed too.
func (s *Site) keep(d draft, _ Request) Response {
	if d.opened() {
		return Response{Status: 200, Type: "text/plain; charset=utf-8", Name: d.files[0].Name, Body: d.files[0].Text}
	}
	files := []File{{Name: operationName, Text: []byte(d.operation().text.String())}}
	if d.hasMarket() {
		text, _, err := s.marketText(d)
		if err != nil {
			return s.wrongPage(d, s.faultsOf(d))
		}
		files = append(files, File{Name: pricesName, Text: text})
	}
	for _, code := range d.counties() {
		files = append(files, File{Name: countyFileName(code), Text: []byte(d.countyFile(code).text.String())})
	}
	if len(files) == 1 {
		return Response{Status: 200, Type: "application/yaml", Name: operationName, Body: files[0].Text}
	}
	packed, err := packed(files, s.Today)
	if err != nil {
		return s.sorry(500, err)
	}
	return Response{Status: 200, Type: "application/zip", Name: "farms.zip", Body: packed}
}

// faultsOf are what is wrong with a draft.
func (s *Site) faultsOf(d draft) faults {
	a, _ := s.ask(d)
	return a.faults
}

// packed puts files into a .zip, all of one day: the same files give the same bytes.
func packed(files []File, today time.Time) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range files {
		w, err := z.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: today})
		if err == nil {
			_, err = w.Write(f.Text)
		}
		if err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return out.Bytes(), err
}

// workbook gives the spreadsheet of the comparison, where the site has one.
func (s *Site) workbook(d draft, _ Request) Response {
	if s.Workbook == nil {
		return s.notFound(workbookPath)
	}
	c, err := s.compare(d)
	if err != nil {
		return s.sorry(500, err)
	}
	if len(c.faults) > 0 {
		return s.wrongPage(d, c.faults)
	}
	book, err := s.Workbook(c.Question, c.found)
	if err != nil {
		return s.sorry(500, err)
	}
	return Response{Status: 200, Type: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", Name: "farms.xlsx", Body: book}
}
