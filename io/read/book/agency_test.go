package book

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fencerow/io/read/table"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// someRows are taken of a county table where FENCEROW_LONG is not set.
const someRows = 2000

// The whole county table of 2023, or its first 2,000 rows, written in the agency's layout, is read back
// cell by cell, and the book has as many figures as a second program counts:
//
//	zcat arcco_county_py2019_2025.csv.gz | awk -F, '$1==2023{r++; for(i=9;i<=14;i++) if($i!="")f++; if($19!="")f++} END{print r, f}'
//	18153 127059
//	... | awk -F, '$1==2023{print $2 $5}' | sort -u | wc -l
//	2743
//	... | awk -F, '$1==2023{n[$7]++} END{for(u in n) print u, n[u]}'
//	Pound 3085, Bushel 15068
//
// The first 2,000 rows of 2023 have 13,998 figures of 321 counties, 431 rows in pounds,
// by the same with $1==2023 && ++k<=2000.
func TestWholeCountyTable(t *testing.T) {
	wholeFile(t)
	rows, figures, counties, inPounds, most := someRows, 13_998, 321, 431, someRows
	if longRun {
		rows, figures, counties, inPounds, most = 18_153, 127_059, 2_743, 3_085, 0
	}
	needsShared(t, sharedFSA)
	path, written := countyWorkbook(t, "2023", "ARCCO 2023 (2025-02-03)", most)
	if written != rows {
		t.Fatalf("%d rows written", written)
	}
	_, read, notes, err := table.ReadSheet(path)
	if err != nil || len(notes) > 0 || len(read) != rows {
		t.Fatalf("%d rows, %d notes, %v", len(read), len(notes), err)
	}
	pounds := 0
	for _, r := range read {
		if r.Commodity.Unit().Yield() == "lb/acre" {
			pounds++
		}
	}
	if pounds != inPounds {
		t.Errorf("%d rows in pounds, want %d", pounds, inPounds)
	}
	cells, i := 0, 0
	sharedRows(t, sharedFSA, func(r map[string]string) {
		if r["program_year"] != "2023" || i == rows {
			return
		}
		got := read[i]
		i++
		if got.Code != r["st_cty"]+r["sub_county"] || !strings.EqualFold(strings.ReplaceAll(string(got.Practice), "all", "All"), r["yield_designation"]) {
			t.Fatalf("row %d is %s %s, want %v", i, got.Code, got.Practice, r)
		}
		for column, figure := range map[string]*float64{"yield_lag6": got.Adjusted[0], "yield_lag2": got.Adjusted[4], "benchmark_yield": got.BenchmarkYield, "benchmark_price": got.BenchmarkPrice,
			"benchmark_revenue": got.BenchmarkRevenue, "guarantee_revenue": got.Guarantee, "max_payment_rate": got.MaximumRate, "actual_yield": got.ActualYield, "national_price": got.NationalPrice, "payment_rate": got.PaymentRate} {
			var want float64
			_, err := fmt.Sscan(r[column], &want)
			if (err != nil) != (figure == nil) || figure != nil && *figure != want {
				t.Fatalf("row %d, %s: %v, want %q", i, column, figure, r[column])
			}
			cells++
		}
	})
	b := openNew(t)
	done := importInto(t, b, path)
	listed, err := b.List("")
	if err != nil || done.Figures != figures || len(listed) != counties || done.Edition != "2025-02-03" {
		t.Errorf("%d figures of %d counties, edition %s, %v; want %d of %d", done.Figures, len(listed), done.Edition, err, figures, counties)
	}
	fmt.Printf("county table 2023: checked %d of %d rows, %d cells, %d figures in the book; 18,153 rows in all\n", i, rows, cells, done.Figures)
}

