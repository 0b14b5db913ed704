package front

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/io/show/workbook/cells"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// Columns of Counties. What stands after the printed ones is for the other sheets.
const (
	rowCounty = iota + 1
	rowCrop
	rowPractice
	rowListed
	rowFollows
	rowUnit
	rowAdjusted
	_
	_
	_
	rowAdjustedLast
	rowTypedBenchmark
	rowBenchmark
	rowYield
	rowPLCYield
	rowBenchmarkRevenue
	rowGuarantee
	rowMaximum
	rowRevenue
	rowRate
	rowPLC
	rowARC
	rowStatus
	rowFrom
	rowKey
	rowCropAt
	rowYieldParts
	rowBenchmarkParts
	rowCountyShown
	rowCropShown
	rowYieldStatus
)

var countyWidths = []float64{20, 15, 13, 16, 16, 9, 9, 9, 9, 9, 9, 11, 11, 9, 9, 11, 11, 9, 9, 9, 10, 10, 28, 40, 34, 8, 8, 8, 22, 22, 12}

var countyTitles = []string{
	"county", "crop", "practice", "in the list of Front", "outcomes follow", "unit", "adjusted yield 1, oldest", "adjusted yield 2", "adjusted yield 3", "adjusted yield 4", "adjusted yield 5",
	"or benchmark yield alone", "benchmark yield used", "county yield", "PLC yield", "benchmark revenue, $/acre", "guarantee, $/acre", "the most ARC-CO pays, $/acre", "actual revenue, $/acre",
	"ARC-CO rate, $/acre", "PLC pays, $ per base acre", "ARC-CO pays, $ per base acre", "yields are",
	"yields from", "key", "row of crop", "outcomes: yield", "benchmark yield", "county listed", "crop listed", "county yield is",
}

// spareRows are prepared below the last county row for rows of the user's own.
const spareRows = 12

// layCounties lays out one row for each county, crop and practice of each crop year.
func (b *Book) layCounties() {
	s := b.Counties
	s.Paper.Columns = rowStatus
	s.Line(cells.Look{Title: true}, "Counties: yields, guarantees and payments, a row for each county, crop and practice")
	s.Line(cells.Look{}, "Bordered cells can be typed in; all else is a formula. To add a county, fill in an empty row below: county, crop, \"outcomes follow\", yields. The fourth column says what it lacks.")
	s.Shown, s.Beside = rowFrom, rowPractice
	counties := shownCounties(b.first().Rows)
	for i, year := range b.years {
		s.Gap()
		s.Line(cells.Look{Bold: true}, fmt.Sprintf("Crop year %d, at the prices of %s and the county yields of each row", year.CropYear, CropsTitle))
		s.Heads(countyTitles...)
		if i == 0 {
			s.Frozen = len(s.Rows)
		}
		at := &b.blocks[i]
		at.firstRow = len(s.Rows) + 1
		at.lastStart = len(s.Rows) + len(year.Rows)
		at.lastRow = at.lastStart
		if i == 0 {
			at.lastRow += spareRows
		}
		for _, row := range year.Rows {
			b.layCounty(*at, counties[row.County], CountyKey{row.County, row.Commodity, row.Practice.Practice, year.CropYear}, row, i == 0)
		}
		for range at.lastRow - at.lastStart {
			b.laySpare(*at)
		}
	}
}

// shownCounties are the names of counties with their State by code, with the code where
// two share one.
func shownCounties(rows []explain.CountyRow) map[string]string {
	shown, codes := map[string]string{}, map[string]string{}
	for _, row := range rows {
		name := row.CountyName
		if name == "" {
			name = "County " + row.County
		} else if state := crop.StateNames[row.County[:min(2, len(row.County))]]; state != "" {
			name += ", " + state
		}
		if other, taken := codes[name]; taken && other != row.County {
			name += " " + row.County
		}
		shown[row.County], codes[name] = name, row.County
	}
	return shown
}

// cropYearColumn is a column of Crops in the crop year of a block.
func (b *Book) cropYearColumn(at block, column int) string {
	return cells.Columns(b.Crops, column, at.firstCrop, at.lastCrop)
}

