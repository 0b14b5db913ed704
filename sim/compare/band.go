package compare

import (
	"math"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// difference returns the mean of ARC-CO less PLC, USD per base acre, with its range over
// payoff.Band and the assumption that decides between them.
func (r *YearRun) difference(base *position.CommodityBase, price position.Price, o payoff.Payoffs) *answer.Difference {
	mean, standard := r.meanDifference(o.Of(farm.PLC), o.Of(farm.ARCCO))
	d := &answer.Difference{Mean: answer.Dollars(mean), StandardError: answer.Dollars(standard), Lowest: answer.Dollars(mean), Highest: answer.Dollars(mean)}
	d.UsualError, d.YieldMeans = answer.Chance(price.UsualError), yieldMeans(base)
	nearest := math.Inf(1)
	for m, means := range payoff.Band {
		mean := answer.Dollars(differenceOf(base, o, m))
		d.Lowest, d.Highest = min(d.Lowest, mean), max(d.Highest, mean)
		if off := distance(base, price, means); mean*d.Mean < 0 && off < nearest {
			nearest, d.Decides = off, decides(base, price, means, mean)
		}
	}
	return d
}

// meanDifference returns the mean of ARC-CO less PLC, USD per base acre, and its standard
// error: from the averages of their rates in each replicate of the scenarios. Where scenarios
// repeat past years, the error is that of so few (scenario.Buffers.Summarize).
func (r *YearRun) meanDifference(plc, arc *payoff.Payoff) (mean, standard crop.Money) {
	if r.Year.Distinct > 0 {
		difference := r.Year.Acquire()
		defer r.Year.Release(difference)
		plc, arc := plc.PerAcre(r.Year.Buffers), arc.PerAcre(r.Year.Buffers)
		for i := range difference {
			difference[i] = arc[i] - plc[i]
		}
		s := r.Year.Summarize(difference)
		return s.Mean, s.StandardError
	}
	each := make([]float64, r.Year.Size.Replicates)
	arc.AddReplicates(each, 1)
	plc.AddReplicates(each, -1)
	return odds.OfReplicates(each)
}

// differenceOf returns the mean of ARC-CO less PLC, USD per base acre, under place m of
// payoff.Band.
func differenceOf(base *position.CommodityBase, o payoff.Payoffs, m int) crop.Money {
	difference := -base.PLCPerAcre(o.Of(farm.PLC).Rates[0].Means[m])
	for k, rate := range o.Of(farm.ARCCO).Rates {
		difference += rate.Means[m] * base.Bases[k].PaymentAcres / base.Acres
	}
	return difference
}

// openYields calls do with each county yield that a base depends on and that is not
// known, and with its part of the base.
func openYields(base *position.CommodityBase, do func(u position.Practice, part float64)) {
	for _, b := range base.Bases {
		for _, u := range b.Practices {
			if part := u.Weight * b.PaymentAcres / base.Acres; part > 0 && u.Outlook.SD > 0 {
				do(u, part)
			}
		}
	}
}

// yieldMeans returns how many means of the county yield the estimators give, the one used
// among them; 0 where all yields are known or told.
func yieldMeans(base *position.CommodityBase) (n int) {
	has := map[position.Estimator]bool{}
	openYields(base, func(u position.Practice, _ float64) {
		for by := position.MeanUsed + 1; by < position.Estimators; by++ {
			if _, ok := u.Outlook.OtherMean(by); ok {
				has[by] = true
			}
		}
	})
	if len(has) == 0 {
		return 0
	}
	return len(has) + 1
}

// distance is how far off the odds' own means a sensitivity is: the logarithm of its
// price and of its county yields, by acres, together.
func distance(base *position.CommodityBase, price position.Price, means payoff.Sensitivity) float64 {
	off := 0.0
	openYields(base, func(u position.Practice, part float64) {
		off += part * math.Abs(math.Log(max(u.Outlook.FactorOf(means.Estimator), crop.Noise)))
	})
	return off + math.Abs(means.PriceErrors)*price.UsualError
}

// decides describes other means under which the lead is another.
func decides(base *position.CommodityBase, price position.Price, means payoff.Sensitivity, difference answer.Dollars) *answer.Decides {
	d := &answer.Decides{Leader: leans(float64(difference)), Difference: difference}
	if means.PriceErrors != 0 {
		p := answer.Price{Value: price.Mean() * math.Exp(means.PriceErrors*price.UsualError), Decimals: price.Decimals}
		d.Price, d.PriceHigher = &p, means.PriceErrors > 0
	}
	if means.Estimator != position.MeanUsed {
		d.Yield = yieldThatDecides(base, means.Estimator)
	}
	return d
}

// yieldThatDecides describes the county yields by an estimator; nil where none has it.
func yieldThatDecides(base *position.CommodityBase, by position.Estimator) (d *answer.DecidingYield) {
	openYields(base, func(u position.Practice, _ float64) {
		mean, ok := u.Outlook.Estimated(by)
		if !ok {
			return
		}
		if d != nil {
			d.Mean, d.Used = nil, nil // of several counties or practices
			return
		}
		d = &answer.DecidingYield{From: mean.Source, Mean: answer.DollarsOf(mean.Value), Used: answer.DollarsOf(u.Outlook.Mean)}
	})
	return d
}
