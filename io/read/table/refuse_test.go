package table

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

// refusal reads a file that must be refused and returns the mistakes.
func refusal(t testing.TB, path string) farm.Mistakes {
	t.Helper()
	source, notes, err := Read(path)
	require.Error(t, err)
	require.Empty(t, source.Counties, "nothing is read of a file that is refused")
	require.Empty(t, notes)
	var mistakes farm.Mistakes
	require.ErrorAs(t, err, &mistakes)
	require.NotEmpty(t, mistakes)
	for _, m := range mistakes {
		require.Equal(t, path, m.File)
		require.NotEmpty(t, m.Reason)
		require.NotEmpty(t, m.Hint)
	}
	return mistakes
}

func write(t testing.TB, content []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "county.xlsx")
	require.NoError(t, os.WriteFile(path, content, 0o600))
	return path
}

// pack writes a zip archive of named parts.
func pack(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, content := range parts {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(content))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

func TestWhatIsNoWorkbookIsRefused(t *testing.T) {
	sound, err := os.ReadFile(build(t, testSheet{"a", append(top2020(2026), corn2020("99001", "Alder"))}))
	require.NoError(t, err)
	old := append([]byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}, make([]byte, 600)...)
	cases := []struct {
		rule    string
		content []byte
		reason  string
		hint    string
	}{
		{"old .xls, by its first bytes", old, "old .xls workbook", "save it as .xlsx"},
		{"under a password", append(append([]byte(nil), old...), encryptedPart...), "protected by a password", "take the password away"},
		{"text", []byte("ST_Cty,State Name\n99001,Nowhere\n"), "not an .xlsx workbook", "save it as .xlsx"},
		{"empty", nil, "not an .xlsx workbook", "save it as .xlsx"},
		{"cut off", sound[:len(sound)/2], "not an .xlsx workbook", "download it again"},
		{"another archive", pack(t, map[string]string{"readme.txt": "hello"}), "holds no workbook", "save it as .xlsx"},
		{"too large", append(append([]byte(nil), sound...), make([]byte, mostPacked)...), "larger than 32 MB", "download it again"},
	}
	for _, c := range cases {
		t.Run(c.rule, func(t *testing.T) {
			mistakes := refusal(t, write(t, c.content))
			require.Len(t, mistakes, 1)
			require.Contains(t, mistakes[0].Reason, c.reason)
			require.Contains(t, mistakes[0].Hint, c.hint)
		})
	}
	require.Contains(t, refusal(t, filepath.Join(t.TempDir(), "nowhere.xlsx"))[0].Reason, "cannot be read")
	require.Contains(t, refusal(t, t.TempDir())[0].Reason, "cannot be read")
}

// excelize takes what it got of a part whose checksum is wrong. A table with
// its end missing must not pass for a whole one.
func TestDamagedPartIsRefused(t *testing.T) {
	content, err := os.ReadFile(build(t, testSheet{"a", append(top2020(2026), corn2020("99001", "Alder"))}))
	require.NoError(t, err)
	parts, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	require.NoError(t, err)
	for _, part := range parts.File {
		if strings.HasPrefix(part.Name, "xl/worksheets/") {
			at, err := part.DataOffset()
			require.NoError(t, err)
			content[at+int64(part.CompressedSize64)/2] ^= 0xFF
		}
	}
	mistakes := refusal(t, write(t, content))
	require.Contains(t, mistakes[0].Reason, "damaged")
}

// A part may claim any size; the claim is added up before anything is unpacked,
// and a part that holds more than it claims is damaged.
func TestClaimedSizeIsBounded(t *testing.T) {
	for claim, reason := range map[uint32]string{
		mostUnpacked + 1: "unpacks to more than 128 MB",
		0xFFFFFFF0:       "unpacks to more than 128 MB",
		9:                "damaged",
	} {
		content := pack(t, map[string]string{"xl/workbook.xml": strings.Repeat("x", 10)})
		directory := bytes.Index(content, []byte("PK\x01\x02"))
		const sizeAt = 24 // of the uncompressed size in a directory entry of the zip format
		binary.LittleEndian.PutUint32(content[directory+sizeAt:], claim)
		require.Contains(t, refusal(t, write(t, content))[0].Reason, reason)
	}
}

