package yields

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

// readAll reads a text and returns all of it.
func readAll(t testing.TB, text string) (File, []Yield, error) {
	t.Helper()
	var all []Yield
	file, err := Read(strings.NewReader(text), func(File) error { return nil }, func(y Yield) error { all = append(all, y); return nil }, noMonth)
	return file, all, err
}

const (
	webHeadings  = `"Program","Year","Period","Week Ending","Geo Level","State","State ANSI","Ag District","Ag District Code","County","County ANSI","Zip Code","Region","watershed_code","Watershed","Commodity","Data Item","Domain","Domain Category","Value","CV (%)"`
	bulkHeadings = "SOURCE_DESC\tSHORT_DESC\tDOMAIN_DESC\tAGG_LEVEL_DESC\tSTATE_ANSI\tCOUNTY_CODE\tCOUNTY_NAME\tYEAR\tREFERENCE_PERIOD_DESC\tLOAD_TIME\tVALUE\tCV_%"
	rmaHeadings  = "Commodity Code,Commodity Name,State Code,State Name,State Abbreviation,County Code,County Name,Irrigation Practice Code,Irrigation Practice Name,Yield Year,Yield Amount"
)

// webLine is a line of the web download for an invented county.
func webLine(item, ansi, county, year, value string) string {
	return fmt.Sprintf(`"SURVEY","%s","YEAR","","COUNTY","NOWHERE","99","","","ALDER","%s","","","00000000","","CORN","%s","TOTAL","NOT SPECIFIED","%s",""`, year, county, item, value) + strings.TrimPrefix(ansi, "99")
}

const corn = "CORN, GRAIN - YIELD, MEASURED IN BU / ACRE"

// The same yield comes out of every layout in which it can be written.
func TestLayoutsAgree(t *testing.T) {
	want := Yield{Line: 2, County: "99001", CountyName: "ALDER", Commodity: crop.Corn, Practice: farm.AllPractices, CropYear: 2024, Value: 1234.5}
	bulk := "SURVEY\t" + corn + "\tTOTAL\tCOUNTY\t99\t001\tALDER\t2024\tYEAR\t2025-02-27 15:00:00\t1,234.5\t1.5"
	api := strings.ToLower(strings.ReplaceAll(bulkHeadings, "\t", ","))
	api = strings.Replace(api, ",value,", ",Value,", 1)
	for name, text := range map[string]string{
		"web download":           webHeadings + "\n" + webLine(corn, "99", "001", "2024", "1,234.5") + "\n",
		"web, zeros stripped":    webHeadings + "\n" + webLine(corn, "99", "1", "2024", "1,234.5") + "\n",
		"web, byte order mark":   "\ufeff" + webHeadings + "\r\n" + webLine(corn, "99", "001", "2024", "1,234.5") + "\r\n",
		"bulk file":              bulkHeadings + "\n" + bulk + "\n",
		"interface, quoted CSV":  api + "\n\"" + strings.ReplaceAll(bulk, "\t", "\",\"") + "\"\n",
		"no line end at the end": webHeadings + "\n" + webLine(corn, "99", "001", "2024", "1,234.5"),
	} {
		file, all, err := readAll(t, text)
		if err != nil || len(all) != 1 || all[0] != want || file.Noted != 0 {
			t.Errorf("%s: %+v, %+v, %v", name, file, all, err)
		}
	}
	file, all, err := readAll(t, rmaHeadings+"\r\n0041, Corn, 99, Nowhere, ZZ, 001, Alder, 003, Non-Irrigated, 2024, 1234.50\r\n")
	want.CountyName, want.Practice = "Alder", farm.Nonirrigated
	if err != nil || len(all) != 1 || all[0] != want || file.Agency != "RMA" {
		t.Errorf("RMA: %+v, %+v, %v", file, all, err)
	}
}

// Lines that are no county yield are passed over; what should be one and is not
// readable is named with its line; a withheld value is missing, never zero.
func TestLinesThatAreNoYield(t *testing.T) {
	lines := []string{
		webHeadings,
		webLine("CORN, SILAGE - YIELD, MEASURED IN TONS / ACRE", "99", "001", "2024", "20"),
		webLine("CORN, GRAIN - YIELD, MEASURED IN BU / NET PLANTED ACRE", "99", "001", "2024", "150"),
		webLine(corn, "99", "001", "2024", " (D)"),
		webLine(corn, "99", "", "2024", "150"),    // other counties
		webLine(corn, "99", "998", "2024", "150"), // other counties
		strings.Replace(webLine(corn, "99", "001", "2024", "150"), `"YEAR",""`, `"YEAR - AUG FORECAST",""`, 1),
		webLine("COTTON, UPLAND - YIELD, MEASURED IN LB / ACRE", "99", "001", "2024", "800"),
		webLine(corn, "99", "001", "2024", "many"),
		webLine(corn, "99", "0001", "2024", "150"),
		`"SURVEY","2024`,
		webLine("WHEAT, WINTER, NON-IRRIGATED - YIELD, MEASURED IN BU / ACRE", "99", "003", "2024", "41.5"),
		webLine(corn, "99", "001", "2024", "NaN"),
	}
	file, all, err := readAll(t, strings.Join(lines, "\n"))
	if err != nil || len(all) != 1 || all[0].Class != "winter" || all[0].Practice != farm.Nonirrigated || all[0].Value != 41.5 {
		t.Errorf("%+v, %v", all, err)
	}
	var noted []int
	for _, n := range file.Notes {
		noted = append(noted, n.Line)
	}
	if fmt.Sprint(noted) != "[9 10 11 13]" {
		t.Errorf("noted lines %v, want 9, 10, 11 and 13: %+v", noted, file.Notes)
	}
}

