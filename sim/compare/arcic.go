package compare

import (
	"fmt"
	"math"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// ownLoss is how far, as a share, the own yield must be below the own benchmark, and
// nearBenchmark how near the county must be to its own, for ARC-IC to be worth a
// look. The first is a published rule of thumb ("at least 20 percent", Purdue
// Extension, January 2020); the second a judgement of this program.
const (
	ownLoss       = 0.20
	nearBenchmark = 0.90
)

// addIndividual works out ARC-IC for one farm, describes it and adds it to the payoffs
// of its commodity bases. It does nothing where no covered crop is planted and ARC-IC is
// not on record.
func (r *YearRun) addIndividual(f *farmRun) error {
	one, err := r.Year.Individual(f.farm, r.Year.CropYear)
	if err != nil || one == nil {
		return err
	}
	f.individual = one
	details, err := law.Find("individual_coverage_details", "", r.Year.CropYear)
	if err != nil {
		return err
	}
	part := &answer.ARCICPart{Missing: one.Missing, PooledWith: []string{}, Crops: []answer.ARCICCrop{}, Status: details.Status}
	f.arcIC = part
	for _, k := range one.Crops {
		part.Crops = append(part.Crops, r.cropView(f.farm, k, one.Missing == ""))
	}
	if one.Missing != "" {
		part.Reason = "no figures: missing " + one.Missing
		return nil
	}
	pool, err := r.pool(*one)
	if err != nil {
		return err
	}
	for _, other := range pool[1:] {
		part.PooledWith = append(part.PooledWith, other.Farm.Key())
	}
	r.payIndividual(f, pool)
	r.describeIndividual(f, part)
	return nil
}

// pool returns the farm and, after it, the others of its State that have ARC-IC on
// record and share a producer with it.
func (r *YearRun) pool(one position.Individual) ([]*position.Individual, error) {
	pool := []*position.Individual{&one}
	for _, f := range r.question.Operation.Farms {
		if f.Key() == one.Farm.Key() || position.StateOf(f.County) != position.StateOf(one.Farm.County) || !position.OnRecord(f, farm.ARCIC) || !shareProducer(r.question.Operation, f, one.Farm, r.Year.CropYear) {
			continue
		}
		other, err := r.Year.Individual(f, r.Year.CropYear)
		if err != nil {
			return nil, err
		}
		if other.Missing == "" && position.UnpaidReason(f, r.Year.CropYear) == "" {
			pool = append(pool, other)
		}
	}
	return pool, nil
}

func shareProducer(o farm.Operation, a, b farm.Farm, y crop.CropYear) bool {
	return slices.ContainsFunc(o.Producers, func(p farm.Producer) bool { return position.HasShare(a, p.ID, y) && position.HasShare(b, p.ID, y) })
}

// payIndividual adds ARC-IC to the payoffs of a farm. Each producer is paid by the rate
// of the farms of the pool in which that producer has a share.
func (r *YearRun) payIndividual(f *farmRun, pool []*position.Individual) {
	for i, p := range payoff.Individual(r.Year, r.question.Operation.Producers, f.bases, pool) {
		f.payoffs[i] = append(slices.Clip(payoff.Without(f.payoffs[i], farm.ARCIC)), p)
	}
}

// describeIndividual fills in the figures of ARC-IC and whether it can matter.
func (r *YearRun) describeIndividual(f *farmRun, part *answer.ARCICPart) {
	one := *f.individual
	terms := one.Crops[0].National.Terms
	coverage, _ := program.NewARCIC(position.IndividualCrops([]*position.Individual{&one}, "", r.Year.CropYear), terms.GuaranteeShare, terms.MaximumShare)
	part.BenchmarkRevenue, part.Guarantee, part.AllPrevented = answer.DollarsOf(coverage.BenchmarkRevenue), answer.DollarsOf(coverage.Guarantee), coverage.AllPrevented
	farmAcres, acres := f.farm.BaseAcres(), 0.0
	perAcre := r.Year.Zeros()
	defer r.Year.Release(perAcre)
	for i, base := range f.bases {
		for _, b := range base.Bases {
			acres += base.IndividualAcres(b)
		}
		for d, payment := range f.payoffs[i].Of(farm.ARCIC).BeforeShare {
			perAcre[d] += payment / farmAcres
		}
	}
	part.PaymentAcres = answer.Dollars(acres)
	part.PerBaseAcre = answer.ProgramFigures(r.Year.SummaryOf(perAcre, program.ARCICPayment(coverage.Maximum, acres)/farmAcres, nil))
	part.PerBaseAcre.OfFifty = r.cases(perAcre)
	own, county := againstBenchmark(one)
	part.OwnYield, part.CountyYield = own, county
	part.CanMatter, part.Reason = canMatter(part)
}

// canMatter reports whether ARC-IC is worth a look, and the reason in one line.
func canMatter(p *answer.ARCICPart) (bool, string) {
	switch {
	case p.AllPrevented:
		return true, "the farm was prevented from planting all its covered acres, and ARC-IC then pays the most it can"
	case p.OwnYield == nil:
		return false, "no own yield"
	}
	loss := 100 * (1 - float64(*p.OwnYield))
	if loss < 100*ownLoss-crop.Noise {
		return false, fmt.Sprintf("the farm's own yields are %s their benchmark. ARC-IC pays on a smaller part of base, so it needs a loss of %.0f percent or more that the county does not share", against(*p.OwnYield), 100*ownLoss)
	}
	if p.CountyYield != nil && *p.CountyYield < nearBenchmark {
		return false, fmt.Sprintf("the farm's own yields are %.0f percent below their benchmark, but the county's are %.0f percent below theirs. ARC-CO sees that loss, and pays on more of the base", loss, 100*(1-float64(*p.CountyYield)))
	}
	return true, fmt.Sprintf("the farm's own yields are %.0f percent below their benchmark, and the county's are near normal", loss)
}

// against puts a ratio to a benchmark into words: "12 percent below".
func against(ratio answer.Chance) string {
	switch percent := program.Round(100*(float64(ratio)-1), 0); {
	case percent < 0:
		return fmt.Sprintf("%.0f percent below", -percent)
	case percent > 0:
		return fmt.Sprintf("%.0f percent above", percent)
	}
	return "at"
}

// againstBenchmark returns own and county mean yields as parts of their
// benchmark yields, weighted by planted acres; nil where not known.
func againstBenchmark(one position.Individual) (own, county *answer.Chance) {
	ownSum, countySum, acres, countyAcres := 0.0, 0.0, 0.0, 0.0
	for _, k := range one.Crops {
		if k.Planted == 0 || k.BenchmarkYield == 0 {
			continue
		}
		ownSum, acres = ownSum+k.Planted*k.Yield.Mean/k.BenchmarkYield, acres+k.Planted
		if k.County.Known && k.County.Benchmark.Value > 0 {
			countySum, countyAcres = countySum+k.Planted*k.County.Outlook.Mean/k.County.Benchmark.Value, countyAcres+k.Planted
		}
	}
	if acres > 0 {
		own = answer.ChanceOf(ownSum / acres)
	}
	if countyAcres > 0 {
		county = answer.ChanceOf(countySum / countyAcres)
	}
	return own, county
}

// cropView is one crop of ARC-IC for the JSON; without yields and revenue where a figure
// of the farm is missing.
func (r *YearRun) cropView(f farm.Farm, k position.IndividualCrop, complete bool) answer.ARCICCrop {
	v := answer.ARCICCrop{Commodity: k.Commodity, PlantedAcres: answer.Dollars(k.Planted), PreventedAcres: answer.Dollars(k.Prevented)}
	if !complete {
		return v
	}
	v.BenchmarkRevenue = answer.DollarsOf(k.Benchmark)
	if k.Planted == 0 {
		return v
	}
	sd := math.Hypot(k.Yield.Ratio*k.County.Outlook.SD, k.Yield.SD)
	v.Yield = &answer.YieldView{Mean: answer.Dollars(k.Yield.Mean), SD: answer.Dollars(sd), Status: k.Yield.Status, MeanFrom: k.Yield.From, SDFrom: odds.FarmOwnCVFrom(), OtherMeans: []answer.OtherMean{}}
	if k.Yield.Known {
		v.Yield.SD, v.Yield.SDFrom, v.Yield.KnownFrom = 0, "known", string(odds.Final)
	} else {
		v.Yield.KnownFrom = string(k.County.Outlook.Stage)
		r.ownTenths(v.Yield, f, k)
	}
	return v
}

// ownTenths fills in the tenths of a farm's own yields by scenario, as yieldTenths.
func (r *YearRun) ownTenths(view *answer.YieldView, f farm.Farm, k position.IndividualCrop) {
	if r.question.Brief || view.SD == 0 || !r.Year.Resolves(lowTenth) {
		return
	}
	own := r.Year.OwnYields(f, k)
	defer r.Year.Release(own)
	setYieldTenths(view, own)
}
