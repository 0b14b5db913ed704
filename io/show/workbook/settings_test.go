package workbook

import (
	"math"
	"math/rand/v2"

	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// settings are figures typed into the input cells: by where they stand.
type settings struct {
	layout *otherPrices
	typed  map[cells.Place]float64
}

// shake chooses a figure for every input cell, ties among them on purpose.
func shake(o *otherPrices, r *rand.Rand) settings {
	s := settings{o, map[cells.Place]float64{}}
	inputs := o.results.bases.inputs
	set := func(at cells.Place, x float64) {
		if _, done := s.typed[at]; !done && at.Known() {
			s.typed[at] = x
		}
	}
	inputs.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		ties := r.IntN(2) == 0
		key := front.CropKey{Commodity: w.Commodity, CropYear: y}
		set(inputs.book.Prices[key].Price, chosen(r, w.Price.Value, 0.6, 1.3, w.Terms.PriceDecimals, ties))
		for _, p := range w.History {
			set(inputs.book.Crops.Names[cells.NameOf("past_price", w.Commodity, p.CropYear)], chosen(r, p.Value, 0.7, 1.3, w.Terms.PriceDecimals, false))
		}
		for n, b := range w.Bases {
			at := inputs.bases[baseKey{w.Farm, w.Commodity, n}]
			set(at.acres, chosen(r, b.BaseAcres, 0.5, 2, 2, ties))
			set(at.paymentYield, chosen(r, *b.PaymentYield, 0.5, 1.5, 0, false))
			set(at.irrigated, program.Round(r.Float64(), 2))
			for _, p := range b.Practices {
				key := front.CountyKey{County: b.County, Commodity: w.Commodity, Practice: p.Practice, CropYear: y}
				set(inputs.book.Yields[key].Yield, chosen(r, p.CountyYield.Value, 0.6, 1.3, w.Terms.YieldDecimals, ties))
				for i := range p.Adjusted {
					set(fifth(inputs.book.Yields[key].Adjusted, i), chosen(r, p.Adjusted[i], 0.8, 1.2, w.Terms.YieldDecimals, false))
				}
			}
		}
	})
	return s
}

// chosen is a figure around x. Where ties are wanted its last decimal is a 5, or
// 0 in half of the draws, so that products end in a half of the last place.
func chosen(r *rand.Rand, x, low, high float64, decimals int, ties bool) float64 {
	x *= low + (high-low)*r.Float64()
	if !ties || decimals == 0 {
		return program.Round(x, decimals)
	}
	coarse := program.Round(x, decimals-1)
	if r.IntN(2) == 0 {
		return coarse
	}
	return program.Round(coarse+5/power(decimals), decimals)
}

func power(decimals int) float64 {
	p := 1.0
	for range decimals {
		p *= 10
	}
	return p
}

// fifth is the i-th of five places in a row.
func fifth(five cells.Span, i int) cells.Place {
	return cells.At(five.From.On, five.From.Column+i, five.From.Row)
}

// apply types the settings into the cells.
func (s settings) apply() {
	for at, x := range s.typed {
		at.On.Rows[at.Row-1][at.Column-1].Value = x
	}
}

// expected is what package program makes of the settings, by place.
type expected struct {
	settings
	want map[cells.Place]float64
	ties *int // products that lie on a half of their last place
}

// tie counts a product to be rounded to the cent that lies on half a cent.
func (e expected) tie(x float64) {
	const near = 1e-7
	if _, part := math.Modf(x * 100); math.Abs(part-0.5) < near {
		*e.ties++
	}
}

func (s settings) expect() (want map[cells.Place]float64, ties int) {
	e := expected{s, map[cells.Place]float64{}, &ties}
	o := s.layout.results
	for _, year := range o.bases.inputs.workings {
		total := map[string][3]float64{}
		var all [3]float64
		for _, w := range year.Commodities {
			paid := e.commodityBase(w, year.CropYear)
			for i, x := range []float64{paid[0], paid[1], max(paid[0], paid[1])} {
				sums := total[w.Farm]
				sums[i] += x
				total[w.Farm] = sums
				all[i] += x
			}
		}
		for i, name := range []string{"plc", "arc_co", "higher"} {
			e.named(o.Sheet, all[i], name+"_total", year.CropYear)
			for farm, sums := range total {
				e.named(o.Sheet, sums[i], name+"_farm", farm, year.CropYear)
			}
		}
	}
	return e.want, ties
}

func (e expected) named(s *cells.Sheet, x float64, parts ...any) {
	at, known := s.Names[cells.NameOf(parts...)]
	if !known {
		panic("no name " + cells.NameOf(parts...))
	}
	e.want[at] = x
}

// base is one base on the figures typed, or at other prices and yields.
type base struct {
	acres, paid, paymentYield, share float64
	coverage                         program.ARCCO
	yields                           []float64 // irrigated first
}

// revenue of a base at an actual price and a part of the county yields.
func (b base) revenue(price, part float64, decimals int) float64 {
	var each []float64
	for _, y := range b.yields {
		if part != 1 {
			y = program.Round(y*part, decimals)
		}
		each = append(each, program.ActualRevenue(y, price))
	}
	if len(each) == 1 {
		return each[0]
	}
	return program.WeightedRevenue(b.share, each[0], each[1])
}

