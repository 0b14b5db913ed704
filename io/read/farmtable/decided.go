package farmtable

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// readDecided reads what was chosen and who signed. Both are of a crop year.
func (r *rowReader) readDecided() {
	r.row.Choice = word(r, choiceColumn, spelling.Program, "write PLC, ARC-CO or ARC-IC, or leave it blank")
	r.row.Signed = r.signature()
	for c, typed := range map[column]bool{choiceColumn: r.row.Choice != "", signedColumn: r.row.Signed.Signed != farm.Unknown} {
		if text := r.cells[cropYearColumn]; typed && r.row.CropYear == 0 && (text == "" || isDash(text)) && !r.spoiled[cropYearColumn] {
			r.refuse(c, fmt.Sprintf("%s is %q, and the row has no crop_year", columns[c].name, r.cells[c]), "write the crop year that was decided, such as 2026, into a column crop_year")
		}
	}
}

// signature reads a day, or yes, no or unknown.
func (r *rowReader) signature() (s farm.Signature) {
	text := r.cells[signedColumn]
	if text == "" || isDash(text) {
		return s
	}
	if day, err := time.Parse(time.DateOnly, text); err == nil {
		return farm.Signature{Signed: farm.Yes, On: day.Format(time.DateOnly)}
	}
	noted, ok := spelling.Noted(text)
	if !ok {
		r.refuse(signedColumn, fmt.Sprintf("signed is %q", text), "write the day as 2026-11-20, or yes, no or unknown")
		return s
	}
	return farm.Signature{Signed: noted}
}

// takeDecided takes what a row says of a choice and of a signature.
func (f *gatheredFarm) takeDecided(row Row) {
	name := fmt.Sprintf("farm %s for %d", row.Farm, row.CropYear)
	if f.agrees(row, fact{column: choiceColumn, commodity: row.Commodity, year: row.CropYear}, row.Commodity.Name()+" on "+name) {
		of := f.farm.Choice[row.CropYear]
		if of == nil {
			of = map[crop.Commodity]farm.Program{}
		}
		of[row.Commodity] = row.Choice
		if f.farm.Choice == nil {
			f.farm.Choice = map[crop.CropYear]map[crop.Commodity]farm.Program{}
		}
		f.farm.Choice[row.CropYear] = of
	}
	if f.agrees(row, fact{column: signedColumn, producer: row.Producer, year: row.CropYear}, name) {
		id := row.Producer
		if id == "" {
			id = farm.SoleProducer
		}
		of := f.farm.Signed[row.CropYear]
		if of == nil {
			of = map[string]farm.Signature{}
		}
		of[id] = row.Signed
		if f.farm.Signed == nil {
			f.farm.Signed = map[crop.CropYear]map[string]farm.Signature{}
		}
		f.farm.Signed[row.CropYear] = of
	}
}

// refuseChoice refuses choices that the farm cannot make, once all its bases are known.
func (f *gatheredFarm) refuseChoice() {
	if f.broken[f.farm.Key()] {
		return // the row that is missing may be one that was refused
	}
	for _, year := range slices.Sorted(maps.Keys(f.farm.Choice)) {
		_, fault := f.farm.CheckChoice(year)
		if fault == nil {
			continue
		}
		row := f.first
		row.Line = 0
		for c, program := range f.farm.Choice[year] {
			if line := f.said.lineOf(fact{column: choiceColumn, commodity: c, year: year}); program == farm.ARCIC && line > row.Line {
				row.Line, row.Choice = line, program
			}
		}
		f.refuse(row, choiceColumn, fault.Reason, fault.Hint)
	}
}
