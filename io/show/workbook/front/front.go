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
	rangeRow
	typedRow // and below it warnings
	warningRow
	outcomeHeads
	resultHeads
	plcRow
	arcRow
	neitherRow
	mostRow
	legendRow
	_
	wordsRow // below the window: what the words mean, and the run
	runRow
)

// heights are those of the rows of Front, in points: in all no more than a window of
// 1280 by 720 pixels shows below the ribbon.
var heights = map[int]float64{
	titleRow: 24, countyRow: 22, cropRow: 22, inputHeads: 16, priceRow: 23, yieldRow: 23, plcYieldRow: 23, rangeRow: 16, typedRow: 16, warningRow: 16,
	outcomeHeads: 16, resultHeads: 32, plcRow: 28, arcRow: 28, neitherRow: 23, mostRow: 16, legendRow: 16,
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
		{countyRow, "County: click, choose", shownCounties(rows)[row.County], "county_chosen", "listed_counties", "Take a county from the list. To add one, fill in an empty row of the sheet Counties."},
		{cropRow, "Crop: click, choose", shown, "crop_chosen", "listed_crops", "Take a crop from the list: it has the crops of this county."},
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

// layTyped lays out the price and the two yields: the sheet's own, typed, and used.
func (b *Book) layTyped() {
	s := b.Front
	for column, text := range []string{"", "sheet's own", "type here", "used", "and where it is from"} {
		s.Set(column+1, inputHeads, cells.Words(cells.Look{Size: smallSize, Center: column > 0}, text))
	}
	s.Merge(inputHeads, 5, 6)
	for _, one := range []struct {
		row                             int
		words, unit, name, used, format string
		status                          string
	}{
		{priceRow, "National price", "price_unit", "price", "national_price", roomFormat, "price_status"},
		{yieldRow, "County yield", "yield_unit", "county_yield", "county_yield", roomFormat, "county_yield_status"},
		{plcYieldRow, "PLC yield", "yield_unit", "plc_yield", "plc_yield", roomFormat, ""},
	} {
		figure := cells.Look{Size: figureSize, Format: one.format}
		s.Set(1, one.row, formula(cells.Look{Size: wordSize}, "\""+one.words+", \"&"+one.unit))
		s.Set(2, one.row, formula(figure, orNone(one.name+"_at_start")))
		typed := figure
		typed.Input = true
		at := s.Set(3, one.row, cells.Cell{Look: typed, Check: &cells.Check{Least: one.name + "_least", Most: one.name + "_most", Title: one.words,
			Text: "The " + one.words + " must be within the range shown under the table, in the unit at the left. Press Delete for the sheet's own."}})
		s.Name(at, one.name+"_typed")
		figure.Bold = true
		s.Set(4, one.row, formula(figure, orNone(one.used)))
		sheets := "\"sheet's own\""
		if one.status != "" {
			sheets = "\"sheet's own: \"&" + one.status
		}
		from := fmt.Sprintf("IF(%s_from=\"sheet\",%s,IF(%s_from=\"refused\",\"REFUSED, not used\",IF(%s_from=\"far\",\"typed by you: far off\",\"typed by you\")))", one.name, sheets, one.name, one.name)
		s.Set(5, one.row, formula(cells.Look{Size: smallSize}, orNone(from)))
		s.Merge(one.row, 5, 6)
	}
	for i, text := range []string{orNone(ranges()), typedWords, warnings()} {
		row := rangeRow + i
		s.Set(1, row, formula(cells.Look{Size: smallSize, Red: i > 0, Bold: i > 0}, text))
		s.Merge(row, 1, 6)
	}
}

// orNone is a formula that shows nothing where no row is chosen.
func orNone(text string) string { return "IF(chosen_row=0,\"\"," + text + ")" }

// ranges says what can be typed.
func ranges() string {
	between := func(name string, decimals string) string {
		return "FIXED(" + name + "_least," + decimals + ",1)&\" to \"&FIXED(" + name + "_most," + decimals + ",1)"
	}
	return "\"Accepts price \"&" + between("price", "price_decimals") + "&\", county yield \"&" + between("county_yield", "0") + "&\", PLC yield \"&" + between("plc_yield", "0")
}

// typedWords says that typed figures outlast a choice, which no formula can undo; and what
// is to be chosen where there is no row.
const typedWords = "IF(chosen_row=0,IF(crop_words=\"\",\"Now choose a county from its list.\",\"Now choose the crop: \"&county_chosen&\" has\")," +
	"IF(typed_count=0,\"\",FIXED(typed_count,0,1)&IF(typed_count=1,\" figure\",\" figures\")&\" typed by you, kept for any county and crop. Delete empties a cell.\"))"

// warnings names every typed figure that is refused or far off.
func warnings() string {
	text, any := "", ""
	for _, one := range []struct{ name, words string }{{"price", "Price"}, {"county_yield", "County yield"}, {"plc_yield", "PLC yield"}} {
		text += fmt.Sprintf("&IF(%s_from=\"refused\",\" %s not used.\",IF(%s_from=\"far\",\" %s far off.\",\"\"))", one.name, one.words, one.name, one.words)
		any += fmt.Sprintf("+IF(%s_from=\"refused\",1,IF(%s_from=\"far\",1,0))", one.name, one.name)
	}
	return "IF(chosen_row=0,crop_words,IF(" + any[1:] + "=0,\"\",\"Is it of the crop chosen?\"" + text + "))"
}

// layPaid lays out what both programs pay and how often.
func (b *Book) layPaid() {
	s := b.Front
	s.Set(3, outcomeHeads, cells.Words(cells.Look{Size: smallSize, Center: true}, "over all outcomes around the figures used"))
	s.Merge(outcomeHeads, 3, 6)
	s.Set(2, outcomeHeads, cells.Words(cells.Look{Size: smallSize, Center: true}, "exactly"))
	for i, text := range []string{"dollars per base acre", "at these figures", "average", "8 of 10 outcomes between", "", "pays more, of 100"} {
		s.Set(i+1, resultHeads, cells.Words(cells.Look{Size: smallSize, Wrap: true, Under: true}, text))
	}
	s.Merge(resultHeads, 4, 5)
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

// checkWords are the verdicts of Checks in the words of Front.
const checkWords = "IF(all_checks=\"" + cells.Equal + "\",\"" + cells.Agrees + "\",IF(all_checks=\"" + cells.Changed + "\",\"not compared: you typed figures\",\"differs from the program: see " + checksTitle + "\"))"

// mostWords say that ARC-CO pays its most, and that its most is another in every outcome
// where the benchmark is not final.
const mostWords = "IF(AND(most_paid>0,arc_co_rate=most_paid),\"ARC-CO is at its most here.\"&IF(benchmark_yield_parts>1,\" That differs by outcome: the benchmark yield is projected.\"," +
	"IF(benchmark_price_parts>1,\" That differs by outcome: the benchmark price is not final.\",\"\"))," +
	"IF(benchmark_yield_parts>1,\"The benchmark yield is projected, so the most ARC-CO can pay differs by outcome.\"," +
	"IF(benchmark_price_parts>1,\"The benchmark price is not final, so the most ARC-CO can pay differs by outcome.\",\"\")))"

// layNotes says what can be typed in and whether the checks hold, and below what the
// words mean and how many outcomes there are.
func (b *Book) layNotes() {
	s, year := b.Front, b.first()
	small := cells.Look{Size: smallSize}
	s.Set(1, mostRow, formula(small, orNone(mostWords)))
	s.Merge(mostRow, 1, 6)
	s.Set(1, legendRow, cells.Words(small, "Type in bordered cells. Delete: sheet's own again."))
	s.Merge(legendRow, 1, 3)
	at := s.Set(4, legendRow, formula(cells.Look{Size: smallSize, Bold: true}, orNone(checkWords)))
	s.Merge(legendRow, 4, 6)
	s.Marks = append(s.Marks, cells.Between(at, at))
	s.Set(chartColumn, legendRow, formula(cells.Look{Size: wordSize, Bold: true}, orNone("cross_words")))
	s.Set(1, wordsRow, cells.Words(small, "PLC is Price Loss Coverage, ARC-CO is Agriculture Risk Coverage, county. Both pay on a farm's base acres of the crop."))
	all := "the printed sheets use the same."
	if year.All != year.Outcomes {
		all = fmt.Sprintf("the printed sheets use all %s.", wording.Grouped(float64(year.All), 0))
	}
	s.Set(1, runRow, cells.Words(small, fmt.Sprintf("From %s outcomes; %s", wording.Grouped(float64(year.Outcomes), 0), all)))
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
