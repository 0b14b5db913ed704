package front

import (
	"fmt"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/program/crop"
	"fencerow/sim/explain"
)

// Sizes of type on Front, in points: read from the back of a room.
const (
	titleSize, figureSize, largeSize, wordSize, smallSize = 20, 18, 22, 14, 12
)

// Rows of Front.
const (
	titleRow = iota + 1
	countyRow
	cropRow
	inputHeads
	priceRow
	yieldRow
	plcYieldRow
	messageRow
	resultHeads
	plcRow
	arcRow
	neitherRow
	runRow
	legendRow
	cautionRow
)

// heights are those of the rows of Front, in points: in all no more than a window of
// 1280 by 720 pixels shows below the ribbon.
var heights = map[int]float64{
	titleRow: 28, countyRow: 24, cropRow: 24, inputHeads: 17, priceRow: 25, yieldRow: 25, plcYieldRow: 25, messageRow: 17,
	resultHeads: 33, plcRow: 29, arcRow: 29, neitherRow: 24, runRow: 17, legendRow: 17, cautionRow: 17,
}

// layFront lays out the sheet that the workbook opens on.
func (b *Book) layFront() {
	s := b.Front
	s.Paper.High, s.Paper.Center, s.Paper.Columns = 1, true, chartColumn+7
	s.Screen = cells.Screen{Bare: true, Opens: true, Heights: heights, Size: smallSize}
	s.Set(1, titleRow, cells.Words(cells.Look{Bold: true, Size: titleSize}, fmt.Sprintf("PLC and ARC-CO for crop year %d", b.first().CropYear)))
	b.layChoice()
	b.layTyped()
	b.layPaid()
	b.layNotes()
	s.Charts = append(s.Charts, b.chart())
}

// layChoice lays out the two drop-downs, on the first row that has all figures.
func (b *Book) layChoice() {
	rows := b.first().Rows
	row := rows[slices.IndexFunc(rows, func(r explain.CountyRow) bool { return r.Paid != nil })]
	shown := cropShown(row.Commodity, practiceWord(row.Practice.Practice))
	for _, one := range []struct {
		row                    int
		words, at, name, lists string
		text                   string
	}{
		{countyRow, "County", shownCounties(rows)[row.County], "county_chosen", "listed_counties", "Take a county from the list. To add one, fill in an empty row of the sheet Counties."},
		{cropRow, "Crop", shown, "crop_chosen", "listed_crops", "Take a crop from the list: it has the crops of this county."},
	} {
		b.Front.Set(1, one.row, words(wordSize, one.words))
		look := cells.Look{Size: figureSize, Bold: true, Input: true}
		at := b.Front.Set(2, one.row, cells.Cell{Value: one.at, Look: look, Check: &cells.Check{List: one.lists, Title: "Not in the list", Text: one.text}})
		for column := 3; column <= 6; column++ {
			b.Front.Set(column, one.row, cells.Cell{Look: look, Check: &cells.Check{Any: true}})
		}
		b.Front.Merge(one.row, 2, 6)
		b.Front.Name(at, one.name)
	}
}

// layTyped lays out the price and the two yields: at the start, typed, and used.
func (b *Book) layTyped() {
	s := b.Front
	for column, text := range []string{"", "at the start", "type here", "used", "and where it is from"} {
		s.Set(column+1, inputHeads, cells.Words(cells.Look{Size: smallSize, Center: column > 0}, text))
	}
	s.Merge(inputHeads, 5, 6)
	for _, one := range []struct {
		row                             int
		words, unit, name, used, format string
		status                          string
	}{
		{priceRow, "National price", "price_unit", "price", "national_price", roomFormat, "price_status"},
		{yieldRow, "County yield", "yield_unit", "county_yield", "county_yield", roomFormat, "yield_status"},
		{plcYieldRow, "PLC yield", "yield_unit", "plc_yield", "plc_yield", roomFormat, ""},
	} {
		figure := cells.Look{Size: figureSize, Format: one.format}
		s.Set(1, one.row, formula(cells.Look{Size: wordSize}, "\""+one.words+", \"&"+one.unit))
		s.Set(2, one.row, formula(figure, orNone(one.name+"_at_start")))
		typed := figure
		typed.Input = true
		at := s.Set(3, one.row, cells.Cell{Look: typed, Check: &cells.Check{Least: one.name + "_least", Most: one.name + "_most", Title: one.words + " not possible",
			Text:   "This is no " + one.words + " of the crop chosen. The range stands below. Type a figure in the unit at the left, or clear the cell.",
			Prompt: "Type a figure to use in place of the sheet's. Clear it to go back, and when you change the crop."}})
		s.Name(at, one.name+"_typed")
		figure.Bold = true
		s.Set(4, one.row, formula(figure, orNone(one.used)))
		sheets := "\"the sheet's\""
		if one.status != "" {
			sheets = "\"sheet: \"&" + one.status
		}
		from := fmt.Sprintf("IF(%s_from=\"sheet\",%s,IF(%s_from=\"refused\",\"REFUSED, not used\",IF(%s_from=\"far\",\"typed: of this crop?\",\"typed by you\")))", one.name, sheets, one.name, one.name)
		s.Set(5, one.row, formula(cells.Look{Size: smallSize}, orNone(from)))
		s.Merge(one.row, 5, 6)
	}
	s.Set(1, messageRow, formula(cells.Look{Size: smallSize, Bold: true}, message()))
	s.Merge(messageRow, 1, 6)
}