// layCounty lays out the row of a county, crop and practice.
func (b *Book) layCounty(at block, county string, key CountyKey, row explain.CountyRow, first bool) {
	s, p := b.Counties, row.Practice
	if county == "" {
		county = row.County
	}
	s.Add(cells.Plain(county), cells.Plain(row.Commodity.Name()), cells.Plain(practiceWord(p.Practice)))
	r := len(s.Rows)
	usual, harvested := yieldCheck(row.Commodity, farm.Usual), yieldCheck(row.Commodity, farm.Harvested)
	for i, x := range adjustedOf(p) {
		b.input(rowAdjusted+i, r, x, harvested)
	}
	benchmark := &p.BenchmarkYield.Value
	if p.Adjusted != nil || p.BenchmarkYield.Status == "" {
		benchmark = nil
	}
	b.input(rowTypedBenchmark, r, benchmark, usual)
	yield := &p.CountyYield.Value
	if p.CountyYield.Status == "" {
		yield = nil
	}
	b.input(rowYield, r, yield, harvested)
	b.input(rowPLCYield, r, row.PaymentYield, usual)
	b.formulas(at, r, countyFormulas)
	if first {
		b.formulas(at, r, listFormulas)
		s.Set(rowFollows, r, cells.Plain("its own"))
	}
	s.Set(rowStatus, r, cells.Words(cells.Look{Center: true}, statusOf(p)))
	s.Set(rowYieldStatus, r, cells.Plain(string(p.CountyYield.Status)))
	s.Set(rowFrom, r, cells.Plain(strings.TrimSuffix(p.CountyYield.Source+"; benchmark: "+p.BenchmarkYield.Source, "; benchmark: ")))
	if first {
		s.Set(rowYieldParts, r, fixed(b.part(row.YieldParts)))
		s.Set(rowBenchmarkParts, r, fixed(b.part(row.BenchmarkYieldParts)))
	}
	b.noteCounty(key, row, r)
}

// adjustedOf are the five adjusted yields; nil where only the benchmark is known.
func adjustedOf(p explain.WorkingPractice) (five [5]*crop.Yield) {
	if p.Adjusted != nil {
		for i := range five {
			five[i] = &p.Adjusted[i]
		}
	}
	return five
}

// statusOf says how sure the yields of a row are.
func statusOf(p explain.WorkingPractice) string {
	yield, benchmark := p.CountyYield.Status, p.BenchmarkYield.Status
	if yield == benchmark {
		return string(yield)
	}
	return strings.TrimPrefix(string(yield)+"; benchmark "+string(benchmark), "; ")
}

// input puts a figure that can be typed over, or an empty cell for one.
func (b *Book) input(column, row int, x *float64, check *cells.Check) {
	c := cells.Cell{Look: cells.Look{Format: yieldFormat, Input: true}, Check: check}
	if x != nil {
		c.Value = *x
	}
	b.Counties.Set(column, row, c)
}

// rowWords name the columns of Counties, and cropWords those of Crops, in the formulas below.
var (
	rowWords = map[string]int{
		"county": rowCounty, "crop": rowCrop, "practice": rowPractice, "first": rowAdjusted, "last": rowAdjustedLast, "typed": rowTypedBenchmark, "benchmark": rowBenchmark,
		"yield": rowYield, "plc yield": rowPLCYield, "revenue": rowBenchmarkRevenue, "guarantee": rowGuarantee, "most": rowMaximum, "actual": rowRevenue, "rate": rowRate,
		"listed": rowListed, "at": rowCropAt, "parts": rowYieldParts, "county shown": rowCountyShown, "crop shown": rowCropShown,
	}
	cropWords = map[string]int{
		"unit": cropYieldUnit, "decimals": cropYieldDecimals, "benchmark": cropBenchmark, "guarantee": cropGuaranteeShare, "most": cropMaximumShare, "higher": cropHigher,
		"rate": cropRate, "acres": cropPaymentShare,
	}
)

// rowFormula is a formula of a row: [word] is a cell of the row, {word} the figure of its
// crop, and lift rounds as the law does.
type rowFormula struct {
	column int
	format string
	text   string
}

