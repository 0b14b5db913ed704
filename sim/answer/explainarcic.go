package answer

import (
	"fmt"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// explainARCIC gives every step of ARC-IC for the whole farm, alone, on given
// prices and the own yields that are typed; nil where nothing covered is planted
// and ARC-IC is not on record.
func explainARCIC(c Case, f farm.Farm, y crop.CropYear, holdings []*holding, payer payer, given Given) (*ProgramSteps, error) {
	one, err := c.sources().individual(f, y)
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

// acreageReport is where planted acres are from.
const acreageReport = "planted; the acreage report"

// individualCrop adds the steps of one commodity.
func (s *stepList) individualCrop(k individualCrop, f farm.Farm, y crop.CropYear, given Given) (actual ownActual, missing string) {
	suffix := "_" + string(k.commodity)
	s.add(program.StepIndividualFloor, suffix, k.national.Target.Value, k.national.targetDecimals(), "", k.national.Target.Status)
	for i, year := range k.years {
		at := fmt.Sprintf("_%d%s", year.cropYear, suffix)
		s.exact(program.StepOwnYield, at, year.yield, "own yield, arc_ic_history", crop.Assumed)
		if year.plug > 0 {
			s.exact(program.StepIndividualPlug, at, year.plug, "; the county file", crop.Assumed)
		}
		price := k.national.History[i]
		s.add(program.StepPastPrice, at, price.Value, k.national.Terms.PriceDecimals, price.Source, price.Status)
		s.add(program.StepIndividualYear, at, year.revenue, 2, "", crop.Unverified)
	}
	s.add(program.StepIndividualBenchmark, suffix, k.benchmark, 2, "", crop.Unverified)
	s.add(program.StepPlantedAcres, suffix, k.planted, 2, acreageReport, crop.Assumed)
	s.add(program.StepPreventedAcres, suffix, k.prevented, 2, acreageReport, crop.Assumed)
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
	s.exact(program.StepOwnYieldNow, suffix, yield, "own yield of the crop year, planted", crop.Assumed)
	return ownActual{yield, s.actualPrice(mya, suffix)}, ""
}

// individualFarm adds the steps of the farm and what is paid.
func (s *stepList) individualFarm(one *individual, yields []crop.Yield, prices []crop.Price, holdings []*holding, payer payer, y crop.CropYear) *ProgramSteps {
	terms := one.crops[0].national.Terms
	crops := individualCrops([]*individual{one}, "", y)
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
	for _, h := range holdings {
		s.h = h
		var byPart []crop.Money
		for _, p := range h.parts {
			suffix := "_" + strings.TrimPrefix(string(h.commodity)+suffixOf(h, p, ""), "_")
			acres := h.individualAcres(p)
			s.acres(p, acres, share, row, "fruit_vegetable_share_individual", suffix)
			payment := program.ARCICPayment(rate, acres)
			s.add(program.StepARCICPayment, suffix, payment, 2, "", crop.Unverified)
			byPart = append(byPart, payment)
			sum, perAcre = sum+payment, perAcre+rate*acres/one.farm.BaseAcres()
		}
		paid = append(paid, basesPaid{h, byPart})
	}
	s.add(program.StepARCICPayment, "", sum, 2, "", crop.Unverified)
	people, after := explainPeople(payer, paid...)
	return &ProgramSteps{Steps: s.list(), Rate: &Price{rate, 2}, PaymentPerBaseAcre: dollars(perAcre), Payment: dollars(sum), PaymentAfterLimit: dollars(after), People: people}
}