// commodity base adds what is expected of a commodity base and returns its payments.
func (e expected) commodityBase(w explain.Working, y crop.CropYear) [2]float64 {
	o := e.layout.results
	inputs, sheet := o.bases.inputs, o.bases.inputs.book.Crops
	var past [5]float64
	for i, p := range w.History {
		past[i] = e.typed[inputs.book.Crops.Names[cells.NameOf("past_price", w.Commodity, p.CropYear)]]
	}
	target := w.Terms.TargetPrice(past)
	benchmark := program.BenchmarkPrice(past, target, w.Terms.BenchmarkDecimals)
	mya := e.typed[inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: y}].Price]
	plc := w.Terms.PLC(target)
	e.named(sheet, target, "effective_reference_price", w.Commodity, y)
	e.named(sheet, benchmark, "benchmark_price", w.Commodity, y)
	e.named(sheet, plc.Rate(mya), "plc_rate", w.Commodity, y)
	e.want[o.bases.inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: y}].PLCMost] = plc.MaximumRate()
	var paid [2]float64
	var all []base
	for n := range w.Bases {
		b := e.base(w, y, n, benchmark)
		all = append(all, b)
		at := o.bases.at[cutKey{baseKey{w.Farm, w.Commodity, n}, y}]
		rate := b.coverage.Rate(b.revenue(program.ActualPrice(mya, w.Terms.LoanRate), 1, w.Terms.YieldDecimals))
		onPLC, onARC := program.PLCPayment(plc.Rate(mya), b.paymentYield, b.paid), program.ARCCOPayment(rate, b.paid)
		e.want[at.plc], e.want[at.arc], e.want[at.rate] = onPLC, onARC, rate
		e.want[at.guarantee], e.want[at.maximum] = b.coverage.Guarantee, b.coverage.Maximum
		e.tie(b.yields[0] * program.ActualPrice(mya, w.Terms.LoanRate))
		e.tie(plc.Rate(mya) * b.paymentYield * b.paid)
		paid[0], paid[1] = paid[0]+onPLC, paid[1]+onARC
	}
	at := o.of[commodityBaseKey{w.Farm, w.Commodity, y}]
	e.want[at.plc], e.want[at.arc] = paid[0], paid[1]
	e.want[at.plcAcre], e.want[at.arcAcre] = lawPerAcre(w, plc, all, mya, 1)
	e.elsewhere(w, y, plc, all, mya)
	return paid
}

// base returns the n-th base of a commodity base on the figures typed.
func (e expected) base(w explain.Working, y crop.CropYear, n int, benchmark float64) base {
	inputs := e.layout.results.bases.inputs
	at, working := inputs.bases[baseKey{w.Farm, w.Commodity, n}], w.Bases[n]
	b := base{acres: e.typed[at.acres], paymentYield: e.typed[at.paymentYield], share: e.typed[at.irrigated]}
	b.paid = program.PaymentAcres(b.acres, w.Terms.PaymentAcreShare)
	var coverage []program.ARCCO
	for _, practice := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
		for _, p := range working.Practices {
			if p.Practice != practice {
				continue
			}
			key := front.CountyKey{County: working.County, Commodity: w.Commodity, Practice: practice, CropYear: y}
			var five [5]float64
			for i := range five {
				five[i] = e.typed[fifth(inputs.book.Yields[key].Adjusted, i)]
			}
			county := w.Terms.ARCCO(program.BenchmarkYield(five, w.Terms.YieldDecimals), benchmark)
			coverage = append(coverage, county)
			b.yields = append(b.yields, e.typed[inputs.book.Yields[key].Yield])
			revenue := program.ActualRevenue(e.typed[inputs.book.Yields[key].Yield], program.ActualPrice(e.typed[inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: y}].Price], w.Terms.LoanRate))
			e.want[inputs.book.Yields[key].Rate] = county.Rate(revenue)
		}
	}
	b.coverage = coverage[0]
	if len(coverage) == 2 {
		b.coverage = program.Weighted(b.share, coverage[0], coverage[1])
	}
	return b
}

// lawPerAcre is what both programs pay per base acre at a price and a part of the
// county yields.
func lawPerAcre(w explain.Working, contract program.PLC, all []base, price, part float64) (plc, arc float64) {
	acres := 0.0
	for _, b := range all {
		acres += b.acres
		plc += contract.Rate(price) * b.paymentYield * b.paid
		arc += b.coverage.Rate(b.revenue(program.ActualPrice(price, w.Terms.LoanRate), part, w.Terms.YieldDecimals)) * b.paid
	}
	return program.Cent(plc / acres), program.Cent(arc / acres)
}

// elsewhere adds the table of other prices and yields.
func (e expected) elsewhere(w explain.Working, y crop.CropYear, contract program.PLC, all []base, mya float64) {
	table := e.layout.tables[commodityBaseKey{w.Farm, w.Commodity, y}]
	for i, atPrice := range otherParts {
		price := program.Round(mya*atPrice, w.Terms.PriceDecimals)
		for j, part := range otherParts {
			plc, arc := lawPerAcre(w, contract, all, price, part)
			e.want[cells.At(table.plc.On, table.plc.Column, table.plc.Row+i)] = plc
			e.want[cells.At(table.arc.On, table.arc.Column+j, table.arc.Row+i)] = arc
		}
	}
}
