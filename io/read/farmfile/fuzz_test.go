package farmfile_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	library "github.com/parquet-go/parquet-go"

	"fencerow/io/read/farmfile"
	"fencerow/io/read/farmtable"
	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

// answers asks that a table is read or refused in order, row by row, with finite figures.
func answers(t *testing.T, name string, content []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	rows, err := farmfile.Open(path, nil)
	if err != nil {
		refused(t, err)
		return
	}
	defer rows.Close()
	var all []farmtable.Row
	for {
		row, why, err := rows.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			refused(t, err)
			return
		}
		for _, one := range why {
			if one.Reason == "" || one.Hint == "" {
				t.Errorf("incomplete refusal %+v", one)
			}
		}
		if len(why) == 0 {
			all = append(all, row)
		}
	}
	o, _ := farmtable.Assemble(all)
	if err := errors.Join(sound.Finite(all), sound.Finite(o)); err != nil {
		t.Error(err)
	}
}

// refused holds that an error is mistakes with what to do.
func refused(t *testing.T, err error) {
	t.Helper()
	var mistakes farm.Mistakes
	if !errors.As(err, &mistakes) {
		t.Fatalf("%v is not farm.Mistakes", err)
	}
	for _, m := range mistakes {
		if m.File == "" || m.Reason == "" || m.Hint == "" {
			t.Errorf("incomplete mistake %+v", m)
		}
	}
}

const (
	sheetStart = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>`
	sheetEnd   = `</sheetData></worksheet>`
)

// packed is a workbook around the bytes of one sheet.
func packed(t *testing.T, sheet []byte) []byte {
	t.Helper()
	const (
		package2006  = `http://schemas.openxmlformats.org/package/2006/`
		document2006 = `http://schemas.openxmlformats.org/officeDocument/2006/relationships`
	)
	relation := func(kind, target string) []byte {
		return []byte(`<Relationships xmlns="` + package2006 + `relationships"><Relationship Id="rId1" Type="` + document2006 + "/" + kind + `" Target="` + target + `"/></Relationships>`)
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, part := range []struct {
		name    string
		content []byte
	}{
		{"[Content_Types].xml", []byte(`<Types xmlns="` + package2006 + `content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`)},
		{"_rels/.rels", relation("officeDocument", "xl/workbook.xml")},
		{"xl/workbook.xml", []byte(`<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="` + document2006 + `"><sheets><sheet name="farms" sheetId="1" r:id="rId1"/></sheets></workbook>`)},
		{"xl/_rels/workbook.xml.rels", relation("worksheet", "worksheets/sheet1.xml")},
		{"xl/worksheets/sheet1.xml", sheet},
	} {
		w, err := z.Create(part.name)
		if err == nil {
			_, err = w.Write(part.content)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// Any sheet in a sound workbook is read as a table of farms or refused.
func FuzzSheet(f *testing.F) {
	row := func(cells ...string) (all string) {
		for _, cell := range cells {
			all += `<c t="inlineStr"><is><t>` + cell + `</t></is></c>`
		}
		return "<row>" + all + "</row>"
	}
	starts := []string{
		sheetStart + row("farm", "county", "commodity", "base_acres", "payment_yield", "producer", "share") + row("0417", "99001", "corn", "120", "150", "ann", "35%") +
			`<row><c><v>417</v></c><c><v>99001</v></c><c t="inlineStr"><is><t>corn</t></is></c><c><f>60*2</f><v>120</v></c><c t="e"><v>#REF!</v></c><c t="b"><v>1</v></c></row>` + sheetEnd,
		sheetStart + row("Farm Number", "State", "County", "Crop", "Base Acres", "HIP") + row("1", "Iowa", "Story", "SOYBEANS", "80.5", "N") + row("TOTAL", "", "", "", "80.5") + sheetEnd,
		sheetStart + `<row r="9999999"/><row r="2"><c r="ZZZZ1" t="s"><v>7</v></c></row>`,
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, sheet []byte) { answers(t, "farms.xlsx", packed(t, sheet)) })
}

// Any bytes named .xlsx are read or refused.
func FuzzWorkbook(f *testing.F) {
	var template bytes.Buffer
	if err := farmfile.WriteTemplate(&template, false); err != nil {
		f.Fatal(err)
	}
	f.Add(template.Bytes())
	f.Add(template.Bytes()[:template.Len()/2])
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, content []byte) { sound.Soon(func() { answers(t, "farms.xlsx", content) }) })
}

// record is a row of a table of farms as other programs write it.
type record struct {
	Farm      string   `parquet:"farm"`
	County    int32    `parquet:"county"`
	Commodity string   `parquet:"commodity,dict"`
	BaseAcres int64    `parquet:"base_acres,decimal(2:18)"`
	Yield     *float64 `parquet:"payment_yield,optional"`
	Idle      bool     `parquet:"idle_2009_2017"`
}

// Any bytes named .parquet are read or refused.
func FuzzParquet(f *testing.F) {
	yield := 150.0
	for _, packing := range []library.WriterOption{library.Compression(&library.Uncompressed), library.Compression(&library.Snappy), library.Compression(&library.Zstd)} {
		var out bytes.Buffer
		w := library.NewGenericWriter[record](&out, packing)
		_, err := w.Write([]record{{"0417", 99001, "corn", 12000, &yield, false}, {"0418", 99001, "soybeans", 8050, nil, true}})
		if err = errors.Join(err, w.Close()); err != nil {
			f.Fatal(err)
		}
		f.Add(out.Bytes())
	}
	f.Add([]byte("PAR1PAR1"))
	f.Fuzz(func(t *testing.T, content []byte) { sound.Soon(func() { answers(t, "farms.parquet", content) }) })
}