// countyFormulas are what the law makes of a row. Every one refers to its own row and to
// Crops alone.
var countyFormulas = []rowFormula{
	{rowCropAt, "", `IFERROR(MATCH([crop],{},0),0)`},
	{rowUnit, "", `IF([at]=0,"",{unit})`},
	{rowBenchmark, yieldFormat, `IF([at]=0,"",IF(COUNT([first]:[last])=5,ROUND((SUM([first]:[last])-MIN([first]:[last])-MAX([first]:[last]))/3*lift,{decimals}),IF(ISNUMBER([typed]),ROUND([typed]*lift,{decimals}),"")))`},
	{rowBenchmarkRevenue, cells.MoneyFormat, `IFERROR(ROUND([benchmark]*{benchmark}*lift,2),"")`},
	{rowGuarantee, cells.MoneyFormat, `IFERROR(ROUND({guarantee}*[revenue]*lift,2),"")`},
	{rowMaximum, cells.MoneyFormat, `IFERROR(ROUND({most}*[revenue]*lift,2),"")`},
	{rowRevenue, cells.MoneyFormat, `IF(ISNUMBER([yield]),IFERROR(ROUND(ROUND([yield]*lift,{decimals})*{higher}*lift,2),""),"")`},
	{rowRate, cells.MoneyFormat, `IFERROR(MIN([most],MAX(0,ROUND(([guarantee]-[actual])*lift,2))),"")`},
	{rowPLC, cells.MoneyFormat, `IF(ISNUMBER([plc yield]),IFERROR(ROUND({rate}*[plc yield]*{acres}*lift,2),""),"")`},
	{rowARC, cells.MoneyFormat, `IFERROR(ROUND([rate]*{acres}*lift,2),"")`},
}

// listFormulas say whether Front lists a row: yes where it has all that Front needs, else
// what it lacks; and how it lists it.
var listFormulas = []rowFormula{
	{rowListed, "", `IF([county]="","",IF([at]>0,IF(ISNUMBER([benchmark]),IF(ISNUMBER([yield]),IF(ISNUMBER([plc yield]),IF(ISNUMBER({rate}),IF(ISNUMBER({benchmark}),IF([parts]>0,"yes",` +
		`"no: outcomes follow"),"no: past price"),"no: price"),"no: PLC yield"),"no: county yield"),"no: benchmark yield"),"no: crop"))`},
	{rowCountyShown, "", `IF([listed]="yes",[county],"")`},
	{rowCropShown, "", `IF([listed]="yes",IF([practice]="",[crop],[crop]&", "&[practice]),"")`},
	{rowKey, "", `IF([listed]="yes",[county shown]&" / "&[crop shown],"")`},
}

// formulas fills in the formulas of a row.
func (b *Book) formulas(at block, r int, all []rowFormula) {
	own := func(word string) string { return cells.At(b.Counties, rowWords[word], r).Address() }
	words := []string{"{}", b.cropYearColumn(at, cropName)}
	for _, word := range slices.Sorted(maps.Keys(rowWords)) {
		words = append(words, "["+word+"]", own(word))
	}
	for _, word := range slices.Sorted(maps.Keys(cropWords)) {
		words = append(words, "{"+word+"}", "INDEX("+b.cropYearColumn(at, cropWords[word])+","+own("at")+")")
	}
	fill := strings.NewReplacer(words...)
	for _, f := range all {
		b.Counties.Set(f.column, r, formula(cells.Look{Format: f.format}, fill.Replace(f.text)))
	}
}

