package front

import (
	"fmt"

	"fencerow/io/show/workbook/cells"
)

// Columns of Lists: what the drop-downs show, then figures of the chosen row by name.
const (
	listCountyNumber = iota + 1
	listCounty
	listCropNumber
	listCrop
	_
	listWords
	listFigure
	_
	listChart // and the two after it
)

// layLists lays out what the drop-downs show and what Front says of the chosen row.
func (b *Book) layLists() {
	s := b.lists
	s.Paper.Hidden = true
	s.Heads("number", "counties listed", "number", "crops of the chosen county", "", "of the chosen row", "figure")
	b.dropDowns()
	row := 1
	b.each(chosenRow(b), &row)
	b.each(typedFigures(b), &row)
	b.each(ofChosenRow(b), &row)
	b.each(oddsOf(b), &row)
	b.layPoints()
}

// dropDowns lists the counties, each once, and the crops of the chosen one.
func (b *Book) dropDowns() {
	s, at := b.lists, b.blocks[0]
	n := at.lastRow - at.firstRow + 1
	numbers := func(column int) string { return cells.Columns(s, column, 2, n+1) }
	for k := 1; k <= n; k++ {
		shown := cells.At(b.Counties, rowCountyShown, at.firstRow+k-1).Absolute()
		above := func(column int) string {
			return "MAX(" + cells.At(s, column, 1).Absolute() + ":" + cells.At(s, column, k).Address() + ")"
		}
		listed := func(column, of int) string {
			return fmt.Sprintf("IF(%d>MAX(%s),\"\",INDEX(%s,MATCH(%d,%s,0)))", k, numbers(column), b.rowColumn(of), k, numbers(column))
		}
		set := func(column int, text string) { s.Set(column, k+1, formula(cells.Look{}, text)) }
		set(listCountyNumber, fmt.Sprintf("IF(%s=\"\",\"\",IF(MATCH(%s,%s,0)=%d,%s+1,\"\"))", shown, shown, b.rowColumn(rowCountyShown), k, above(listCountyNumber)))
		set(listCounty, listed(listCountyNumber, rowCountyShown))
		set(listCropNumber, fmt.Sprintf("IF(%s=\"\",\"\",IF(%s=county_chosen,%s+1,\"\"))", shown, shown, above(listCropNumber)))
		set(listCrop, listed(listCropNumber, rowCropShown))
	}
	for name, column := range map[string]int{"listed_counties": listCounty, "listed_crops": listCrop} {
		s.Lists[name] = fmt.Sprintf("OFFSET(%s,0,0,MAX(1,MAX(%s)),1)", cells.At(s, column, 2).Absolute(), numbers(column-1))
	}
}

// named is a figure or text with a name.
type named struct{ name, words, text string }

// each lays out named figures one below the other.
func (b *Book) each(all []named, row *int) {
	for _, one := range all {
		*row++
		b.lists.Set(listWords, *row, cells.Plain(one.words))
		b.lists.Name(b.lists.Set(listFigure, *row, formula(cells.Look{Format: "General"}, one.text)), one.name)
	}
}

// chosenRow finds the row that is chosen. Where there is none the figures of the first
// one hold the formulas together, and Front shows none of them.
func chosenRow(b *Book) []named {
	return []named{
		{"chosen_row", "row of Counties that is chosen; 0: none", "IFERROR(MATCH(county_chosen&\" / \"&crop_chosen," + b.rowColumn(rowKey) + ",0),0)"},
		{"row_used", "row whose figures are used", "IF(chosen_row>0,chosen_row,IFERROR(MATCH(\"yes\"," + b.rowColumn(rowListed) + ",0),1))"},
		{"crop_used", "row of Crops", "INDEX(" + b.rowColumn(rowCropAt) + ",row_used)"},
	}
}

