package answer

import (
	"fmt"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// Sources of the steps of ARC-IC.
const (
	sourceOwnYield        = "own yield, arc_ic_history"
	sourceOwnRevenue      = "7 U.S.C. 9017(c)(3)(A)"
	sourceOwnWeights      = "7 U.S.C. 9017(c)(3)(B)"
	sourceOwnActual       = "7 U.S.C. 9017(b)(2); 7 CFR 1412.3"
	sourcePlantedAcres    = "planted; the acreage report"
	sourceARCICPayment    = "7 U.S.C. 9017(e), 9014(a)(2)"
	sourceAllPrevented    = "farmdoc daily, Strategies for using ARC-IC, February 2020"
	sourceIndividualPlug  = "7 U.S.C. 9017(c)(4); the county file"
	sourceIndividualFloor = "7 U.S.C. 9017(c)(6)"
)

// explainARCIC gives every step of ARC-IC for the whole farm, alone, on given
// prices and the own yields that are typed; nil where nothing covered is planted
// and ARC-IC is not on record.
func (c Case) explainARCIC(f farm.Farm, y crop.CropYear, holdings []*holding, payer payer, given Given) (*ProgramSteps, error) {
	one, err := c.individual(f, y)
	if err != nil || one == nil {
		return nil, err
	}
	s := stepList{}
	missing := one.missing
	var yields []crop.Yield
	var prices []crop.Price
	for _, k := range one.crops {
		if missing != "" {
			break
		}
		s.h = &holding{farm: f, commodity: k.commodity, national: k.national}
		var actual ownActual
		actual, missing = s.individualCrop(k, f, y, given)
		yields, prices = append(yields, actual.yield), append(prices, actual.price)
	}
	if missing != "" {
		return &ProgramSteps{Steps: s.list(), Missing: missing}, nil
	}
	return s.individualFarm(one, yields, prices, holdings, payer, y), nil
}

// list returns the steps, never nil.
func (s *stepList) list() []Step { return append([]Step{}, s.steps...) }

// ownActual is what a crop brought.
type ownActual struct {
	yield crop.Yield
	price crop.Price
}

// individualCrop adds the steps of one commodity.
func (s *stepList) individualCrop(k individualCrop, f farm.Farm, y crop.CropYear, given Given) (actual ownActual, missing string) {
	suffix, unit := "_"+string(k.commodity), k.commodity.Unit()
	s.add("effective_reference_price"+suffix, k.national.Target.Value, k.national.targetDecimals(), unit.Price(), sourceIndividualFloor, k.national.Target.Status)
	for i, year := range k.years {
		at := fmt.Sprintf("_%d%s", year.cropYear, suffix)
		s.exact("own_yield"+at, year.yield, unit.Yield(), sourceOwnYield, crop.Assumed)
		if year.plug > 0 {
			s.exact("plug"+at, year.plug, unit.Yield(), sourceIndividualPlug, crop.Assumed)
		}
		price := k.national.History[i]
		s.add("mya_price"+at, price.Value, k.national.Terms.PriceDecimals, unit.Price(), price.Source, price.Status)
		s.add("revenue"+at, year.revenue, 2, "USD/acre", sourceOwnRevenue, crop.Unverified)
	}
	s.add("benchmark_revenue"+suffix, k.benchmark, 2, "USD/acre", sourceOwnRevenue, crop.Unverified)
	s.add("planted_acres"+suffix, k.planted, 2, "acres", sourcePlantedAcres, crop.Assumed)
	s.add("prevented_acres"+suffix, k.prevented, 2, "acres", sourcePlantedAcres, crop.Assumed)
	if k.planted == 0 {
		return actual, ""
	}
	mya, told := given.Prices[k.commodity]
	if !told {
		return actual, fmt.Sprintf("a price of %s: give every crop's with --mya %s=PRICE,...", k.commodity.Name(), k.commodity)
	}
	yield, told := plantedYield(f, k.commodity, y)
	if !told {
		return actual, fmt.Sprintf("the farm's own yield of %s in crop year %d (planted, yield)", k.commodity.Name(), y)
	}
	s.exact("own_yield"+suffix, yield, unit.Yield(), "own yield of the crop year, planted", crop.Assumed)
	return ownActual{yield, s.actualPrice(mya, suffix)}, ""
}

// individualFarm adds the steps of the farm and what is paid.
func (s *stepList) individualFarm(one *individual, yields []crop.Yield, prices []crop.Price, holdings []*holding, payer payer, y crop.CropYear) *ProgramSteps {
	terms := one.crops[0].national.Terms
	crops := individualCrops([]*individual{one}, "", y)
	coverage, _ := program.NewARCIC(crops, terms.GuaranteeShare, terms.MaximumShare)
	s.coverage(coverage.ARCCO, "", sourceOwnWeights, crop.Unverified, true)
	actual, rateSource := 0.0, sourceAllPrevented
	if !coverage.AllPrevented {
		actual, rateSource = program.IndividualRevenue(crops, yields, prices), sourceARCCORate
		s.add("actual_revenue", actual, 2, "USD/acre", sourceOwnActual, crop.Unverified)
	}
	rate := coverage.Rate(actual)
	s.add("payment_rate", rate, 2, "USD/acre", rateSource, crop.Unverified)
	row, _ := law.Find("payment_acre_share_individual", "", y)
	var paid []basesPaid
	sum, perAcre := 0.0, 0.0
	for _, h := range holdings {
		s.h = h
		var byPart []crop.Money
		for _, p := range h.parts {
			suffix := "_" + strings.TrimPrefix(string(h.commodity)+h.suffix(p, ""), "_")
			acres := h.individualAcres(p)
			s.acres(p, acres, row, "fruit_vegetable_share_individual", suffix)
			payment := program.ARCICPayment(rate, acres)
			s.add("payment"+suffix, payment, 2, "USD", sourceARCICPayment, crop.Unverified)
			byPart = append(byPart, payment)
			sum, perAcre = sum+payment, perAcre+rate*acres/one.farm.BaseAcres()
		}
		paid = append(paid, basesPaid{h, byPart})
	}
	s.add("payment", sum, 2, "USD", sourceARCICPayment, crop.Unverified)
	people, after := payer.explain(paid...)
	return &ProgramSteps{Steps: s.list(), Rate: &Price{rate, 2}, PaymentPerBaseAcre: dollars(perAcre), Payment: dollars(sum), PaymentAfterLimit: dollars(after), People: people}
}