func TestHeadingsThatDoNotServeAreRefused(t *testing.T) {
	data := corn2020("99001", "Alder")
	cases := []struct {
		rule    string
		lines   lines
		line    int
		reasons []string
	}{
		{"no headings", lines{{"State Name", "ST_Cty"}, data}, 0, []string{"no sheet has a line of headings beginning with ST_Cty in column A"}},
		{"no lines below", top2020(2026), 0, []string{"sheet 'a' has no line that could be read (0 not understood)"}},
		{"no line understood", append(top2020(2026), with(data, "E", "?")), 0, []string{"sheet 'a' has no line that could be read (1 not understood)"}},
		{"columns missing", lines{{"ST_Cty", "2026 Actual Yield"}, data}, 1, []string{
			`no column is headed "County Name"`, `no column is headed "Crop Name"`, `no column is headed "Unit"`,
			`no column is headed "ARC-CO Yield Designation"`, `no column is headed "Bench Mark"`}},
		{"no program year", lines{{"ST_Cty", "County Name", "Crop Name", "Unit", "Yield Designation", "Bench Mark"}, data}, 1, []string{"no heading names the program year"}},
		{"two program years", append(lines{with(top2020(2026)[3], "S", "2025 Actual Yield")}, data), 1, []string{"the headings name several program years: [2025 2026]"}},
		{"one heading twice", append(lines{with(top2020(2026)[3], "T", "2026 Actual Yield")}, data), 1, []string{`two columns are headed "2026 Actual Yield"`}},
		{"four adjusted yields", append(lines{with(top2020(2026)[3], "H", nil)}, data), 1, []string{
			"trend adjusted yields are of crop years [2021 2022 2023 2024], those of program year 2026 are [2020 2021 2022 2023 2024]"}},
		{"adjusted yields of other years", append(lines{with(top2020(2026)[3], "H", "2019 trend adjusted")}, data), 1, []string{
			"trend adjusted yields are of crop years [2019 2021 2022 2023 2024], those of program year 2026 are [2020 2021 2022 2023 2024]"}},
	}
	for _, c := range cases {
		t.Run(c.rule, func(t *testing.T) {
			var reasons []string
			for _, m := range refusal(t, build(t, testSheet{"a", c.lines})) {
				require.Equal(t, c.line, m.Line)
				reasons = append(reasons, m.Reason)
			}
			require.Equal(t, c.reasons, reasons)
		})
	}
}

// A sheet far wider or longer than any county table is not worth its time.
func TestSheetBeyondTheBoundsIsRefused(t *testing.T) {
	wide := make([]any, mostColumns+1)
	wide[mostColumns] = 1
	mistakes := refusal(t, build(t, testSheet{"a", append(top2020(2026), wide)}))
	require.Equal(t, 5, mistakes[0].Line)
	require.Contains(t, mistakes[0].Reason, errTooLarge.Error())
}

// Formatted empty lines down to the last line of a sheet are common. They cost
// little and do not count as lines of the table.
func TestEmptyLinesCostLittle(t *testing.T) {
	text := func(words ...string) (row string) {
		for _, w := range words {
			row += `<c t="inlineStr"><is><t>` + w + `</t></is></c>`
		}
		return "<row>" + row + "</row>"
	}
	path := write(t, packSheet(t, sheetStart+
		text("ST_Cty", "County Name", "Crop Name", "Unit", "Yield Designation", "2026 Bench Mark")+
		text("99001", "Alder", "Corn", "Bushel", "All", "187.3")+`<row r="1048576" ht="20"/></sheetData></worksheet>`))
	allocations := testing.AllocsPerRun(1, func() {
		_, rows, notes, err := ReadSheet(path)
		require.NoError(t, err)
		require.Empty(t, notes)
		require.Len(t, rows, 1)
	})
	const most = 1 << 20 / 10 // one for ten of the empty lines: none is kept or looked at alone
	require.Less(t, allocations, float64(most))
}

