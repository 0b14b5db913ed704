package compare

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// yieldStep is how finely county yields are searched, in steps of 1/yieldStep of their
// means; mostYieldSteps reaches twice the means.
const yieldStep, mostYieldSteps = 100, 200

// perAcreAt returns what each program pays, USD per base acre to the cent, at a price of
// the crop year and at part times the mean county yields. Reference and benchmark
// figures stay as they are.
func perAcreAt(base *position.CommodityBase, price crop.Price, part float64) (plc, arc crop.Money) {
	plc = program.Cent(base.PLCPerAcre(base.PLC().Rate(price)))
	var rate crop.Revenue
	for k := range base.Bases {
		b := &base.Bases[k]
		if k == 0 || !base.SameRate(k, k-1) {
			rate = rateAt(base, *b, price, part)
		}
		arc += rate * b.PaymentAcres / base.Acres
	}
	return plc, program.Cent(arc)
}

// rateAt is the ARC-CO rate of a base, USD per acre, likewise.
func rateAt(base *position.CommodityBase, b position.Base, price crop.Price, part float64) crop.Revenue {
	yields := meanYields(base, b)
	for i := range yields {
		yields[i] = program.Round(yields[i]*part, base.National.Terms.YieldDecimals)
	}
	return b.Coverage.Rate(base.ActualRevenue(b, price, yields))
}

// startPointsOf returns where each program begins to pay and where it pays its most,
// given the mean price.
func startPointsOf(base *position.CommodityBase, mean crop.Price) *answer.StartPoints {
	terms := base.National.Terms
	fine := base.National.TargetDecimals()
	s := &answer.StartPoints{}
	if base.Unpaid != "" {
		return s
	}
	s.PLCBelow, s.PLCMost = &answer.Price{Value: base.National.Target.Value, Decimals: fine}, &answer.Price{Value: terms.LoanRate, Decimals: fine}
	most := program.Cent(payoff.MaximumARCCO(base))
	pays := func(price crop.Price, part float64) bool { _, arc := perAcreAt(base, price, part); return arc > 0 }
	full := func(price crop.Price, part float64) bool { _, arc := perAcreAt(base, price, part); return arc >= most }
	step := math.Pow10(-terms.PriceDecimals)
	highestPrice := func(holds func(crop.Price, float64) bool) *answer.Price {
		k := lastStep(maximumSteps, func(k int) bool { return holds(program.Round(float64(k)*step, terms.PriceDecimals), 1) })
		if k == 0 {
			return nil
		}
		return &answer.Price{Value: program.Round(float64(k)*step, terms.PriceDecimals), Decimals: terms.PriceDecimals}
	}
	highestYield := func(holds func(crop.Price, float64) bool) *answer.Chance {
		k := lastStep(mostYieldSteps, func(k int) bool { return holds(mean, float64(k)/yieldStep) })
		if k == 0 {
			return nil
		}
		return answer.ChanceOf(float64(k) / yieldStep)
	}
	s.ARCCOBelowPrice, s.ARCCOMostPrice = highestPrice(pays), highestPrice(full)
	s.ARCCOBelowYield, s.ARCCOMostYield = highestYield(pays), highestYield(full)
	return s
}

// lastStep returns the last k from 1 to most for which holds is true, 0 for none. holds
// must be true up to some k and false beyond.
func lastStep(most int, holds func(k int) bool) int {
	low, high := 0, most+1
	for high-low > 1 {
		if k := (low + high) / 2; holds(k) {
			low = k
		} else {
			high = k
		}
	}
	return low
}

// paymentsElsewhere returns the payments at other prices and county yields, by price,
// then by yields, both rising.
func paymentsElsewhere(base *position.CommodityBase, mean crop.Price) []answer.PaymentAt {
	decimals := base.National.Terms.PriceDecimals
	table := []answer.PaymentAt{}
	for _, atPrice := range answer.OtherParts {
		price := program.Round(mean*atPrice, decimals)
		for _, part := range answer.OtherParts {
			plc, arc := perAcreAt(base, price, part)
			table = append(table, answer.PaymentAt{Price: answer.Price{Value: price, Decimals: decimals}, Yields: answer.Chance(part), PLC: answer.Dollars(plc), ARCCO: answer.Dollars(arc)})
		}
	}
	return table
}

// paymentsByPrice returns the payments from 60 to 130 percent of the mean price, in
// steps of two percent.
func paymentsByPrice(base *position.CommodityBase, mean crop.Price) (curve []answer.PaymentBy) {
	const lowest, highest, step, hundred = 60, 130, 2, 100
	decimals := base.National.Terms.PriceDecimals
	for percent := lowest; percent <= highest; percent += step {
		price := program.Round(mean*float64(percent)/hundred, decimals)
		at := answer.PaymentBy{Price: answer.Price{Value: price, Decimals: decimals}}
		for i, part := range answer.CurveYields {
			plc, arc := perAcreAt(base, price, part)
			at.PLC, at.ARCCO[i] = answer.Dollars(plc), answer.Dollars(arc)
		}
		curve = append(curve, at)
	}
	return curve
}

// leadByYield returns the program that pays more at the mean price in each interval of
// the county yields, which are parts of their means, rising.
func leadByYield(base *position.CommodityBase, mean crop.Price) []answer.YieldLead {
	leads := []answer.YieldLead{}
	for k := 1; k <= mostYieldSteps; k++ {
		plc, arc := perAcreAt(base, mean, float64(k)/yieldStep)
		leader := leaderOf(plc, arc)
		if n := len(leads); n == 0 || leads[n-1].Leader != leader {
			if n > 0 {
				leads[n-1].Below = answer.ChanceOf(float64(k) / yieldStep)
			}
			leads = append(leads, answer.YieldLead{Leader: leader})
		}
	}
	return leads
}

// leaderOf names the program that pays more, USD per base acre.
func leaderOf(plc, arc crop.Money) answer.Leader {
	switch {
	case arc == 0 && plc == 0:
		return answer.Neither
	case arc > plc:
		return answer.LeadsARCCO
	case plc > arc:
		return answer.LeadsPLC
	}
	return answer.Equal
}
