package front

import (
	"fmt"

	"fencerow/io/show/workbook/cells"
	"fencerow/program"
)

const stepFigure = 2

// laySteps lays out the arithmetic of the chosen row, step by step.
func (b *Book) laySteps() {
	s := b.Steps
	s.Paper.High = 1
	s.Line(cells.Look{Title: true}, "Step by step: the row chosen on "+frontTitle)
	s.Add(formula(cells.Look{Bold: true}, fmt.Sprintf("INDEX(%s,row_used)&\", crop year %d\"", b.rowColumn(rowKey), b.first().CropYear)))
	s.Heads("step", "figure", "unit", "paragraph of law, or where it comes from", "figures are")
	s.Frozen = len(s.Rows)
	b.nationalSteps()
	b.countySteps()
}

// step appends a step and names its figure where name is given.
func (b *Book) step(of program.Step, title, format, name, text, from string) cells.Place {
	s := b.Steps
	unit := cells.Plain("share")
	switch of.Unit {
	case program.StepPrice.Unit:
		unit = formula(cells.Look{}, "price_unit")
	case program.StepPaymentYield.Unit:
		unit = formula(cells.Look{}, "yield_unit")
	case program.StepGuarantee.Unit, program.StepPLCPayment.Unit:
		unit = cells.Plain("USD/acre")
	}
	source := cells.Plain(of.Citation)
	if from != "" {
		source = formula(cells.Look{}, from)
	}
	s.Add(cells.Plain(title), formula(cells.Look{Format: format, Bold: name == "guarantee" || name == "plc_pays" || name == "arc_co_pays"}, text), unit, source)
	at := s.Last(stepFigure)
	if name != "" {
		s.Name(at, name)
	}
	return at
}

// of is the step of a figure under the title of the law's step.
func (b *Book) of(of program.Step, format, name, text string) string {
	return b.step(of, of.Title, format, name, text, "").Address()
}

func (b *Book) nationalSteps() {
	s, terms := b.Steps, b.first().Crops[0].Working.Terms
	ofCrop := func(column int) string { return "INDEX(" + b.cropColumn(column) + ",crop_used)" }
	s.Line(cells.Look{Bold: true}, "PLC, and the prices of both")
	reference := b.step(program.StepReferencePrice, program.StepReferencePrice.Title, priceFormat, "reference_price", ofCrop(cropReference), ofCrop(cropReferenceFrom)).Address()
	var first, last string
	for i, past := range b.first().Crops[0].Working.History {
		at := b.step(program.StepPastPrice, fmt.Sprint(program.StepPastPrice.Title, " ", past.CropYear), priceFormat, "", ofCrop(cropPast+i), "\""+CropsTitle+"\"").Address()
		if i == 0 {
			first = at
		}
		last = at
	}
	past := first + ":" + last
	if terms.HasEffective {
		share := b.of(program.StepAverageShare, cells.ShareFormat, "", ofCrop(cropAverageShare))
		limit := b.of(program.StepEffectiveLimit, cells.ShareFormat, "", ofCrop(cropLimit))
		average := b.of(program.StepPriceAverage, cells.ShareFormat, "", fmt.Sprintf("(SUM(%s)-MIN(%s)-MAX(%s))/3", past, past, past))
		most := b.of(program.StepMostEffective, priceFormat, "", rounded("price_decimals", limit+"*"+reference))
		part := b.of(program.StepAveragePart, priceFormat, "", rounded("price_decimals", share+"*"+average))
		b.of(program.StepEffectiveReferencePrice, priceFormat, "effective_reference_price", rounded("price_decimals", "MIN("+most+",MAX("+reference+","+part+"))"))
	} else {
		b.of(program.StepTargetIsReference, priceFormat, "effective_reference_price", reference)
	}
	b.benchmarkSteps(past)
	b.step(program.StepPrice, program.StepPrice.Title, priceFormat, "", "national_price", "IF(price_from=\"typed\",\"typed on "+frontTitle+"\",IF(price_from=\"far\",\"typed on "+frontTitle+"\","+ofCrop(cropPriceFrom)+"))")
	b.status(formula(cells.Look{}, "IF(national_price=price_at_start,price_status,\"typed\")"))
	b.step(program.StepLoanRate, program.StepLoanRate.Title, priceFormat, "loan_rate", ofCrop(cropLoan), ofCrop(cropLoanFrom))
	higher := b.of(program.StepEffectivePrice, priceFormat, "higher_price", "MAX(national_price,loan_rate)")
	b.of(program.StepPLCRate, priceFormat, "plc_rate", rounded("rate_decimals", "MAX(0,effective_reference_price-"+higher+")"))
	b.of(program.StepPLCMaximum, priceFormat, "", rounded("rate_decimals", "MAX(0,effective_reference_price-loan_rate)"))
	b.of(program.StepPaymentAcreShare, cells.ShareFormat, "payment_acre_share", ofCrop(cropPaymentShare))
	b.of(program.StepPaymentYield, yieldFormat, "", "plc_yield")
	b.step(program.StepPLCPayment, "PLC pays per base acre: rate x PLC yield x acres paid of each base acre", cells.MoneyFormat, "plc_pays", cent("plc_rate*plc_yield*payment_acre_share"), "\""+program.StepPLCPayment.Citation+"\"")
}

