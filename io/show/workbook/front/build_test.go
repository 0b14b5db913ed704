package front

import (
	"bytes"
	"slices"
	"testing"

	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/explain"
	"fencerow/sim/invented/cases"
	"fencerow/sim/odds"
)

// testYears are rows of six crops in two counties, one of them with yields by practice.
func testYears(t *testing.T) []explain.CountyRows {
	t.Helper()
	q := cases.SixCrops()
	var years []explain.CountyRows
	for _, y := range q.CropYears {
		rows, err := explain.CountyRowsOf(q, y)
		if err != nil {
			t.Fatal(err)
		}
		years = append(years, rows)
	}
	return years
}

// all are the sheets of a book, those to be seen first.
func (b *Book) all() []*cells.Sheet { return slices.Concat(b.Sheets(), b.Hidden()) }

// figure is the place of a named figure of the chosen row.
func (b *Book) figure(t *testing.T, name string) cells.Place {
	t.Helper()
	for _, s := range b.all() {
		if at, has := s.Names[name]; has {
			return at
		}
	}
	t.Fatalf("nothing is named %s", name)
	return cells.Place{}
}

// put types something into a cell.
func put(at cells.Place, x any) {
	c := at.Cell()
	c.Value = x
	at.On.Set(at.Column, at.Row, c)
}

// usedFigures are what the odds are worked out from: a county row and its crop, and the
// price and yields used.
type usedFigures struct {
	row             explain.CountyRow
	crop            explain.CropRow
	benchmarkYield  crop.Yield
	price           crop.Price
	yield, plcYield crop.Yield
	outcomes        int
}

// figures are what Front shows, by the names of frontFigures, worked out by package
// program alone on the outcomes of the row.
func (u usedFigures) figures() map[string]float64 {
	terms, w := u.crop.Working.Terms, u.crop.Working
	part := func(of []float64, i int) float64 {
		if of == nil {
			return 1
		}
		return of[i]
	}
	pays := func(price crop.Price, yield crop.Yield, target, benchmarkPrice crop.Price, benchmarkYield crop.Yield) (plc, arc float64) {
		contract := program.PLC{TargetPrice: target, LoanRate: terms.LoanRate, Decimals: terms.RateDecimals}
		coverage := program.NewARCCO(benchmarkYield, benchmarkPrice, terms.GuaranteeShare, terms.MaximumShare)
		revenue := program.ActualRevenue(program.Round(yield, terms.YieldDecimals), program.ActualPrice(price, terms.LoanRate))
		return contract.Rate(price) * u.plcYield * terms.PaymentAcreShare, coverage.Rate(revenue) * terms.PaymentAcreShare
	}
	out := map[string]float64{"arc_co_more": 0, "plc_more": 0, "neither_pays": 0}
	plc, arc := pays(u.price, u.yield, w.Target.Value, w.Benchmark.Value, u.benchmarkYield)
	out["plc_pays"], out["arc_co_pays"] = program.Cent(plc), program.Cent(arc)
	var onPLC, onARC []float64
	for i := range u.outcomes {
		p, a := pays(
			program.Round(u.price*part(u.crop.PriceParts, i), terms.PriceDecimals), program.Round(u.yield*part(u.row.YieldParts, i), terms.YieldDecimals),
			program.Round(w.Target.Value*part(u.crop.TargetParts, i), fine(terms)), program.Round(w.Benchmark.Value*part(u.crop.BenchmarkParts, i), terms.BenchmarkDecimals),
			program.Round(u.benchmarkYield*part(u.row.BenchmarkYieldParts, i), terms.YieldDecimals))
		onPLC, onARC = append(onPLC, p), append(onARC, a)
		each := 100 / float64(u.outcomes)
		switch p, a := program.Cent(p), program.Cent(a); {
		case a > p:
			out["arc_co_more"] += each
		case p > a:
			out["plc_more"] += each
		case p == 0:
			out["neither_pays"] += each
		}
	}
	for name, all := range map[string][]float64{"plc": onPLC, "arc_co": onARC} {
		low, high := slices.Index(odds.Percents[:], 10), slices.Index(odds.Percents[:], 90)
		p := odds.PercentilesOf(all)
		out[name+"_average"], out[name+"_low"], out[name+"_high"] = odds.Mean(all), p[low], p[high]
	}
	return out
}

// atStart are the figures of a row as it is.
func atStart(year explain.CountyRows, row explain.CountyRow) usedFigures {
	i := slices.IndexFunc(year.Crops, func(c explain.CropRow) bool { return c.Working.Commodity == row.Commodity })
	c := year.Crops[i]
	return usedFigures{row: row, crop: c, benchmarkYield: row.Practice.BenchmarkYield.Value, price: c.Working.Price.Value, yield: row.Practice.CountyYield.Value, plcYield: *row.PaymentYield, outcomes: year.Outcomes}
}

// written is a book as a file.
func written(t *testing.T, b *Book, found cells.FormulaValues) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := cells.Write(&out, b.all(), found); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