// orNone is a formula that shows nothing where no row is chosen.
func orNone(text string) string { return "IF(chosen_row=0,\"\"," + text + ")" }

// message says the first of what is wrong with the choice or with what is typed, else
// what can be typed.
func message() string {
	between := func(name string, decimals string) string {
		return "FIXED(" + name + "_least," + decimals + ",1)&\" to \"&FIXED(" + name + "_most," + decimals + ",1)"
	}
	text := "IF(chosen_row=0,\"No row for \"&crop_chosen&\" in \"&county_chosen&\": take a crop from its list.\","
	inputs := []struct{ name, words, decimals string }{{"price", "price", "price_decimals"}, {"county_yield", "county yield", "0"}, {"plc_yield", "PLC yield", "0"}}
	closing := ")"
	for _, one := range inputs {
		text += "IF(" + one.name + "_from=\"refused\",\"The typed " + one.words + " is refused: it must be \"&" + between(one.name, one.decimals) + "&\". The sheet's is used.\","
		closing += ")"
	}
	for _, one := range inputs {
		text += "IF(" + one.name + "_from=\"far\",\"The typed " + one.words + " is far from the sheet's: is it of this crop?\","
		closing += ")"
	}
	return text + "\"Possible: price \"&" + between("price", "price_decimals") + "&\", county yield \"&" + between("county_yield", "0") + "&\", PLC yield \"&" + between("plc_yield", "0") + closing
}

// layPaid lays out what both programs pay and how often.
func (b *Book) layPaid() {
	s := b.Front
	for i, text := range []string{"dollars per base acre", "at these figures", "on average", "8 in 10: from", "to", "pays more, of 100"} {
		s.Set(i+1, resultHeads, cells.Words(cells.Look{Size: smallSize, Wrap: true, Under: true}, text))
	}
	for _, one := range []struct {
		row  int
		name string
		of   []string
	}{
		{plcRow, "PLC", []string{"plc_pays", "plc_average", "plc_low", "plc_high", "plc_more"}},
		{arcRow, "ARC-CO", []string{"arc_co_pays", "arc_co_average", "arc_co_low", "arc_co_high", "arc_co_more"}},
	} {
		s.Set(1, one.row, cells.Words(cells.Look{Size: largeSize, Bold: true, Blue: one.row == arcRow}, one.name))
		for i, name := range one.of {
			look := cells.Look{Size: figureSize, Format: roomMoney, Bold: i == 0}
			if i == len(one.of)-1 {
				look.Size, look.Format, look.Bold = largeSize, "0", true
			}
			s.Set(2+i, one.row, formula(look, orNone(name)))
		}
	}
	s.Set(1, neitherRow, formula(cells.Look{Size: wordSize}, "IF(same_paid>0,\"Neither, or the same\",\"Neither pays\")"))
	ahead := "IF(ROUND(arc_co_average-plc_average,2)>0,\"ARC-CO averages $\"&FIXED(arc_co_average-plc_average,2,1)&\" more\",IF(ROUND(plc_average-arc_co_average,2)>0,\"PLC averages $\"&FIXED(plc_average-arc_co_average,2,1)&\" more\",\"both average the same\"))"
	s.Set(2, neitherRow, formula(cells.Look{Size: wordSize, Center: true}, orNone(ahead)))
	s.Merge(neitherRow, 2, 5)
	s.Set(6, neitherRow, formula(cells.Look{Size: largeSize, Bold: true, Format: "0"}, orNone("100-ROUND(arc_co_more,0)-ROUND(plc_more,0)")))
}

// layNotes says how many outcomes there are, what can be typed in, and whether the checks
// hold.
func (b *Book) layNotes() {
	s, year := b.Front, b.first()
	small := cells.Look{Size: smallSize}
	all := "the printed sheets use the same."
	if year.All != year.Outcomes {
		all = fmt.Sprintf("the printed sheets use all %s.", wording.Grouped(float64(year.All), 0))
	}
	s.Set(1, runRow, cells.Words(small, fmt.Sprintf("From %s outcomes; %s Checks:", wording.Grouped(float64(year.Outcomes), 0), all)))
	s.Merge(runRow, 1, 4)
	s.Set(5, runRow, formula(cells.Look{Size: smallSize, Bold: true}, "all_checks"))
	s.Merge(runRow, 5, 6)
	s.Marks = append(s.Marks, cells.Between(cells.At(s, 5, runRow), cells.At(s, 5, runRow)))
	s.Set(1, legendRow, cells.Words(small, "Type in bordered cells. Dotted cells of other sheets are law, the rest formulas."))
	s.Merge(legendRow, 1, 6)
	s.Set(1, cautionRow, cells.Words(small, "Estimates, not a promise of payment and not advice."))
	s.Merge(cautionRow, 1, 6)
}

func words(size float64, text string) cells.Cell {
	return cells.Words(cells.Look{Size: size}, text)
}

// cropShown is a crop with its practice as the list of Front has it.
func cropShown(c crop.Commodity, practice string) string {
	if practice == "" {
		return c.Name()
	}
	return c.Name() + ", " + practice
}
