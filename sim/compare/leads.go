package compare

import (
	"fmt"
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// priceMissing is what a holding lacks where its commodity has no projection.
const priceMissing = "a price projection"

// What a verdict needs. Judgements of this program, printed in docs/method.md.
const (
	standardErrors = 3 // an average difference under so many is noise
)

// Decide fills in who leads, by how much and how surely.
func (r *Run) Decide(part *answer.CommodityPart, h *position.CommodityBase, price position.Price, o payoff.Payoffs) {
	if !o.Complete() {
		part.LeaderReason = missingReason(h)
		return
	}
	plc, arc := o.Of(farm.PLC), o.Of(farm.ARCCO)
	difference := r.Acquire()
	defer r.Release(difference)
	for i := range difference {
		difference[i] = arc.PerAcre[i] - plc.PerAcre[i]
	}
	r.chances(part, o)
	part.Difference = r.difference(h, price, difference)
	part.Programs.Of(farm.PLC).CostOfWrongPick = answer.DollarsOf(odds.CostOfWrongPick(plc.PerAcre, arc.PerAcre))
	part.Programs.Of(farm.ARCCO).CostOfWrongPick = answer.DollarsOf(odds.CostOfWrongPick(arc.PerAcre, plc.PerAcre))
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
func (r *Run) chances(part *answer.CommodityPart, o payoff.Payoffs) {
	count := make([][kinds]int, r.Size.Replicates)
	plc, arc := o.Of(farm.PLC).PerAcre, o.Of(farm.ARCCO).PerAcre
	for i := range plc {
		count[i/r.Size.Points][whoPays(program.Cent(plc[i]), program.Cent(arc[i]))]++
	}
	share := func(kind int) (*answer.Chance, answer.Chance) {
		shares := make([]float64, len(count))
		for j := range count {
			shares[j] = float64(count[j][kind]) / float64(r.Size.Points)
		}
		mean, standard := odds.OfReplicates(shares)
		return answer.ChanceOf(mean), answer.Chance(r.ChanceError(mean, standard))
	}
	errors := &answer.ChanceErrors{}
	part.ChanceNeitherPays, errors.NeitherPays = share(neitherPays)
	part.ChanceARCCOMore, errors.ARCCOMore = share(arcPaysMore)
	part.ChancePLCMore, errors.PLCMore = share(plcPaysMore)
	part.ChanceEqual, errors.Equal = share(paysEqual)
	part.ChanceErrors = errors
}

// missingReason says why there is no leader.
func missingReason(h *position.CommodityBase) string {
	switch {
	case h.PLCMissing != "" && h.ARCMissing != "" && h.PLCMissing != h.ARCMissing:
		return "missing: " + h.PLCMissing + "; " + h.ARCMissing
	case h.PLCMissing != "":
		return "missing: " + h.PLCMissing
	}
	return "missing: " + h.ARCMissing
}

// difference summarizes ARC-CO less PLC and moves the means either way.
func (r *Run) difference(h *position.CommodityBase, price position.Price, values []float64) *answer.Difference {
	s := r.Summarize(values)
	d := &answer.Difference{Mean: answer.Dollars(s.Mean), StandardError: answer.Dollars(s.StandardError), Lowest: answer.Dollars(s.Mean), Highest: answer.Dollars(s.Mean)}
	for m := range payoff.Sensitivities {
		mean := answer.Dollars(r.movedDifference(h, price, m))
		d.Lowest, d.Highest = min(d.Lowest, mean), max(d.Highest, mean)
	}
	return d
}

// movedDifference is the average of ARC-CO less PLC per base acre under one of
// the moves.
func (r *Run) movedDifference(h *position.CommodityBase, price position.Price, m int) crop.Money {
	difference := -h.PLCPerAcre(r.RatesOf(&payoff.PLCRate{Base: h, Price: price}).Means[m])
	for _, p := range h.Bases {
		difference += r.RatesOf(&payoff.ARCCORate{Of: h, Base: p, Price: price}).Means[m] * p.PaymentAcres / h.Acres
	}
	return difference
}

// leans names the higher average even when it is close.
func leans(difference float64) answer.Leader {
	switch {
	case difference > 0:
		return answer.LeadsARCCO
	case difference < 0:
		return answer.LeadsPLC
	}
	return answer.Neither
}

// leader returns the verdict and the reason for it in words.
func (r *Run) leader(h *position.CommodityBase, part answer.CommodityPart) (answer.Leader, string) {
	d := *part.Difference
	margin := math.Abs(float64(d.Mean))
	switch {
	case h.Unpaid != "":
		return answer.None, h.Unpaid
	case 1-float64(*part.ChanceNeitherPays) < odds.LittlePays:
		return answer.LittleChance, fmt.Sprintf("fewer than %.0f outcomes in 100 pay under either program", 100*odds.LittlePays)
	case margin < r.CloseMargin():
		return answer.Close, "the averages are less than $" + program.Text(r.CloseMargin(), 2) + " per base acre apart"
	case d.Lowest < 0 && d.Highest > 0:
		return answer.Close, "the lead changes when the price or the county yield is " + answer.PercentOff()
	case margin < standardErrors*float64(d.StandardError) && r.Distinct > 0:
		return answer.Close, fmt.Sprintf("the difference is within the error of %d past years", r.Distinct)
	case margin < standardErrors*float64(d.StandardError):
		return answer.Close, "the difference is within the error of so many outcomes: ask for more"
	}
	return part.Leans, ""
}

// leadByPrice returns who is ahead in each interval of the national price at
// the mean county yields, from the lowest price step up.
func leadByPrice(h *position.CommodityBase) []answer.Lead {
	decimals := h.National.Terms.PriceDecimals
	step := math.Pow10(-decimals)
	var leads []answer.Lead
	for k := 1; ; k++ {
		price := program.Round(float64(k)*step, decimals)
		ahead := aheadAt(h, price)
		if len(leads) == 0 || leads[len(leads)-1].Ahead != ahead {
			if len(leads) > 0 {
				leads[len(leads)-1].Below = &answer.Price{Value: price, Decimals: decimals}
			}
			leads = append(leads, answer.Lead{Ahead: ahead})
		}
		if ahead == answer.Neither || k >= maximumSteps {
			return leads
		}
	}
}

// maximumSteps ends the walk where a county yield of zero pays at any price.
const maximumSteps = 20_000

// aheadAt returns who pays more at a price and the mean county yields. Once
// neither pays, neither does at any higher price.
func aheadAt(h *position.CommodityBase, price crop.Price) answer.Leader {
	return aheadOf(perAcreAt(h, price, 1))
}

// meanYields returns the mean county yield of each practice, rounded as FSA
// prints county yields.
func meanYields(h *position.CommodityBase, p position.Base) []crop.Yield {
	yields := make([]crop.Yield, len(p.Practices))
	for i, u := range p.Practices {
		yields[i] = program.Round(u.Outlook.Mean, h.National.Terms.YieldDecimals)
	}
	return yields
}

// evenPaymentYield returns the PLC payment yield at which both programs average
// the same, nil where PLC never pays.
//
//	even = mean ARC-CO per base acre / (mean PLC rate x payment acres per base acre)
func evenPaymentYield(h *position.CommodityBase, o payoff.Payoffs) *answer.Dollars {
	acres := 0.0
	for _, p := range h.Bases {
		acres += p.PaymentAcres
	}
	perAcre := o.Of(farm.PLC).Rates[0].Means[0] * acres / h.Acres
	if perAcre == 0 {
		return nil
	}
	return answer.DollarsOf(o.Of(farm.ARCCO).Mean / perAcre)
}