const sheetStart = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>`

// packSheet writes a workbook around the bytes of one sheet.
func packSheet(t testing.TB, sheet string) []byte {
	const (
		package2006  = `http://schemas.openxmlformats.org/package/2006/`
		document2006 = `http://schemas.openxmlformats.org/officeDocument/2006/relationships`
	)
	relation := func(kind, target string) string {
		return `<Relationships xmlns="` + package2006 + `relationships"><Relationship Id="rId1" Type="` + document2006 + "/" + kind + `" Target="` + target + `"/></Relationships>`
	}
	return pack(t, map[string]string{
		"[Content_Types].xml":        `<Types xmlns="` + package2006 + `content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`,
		"_rels/.rels":                relation("officeDocument", "xl/workbook.xml"),
		"xl/workbook.xml":            `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="` + document2006 + `"><sheets><sheet name="a" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": relation("worksheet", "worksheets/sheet1.xml"),
		"xl/worksheets/sheet1.xml":   sheet,
	})
}

// Whatever the bytes, the answer is a source or farm.Mistakes.
func FuzzRead(f *testing.F) {
	whole, err := os.ReadFile(build(f, testSheet{"a", append(top2020(2026), corn2020("99001", "Alder"))}))
	require.NoError(f, err)
	f.Add(whole)
	f.Add(whole[:len(whole)/2])
	f.Add(oldOffice)
	f.Add([]byte(nil))
	f.Add(pack(f, map[string]string{"xl/workbook.xml": "<workbook/>"}))
	f.Fuzz(func(t *testing.T, content []byte) { sound.Soon(func() { answers(t, write(t, content)) }) })
}

// The bytes of a sheet itself, in a sound archive: what excelize makes of any
// XML is read or refused.
func FuzzSheet(f *testing.F) {
	line := func(cells ...string) string {
		row := "<row>"
		for _, cell := range cells {
			row += `<c t="inlineStr"><is><t>` + cell + `</t></is></c>`
		}
		return row + "</row>"
	}
	const end = `</sheetData></worksheet>`
	starts := []string{
		sheetStart + line("ST_Cty", "County Name", "Crop Name", "Unit", "Yield Designation", "2026 Bench Mark") + line("99001", "Alder", "Corn", "Bushel", "All", "187.3") + end,
		sheetStart + line("2026 Program Year") + line("Commodity", "Unit", "2025 MYA Price", "Reference Price") + line("Corn", "Bushel", "$4.15", "4.10") + end,
		sheetStart + `<row r="1"><c r="A1" t="inlineStr"><is><t>ST_Cty</t></is></c></row></sheetData></worksheet>`,
		sheetStart + `<row r="9999999"/><row r="2"><c r="ZZZZ1" t="s"><v>7</v></c></row>`,
		sheetStart + `<row><c t="b"><v>x</v></c><c s="-1"><f>A1</f></c></row></sheetData>`,
		"<",
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, sheet []byte) { answers(t, write(t, packSheet(t, string(sheet)))) })
}

// answers asks that a file is read or refused in order.
func answers(t testing.TB, path string) {
	prices, err := ReadPrices(path)
	require.True(t, err != nil || sound.Finite(prices) == nil, "%v", sound.Finite(prices))
	base, _, _, err := ReadBase(path)
	require.True(t, err != nil || sound.Finite(base) == nil, "%v", sound.Finite(base))
	source, _, err := Read(path)
	if err != nil {
		refusal(t, path)
		return
	}
	require.NotEmpty(t, source.Counties)
	require.NoError(t, sound.Finite(source))
}
