package answer

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
)

// StartPoints say where each program begins to pay and where it pays its most.
// ARC-CO's prices are at the mean county yields, its yields at the mean price; a
// yield is a part of the mean yields, which all move together. nil: nowhere.
type StartPoints struct {
	PLCBelow        *Price  `json:"plc_pays_below"`
	PLCMost         *Price  `json:"plc_most_at"` // at this price and below
	ARCCOBelowPrice *Price  `json:"arc_co_pays_below_price"`
	ARCCOMostPrice  *Price  `json:"arc_co_most_at_price"`
	ARCCOBelowYield *Chance `json:"arc_co_pays_below_yield"`
	ARCCOMostYield  *Chance `json:"arc_co_most_at_yield"`
}

// PaymentAt is what each program pays per base acre at one price and one part of
// the mean county yields.
type PaymentAt struct {
	Price  Price   `json:"price"`
	Yields Chance  `json:"yields"` // part of the mean county yields
	PLC    Dollars `json:"PLC"`
	ARCCO  Dollars `json:"ARC-CO"`
}

// OtherParts are the parts of mean price and mean yields of the table of other
// prices and yields.
var OtherParts = [...]float64{0.8, 0.9, 1, 1.1, 1.2}

// yieldSteps is how finely a yield is searched: in percent of the mean, up to
// twice the mean.
const yieldSteps, mostYieldSteps = 100, 200

// perAcreAt returns what each program pays per base acre, to the cent, at a price
// and a part of the mean county yields.
func perAcreAt(h *holding, price crop.Price, part float64) (plc, arc crop.Money) {
	plc = program.Cent(h.plcPerAcre(h.plc().Rate(price)))
	for _, p := range h.parts {
		yields := meanYields(h, p)
		for i := range yields {
			yields[i] = program.Round(yields[i]*part, h.national.Terms.YieldDecimals)
		}
		arc += p.coverage.Rate(h.actualRevenue(p, price, yields)) * p.paymentAcres / h.baseAcres
	}
	return plc, program.Cent(arc)
}

// startPointsOf finds where the programs begin and where they pay their most.
func startPointsOf(h *holding, mean crop.Price) *StartPoints {
	terms := h.national.Terms
	fine := h.national.targetDecimals()
	s := &StartPoints{}
	if h.unpaid != "" {
		return s
	}
	s.PLCBelow, s.PLCMost = &Price{h.national.Target.Value, fine}, &Price{terms.LoanRate, fine}
	most := program.Cent(maximumARCCO(h))
	pays := func(price crop.Price, part float64) bool { _, arc := perAcreAt(h, price, part); return arc > 0 }
	full := func(price crop.Price, part float64) bool { _, arc := perAcreAt(h, price, part); return arc >= most }
	step := math.Pow10(-terms.PriceDecimals)
	highestPrice := func(holds func(crop.Price, float64) bool) *Price {
		k := lastStep(maximumSteps, func(k int) bool { return holds(program.Round(float64(k)*step, terms.PriceDecimals), 1) })
		if k == 0 {
			return nil
		}
		return &Price{program.Round(float64(k)*step, terms.PriceDecimals), terms.PriceDecimals}
	}
	highestYield := func(holds func(crop.Price, float64) bool) *Chance {
		k := lastStep(mostYieldSteps, func(k int) bool { return holds(mean, float64(k)/yieldSteps) })
		if k == 0 {
			return nil
		}
		return chance(float64(k) / yieldSteps)
	}
	s.ARCCOBelowPrice, s.ARCCOMostPrice = highestPrice(pays), highestPrice(full)
	s.ARCCOBelowYield, s.ARCCOMostYield = highestYield(pays), highestYield(full)
	return s
}

// lastStep returns the last k from 1 to most for which holds is true, where it is
// true up to some k and false beyond; 0 where it is not true at 1.
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

// paymentsElsewhere returns the payments at other prices and yields, by price, then by
// yields, both rising.
func paymentsElsewhere(h *holding, mean crop.Price) []PaymentAt {
	decimals := h.national.Terms.PriceDecimals
	table := []PaymentAt{}
	for _, atPrice := range OtherParts {
		price := program.Round(mean*atPrice, decimals)
		for _, part := range OtherParts {
			plc, arc := perAcreAt(h, price, part)
			table = append(table, PaymentAt{Price{price, decimals}, Chance(part), Dollars(plc), Dollars(arc)})
		}
	}
	return table
}

// PaymentBy is what each program pays per base acre at one price; ARC-CO at
// CurveYields parts of the mean county yields.
type PaymentBy struct {
	Price Price                     `json:"price"`
	PLC   Dollars                   `json:"PLC"`
	ARCCO [len(CurveYields)]Dollars `json:"ARC-CO"`
}

// CurveYields are the parts of the mean county yields of PaymentBy.
var CurveYields = [...]float64{0.9, 1, 1.1}

// paymentsByPrice returns the payments from 60 to 130 percent of the mean price in steps of
// two percent of it.
func paymentsByPrice(h *holding, mean crop.Price) (curve []PaymentBy) {
	const lowest, highest, step, hundred = 60, 130, 2, 100
	decimals := h.national.Terms.PriceDecimals
	for percent := lowest; percent <= highest; percent += step {
		price := program.Round(mean*float64(percent)/hundred, decimals)
		at := PaymentBy{Price: Price{price, decimals}}
		for i, part := range CurveYields {
			plc, arc := perAcreAt(h, price, part)
			at.PLC, at.ARCCO[i] = Dollars(plc), Dollars(arc)
		}
		curve = append(curve, at)
	}
	return curve
}

// leadByYield returns who is ahead at the mean price in each interval of the
// county yields, as parts of their means, from low to high in percent steps.
func leadByYield(h *holding, mean crop.Price) []YieldLead {
	leads := []YieldLead{}
	for k := 1; k <= mostYieldSteps; k++ {
		plc, arc := perAcreAt(h, mean, float64(k)/yieldSteps)
		ahead := aheadOf(plc, arc)
		if n := len(leads); n == 0 || leads[n-1].Ahead != ahead {
			if n > 0 {
				leads[n-1].Below = chance(float64(k) / yieldSteps)
			}
			leads = append(leads, YieldLead{Ahead: ahead})
		}
	}
	return leads
}

// YieldLead is an interval of county yields and who is ahead in it at the mean
// price.
type YieldLead struct {
	Below *Chance `json:"below,omitempty"` // first percent of the mean yields at which it no longer leads; none in the last
	Ahead Leader  `json:"ahead"`
}

// aheadOf names the program that pays more.
func aheadOf(plc, arc crop.Money) Leader {
	switch {
	case arc == 0 && plc == 0:
		return Neither
	case arc > plc:
		return LeadsARCCO
	case plc > arc:
		return LeadsPLC
	}
	return Equal
}