// laySpare lays out an empty row that takes a county of the user's own.
func (b *Book) laySpare(at block) {
	s := b.Counties
	s.Add()
	r := len(s.Rows)
	blank := func(column int, check *cells.Check) {
		s.Set(column, r, cells.Cell{Look: cells.Look{Input: true}, Check: check})
	}
	list := func(of, what, text string) *cells.Check {
		return &cells.Check{List: of, Title: "Not " + what, Text: text}
	}
	blank(rowCounty, &cells.Check{Any: true})
	blank(rowCrop, list(b.cropYearColumn(at, cropName), "a crop of this workbook", "Take a crop from the list: it has the crops of the sheet "+CropsTitle+"."))
	blank(rowPractice, list("irrigated,nonirrigated", "a practice", "Leave the cell empty, or take irrigated or nonirrigated from the list."))
	for i := range 5 {
		b.spareYield(at, rowAdjusted+i, r, cropLeastHarvest)
	}
	b.spareYield(at, rowTypedBenchmark, r, cropLeastYield)
	b.spareYield(at, rowYield, r, cropLeastHarvest)
	b.spareYield(at, rowPLCYield, r, cropLeastYield)
	b.formulas(at, r, countyFormulas)
	b.formulas(at, r, listFormulas)
	blank(rowFollows, list(cells.Columns(s, rowKey, at.firstRow, at.lastStart), "a row of this sheet", "Take the county and crop whose yields vary as those of this row."))
	follows := cells.At(s, rowFollows, r).Address()
	s.Set(rowYieldParts, r, formula(cells.Look{}, "IFERROR(INDEX("+cells.Columns(s, rowYieldParts, at.firstRow, at.lastStart)+",MATCH("+follows+","+cells.Columns(s, rowKey, at.firstRow, at.lastStart)+",0)),0)"))
	s.Set(rowBenchmarkParts, r, fixed(1))
	s.Set(rowYieldStatus, r, cells.Plain("typed by you"))
	s.Set(rowStatus, r, formula(cells.Look{}, "IF("+cells.At(s, rowCounty, r).Address()+"=\"\",\"\",\"typed by you\")"))
}

// spareYield is an empty cell for a yield of whatever crop the row names.
func (b *Book) spareYield(at block, column, r, least int) {
	bound := func(of int) string {
		return "INDEX(" + b.cropYearColumn(at, of) + ",MATCH($" + cells.At(b.Counties, rowCrop, r).Address() + "," + b.cropYearColumn(at, cropName) + ",0))"
	}
	b.input(column, r, nil, &cells.Check{Least: bound(least), Most: bound(cropMostYield), Title: "Yield",
		Text: "Name the crop first. Then type a yield of that crop in the unit of the row."})
}

// noteCounty keeps where the figures of a row stand, and names them.
func (b *Book) noteCounty(key CountyKey, row explain.CountyRow, r int) {
	s, p := b.Counties, CountyPlaces{}
	at := func(column int, known bool) cells.Place {
		if !known {
			return cells.Place{}
		}
		return cells.At(s, column, r)
	}
	national := b.Prices[CropKey{key.Commodity, key.CropYear}]
	benchmark := row.Practice.BenchmarkYield.Status != ""
	covered := benchmark && national.Benchmark.Known()
	p.Yield = at(rowYield, row.Practice.CountyYield.Status != "")
	p.Benchmark, p.TypedBenchmark = at(rowBenchmark, benchmark), at(rowTypedBenchmark, benchmark && row.Practice.Adjusted == nil)
	p.Guarantee, p.Maximum = at(rowGuarantee, covered), at(rowMaximum, covered)
	p.Revenue = at(rowRevenue, p.Yield.Known() && national.Higher.Known())
	p.Rate = at(rowRate, covered && p.Revenue.Known())
	named := []any{key.County, key.Commodity, key.Practice, key.CropYear}
	name := func(at cells.Place, what ...any) { s.Name(at, append(what, named...)...) }
	if row.Practice.Adjusted != nil {
		p.Adjusted = cells.Between(cells.At(s, rowAdjusted, r), cells.At(s, rowAdjustedLast, r))
		for i := range 5 {
			name(cells.At(s, rowAdjusted+i, r), "adjusted_yield", i+1, "of")
		}
	}
	name(p.Yield, "county_yield")
	name(p.TypedBenchmark, "entered_benchmark_yield")
	name(p.Benchmark, "benchmark_yield")
	name(p.Guarantee, "guarantee")
	name(p.Maximum, "maximum")
	name(p.Revenue, "actual_revenue")
	name(p.Rate, "arc_co_rate")
	b.Yields[key] = p
}

// rowColumn is a column of Counties in the first crop year, spare rows included.
func (b *Book) rowColumn(column int) string {
	return cells.Columns(b.Counties, column, b.blocks[0].firstRow, b.blocks[0].lastRow)
}
