package explain

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// CountyRows are what a spreadsheet of crops and counties is made of, for one crop year:
// a row for each crop, a row for each county, crop and practice, and outcomes in the
// form in which other prices and yields can be put to them.
type CountyRows struct {
	CropYear crop.CropYear
	Outcomes int // in every list of parts
	All      int // outcomes of the question itself
	Crops    []CropRow
	Rows     []CountyRow
}

// CropRow is a crop in the nation. Parts hold, by outcome, a price over the one that
// Working has: nil where it is the same in all.
type CropRow struct {
	Working        Working // of one of the farms; its Bases do not count
	PriceParts     []float64
	TargetParts    []float64 // of the effective reference price
	BenchmarkParts []float64 // of the benchmark price
}

// CountyRow is a county, crop and practice. Parts hold, by outcome, a yield over the one
// that Practice has: nil where it is the same in all.
type CountyRow struct {
	County, CountyName  string
	Commodity           crop.Commodity
	Practice            WorkingPractice
	PaymentYield        *crop.Yield // average of the farms by base acres; nil: not known
	YieldParts          []float64
	BenchmarkYieldParts []float64
	Paid                *RowPaid // nil: a figure is missing
}

// RowPaid is what a row pays, USD per base acre, to the cent: at its figures, and over
// the outcomes of CountyRows. Chances are shares of the outcomes.
type RowPaid struct {
	PLC, ARCCO         RowProgram
	ARCCOMore, PLCMore float64
	Neither            float64
}

// RowProgram is one program: at the price and county yield of the row, on average, and
// the figures that 1 outcome in 10 is below and above.
type RowProgram struct{ AtFigures, Average, Low, High crop.Money }

// rowOutcomes is how many outcomes a spreadsheet holds, at least: enough for chances to
// half a part in a hundred, few enough for a file of a hundred rows.
const rowOutcomes = 1024

// partDecimals are those of parts: a price or yield times its part, rounded as the law
// rounds, is what was drawn.
const partDecimals = 8

// CountyRowsOf returns the rows of the bases of a question in a crop year. Outcomes are
// the question's own with its seed, drawn at rowOutcomes. An error means that the law or
// the correlations do not allow it.
func CountyRowsOf(c answer.Question, y crop.CropYear) (CountyRows, error) {
	out := CountyRows{CropYear: y, All: odds.NewScenarios(c.Seed, c.Draws).N()}
	c.Draws, c.Brief = min(out.All, rowOutcomes), true
	run, err := compare.NewYearRun(c, y)
	if err != nil {
		return out, err
	}
	out.Outcomes = run.Year.Size.N()
	made := rowMaker{question: c, YearRun: run, out: &out, bases: map[position.CountyUnit]*sharedUnit{}}
	for _, f := range c.Operation.Farms {
		bases, err := c.Sources().CommodityBases(f, y)
		if err != nil {
			return out, fmt.Errorf("crop year %d: %w", y, err)
		}
		for _, base := range bases {
			made.crop(base)
			made.count(base)
		}
	}
	for _, u := range made.order {
		if err := made.row(made.bases[u]); err != nil {
			return out, err
		}
	}
	return out, nil
}

// Join appends the rows of other counties on the same outcomes.
func (r *CountyRows) Join(more CountyRows) {
	if len(r.Crops)+len(r.Rows) == 0 {
		*r = more
		return
	}
	for _, one := range more.Crops {
		if !slices.ContainsFunc(r.Crops, func(has CropRow) bool { return has.Working.Commodity == one.Working.Commodity }) {
			r.Crops = append(r.Crops, one)
		}
	}
	r.Rows = append(r.Rows, more.Rows...)
}

// rowMaker makes the rows of one crop year.
type rowMaker struct {
	question answer.Question
	*compare.YearRun
	out   *CountyRows
	bases map[position.CountyUnit]*sharedUnit
	order []position.CountyUnit
}

// sharedUnit is a county, crop and practice with the PLC yields of the bases on it.
type sharedUnit struct {
	name         string
	unit         position.Practice
	base         *position.CommodityBase
	acres, yield float64 // base acres with a PLC yield; acres times PLC yield
}

// crop adds the row of a crop that has none yet.
func (m *rowMaker) crop(base *position.CommodityBase) {
	if slices.ContainsFunc(m.out.Crops, func(r CropRow) bool { return r.Working.Commodity == base.Commodity }) {
		return
	}
	row, n := CropRow{Working: workingOf(m.question, base, m.Year.CropYear)}, base.National
	if price, ok := m.Year.Price(base.Commodity, m.Year.CropYear, n.Terms.PriceDecimals); ok {
		row.PriceParts = partsOf(m.Year.Prices(base.Commodity, price), row.Working.Price.Value)
		row.TargetParts = partsOf(m.Year.Targets(n), n.Target.Value)
		row.BenchmarkParts = partsOf(m.Year.BenchmarkPrices(n), n.BenchmarkPrice.Value)
	}
	m.out.Crops = append(m.out.Crops, row)
}

