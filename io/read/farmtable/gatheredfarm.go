package farmtable

import (
	"fmt"
	"maps"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// gatheredFarm is a farm that is being put together.
type gatheredFarm struct {
	*gathering
	farm  farm.Farm
	first Row
	said  sayings
	bases map[place]*gatheredBase
	order []*gatheredBase

	values  []string // of the row being taken
	insured []int    // lines of the entries of farm.Insurance
}

// agrees notes what a row says in a column, and refuses what contradicts an
// earlier row. news is true where it is said for the first time; a blank says
// nothing.
func (f *gatheredFarm) agrees(row Row, about fact, what string) (news bool) {
	text := f.values[about.column]
	if text == "" {
		return false
	}
	earlier, known := f.said.of(about)
	if !known {
		f.said.put(about, saying{text, row.Line})
		return true
	}
	if earlier.text != text {
		f.refuse(row, about.column, fmt.Sprintf("%s of %s is %s, and %s on line %d", columns[about.column].name, what, text, earlier.text, earlier.line), "write it alike in every row, or once")
	}
	return false
}

// take adds a row to the farm.
func (f *gatheredFarm) take(row Row) {
	if f.values == nil {
		f.values = make([]string, farmColumnCount)
	}
	row.putValues(f.values)
	if base, fits := f.baseOf(row); fits {
		f.takeBase(row, base)
		f.takeFarm(row)
		f.takeDecided(row)
		f.takeInsured(row)
	}
}

// takeFarm takes what a row says of the whole farm.
func (f *gatheredFarm) takeFarm(row Row) {
	name := "farm " + row.Farm
	news := func(c column) bool { return f.agrees(row, fact{column: c}, name) }
	newsOfYear := func(c column) bool { return f.agrees(row, fact{column: c, year: row.CropYear}, name) }
	if newsOfYear(contractColumn) {
		takeYear(&f.farm.Contract, row.CropYear, row.Contract)
	}
	if newsOfYear(staxColumn) {
		f.takeSTAX(row.CropYear, *row.STAXBought)
	}
	if f.agrees(row, fact{column: electionColumn, commodity: row.Commodity}, row.Commodity.Name()+" on "+name) {
		f.farm.Record[row.Commodity] = row.Election
	}
	if news(leaseColumn) {
		f.farm.Lease = row.Lease
	}
	if news(totalAcresColumn) {
		f.farm.TotalAcres = row.TotalAcres
	}
	if news(croplandColumn) {
		f.farm.Cropland = row.Cropland
	}
	if news(unassignedColumn) {
		f.farm.Unassigned = *row.Unassigned
	}
	if news(idleColumn) {
		f.farm.Idle20092017 = *row.Idle20092017
	}
	if news(mergeWithColumn) {
		f.farm.MergeWith = row.MergeWith
	}
}

// takeYear notes a value for its crop year, or for every year where the row
// names none.
func takeYear[T any](into *farm.ByCropYear[T], year crop.CropYear, value T) {
	if year == 0 {
		into.Every = &value
		return
	}
	if into.Year == nil {
		into.Year = map[crop.CropYear]T{}
	}
	into.Year[year] = value
}

// takeSTAX notes the answer for its crop year, or for every year of the law.
func (f *gatheredFarm) takeSTAX(year crop.CropYear, bought bool) {
	if f.farm.STAXBought == nil {
		f.farm.STAXBought = map[crop.CropYear]bool{}
	}
	span := farm.ProgramYears()
	if year != 0 {
		span = farm.Span{First: year, Last: year}
	}
	for y := span.First; y <= span.Last; y++ {
		f.farm.STAXBought[y] = bought
	}
}

// finish checks what needs all rows of the farm, and hands its bases over.
func (f *gatheredFarm) finish() {
	if total, cropland := f.farm.TotalAcres, f.farm.Cropland; total != nil && cropland != nil && *cropland > *total {
		row := f.first
		row.Line, row.Cropland = f.said.lineOf(fact{column: croplandColumn}), cropland
		f.refuse(row, croplandColumn, fmt.Sprintf("cropland of farm %s is %s, more than its total_acres %s", row.Farm, show(*cropland), show(*total)), "copy both from the FSA farm record")
	}
	f.refuseMixedRecord()
	f.refuseMissingYears()
	for _, b := range f.order {
		f.finishShares(b)
		f.farm.Bases = append(f.farm.Bases, b.base)
	}
	f.shareAlike()
	f.refuseChoice()
}

// refuseMixedRecord refuses ARC-IC beside another program: it stands for every
// commodity of a farm or for none.
func (f *gatheredFarm) refuseMixedRecord() {
	individual, line := 0, 0
	for c, program := range f.farm.Record {
		if program == farm.ARCIC {
			individual++
			line = max(line, f.said.lineOf(fact{column: electionColumn, commodity: c}))
		}
	}
	if individual > 0 && individual < len(f.farm.Record) {
		row := f.first
		row.Line, row.Election = line, farm.ARCIC
		f.refuse(row, electionColumn, "election_on_record of farm "+row.Farm+" mixes ARC-IC with other programs", "ARC-IC is elected for all covered crops of a farm: write it for each, or for none")
	}
}

// refuseMissingYears refuses a base or producer that stands for some of the crop
// years of the operation only, which are asked about together.
func (f *gatheredFarm) refuseMissingYears() {
	if f.broken[f.farm.Key()] {
		return // the row that is missing may be one that was refused
	}
	for _, b := range f.order {
		for _, s := range b.shares {
			if maps.Equal(s.years, f.years) {
				continue
			}
			for year := range f.years {
				if !s.years[year] {
					f.refuse(s.row, cropYearColumn, fmt.Sprintf("%s of farm %s has no row for crop year %s of its operation", b.base.Commodity.Name(), f.farm.Number, yearWords(year)), "repeat the row for each crop year, leave crop_year blank in all rows, or make two operations of it")
					break
				}
			}
		}
	}
}

func yearWords(year crop.CropYear) string {
	if year == 0 {
		return "\"\" (other rows leave it blank)"
	}
	return fmt.Sprint(year)
}
