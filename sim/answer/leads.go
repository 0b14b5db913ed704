package answer

import (
	"fmt"
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// What a verdict needs. Judgements of this program, printed in docs/method.md.
const (
	standardErrors = 3 // an average difference under so many is noise
)

// decide fills in who leads, by how much and how surely.
func (r *run) decide(part *CommodityPart, h *holding, price priceOutlook, o payoffs) {
	if !o.complete() {
		part.LeaderReason = missingReason(h)
		return
	}
	plc, arc := o.of(farm.PLC), o.of(farm.ARCCO)
	difference := r.take()
	defer r.give(difference)
	for i := range difference {
		difference[i] = arc.perAcre[i] - plc.perAcre[i]
	}
	r.chances(part, o)
	part.Difference = r.difference(h, price, difference)
	part.Programs.Of(farm.PLC).CostOfWrongPick = dollars(odds.CostOfWrongPick(plc.perAcre, arc.perAcre))
	part.Programs.Of(farm.ARCCO).CostOfWrongPick = dollars(odds.CostOfWrongPick(arc.perAcre, plc.perAcre))
	part.EvenPaymentYield = evenPaymentYield(h, o)
	part.Leans = leans(float64(part.Difference.Mean))
	part.Leader, part.LeaderReason = r.leader(h, *part)
}

// Who pays more in a draw.
const (
	neitherPays = iota
	arcPaysMore
	plcPaysMore
	paysEqual
	kinds
)

func whoPays(plc, arc crop.Money) int {
	switch {
	case arc == 0 && plc == 0:
		return neitherPays
	case arc > plc:
		return arcPaysMore
	case plc > arc:
		return plcPaysMore
	}
	return paysEqual
}

// chances fills in how often who pays more, to the cent, and how sure that is.
func (r *run) chances(part *CommodityPart, o payoffs) {
	count := make([][kinds]int, r.draws.Replicates)
	plc, arc := o.of(farm.PLC).perAcre, o.of(farm.ARCCO).perAcre
	for i := range plc {
		count[i/r.draws.Points][whoPays(program.Cent(plc[i]), program.Cent(arc[i]))]++
	}
	share := func(kind int) (*Chance, Chance) {
		shares := make([]float64, len(count))
		for j := range count {
			shares[j] = float64(count[j][kind]) / float64(r.draws.Points)
		}
		mean, standard := odds.OfReplicates(shares)
		return chance(mean), Chance(r.chanceError(mean, standard))
	}
	errors := &ChanceErrors{}
	part.ChanceNeitherPays, errors.NeitherPays = share(neitherPays)
	part.ChanceARCCOMore, errors.ARCCOMore = share(arcPaysMore)
	part.ChancePLCMore, errors.PLCMore = share(plcPaysMore)
	part.ChanceEqual, errors.Equal = share(paysEqual)
	part.ChanceErrors = errors
}

// tables fills in who leads and what is paid at given prices and yields.
func (r *run) tables(part *CommodityPart, h *holding, price priceOutlook) {
	if part.Difference == nil {
		return
	}
	part.LeadByPrice = leadByPrice(h)
	mean := program.Round(price.Mean(), h.national.Terms.PriceDecimals)
	part.LeadByYield, part.StartPoints, part.Elsewhere = leadByYield(h, mean), startPointsOf(h, mean), paymentsElsewhere(h, mean)
	part.ByPrice = paymentsByPrice(h, mean)
}

// missingReason says why there is no leader.
func missingReason(h *holding) string {
	switch {
	case h.plcMissing != "" && h.arcMissing != "" && h.plcMissing != h.arcMissing:
		return "missing: " + h.plcMissing + "; " + h.arcMissing
	case h.plcMissing != "":
		return "missing: " + h.plcMissing
	}
	return "missing: " + h.arcMissing
}

// difference summarizes ARC-CO less PLC and moves the means either way.
func (r *run) difference(h *holding, price priceOutlook, values []float64) *Difference {
	s := r.summarize(values)
	d := &Difference{Mean: Dollars(s.Mean), StandardError: Dollars(s.StandardError), Lowest: Dollars(s.Mean), Highest: Dollars(s.Mean)}
	for m := range sensitivities {
		mean := Dollars(r.movedDifference(h, price, m))
		d.Lowest, d.Highest = min(d.Lowest, mean), max(d.Highest, mean)
	}
	return d
}

// movedDifference is the average of ARC-CO less PLC per base acre under one of
// the moves.
func (r *run) movedDifference(h *holding, price priceOutlook, m int) crop.Money {
	difference := -h.plcPerAcre(r.of(&plcRate{base: h, price: price}).mean[m])
	for _, p := range h.parts {
		difference += r.of(&arccoRate{of: h, base: p, price: price}).mean[m] * p.paymentAcres / h.baseAcres
	}
	return difference
}

// leans names the higher average even when it is close.
func leans(difference float64) Leader {
	switch {
	case difference > 0:
		return LeadsARCCO
	case difference < 0:
		return LeadsPLC
	}
	return Neither
}

// leader returns the verdict and the reason for it in words.
func (r *run) leader(h *holding, part CommodityPart) (Leader, string) {
	d := *part.Difference
	margin := math.Abs(float64(d.Mean))
	switch {
	case h.unpaid != "":
		return None, h.unpaid
	case 1-float64(*part.ChanceNeitherPays) < odds.LittlePays:
		return LittleChance, fmt.Sprintf("fewer than %.0f outcomes in 100 pay under either program", 100*odds.LittlePays)
	case margin < r.closeMargin():
		return Close, "the averages are less than $" + program.Text(r.closeMargin(), 2) + " per base acre apart"
	case d.Lowest < 0 && d.Highest > 0:
		return Close, "the lead changes when the price or the county yield is " + PercentOff()
	case margin < standardErrors*float64(d.StandardError) && r.distinct > 0:
		return Close, fmt.Sprintf("the difference is within the error of %d past years", r.distinct)
	case margin < standardErrors*float64(d.StandardError):
		return Close, "the difference is within the error of so many outcomes: ask for more"
	}
	return part.Leans, ""
}

// leadByPrice returns who is ahead in each interval of the national price at
// the mean county yields, from the lowest price step up.
func leadByPrice(h *holding) []Lead {
	decimals := h.national.Terms.PriceDecimals
	step := math.Pow10(-decimals)
	var leads []Lead
	for k := 1; ; k++ {
		price := program.Round(float64(k)*step, decimals)
		ahead := aheadAt(h, price)
		if len(leads) == 0 || leads[len(leads)-1].Ahead != ahead {
			if len(leads) > 0 {
				leads[len(leads)-1].Below = &Price{price, decimals}
			}
			leads = append(leads, Lead{Ahead: ahead})
		}
		if ahead == Neither || k >= maximumSteps {
			return leads
		}
	}
}

// maximumSteps ends the walk where a county yield of zero pays at any price.
const maximumSteps = 20_000

// aheadAt returns who pays more at a price and the mean county yields. Once
// neither pays, neither does at any higher price.
func aheadAt(h *holding, price crop.Price) Leader { return aheadOf(perAcreAt(h, price, 1)) }

// meanYields returns the mean county yield of each practice, rounded as FSA
// prints county yields.
func meanYields(h *holding, p part) []crop.Yield {
	yields := make([]crop.Yield, len(p.practices))
	for i, u := range p.practices {
		yields[i] = program.Round(u.outlook.Mean, h.national.Terms.YieldDecimals)
	}
	return yields
}

// evenPaymentYield returns the PLC payment yield at which both programs average
// the same, nil where PLC never pays.
//
//	even = mean ARC-CO per base acre / (mean PLC rate x payment acres per base acre)
func evenPaymentYield(h *holding, o payoffs) *Dollars {
	acres := 0.0
	for _, p := range h.parts {
		acres += p.paymentAcres
	}
	perAcre := o.of(farm.PLC).rates[0].mean[0] * acres / h.baseAcres
	if perAcre == 0 {
		return nil
	}
	return dollars(o.of(farm.ARCCO).mean / perAcre)
}
