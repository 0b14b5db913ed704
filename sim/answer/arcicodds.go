package answer

import (
	"fmt"
	"math"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// ownLoss is how far the own yield must be below the own benchmark, and
// nearBenchmark how near the county must be to its own, for ARC-IC to be worth a
// look. The first is a rule of thumb in print ("at least 20 percent", Purdue
// Extension, January 2020); the second a judgement of this program.
const (
	ownLoss       = 0.20
	nearBenchmark = 0.90
)

// addIndividual works out ARC-IC for one farm and adds it to the outcomes of its
// holdings.
func (r *run) addIndividual(f *farmRun) error {
	one, err := r.individual(f.farm, r.cropYear)
	if err != nil || one == nil {
		return err
	}
	f.individual = one
	details, err := law.Find("individual_coverage_details", "", r.cropYear)
	if err != nil {
		return err
	}
	part := &ARCICPart{Missing: one.missing, PooledWith: []string{}, Crops: []ARCICCrop{}, Status: details.Status}
	f.arcIC = part
	for _, k := range one.crops {
		part.Crops = append(part.Crops, cropView(k, one.missing == ""))
	}
	if one.missing != "" {
		part.Reason = "no figures: missing " + one.missing
		return nil
	}
	pool, err := r.pool(*one)
	if err != nil {
		return err
	}
	for _, other := range pool[1:] {
		part.PooledWith = append(part.PooledWith, other.farm.Key())
	}
	r.payIndividual(f, pool)
	r.describeIndividual(f, part)
	return nil
}

// pool returns the farm and the others of its State with ARC-IC on record that
// share a producer with it.
func (r *run) pool(one individual) ([]*individual, error) {
	pool := []*individual{&one}
	for _, f := range r.Operation.Farms {
		if f.Key() == one.farm.Key() || stateOf(f.County) != stateOf(one.farm.County) || !onRecord(f, farm.ARCIC) || !shareProducer(r.Operation, f, one.farm, r.cropYear) {
			continue
		}
		other, err := r.individual(f, r.cropYear)
		if err != nil {
			return nil, err
		}
		if other.missing == "" && unpaidReason(f, r.cropYear) == "" {
			pool = append(pool, other)
		}
	}
	return pool, nil
}

func shareProducer(o farm.Operation, a, b farm.Farm, y crop.CropYear) bool {
	return slices.ContainsFunc(o.Producers, func(p farm.Producer) bool { return hasShare(a, p.ID, y) && hasShare(b, p.ID, y) })
}

// payIndividual adds ARC-IC to the payoffs of a farm: each producer is paid by the rate
// of the own pool.
func (r *run) payIndividual(f *farmRun, pool []*individual) {
	for i, p := range individualPayoffs(r.yearRates, r.Operation.Producers, f.holdings, pool) {
		f.payoffs[i] = append(slices.Clip(withoutProgram(f.payoffs[i], farm.ARCIC)), p)
	}
}

// individualPayoffs returns what ARC-IC pays on each commodity base of the first farm
// of a pool, by the rate of each producer's own part of the pool.
func individualPayoffs(y *yearRates, producers []farm.Producer, holdings []*holding, pool []*individual) (all []*payoff) {
	alone := individualRates(y, pool[:1], "")
	rates := make([][]crop.Revenue, len(producers))
	for j, p := range producers {
		rates[j] = alone
		if len(pool) > 1 {
			rates[j] = individualRates(y, pool, p.ID)
		}
	}
	for _, h := range holdings {
		p := &payoff{program: farm.ARCIC, byBase: individualPay(h, alone), byBaseOf: map[string][]*payment{}}
		for j, producer := range producers {
			p.byBaseOf[producer.ID] = individualPay(h, rates[j])
		}
		p.beforeWhom = beforeShare(y, producers, h, rates, alone)
		all = append(all, p)
	}
	return all
}

// individualPay returns what each base is paid at ARC-IC rates, USD by base.
func individualPay(h *holding, rates []crop.Revenue) []*payment {
	var byPart []*payment
	for _, p := range h.parts {
		byPart = append(byPart, acrePayment(rates, h.individualAcres(p), slices.Max(rates), program.ARCICPayment))
	}
	return byPart
}

// beforeShare adds what all shares of a holding are paid: each producer's part
// at the own rate, the rest at the rate of the farm alone.
func beforeShare(y *yearRates, producers []farm.Producer, h *holding, rates [][]crop.Revenue, alone []crop.Revenue) []crop.Money {
	sum := y.zeros()
	for _, p := range h.parts {
		acres, rest := h.individualAcres(p), 1.0
		for j, producer := range producers {
			share := p.shares[producer.ID]
			rest -= share
			for i := range sum {
				sum[i] += share * program.ARCICPayment(rates[j][i], acres)
			}
		}
		if rest < crop.Noise {
			continue
		}
		for i := range sum {
			sum[i] += rest * program.ARCICPayment(alone[i], acres)
		}
	}
	return sum
}

// individualRates returns the ARC-IC rate of a pool in each draw for one
// producer, or for the farm as a whole.
func individualRates(y *yearRates, pool []*individual, producer string) []crop.Revenue {
	crops := individualCrops(pool, producer, y.cropYear)
	terms := pool[0].crops[0].national.Terms
	coverage, ok := program.NewARCIC(crops, terms.GuaranteeShare, terms.MaximumShare)
	rates := y.zeros()
	if !ok {
		return rates
	}
	var yields [][]crop.Yield
	var prices [][]crop.Price
	var loans []crop.Price
	for _, one := range pool {
		for _, k := range one.crops {
			own := y.ownYields(one.farm, k)
			defer y.give(own)
			outlook, _ := y.priceOutlook(k.commodity, y.cropYear, k.national.Terms.PriceDecimals)
			yields, prices, loans = append(yields, own), append(prices, y.prices(k.commodity, outlook)), append(loans, k.national.Terms.LoanRate)
		}
	}
	yieldsNow, pricesNow := make([]crop.Yield, len(crops)), make([]crop.Price, len(crops))
	for i := range rates {
		for k := range crops {
			yieldsNow[k], pricesNow[k] = yields[k][i], program.ActualPrice(prices[k][i], loans[k])
		}
		rates[i] = coverage.Rate(program.IndividualRevenue(crops, yieldsNow, pricesNow))
	}
	return rates
}

// ownYields returns the farm's own yield in each draw: it follows the county's
// and varies by itself. Give the series back.
func (y *yearRates) ownYields(f farm.Farm, k individualCrop) []crop.Yield {
	own := y.take()
	if k.planted == 0 || k.yield.known {
		for i := range own {
			own[i] = k.yield.mean
		}
		return own
	}
	county := y.yields(k.national.Terms.YieldDecimals, k.county)
	shock := y.sampler.FarmShock(f.Key(), k.commodity).Into(y.take())
	defer y.give(shock)
	for i := range own {
		own[i] = max(0, k.yield.ratio*county[i]+k.yield.sd*shock[i])
	}
	return own
}

// describeIndividual fills the figures and says whether ARC-IC can matter.
func (r *run) describeIndividual(f *farmRun, part *ARCICPart) {
	one := *f.individual
	terms := one.crops[0].national.Terms
	coverage, _ := program.NewARCIC(individualCrops([]*individual{&one}, "", r.cropYear), terms.GuaranteeShare, terms.MaximumShare)
	part.BenchmarkRevenue, part.Guarantee, part.AllPrevented = dollars(coverage.BenchmarkRevenue), dollars(coverage.Guarantee), coverage.AllPrevented
	base, acres := f.farm.BaseAcres(), 0.0
	perAcre := r.zeros()
	defer r.give(perAcre)
	for i, h := range f.holdings {
		for _, p := range h.parts {
			acres += h.individualAcres(p)
		}
		for d, payment := range f.payoffs[i].of(farm.ARCIC).beforeWhom {
			perAcre[d] += payment / base
		}
	}
	part.PaymentAcres = Dollars(acres)
	part.PerBaseAcre = ProgramFigures(r.shapeOf(perAcre, program.ARCICPayment(coverage.Maximum, acres)/base, nil))
	own, county := againstBenchmark(one)
	part.OwnYield, part.CountyYield = own, county
	part.CanMatter, part.Reason = canMatter(part)
}

// canMatter screens ARC-IC and says in one line why it is shown or not.
func canMatter(p *ARCICPart) (bool, string) {
	switch {
	case p.AllPrevented:
		return true, "the farm was prevented from planting all its covered acres: ARC-IC then pays the most it can"
	case p.OwnYield == nil:
		return false, "no own yield"
	}
	loss := 100 * (1 - float64(*p.OwnYield))
	if loss < 100*ownLoss-crop.Noise {
		return false, fmt.Sprintf("the own yield is %s the own benchmark; ARC-IC, which pays on a smaller part of base, needs an own loss of %.0f percent or more that the county does not share", against(*p.OwnYield), 100*ownLoss)
	}
	if p.CountyYield != nil && *p.CountyYield < nearBenchmark {
		return false, fmt.Sprintf("the own yield is %.0f percent below the own benchmark, but the county's is %.0f percent below its own: ARC-CO sees that loss, and pays on more of the base", loss, 100*(1-float64(*p.CountyYield)))
	}
	return true, fmt.Sprintf("the own yield is %.0f percent below the own benchmark while the county is near its own", loss)
}

// against words a ratio to a benchmark.
func against(ratio Chance) string {
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
func againstBenchmark(one individual) (own, county *Chance) {
	ownSum, countySum, acres, countyAcres := 0.0, 0.0, 0.0, 0.0
	for _, k := range one.crops {
		if k.planted == 0 || k.benchmarkYield == 0 {
			continue
		}
		ownSum, acres = ownSum+k.planted*k.yield.mean/k.benchmarkYield, acres+k.planted
		if k.county.known && k.county.benchmark.Value > 0 {
			countySum, countyAcres = countySum+k.planted*k.county.outlook.Mean/k.county.benchmark.Value, countyAcres+k.planted
		}
	}
	if acres > 0 {
		own = chance(ownSum / acres)
	}
	if countyAcres > 0 {
		county = chance(countySum / countyAcres)
	}
	return own, county
}

// cropView is the crop for the JSON.
func cropView(k individualCrop, complete bool) ARCICCrop {
	v := ARCICCrop{Commodity: k.commodity, PlantedAcres: Dollars(k.planted), PreventedAcres: Dollars(k.prevented)}
	if !complete {
		return v
	}
	v.BenchmarkRevenue = dollars(k.benchmark)
	if k.planted == 0 {
		return v
	}
	sd := math.Hypot(k.yield.ratio*k.county.outlook.SD, k.yield.sd)
	v.Yield = &YieldView{Mean: Dollars(k.yield.mean), SD: Dollars(sd), Status: k.yield.status, MeanFrom: k.yield.from, SpreadFrom: odds.FarmSpreadFrom()}
	if k.yield.known {
		v.Yield.SD, v.Yield.SpreadFrom, v.Yield.KnownFrom = 0, "known", string(odds.Final)
	} else {
		v.Yield.KnownFrom = string(k.county.outlook.stage)
	}
	return v
}