// status says how sure the figure of the last row is.
func (b *Book) status(c cells.Cell) { b.Steps.Set(5, len(b.Steps.Rows), c) }

// benchmarkSteps raises each past price and averages them.
func (b *Book) benchmarkSteps(past string) {
	first := ""
	for i, of := range b.first().Crops[0].Working.History {
		at := b.step(program.StepRaisedPrice, fmt.Sprint(program.StepRaisedPrice.Title, " ", of.CropYear), priceFormat, "", fmt.Sprintf("MAX(INDEX(%s,%d),effective_reference_price)", past, i+1), "").Address()
		if i == 0 {
			first = at
		}
		if i == 4 {
			raised := first + ":" + at
			b.of(program.StepBenchmarkPrice, priceFormat, "benchmark_price", rounded("benchmark_decimals", fmt.Sprintf("(SUM(%s)-MIN(%s)-MAX(%s))/3", raised, raised, raised)))
		}
	}
}

func (b *Book) countySteps() {
	s := b.Steps
	ofRow := func(column int) string { return "INDEX(" + b.rowColumn(column) + ",row_used)" }
	ofCrop := func(column int) string { return "INDEX(" + b.cropColumn(column) + ",crop_used)" }
	s.Line(cells.Look{Bold: true}, "ARC-CO")
	b.step(program.StepBenchmarkYield, program.StepBenchmarkYield.Title, yieldFormat, "benchmark_yield", ofRow(rowBenchmark), "\""+program.StepBenchmarkYield.Citation+"; the five yields stand on "+CountiesTitle+"\"")
	b.status(formula(cells.Look{}, "yield_status"))
	revenue := b.of(program.StepBenchmarkRevenue, cells.MoneyFormat, "", cent("benchmark_yield*benchmark_price"))
	b.of(program.StepGuaranteeShare, cells.ShareFormat, "guarantee_share", ofCrop(cropGuaranteeShare))
	b.of(program.StepGuarantee, cells.MoneyFormat, "guarantee", cent("guarantee_share*"+revenue))
	b.of(program.StepMaximumShare, cells.ShareFormat, "most_share", ofCrop(cropMaximumShare))
	b.step(program.StepMaximum, "the most ARC-CO pays", cells.MoneyFormat, "most_paid", cent("most_share*"+revenue), "")
	yield := b.step(program.StepActualYield, program.StepActualYield.Title, yieldFormat, "", rounded("yield_decimals", "county_yield"), "IF(county_yield=county_yield_at_start,"+ofRow(rowFrom)+",\"typed on "+frontTitle+"\")").Address()
	b.status(formula(cells.Look{}, "IF(county_yield=county_yield_at_start,yield_status,\"typed\")"))
	actual := b.of(program.StepActualRevenue, cells.MoneyFormat, "", cent(yield+"*higher_price"))
	b.of(program.StepARCCORate, cells.MoneyFormat, "arc_co_rate", "MIN(most_paid,MAX(0,"+cent("(guarantee-"+actual+")")+"))")
	b.step(program.StepARCCOPayment, "ARC-CO pays per base acre: rate x acres paid of each base acre", cells.MoneyFormat, "arc_co_pays", cent("arc_co_rate*payment_acre_share"), "\""+program.StepARCCOPayment.Citation+"\"")
}
