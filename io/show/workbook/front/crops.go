package front

import (
	"fmt"
	"strings"

	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// Columns of Crops. What stands after the printed ones is for the other sheets.
const (
	cropName = iota + 1
	cropUnit
	cropPrice
	cropPast
	_
	_
	_
	cropPastLast
	cropPastYears
	cropStatus
	cropReference
	cropLoan
	cropAverage
	cropEffective
	cropBenchmark
	cropHigher
	cropRate
	cropMost
	cropAverageShare
	cropLimit
	cropGuaranteeShare
	cropMaximumShare
	cropPaymentShare
	cropPriceDecimals
	cropFineDecimals
	cropRateDecimals
	cropYieldDecimals
	cropBenchmarkDecimals
	cropLeastPrice
	cropMostPrice
	cropLeastHarvest
	cropLeastYield
	cropMostYield
	cropPriceParts
	cropTargetParts
	cropBenchmarkParts
	cropYieldUnit
	cropReferenceFrom
	cropLoanFrom
	cropPriceFrom
	cropPriceStatus
)

var cropWidths = []float64{19, 8, 9, 8, 8, 8, 8, 8, 12, 12, 10, 8, 9, 10, 10, 10, 8, 8, 9, 9, 11, 11, 9, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 10, 40, 40, 40, 12}

var cropTitles = []string{
	"crop", "unit", "sheet's price", "past price 1, oldest", "past price 2", "past price 3", "past price 4", "past price 5", "of crop years", "price is", "reference price",
	"loan rate", "average of middle three", "effective reference price", "benchmark price", "higher of price and loan rate", "PLC rate", "highest PLC rate", "part of the average",
	"limit, of reference price", "guarantee, of benchmark", "the most ARC-CO pays, of benchmark", "acres paid, of base",
	"decimals: price", "reference price", "PLC rate", "yield", "benchmark price", "price from", "price to", "county yield from", "other yields from", "yields to", "outcomes: price", "effective reference price", "benchmark price",
	"yields in", "reference price from", "loan rate from", "price from", "price alone is",
}

// layCrops lays out one row for each crop of each crop year.
func (b *Book) layCrops() {
	s := b.Crops
	s.Paper.Columns, s.Paper.High = cropPaymentShare, 1
	s.Shown, s.Beside = cropPaymentShare, cropName
	s.Line(cells.Look{Title: true}, "Crops: national prices, and what the law makes of them")
	s.Line(cells.Look{}, "Bordered cells can be typed in. Gray cells are figures of the law. All else is a formula. Prices are in dollars per unit; a price typed on Front stays there.")
	for i, year := range b.years {
		s.Gap()
		s.Line(cells.Look{Bold: true}, fmt.Sprintf("Crop year %d", year.CropYear))
		s.Heads(cropTitles...)
		heads := len(s.Rows)
		at := block{firstCrop: len(s.Rows) + 1, lastCrop: len(s.Rows) + len(year.Crops)}
		for _, row := range year.Crops {
			b.layCrop(CropKey{row.Working.Commodity, year.CropYear}, row, i == 0)
		}
		b.blocks = append(b.blocks, at)
		if i == 0 {
			s.Frozen = heads
		}
	}
	s.Gap()
	s.Add(cells.Figure(cells.LiftFormat, program.Lift), cells.Plain("Rounding aid: makes a spreadsheet round an exact half up, as USDA does. Leave as is."))
	s.Name(s.Last(1), cells.LiftName)
}

func (b *Book) layCrop(key CropKey, row explain.CropRow, first bool) {
	s, w := b.Crops, row.Working
	terms := w.Terms
	p := b.cropInputs(key, w)
	r := len(s.Rows)
	here := func(column int) cells.Place {
		if !s.Rows[r-1][column-1].Number() {
			return cells.Place{}
		}
		return cells.At(s, column, r)
	}
	shares := []struct {
		column int
		x      float64
	}{{cropAverageShare, terms.AverageShare}, {cropLimit, terms.EffectiveLimit}, {cropGuaranteeShare, terms.GuaranteeShare}, {cropMaximumShare, terms.MaximumShare}, {cropPaymentShare, terms.PaymentAcreShare}}
	for _, share := range shares {
		s.Set(share.column, r, cells.Cell{Value: share.x, Look: cells.Look{Format: cells.ShareFormat, Law: true}})
	}
	law := cells.Look{Format: priceFormat, Law: true}
	reference := s.Set(cropReference, r, cells.Cell{Value: terms.ReferencePrice, Look: law})
	p.LoanRate = s.Set(cropLoan, r, cells.Cell{Value: terms.LoanRate, Look: law})
	b.cropFormulas(&p, w, reference, r)
	p.PaymentAcreShare = here(cropPaymentShare)
	b.Prices[key] = p
	b.cropTechnical(row, r, first)
	s.Name(p.Effective, "effective_reference_price", key.Commodity, key.CropYear)
	s.Name(p.Benchmark, "benchmark_price", key.Commodity, key.CropYear)
	s.Name(p.PLCRate, "plc_rate", key.Commodity, key.CropYear)
	s.Name(reference, "reference_price", key.Commodity, key.CropYear)
	s.Name(p.LoanRate, "loan_rate", key.Commodity, key.CropYear)
}

// cropInputs appends the row with what can be typed in.
func (b *Book) cropInputs(key CropKey, w explain.Working) (p CropPlaces) {
	s, c := b.Crops, w.Commodity
	check := priceCheck(c)
	price := cells.Plain(cells.Unknown)
	if w.Price != nil {
		price = cells.Input(priceFormat, w.Price.Value)
		price.Check = check
	}
	s.Add(cells.Plain(c.Name()), cells.Plain(c.Unit().Price()), price)
	r := len(s.Rows)
	p.Price = s.Last(cropPrice)
	s.Name(p.Price, "price", c, key.CropYear)
	var statuses []crop.Status
	for i, past := range w.History {
		one := cells.Plain(cells.Unknown)
		if past.Status != "" {
			statuses = append(statuses, past.Status)
			if at := b.pastPrice(c, past.CropYear); at.Known() {
				one = s.Same(priceFormat, at)
			} else {
				one = cells.Input(priceFormat, past.Value)
				one.Check = check
			}
		}
		at := s.Set(cropPast+i, r, one)
		if !one.Number() {
			at = cells.Place{}
		} else if one.Look.Input {
			s.Name(at, "past_price", c, past.CropYear)
		}
		p.Past = p.Past.With(i == 0, at)
	}
	s.Set(cropPastYears, r, cells.Plain(fmt.Sprintf("%d-%d", w.History[0].CropYear, w.History[4].CropYear)))
	status := ""
	if w.Price != nil {
		status = string(w.Price.Status)
	}
	s.Set(cropPriceStatus, r, cells.Plain(status))
	if past := crop.Weakest(statuses...); past.Marked() && string(past) != status {
		status = strings.TrimPrefix(status+"; past: "+string(past), "; ")
	}
	s.Set(cropStatus, r, cells.Plain(status))
	return p
}

// pastPrice is where a past price stands for the first time.
func (b *Book) pastPrice(c crop.Commodity, y crop.CropYear) cells.Place {
	return b.Crops.Names[cells.NameOf("past_price", c, y)]
}

// cropFormulas fills in what the law makes of the prices.
func (b *Book) cropFormulas(p *CropPlaces, w explain.Working, reference cells.Place, r int) {
	s, terms := b.Crops, w.Terms
	decimals := fmt.Sprint(terms.PriceDecimals)
	set := func(column int, text string, of ...cells.Reference) cells.Place {
		c := s.Calc(priceFormat, text, of...)
		at := s.Set(column, r, c)
		if !c.Number() {
			return cells.Place{}
		}
		return at
	}
	average := set(cropAverage, olympic, p.Past, p.Past, p.Past)
	switch {
	case w.Target == nil:
		s.Set(cropEffective, r, cells.Plain(cells.Unknown))
	case terms.HasEffective:
		share, limit := cells.At(s, cropAverageShare, r), cells.At(s, cropLimit, r)
		p.Effective = set(cropEffective, rounded(decimals, "MIN("+rounded(decimals, "?*?")+",MAX(?,"+rounded(decimals, "?*?")+"))"), limit, reference, reference, share, average)
	default:
		p.Effective = set(cropEffective, "?", reference)
	}
	p.Benchmark = b.benchmarkPrice(p, w, r)
	p.Higher = set(cropHigher, "MAX(?,?)", p.Price, p.LoanRate)
	rate := rounded(fmt.Sprint(terms.RateDecimals), "MAX(0,?-?)")
	p.PLCRate = set(cropRate, rate, p.Effective, p.Higher)
	p.PLCMost = set(cropMost, rate, p.Effective, p.LoanRate)
}

// benchmarkPrice is the average of the past prices, each raised to the effective
// reference price, without one highest and one lowest.
func (b *Book) benchmarkPrice(p *CropPlaces, w explain.Working, r int) cells.Place {
	s := b.Crops
	if !p.Past.Known() || !p.Effective.Known() {
		s.Set(cropBenchmark, r, cells.Plain(cells.Unknown))
		return cells.Place{}
	}
	var of []cells.Reference
	for i := range w.History {
		of = append(of, cells.At(s, cropPast+i, r), p.Effective)
	}
	of = append(of, p.Past, p.Effective, p.Past, p.Effective)
	text := "(" + strings.Repeat("+MAX(?,?)", len(w.History))[1:] + "-MAX(MIN(?),?)-MAX(?,?))/3"
	return s.Set(cropBenchmark, r, s.Calc(priceFormat, rounded(fmt.Sprint(w.Terms.BenchmarkDecimals), text), of...))
}

// cropTechnical fills in what the other sheets need.
func (b *Book) cropTechnical(row explain.CropRow, r int, first bool) {
	s, c, terms := b.Crops, row.Working.Commodity, row.Working.Terms
	least, most := farm.PriceBounds(c)
	harvest, mostYield := farm.YieldBounds(c, farm.Harvested)
	usual, _ := farm.YieldBounds(c, farm.Usual)
	numbers := []float64{float64(terms.PriceDecimals), float64(fine(terms)), float64(terms.RateDecimals), float64(terms.YieldDecimals), float64(terms.BenchmarkDecimals), least, most, harvest, usual, mostYield}
	if first {
		numbers = append(numbers, b.part(row.PriceParts), b.part(row.TargetParts), b.part(row.BenchmarkParts))
	}
	for i, x := range numbers {
		s.Set(cropPriceDecimals+i, r, fixed(x))
	}
	source := ""
	if row.Working.Price != nil {
		source = row.Working.Price.Source
	}
	for i, text := range []string{c.Unit().Yield(), terms.Rows[program.StepReferencePrice.Name].Citation(), terms.Rows[program.StepLoanRate.Name].Citation(), source} {
		s.Set(cropYieldUnit+i, r, cells.Plain(text))
	}
}

// priceCheck lets only plausible prices of a crop be typed in.
func priceCheck(c crop.Commodity) *cells.Check {
	least, most := farm.PriceBounds(c)
	const cents, fine = 2, 4
	decimals := cents
	if least < 1 {
		decimals = fine
	}
	return &cells.Check{Least: least, Most: most, Title: "Not a price of " + c.Name(),
		Text: fmt.Sprintf("A price of %s lies between %s and %s %s. Type one in that unit.", c.Name(), program.Text(least, decimals), program.Text(most, decimals), c.Unit().Price())}
}

// yieldCheck lets only plausible yields of a crop be typed in.
func yieldCheck(c crop.Commodity, kind farm.YieldKind) *cells.Check {
	least, most := farm.YieldBounds(c, kind)
	return &cells.Check{Least: least, Most: most, Title: "Not a yield of " + c.Name(),
		Text: fmt.Sprintf("A yield of %s lies between %s and %s %s. Type one in that unit.", c.Name(), program.Text(least, 0), program.Text(most, 0), c.Unit().Yield())}
}

// cropColumn is a column of Crops in the first crop year, for formulas that look a crop up.
func (b *Book) cropColumn(column int) string {
	return cells.Columns(b.Crops, column, b.blocks[0].firstCrop, b.blocks[0].lastCrop)
}
