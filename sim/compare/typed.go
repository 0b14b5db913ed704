package compare

import (
	"slices"

	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/payoff"
)

// typedChoice returns what people typed for a line; "" where they did not.
func (r *YearRun) typedChoice(f farm.Farm, part answer.CommodityPart) farm.Program {
	return f.Choice[r.Year.CropYear][part.Commodity]
}

// withTyped returns the payments of all farms, and the farms, as they are under the typed
// choice. They differ from those of the year by ARC-IC alone: what it pays a farm depends on
// the other farms that have it. Where a figure of it is missing the farm has no ARC-IC.
func (r *YearRun) withTyped(m limits.Payments, farms []farmRun) (limits.Payments, []farmRun) {
	individual := func(f farm.Farm) bool {
		for _, program := range f.Choice[r.Year.CropYear] {
			return program == farm.ARCIC // it is typed for all crops
		}
		return false
	}
	if !slices.ContainsFunc(farms, func(f farmRun) bool { return individual(f.farm) }) {
		return m, farms
	}
	elected := *r
	elected.question.Operation.Farms = slices.Clone(r.question.Operation.Farms)
	for i := range elected.question.Operation.Farms {
		f := &elected.question.Operation.Farms[i]
		f.Record = f.Choice[r.Year.CropYear]
	}
	anew := slices.Clone(farms)
	for i := range anew {
		if individual(anew[i].farm) {
			elected.individualAnew(&anew[i], elected.question.Operation.Farms[i])
		}
	}
	return r.paymentsOf(anew), anew
}

// individualAnew works ARC-IC of a farm out as if its choice were on record.
func (r *YearRun) individualAnew(f *farmRun, recorded farm.Farm) {
	f.payoffs = slices.Clone(f.payoffs)
	for k := range f.payoffs {
		f.payoffs[k] = slices.Clip(payoff.Without(f.payoffs[k], farm.ARCIC))
	}
	if one, err := r.Year.Individual(recorded, r.Year.CropYear); err == nil && one != nil && one.Missing == "" {
		if pool, err := r.pool(*one); err == nil {
			r.payIndividual(f, pool)
		}
	}
	f.payments = r.farmPayments(*f)
}
