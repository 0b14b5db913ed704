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

// priceMissing is what a commodity base lacks where no price is projected.
const priceMissing = "a price projection"

// What a verdict needs: a judgement of this program, printed in docs/method.md.
const (
	standardErrors = 3 // a mean difference of fewer is within the error of the scenarios
)

// Decide fills in the leader, the difference of the means, the chances and what a wrong
// election costs; where a program has no payoff, the reason alone.
func (r *YearRun) Decide(part *answer.CommodityPart, base *position.CommodityBase, price position.Price, o payoff.Payoffs) {
	if !o.Complete() {
		part.LeaderReason = missingReason(base)
		return
	}
	r.chances(part, o)
	part.Difference = r.difference(base, price, o)
	if !r.question.Brief {
		plc, arc := o.Of(farm.PLC).PerAcre(r.Year.Buffers), o.Of(farm.ARCCO).PerAcre(r.Year.Buffers)
		part.Programs.Of(farm.PLC).CostOfWrongElection = answer.DollarsOf(odds.CostOfWrongPick(plc, arc))
		part.Programs.Of(farm.ARCCO).CostOfWrongElection = answer.DollarsOf(odds.CostOfWrongPick(arc, plc))
	}
	part.EvenPaymentYield = evenPaymentYield(base, o)
	part.Leans = leans(float64(part.Difference.Mean))
	part.Leader, part.LeaderReason = r.leader(base, *part)
}

// Who pays more in a scenario.
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

// countPays counts who pays more to the cent in each scenario of two rates, each times a
// weight. Where the payments are further apart than rounding can bring together, they are not
// rounded first. Most scenarios are told apart without a branch.
func countPays(plc []float64, plcWeight float64, arc []float64, arcWeight float64) (count [kinds]int) {
	const apart = 2 * program.OneCent
	arc = arc[:len(plc)]
	more, less, none := 0, 0, 0
	for i, rate := range plc {
		p, a := plcWeight*rate, arcWeight*arc[i]
		m, l, n := one(a-p > apart), one(p-a > apart), one(p == 0)&one(a == 0)
		more, less, none = more+m, less+l, none+n
		if m|l|n == 0 {
			count[whoPays(program.Cent(p), program.Cent(a))]++
		}
	}
	count[arcPaysMore], count[plcPaysMore], count[neitherPays] = count[arcPaysMore]+more, count[plcPaysMore]+less, count[neitherPays]+none
	return count
}

// one is 1 for true.
func one(is bool) (n int) {
	if is {
		n = 1
	}
	return n
}

// chances fills in the shares of scenarios in which neither, one or the other program
// pays more, compared to the cent, with their standard errors.
func (r *YearRun) chances(part *answer.CommodityPart, o payoff.Payoffs) {
	count := make([][kinds]int, r.Year.Size.Replicates)
	plc, plcWeight := r.rateOrSum(o.Of(farm.PLC))
	arc, arcWeight := r.rateOrSum(o.Of(farm.ARCCO))
	points := r.Year.Size.Points
	for j := range count {
		from, to := j*points, (j+1)*points
		count[j] = countPays(plc[from:to], plcWeight, arc[from:to], arcWeight)
	}
	share := func(kind int) (*answer.Chance, answer.Chance) {
		shares := make([]float64, len(count))
		for j := range count {
			shares[j] = float64(count[j][kind]) / float64(r.Year.Size.Points)
		}
		mean, standard := odds.OfReplicates(shares)
		return answer.ChanceOf(mean), answer.Chance(r.Year.ChanceError(mean, standard))
	}
	errors := &answer.ChanceErrors{}
	part.ChanceNeitherPays, errors.NeitherPays = share(neitherPays)
	part.ChanceARCCOMore, errors.ARCCOMore = share(arcPaysMore)
	part.ChancePLCMore, errors.PLCMore = share(plcPaysMore)
	part.ChanceEqual, errors.Equal = share(paysEqual)
	part.ChanceErrors = errors
}

// rateOrSum returns the series and the weight that make what a program pays per base acre:
// its rate, or where it has several their sum.
func (r *YearRun) rateOrSum(p *payoff.Payoff) (series []float64, weight float64) {
	if rate, weight, ok := p.OneRate(); ok {
		return rate, weight
	}
	return p.PerAcre(r.Year.Buffers), 1
}