// typedFigures are the price and the two yields used, and where each is from.
func typedFigures(b *Book) (all []named) {
	ofRow := func(column int) string { return "INDEX(" + b.rowColumn(column) + ",row_used)" }
	ofCrop := func(column int) string { return "INDEX(" + b.cropColumn(column) + ",crop_used)" }
	for _, one := range []struct{ name, words, start, least, most string }{
		{"price", "national price", ofCrop(cropPrice), ofCrop(cropLeastPrice), ofCrop(cropMostPrice)},
		{"county_yield", "county yield", ofRow(rowYield), ofCrop(cropLeastHarvest), ofCrop(cropMostYield)},
		{"plc_yield", "PLC yield", ofRow(rowPLCYield), ofCrop(cropLeastYield), ofCrop(cropMostYield)},
	} {
		typed, start, least, most, from := one.name+"_typed", one.name+"_at_start", one.name+"_least", one.name+"_most", one.name+"_from"
		used := one.name
		if used == "price" {
			used = "national_price"
		}
		inside := fmt.Sprintf("IF(%s<%s,\"refused\",IF(%s>%s,\"refused\",IF(ABS(%s-%s)>%s*%s,\"far\",\"typed\")))", typed, least, typed, most, typed, start, farOff, start)
		all = append(all,
			named{start, "the sheet's own " + one.words, one.start},
			named{least, "least that can be typed", one.least},
			named{most, "most that can be typed", one.most},
			named{from, "from: typed, far off, refused, or the sheet", fmt.Sprintf("IF(%s=\"\",\"sheet\",IF(ISNUMBER(%s),%s,\"refused\"))", typed, typed, inside)},
			named{used, one.words + " used", fmt.Sprintf("IF(%s=\"typed\",%s,IF(%s=\"far\",%s,%s))", from, typed, from, typed, start)},
		)
	}
	typed := ""
	for _, name := range []string{"price", "county_yield", "plc_yield"} {
		typed += "+IF(" + name + "_from=\"sheet\",0,1)"
	}
	return append(all, named{"typed_count", "figures typed on " + frontTitle, typed[1:]}, named{"crop_words", "crops of the chosen county", b.cropsListed()})
}

// cropsListed is the first crops of the drop-down as one text.
func (b *Book) cropsListed() string {
	const most = 4 // as many as a line of Front has room for
	text := cells.At(b.lists, listCrop, 2).Address()
	for k := 3; k <= min(most+2, b.blocks[0].lastRow-b.blocks[0].firstRow+2); k++ {
		at := cells.At(b.lists, listCrop, k).Address()
		also := at
		if k == most+2 {
			also = "\"and more\""
		}
		text += "&IF(" + at + "=\"\",\"\",\"; \"&" + also + ")"
	}
	return text
}

// farOff is how far from the sheet's figure, as a part of it, a typed one is flagged: it
// may be left over from another crop.
const farOff = "0.4"

// ofChosenRow are figures of the chosen row that have no step of their own.
func ofChosenRow(b *Book) (all []named) {
	for _, one := range []struct {
		name   string
		column int
	}{
		{"price_decimals", cropPriceDecimals}, {"fine_decimals", cropFineDecimals}, {"rate_decimals", cropRateDecimals}, {"yield_decimals", cropYieldDecimals}, {"benchmark_decimals", cropBenchmarkDecimals},
		{"price_parts", cropPriceParts}, {"reference_parts", cropTargetParts}, {"benchmark_price_parts", cropBenchmarkParts}, {"price_unit", cropUnit}, {"yield_unit", cropYieldUnit}, {"price_status", cropPriceStatus},
	} {
		all = append(all, named{one.name, "of the crop", "INDEX(" + b.cropColumn(one.column) + ",crop_used)"})
	}
	for _, one := range []struct {
		name   string
		column int
	}{{"yield_parts", rowYieldParts}, {"benchmark_yield_parts", rowBenchmarkParts}, {"yield_status", rowStatus}, {"county_yield_status", rowYieldStatus}} {
		all = append(all, named{one.name, "of the row", "INDEX(" + b.rowColumn(one.column) + ",row_used)"})
	}
	return all
}

// oddsOf are the odds of the chosen row at the figures used.
func oddsOf(b *Book) []named {
	plc, arc, who := b.outcomeColumn(outcomePLC), b.outcomeColumn(outcomeARC), b.outcomeColumn(outcomeWho)
	of100 := func(what string) string { return "100*COUNTIF(" + who + "," + what + ")/COUNT(" + who + ")" }
	return []named{
		{"plc_average", "PLC, average", "AVERAGE(" + plc + ")"},
		{"plc_low", "PLC, 1 outcome in 10 is lower", "PERCENTILE(" + plc + ",0.1)"},
		{"plc_high", "PLC, 1 outcome in 10 is higher", "PERCENTILE(" + plc + ",0.9)"},
		{"arc_co_average", "ARC-CO, average", "AVERAGE(" + arc + ")"},
		{"arc_co_low", "ARC-CO, 1 outcome in 10 is lower", "PERCENTILE(" + arc + ",0.1)"},
		{"arc_co_high", "ARC-CO, 1 outcome in 10 is higher", "PERCENTILE(" + arc + ",0.9)"},
		{"arc_co_more", "of 100 outcomes, ARC-CO pays more", of100("1")},
		{"plc_more", "of 100 outcomes, PLC pays more", of100("2")},
		{"neither_pays", "of 100 outcomes, neither pays", of100("0")},
		{"same_paid", "of 100 outcomes, both pay the same", of100("3")},
	}
}