// partsOf divides a series by a figure: nil where it is that figure in every outcome.
func partsOf(series []float64, figure float64) []float64 {
	if series == nil || figure == 0 || !slices.ContainsFunc(series, func(x float64) bool { return x != figure }) {
		return nil
	}
	parts := make([]float64, len(series))
	for i, x := range series {
		parts[i] = program.Round(x/figure, partDecimals)
	}
	return parts
}

// count notes the counties and practices of a commodity base and its PLC yields.
func (m *rowMaker) count(base *position.CommodityBase) {
	for _, b := range base.Bases {
		for _, u := range b.Practices {
			s := m.bases[u.Unit]
			if s == nil {
				s = &sharedUnit{name: b.CountyName, unit: u, base: base}
				m.bases[u.Unit], m.order = s, append(m.order, u.Unit)
			}
			if b.Record.PaymentYield != nil {
				s.acres, s.yield = s.acres+b.Record.BaseAcres, s.yield+b.Record.BaseAcres**b.Record.PaymentYield
			}
		}
	}
}

// row adds the row of a county, crop and practice.
func (m *rowMaker) row(s *sharedUnit) error {
	const yieldDecimals = 2
	u, terms := s.unit, s.base.National.Terms
	row := CountyRow{County: u.Unit.County, CountyName: s.name, Commodity: u.Unit.Commodity, Practice: workingPractice(u, terms)}
	if s.acres > 0 {
		yield := program.Round(s.yield/s.acres, yieldDecimals)
		row.PaymentYield = &yield
	}
	if usable := u.Known && u.Benchmark.Status != ""; usable {
		row.YieldParts = partsOf(m.Year.Yields(terms.YieldDecimals, u), row.Practice.CountyYield.Value)
		row.BenchmarkYieldParts = partsOf(m.Year.BenchmarkYields(u, terms.YieldDecimals), u.Benchmark.Value)
	}
	var err error
	row.Paid, err = m.paid(row)
	m.out.Rows = append(m.out.Rows, row)
	return err
}

// paid is what a row pays to base of its own, nil where a figure is missing.
func (m *rowMaker) paid(row CountyRow) (*RowPaid, error) {
	f := countyFarm(row.County, row.Commodity, row.Practice.Practice, 0)
	f.Bases[0].PaymentYield = row.PaymentYield
	bases, err := m.question.Sources().CommodityBases(f, m.Year.CropYear)
	if err != nil {
		return nil, err
	}
	base := bases[0]
	price, ok := m.Year.Price(base.Commodity, m.Year.CropYear, base.National.Terms.PriceDecimals)
	if !ok || base.PLCMissing != "" || base.ARCMissing != "" {
		return nil, nil
	}
	plc, arc := m.PerBaseAcre(base, price)
	out := &RowPaid{PLC: rowProgram(plc), ARCCO: rowProgram(arc)}
	mya, b := program.Round(price.Mean(), base.National.Terms.PriceDecimals), base.Bases[0]
	yields := make([]crop.Yield, len(b.Practices))
	for i, u := range b.Practices {
		if u.Known {
			yields[i] = program.Round(u.Outlook.Mean, base.National.Terms.YieldDecimals)
		}
	}
	out.PLC.AtFigures = program.Cent(base.PLCPerAcre(base.PLC().Rate(mya)))
	out.ARCCO.AtFigures = program.Cent(b.Coverage.Rate(base.ActualRevenue(b, mya, yields)) * b.PaymentAcres / base.Acres)
	each := 1 / float64(len(plc))
	for i := range plc {
		onPLC, onARC := program.Cent(plc[i]), program.Cent(arc[i])
		switch {
		case onARC > onPLC:
			out.ARCCOMore += each
		case onPLC > onARC:
			out.PLCMore += each
		case onPLC == 0:
			out.Neither += each
		}
	}
	return out, nil
}

// rowProgram summarizes payments by outcome.
func rowProgram(perAcre []crop.Money) RowProgram {
	p := odds.PercentilesOf(perAcre)
	at := func(percent int) crop.Money { return program.Cent(p[slices.Index(odds.Percents[:], percent)]) }
	const low, high = 10, 90
	return RowProgram{Average: program.Cent(odds.Mean(perAcre)), Low: at(low), High: at(high)}
}