// missingReason names the figures without which there is no leader.
func missingReason(base *position.CommodityBase) string {
	switch {
	case base.PLCMissing != "" && base.ARCMissing != "" && base.PLCMissing != base.ARCMissing:
		return "missing: " + base.PLCMissing + "; " + base.ARCMissing
	case base.PLCMissing != "":
		return "missing: " + base.PLCMissing
	}
	return "missing: " + base.ARCMissing
}

// LeansAt names the program with the higher average at the base's own yields and a price.
func (r *YearRun) LeansAt(base *position.CommodityBase, price position.Price) answer.Leader {
	difference := -base.PLCPerAcre(r.Year.RatesOf(&payoff.PLCRate{Base: base, Price: price}).Means[0])
	for _, b := range base.Bases {
		difference += r.Year.RatesOf(&payoff.ARCCORate{Of: base, Base: b, Price: price}).Means[0] * b.PaymentAcres / base.Acres
	}
	return leans(difference)
}

// leans names the program with the higher mean, however close.
func leans(difference float64) answer.Leader {
	switch {
	case difference > 0:
		return answer.LeadsARCCO
	case difference < 0:
		return answer.LeadsPLC
	}
	return answer.Neither
}

// leader returns the verdict, and in words the reason where no program leads.
func (r *YearRun) leader(base *position.CommodityBase, part answer.CommodityPart) (answer.Leader, string) {
	d := *part.Difference
	margin := math.Abs(float64(d.Mean))
	switch {
	case base.Unpaid != "":
		return answer.None, base.Unpaid
	case 1-float64(*part.ChanceNeitherPays) < odds.LittlePays:
		return answer.LittleChance, answer.LittlePays() + " pay under either program"
	case d.Decides != nil:
		return answer.Close, d.Decides.Words()
	case margin < r.question.CloseMargin():
		return answer.Close, "the averages are less than $" + program.Text(r.question.CloseMargin(), 2) + " a base acre apart"
	case margin < standardErrors*float64(d.StandardError) && r.Year.Distinct > 0:
		return answer.Close, fmt.Sprintf("the difference is within the error of %d past years", r.Year.Distinct)
	case margin < standardErrors*float64(d.StandardError):
		return answer.Close, "the difference is no larger than its own error, so ask for more outcomes"
	}
	return part.Leans, ""
}

// leadByPrice returns the program that pays more at the mean county yields in each
// interval of the national price, from the lowest price step up. The last interval has
// no upper end.
func leadByPrice(base *position.CommodityBase) []answer.Lead {
	decimals := base.National.Terms.PriceDecimals
	step := math.Pow10(-decimals)
	var leads []answer.Lead
	for k := 1; ; k++ {
		price := program.Round(float64(k)*step, decimals)
		leader := leaderAt(base, price)
		if len(leads) == 0 || leads[len(leads)-1].Leader != leader {
			if len(leads) > 0 {
				leads[len(leads)-1].Below = &answer.Price{Value: price, Decimals: decimals}
			}
			leads = append(leads, answer.Lead{Leader: leader})
		}
		if leader == answer.Neither || k >= maximumSteps {
			return leads
		}
	}
}

// maximumSteps bounds the price steps where a mean county yield of zero lets ARC-CO pay
// at any price.
const maximumSteps = 20_000

// leaderAt returns who pays more at a price and the mean county yields. Once neither
// pays, neither does at any higher price.
func leaderAt(base *position.CommodityBase, price crop.Price) answer.Leader {
	return leaderOf(perAcreAt(base, price, 1))
}

// meanYields returns the mean county yield of each practice, rounded as FSA prints
// county yields.
func meanYields(base *position.CommodityBase, b position.Base) []crop.Yield {
	yields := make([]crop.Yield, len(b.Practices))
	for i, u := range b.Practices {
		yields[i] = program.Round(u.Outlook.Mean, base.National.Terms.YieldDecimals)
	}
	return yields
}

// evenPaymentYield returns the PLC payment yield, units per acre, at which both programs
// have the same mean; nil where PLC never pays.
//
//	even = mean ARC-CO per base acre / (mean PLC rate x payment acres per base acre)
func evenPaymentYield(base *position.CommodityBase, o payoff.Payoffs) *answer.Dollars {
	acres := 0.0
	for _, b := range base.Bases {
		acres += b.PaymentAcres
	}
	perAcre := o.Of(farm.PLC).Rates[0].Means[0] * acres / base.Acres
	if perAcre == 0 {
		return nil
	}
	return answer.DollarsOf(o.Of(farm.ARCCO).Mean / perAcre)
}