// Hostile files are refused with a hint, and for little: what a reader allocates is held,
// since a clock says more of the machine.
func TestHostileFiles(t *testing.T) {
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	fmt.Fprintln(z, webHeadings)
	for range 10_000 {
		fmt.Fprintln(z, webLine(corn, "99", "001", "2024", "150"))
	}
	z.Close()
	const most = 64 << 20 // bytes; the longest text has 8 MB
	for name, text := range map[string]string{
		"empty":              "",
		"binary":             "\x00\x01\x02\x03\n\xff\xfe\x00",
		"other headings":     "a,b,c\n1,2,3\n",
		"one endless line":   webHeadings + "\n\"" + strings.Repeat("x", 8<<20),
		"truncated gzip":     packed.String()[:packed.Len()/2],
		"gzip of nothing":    "\x1f\x8b\x08\x00",
		"headings of a page": "<!DOCTYPE html><html><body>Sign in</body></html>\n",
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, _, err := readAll(t, text)
		runtime.ReadMemStats(&after)
		var refusal Refusal
		if !errors.As(err, &refusal) || refusal.Hint == "" {
			t.Errorf("%s: %v", name, err)
		}
		if took := after.TotalAlloc - before.TotalAlloc; took > most {
			t.Errorf("%s: %d bytes allocated, want at most %d", name, took, most)
		}
	}
}

// The genuine files beside the repository: RMA's report, and NASS's rows in the
// bulk layout (none of them a county yield).
func TestGenuineFiles(t *testing.T) {
	const shared = "../../../../shared/data/"
	for name, want := range map[string]int{
		"rma/RMACountyYieldsReport_corn_soybeans_nonirrigated_2010_2024.csv.gz": 34_712,
		"nass/quickstats_web_layout_sample.csv":                                 180, // awk -F'","' 'NR>1 && $11!="" && $11!="998"' | wc -l
		"nass/qs_bulk_layout_sample.tsv":                                        0,
	} {
		file, err := os.Open(shared + name)
		if err != nil {
			fmt.Printf("NOT CHECKED: %s is not beside the repository\n", name)
			t.Skip()
		}
		defer file.Close()
		count := 0
		read, err := Read(file, func(File) error { return nil }, func(Yield) error { count++; return nil }, noMonth)
		if err != nil || count != want || read.Noted != 0 {
			t.Errorf("%s: %d yields, %d noted, %v; want %d", name, count, read.Noted, err, want)
		}
		fmt.Printf("%s: checked %d of %d yields in %d lines\n", name, count, want, read.Lines)
	}
}

// No text makes the reader fail otherwise than by a refusal.
// noMonth passes over the months of prices.
func noMonth(Month) error { return nil }

func FuzzRead(f *testing.F) {
	starts := []string{
		webHeadings + "\n" + webLine(corn, "99", "001", "2024", "150"),
		bulkHeadings + "\nSURVEY\t" + corn + "\tTOTAL\tCOUNTY\t99\t001\tALDER\t2024\tYEAR\t2025-02-27 15:00:00\t1,234.5\t1.5",
		bulkHeadings + "\nSURVEY\tCORN, GRAIN - PRICE RECEIVED, MEASURED IN $ / BU\tTOTAL\tNATIONAL\t99\t\t\t2026\tSEP\t2026-10-30 15:00:00\t3.9\t",
		rmaHeadings + "\n0041,Corn,99,Nowhere,NW,001,Alder,002,Irrigated,2024,150.5",
		rmaHeadings + "\n0041, Corn, 99",
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		var months []Month
		var all []Yield
		file, err := Read(bytes.NewReader(text), func(File) error { return nil }, func(y Yield) error { all = append(all, y); return nil }, func(m Month) error { months = append(months, m); return nil })
		var refusal Refusal
		if err != nil && !errors.As(err, &refusal) {
			t.Errorf("%v", err)
		}
		for _, read := range []any{file, all, months} {
			if err := sound.Finite(read); err != nil {
				t.Error(err)
			}
		}
	})
}

// A packed file whose lines fill hours is refused soon: 320 MB of lines in 1 MB.
func TestPackedLinesWithoutEnd(t *testing.T) {
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	fmt.Fprintln(w, webHeadings)
	for range 320 {
		w.Write(bytes.Repeat([]byte("\n"), 1<<20))
	}
	w.Close()
	_, _, err := readAll(t, packed.String())
	var refusal Refusal
	if !errors.As(err, &refusal) || !strings.Contains(refusal.Reason, "it unpacks to more than 100 times its size") || refusal.Hint == "" {
		t.Errorf("%d bytes: %v", packed.Len(), err)
	}
}