// NASS's county yields, written in the layout of the bulk file, come in as a
// second program counts them (without net-planted yields and other counties):
//
//	zcat county_yields_1980_2025.csv.gz | awk -F'"' 'NR>1 && $2 ~ /MEASURED IN BU \/ ACRE$/ && $1 !~ /^[0-9]+,998,/' | wc -l
//	399309
//
// Without FENCEROW_LONG those of Illinois, 15,822 lines and 15,334 figures by the same
// with /^17,/.
func TestWholeNASSFile(t *testing.T) {
	wholeFile(t)
	lines, figures, state := 15_822, 15_334, "17"
	if longRun {
		lines, figures, state = 476_285, 399_309, ""
	}
	needsShared(t, sharedNASS)
	path, written := nassBulk(t, state)
	b := openNew(t)
	done := importInto(t, b, path)
	if written != lines || done.Figures != figures || done.Noted != 0 || done.Edition != "2026-06-27" {
		t.Errorf("%d lines written; %+v; want %d figures", written, done, figures)
	}
	// McLean, Illinois, 2025, as the web download prints it: 243.1
	sources, err := b.Sources("17113")
	if err != nil || len(sources) != 1 {
		t.Fatal(err, sources)
	}
	for _, y := range sources[0].Counties["17113"].Yields {
		if y.Commodity == crop.Corn && y.Practice == farm.AllPractices && y.Harvested[2025] != 243.1 {
			t.Errorf("corn 2025 is %v, want 243.1", y.Harvested[2025])
		}
	}
	fmt.Printf("NASS bulk layout: checked %d of %d figures; 399,309 in all\n", done.Figures, figures)
}

// The agency's own small workbooks: prices come in with their date, others are
// named and refused, an old .xls with its sentence.
func TestGenuineWorkbooks(t *testing.T) {
	raw := filepath.Join("..", "..", "..", "..", "shared", "data", "fsa", "raw")
	needsShared(t, raw)
	b := openNew(t)
	for name, want := range map[string]struct {
		figures int
		edition string
	}{
		"MYA_2024.xlsx": {161, "2025-04-10"}, "ERP_2025.xlsx": {115, "2024-12-31"}, "PLC_2024.xlsx": {23, "2025-01-10"}, "ARC_CO_2024.xlsx": {23, "2025-04-10"},
		"arcco_county_py2023_five_states_cut.xlsx": {14_222, "2025-02-03"},
	} {
		if done := importInto(t, b, filepath.Join(raw, name)); done.Figures != want.figures || done.Edition != want.edition || done.Noted != 0 {
			t.Errorf("%s: %+v, want %+v", name, done, want)
		}
	}
	for name, says := range map[string]string{
		"2024_enrolled_base_web.xlsx": "enrolled base acres", "ARCCO_19_23.xlsx": "payments by State", "ARC_IC_2024.xlsx": "ARC-IC prices", "ARC_CO_2019.xls": "old .xls",
	} {
		var mistakes farm.Mistakes
		if _, err := b.Import(filepath.Join(raw, name), day, false); !errors.As(err, &mistakes) || !strings.Contains(mistakes[0].Reason, says) {
			t.Errorf("%s: %v, want a refusal that says %q", name, err, says)
		}
	}
	// FSA's first final price of sorghum 2022 is 5.94; the 2024 corn price was a
	// projection of 4.35 in Table 1 of April 2025.
	m, ok, err := b.Market()
	if err != nil || !ok || m.MYA[crop.GrainSorghum][2022].Value != 5.94 || m.Outlook[crop.Corn][2024].Value != 4.35 || m.MYA[crop.SeedCotton][2023].Value != 0.3949 {
		t.Errorf("market %+v, %v", m, err)
	}
}

