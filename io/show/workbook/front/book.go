package front

import (
	"fmt"
	"slices"

	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// Titles of the sheets, which others cite.
const (
	frontTitle    = "Front"
	CropsTitle    = "Crops"
	CountiesTitle = "Counties"
	stepsTitle    = "Step by step"
	checksTitle   = "Checks"
	listsTitle    = "Lists"
	outcomesTitle = "Outcomes"
)

// Book is the sheets, and where the figures of crops and counties stand on them.
type Book struct {
	Front, Steps, Counties, Crops, Checks *cells.Sheet
	lists, outcomes                       *cells.Sheet

	Prices map[CropKey]CropPlaces
	Yields map[CountyKey]CountyPlaces
	years  []explain.CountyRows // the first is the one that Front is about
	parts  [][]float64          // columns of Outcomes after the first, which is 1 throughout
	partOf map[CropKey][3]int   // columns of a crop's parts: price, effective reference price, benchmark price
	blocks []block              // of each crop year
}

// CropKey is a crop in a crop year.
type CropKey struct {
	Commodity crop.Commodity
	CropYear  crop.CropYear
}

// CountyKey is a county, crop and practice in a crop year.
type CountyKey struct {
	County    string
	Commodity crop.Commodity
	Practice  farm.Practice
	CropYear  crop.CropYear
}

// CropPlaces are where the figures of a crop stand; the zero Place is one not known.
type CropPlaces struct {
	Price, LoanRate, Effective, Benchmark, Higher, PLCRate, PLCMost cells.Place
	PaymentAcreShare                                                cells.Place
	Past                                                            cells.Span
}

// CountyPlaces are where the figures of a county row stand.
type CountyPlaces struct {
	Yield, TypedBenchmark, Benchmark, Guarantee, Maximum, Revenue, Rate cells.Place
	Adjusted                                                            cells.Span
}

// block is where the rows of a crop year stand on Crops and Counties.
type block struct{ firstCrop, lastCrop, firstRow, lastRow, lastStart int }

// Lay lays out the sheets for some crop years; Front is about the first.
func Lay(years []explain.CountyRows) *Book {
	b := &Book{
		years: years, Prices: map[CropKey]CropPlaces{}, Yields: map[CountyKey]CountyPlaces{}, partOf: map[CropKey][3]int{},
		Front:    cells.NewSheet(frontTitle, 25, 11.4, 11.4, 11.4, 11.4, 11.4, 2.5),
		Steps:    cells.NewSheet(stepsTitle, 70, 14, 10, 76, 11),
		Counties: cells.NewSheet(CountiesTitle, countyWidths...),
		Crops:    cells.NewSheet(CropsTitle, cropWidths...),
		Checks:   cells.NewSheet(checksTitle, 44, 14, 14, 14, 14, 18),
		lists:    cells.NewSheet(listsTitle, 12, 24, 12, 24, 3, 34, 18, 18, 18, 18, 18),
		outcomes: cells.NewSheet(outcomesTitle),
	}
	b.layCrops()
	b.layCounties()
	if !b.answers() {
		return b
	}
	b.layOutcomes()
	b.layLists()
	b.layFront()
	b.laySteps()
	b.layChecks()
	return b
}

// Sheets are those to be seen, in their order.
func (b *Book) Sheets() []*cells.Sheet {
	if !b.answers() {
		return []*cells.Sheet{b.Counties, b.Crops}
	}
	return []*cells.Sheet{b.Front, b.Counties, b.Crops, b.Steps, b.Checks}
}

// answers reports whether any row has all figures that Front needs.
func (b *Book) answers() bool {
	return len(b.years) > 0 && slices.ContainsFunc(b.years[0].Rows, func(r explain.CountyRow) bool { return r.Paid != nil })
}

// Hidden are the sheets that stay out of sight and off the paper.
func (b *Book) Hidden() []*cells.Sheet {
	if !b.answers() {
		return nil
	}
	return []*cells.Sheet{b.lists, b.outcomes}
}

// first is the crop year that Front is about.
func (b *Book) first() explain.CountyRows { return b.years[0] }

// part returns the column of Outcomes that holds some parts; the first where a figure is
// the same in all outcomes.
func (b *Book) part(of []float64) float64 {
	if of == nil {
		return 1
	}
	b.parts = append(b.parts, of)
	return float64(len(b.parts) + 1)
}

// rounded is the text of a formula that rounds as the law does, to decimals that are
// themselves a formula.
func rounded(decimals, text string) string {
	return fmt.Sprintf("ROUND(%s*%s,%s)", text, cells.LiftName, decimals)
}

// olympic is the text of an average without one highest and one lowest; ? is the range.
const olympic = "(SUM(?)-MIN(?)-MAX(?))/3"

// cent is the text of a formula rounded to the cent.
func cent(text string) string { return rounded("2", text) }

// fine are the decimals of a reference price, which can be more than those of a price.
func fine(t program.Terms) int { return max(t.PriceDecimals, t.RateDecimals) }

// formula is a cell with a formula in a look.
func formula(l cells.Look, text string) cells.Cell { return cells.Cell{Formula: text, Look: l} }

// fixed is a number that other sheets need.
func fixed(x float64) cells.Cell { return cells.Cell{Value: x, Look: cells.Look{Format: "General"}} }

// Formats of numbers whose decimals depend on the crop.
const (
	priceFormat = "#,##0.00##"
	yieldFormat = "#,##0.00"
	roomMoney   = "[>=1000]#,##0;0.00"
	roomFormat  = "[>=1000]#,##0;0.00##" // of Front: large figures without decimals
)

// practiceWord says the practice where the county has two.
func practiceWord(p farm.Practice) string {
	if p == farm.AllPractices {
		return ""
	}
	return string(p)
}
