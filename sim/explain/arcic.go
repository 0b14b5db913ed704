package explain

import (
	"fmt"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// explainARCIC returns every step of ARC-IC for the whole farm, not pooled with others,
// at given prices and the own yields of the file; nil where nothing covered is planted
// and ARC-IC is not on record.
func explainARCIC(c answer.Question, f farm.Farm, y crop.CropYear, bases []*position.CommodityBase, payer limits.Rules, given Given) (*ProgramSteps, error) {
	one, err := c.Sources().Individual(f, y)
	if err != nil || one == nil {
		return nil, err
	}
	s := stepList{}
	missing := one.Missing
	var yields []crop.Yield
	var prices []crop.Price
	for _, k := range one.Crops {
		if missing != "" {
			break
		}
		s.h = &position.CommodityBase{Farm: f, Commodity: k.Commodity, National: k.National}
		var actual ownActual
		actual, missing = s.individualCrop(k, f, y, given)
		yields, prices = append(yields, actual.yield), append(prices, actual.price)
	}
	if missing != "" {
		return &ProgramSteps{Steps: s.list(), Missing: missing}, nil
	}
	return s.individualFarm(one, yields, prices, bases, payer, y), nil
}

// list returns the steps, never nil.
func (s *stepList) list() []Step { return append([]Step{}, s.steps...) }

// ownActual is what a crop brought: units per acre and USD per unit.
type ownActual struct {
	yield crop.Yield
	price crop.Price
}

// acreageReport is the source of planted acres.
const acreageReport = "planted; the acreage report"

// individualCrop adds the steps of one commodity and returns its actual yield and price.
// missing names a figure that was not given.
func (s *stepList) individualCrop(k position.IndividualCrop, f farm.Farm, y crop.CropYear, given Given) (actual ownActual, missing string) {
	suffix := "_" + string(k.Commodity)
	s.add(program.StepIndividualFloor, suffix, k.National.Target.Value, k.National.TargetDecimals(), "", k.National.Target.Status)
	for i, year := range k.Years {
		at := fmt.Sprintf("_%d%s", year.CropYear, suffix)
		s.exact(program.StepOwnYield, at, year.Yield, "own yield, arc_ic_history", crop.Assumed)
		if year.Plug > 0 {
			s.exact(program.StepIndividualPlug, at, year.Plug, "; the county file", crop.Assumed)
		}
		price := k.National.History[i]
		s.add(program.StepPastPrice, at, price.Value, k.National.Terms.PriceDecimals, price.Source, price.Status)
		s.add(program.StepIndividualYear, at, year.Revenue, 2, "", crop.Unverified)
	}
	s.add(program.StepIndividualBenchmark, suffix, k.Benchmark, 2, "", crop.Unverified)
	s.add(program.StepPlantedAcres, suffix, k.Planted, 2, acreageReport, crop.Assumed)
	s.add(program.StepPreventedAcres, suffix, k.Prevented, 2, acreageReport, crop.Assumed)
	if k.Planted == 0 {
		return actual, ""
	}
	mya, stated := given.Prices[k.Commodity]
	if !stated {
		return actual, fmt.Sprintf("a price of %s: give every crop's with --mya %s=PRICE,...", k.Commodity.Name(), k.Commodity)
	}
	yield, stated := position.PlantedYield(f, k.Commodity, y)
	if !stated {
		return actual, fmt.Sprintf("the farm's own yield of %s in crop year %d (planted, yield)", k.Commodity.Name(), y)
	}
	s.exact(program.StepOwnYieldNow, suffix, yield, "own yield of the crop year, planted", crop.Assumed)
	return ownActual{yield, s.actualPrice(mya, suffix)}, ""
}

// individualFarm adds the steps of the whole farm, down to what people are paid.
func (s *stepList) individualFarm(one *position.Individual, yields []crop.Yield, prices []crop.Price, bases []*position.CommodityBase, payer limits.Rules, y crop.CropYear) *ProgramSteps {
	terms := one.Crops[0].National.Terms
	crops := position.IndividualCrops([]*position.Individual{one}, "", y)
	coverage, _ := program.NewARCIC(crops, terms.GuaranteeShare, terms.MaximumShare)
	s.coverage(program.StepIndividualRevenue, coverage.ARCCO, "", crop.Unverified)
	actual, rateStep := 0.0, program.StepPreventedRate
	if !coverage.AllPrevented {
		actual, rateStep = program.IndividualRevenue(crops, yields, prices), program.StepARCCORate
		s.add(program.StepIndividualActual, "", actual, 2, "", crop.Unverified)
	}
	rate := coverage.Rate(actual)
	s.add(rateStep, "", rate, 2, "", crop.Unverified)
	share := program.StepIndividualAcreShare
	row, _ := law.Find(share.Name, "", y)
	var paid []basesPaid
	sum, perAcre := 0.0, 0.0
	for _, base := range bases {
		s.h = base
		var byBase []crop.Money
		for _, b := range base.Bases {
			suffix := "_" + strings.TrimPrefix(string(base.Commodity)+suffixOf(base, b, ""), "_")
			acres := base.IndividualAcres(b)
			s.acres(b, acres, share, row, "fruit_vegetable_share_individual", suffix)
			payment := program.ARCICPayment(rate, acres)
			s.add(program.StepARCICPayment, suffix, payment, 2, "", crop.Unverified)
			byBase = append(byBase, payment)
			sum, perAcre = sum+payment, perAcre+rate*acres/one.Farm.BaseAcres()
		}
		paid = append(paid, basesPaid{base, byBase})
	}
	s.add(program.StepARCICPayment, "", sum, 2, "", crop.Unverified)
	people, after := explainPeople(payer, paid...)
	return &ProgramSteps{Steps: s.list(), Rate: &answer.Price{Value: rate, Decimals: 2}, PaymentPerBaseAcre: answer.DollarsOf(perAcre), Payment: answer.DollarsOf(sum), PaymentAfterLimit: answer.DollarsOf(after), People: people}
}