// A newer projection and a first final price win, whatever the order of imports.
func TestPricesByEdition(t *testing.T) {
	csv := func(number int, release, year, flag string, price float64) string {
		return write(t, fmt.Sprintf("wasde-%d.csv", number), fmt.Sprintf("WasdeNumber,ReportDate,ReportTitle,Attribute,ReliabilityProjection,Commodity,Region,MarketYear,ProjEstFlag,AnnualQuarterFlag,Value,Unit,ReleaseDate,ReleaseTime,ForecastYear,ForecastMonth\n"+
			"%d,November 2026,U.S. Feed Grain and Corn Supply and Use,Avg. Farm Price,,Corn,United States,%s,%s,Annual,%.2f,$/bu,%s,12:00:00,2026,11\n", number, year, flag, price, release))
	}
	early, late := csv(675, "2026-09-11", "2026/27", "Proj.", 4.80), csv(677, "2026-11-10", "2026/27", "Proj.", 4.55)
	for _, order := range [][]string{{early, late}, {late, early}} {
		b := openNew(t)
		for _, path := range order {
			importInto(t, b, path)
		}
		m, ok, err := b.Market()
		if got := m.Outlook[crop.Corn][2026]; err != nil || !ok || got.Value != 4.55 || got.AsOf.Format(time.DateOnly) != "2026-11-10" {
			t.Errorf("%v: %+v, %v", order, got, err)
		}
	}
}

// Base acres by county: with codes as in 2014, with names alone as from 2021 on.
func TestBaseAcres(t *testing.T) {
	b := openNew(t)
	importInto(t, b, rmaLines(t, "150.10")) // the book knows the name of county 99001
	crop.StateNames["99"] = "Nowhere"
	defer delete(crop.StateNames, "99")
	named := sheetOf(t, [][]any{{"Program Year", "Admin State", "Admin County", "Crop Base Name", "Crop Base Acres"},
		{2023, "Nowhere", "Alder", "CORN", 1200.5}, {2023, "Nowhere", "Alder", "SEED COTTON-UPLAND - Blank", 10}, {2023, "Nowhere", "Birch", "CORN", 7}, {nil, nil, nil, nil, 1217.5}})
	done := importInto(t, b, named)
	if done.Figures != 2 || done.Noted != 1 || !strings.Contains(done.Notes[0], "Birch") {
		t.Errorf("names only: %+v", done)
	}
	coded := sheetOf(t, [][]any{{"State", "County", "State Code", "County Code", "Crop", "Crop Type", "Base Acres", "Avg PLC Yield"},
		{"Nowhere   ", "Alder   ", "99", "001", "BARLY", "", 33.3, 50}, {"Nowhere", "Alder", "99", "001", "PNUTS", "", 4, 3000}})
	if done := importInto(t, b, coded); done.Figures != 2 || done.Noted != 0 {
		t.Errorf("with codes: %+v", done)
	}
}

// A look-up of one county goes by the book's indexes: no table is read through. How long
// it takes is for BenchmarkCountyLookUp.
func TestCountyLookUp(t *testing.T) {
	b := openNew(t)
	importInto(t, b, rmaLines(t, "150.10", "161.20"))
	rows, err := b.db.Query("EXPLAIN QUERY PLAN "+figureQuery, "99001", "99001~")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	searches := 0
	for rows.Next() {
		var id, parent, unused int
		var step string
		if err := rows.Scan(&id, &parent, &unused, &step); err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(step, "SEARCH") {
			searches++
		}
		if strings.HasPrefix(step, "SCAN") {
			t.Errorf("a table is read through: %s", step)
		}
	}
	if searches != 3 || rows.Err() != nil { // series, value, county
		t.Errorf("%d tables are searched, want 3 (%v)", searches, rows.Err())
	}
}

// BenchmarkCountyLookUp looks one county up in a book of a whole county table.
func BenchmarkCountyLookUp(b *testing.B) {
	needsShared(b, sharedFSA)
	path, _ := countyWorkbook(b, "2023", "ARCCO 2023 (2025-02-03)", 0)
	book := openNew(b)
	importInto(b, book, path)
	for b.Loop() {
		if _, err := book.Sources("19153"); err != nil {
			b.Fatal(err)
		}
	}
}
