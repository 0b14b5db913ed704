package compare

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// insuredRun is the area insurance of one crop of a farm in a crop year.
type insuredRun struct {
	crop    *position.Insured
	layers  []*payoff.Payoff // in the order of its layers; nil: cannot be had
	base    int              // its place among the farm's commodity bases; -1: no base
	premium []*crop.Money    // by layer, USD in all with the fee; nil: not typed
}

// insurance returns the area insurance of a farm beside its programs; nil where the file has
// none of the crop year. An error is the law's.
func (r *YearRun) insurance(f farmRun) (*answer.Insurance, error) {
	insured, err := r.Year.Insured(f.farm, r.Year.CropYear)
	if err != nil || len(insured) == 0 {
		return nil, err
	}
	out := &answer.Insurance{BaseAcres: answer.Dollars(f.farm.BaseAcres()), Unconfirmed: []string{}, WholeFarm: []answer.InsuranceRow{}}
	if day, err := law.Find("area_yields_published", "", r.Year.CropYear); err == nil {
		out.YieldsOut = fmt.Sprintf("%d-%s", r.Year.CropYear+1, day.Text)
	}
	var runs []insuredRun
	for _, k := range insured {
		one := insuredRun{crop: k, layers: payoff.OfInsured(r.Year, k), base: slices.IndexFunc(f.bases, func(b *position.CommodityBase) bool { return b.Commodity == k.Commodity })}
		part := r.insuredCrop(f, &one)
		out.Crops = append(out.Crops, part)
		out.InsuredAcres += answer.Dollars(k.Acres)
		for _, l := range k.Layers {
			for _, row := range l.Terms.Rows {
				if row.Status == crop.Unverified {
					out.Unconfirmed = flag.AppendOnce(out.Unconfirmed, row.Citation())
				}
			}
		}
		runs = append(runs, one)
	}
	r.wholeFarmInsured(f, runs, out)
	return out, nil
}

// insuredCrop describes one insured crop and fills in the premiums of one.
func (r *YearRun) insuredCrop(f farmRun, one *insuredRun) answer.InsuredCrop {
	k := one.crop
	price := func(x float64) answer.Price { return answer.Price{Value: x, Decimals: k.Pair.Decimals} }
	part := answer.InsuredCrop{
		Commodity: k.Commodity, Practice: string(k.County.Unit.Practice), County: k.County.Unit.County, Plan: k.Plan, Level: answer.Chance(k.Level), ApprovedYield: answer.Dollars(k.ApprovedYield),
		InsuredAcres: answer.Dollars(k.Acres), Share: answer.Chance(k.Share), ProjectedPrice: price(k.Projected), HarvestPriceKnown: k.Harvest != nil, HarvestPriceOut: k.HarvestPriceOut(r.question.Today),
		ExpectedYield: answer.Dollars(k.ExpectedYield), AreaYieldRatio: answer.Chance(k.Ratio), Sales: r.sales(k), Missing: k.Missing,
		Together: []answer.InsuranceRow{}, Overlap: []answer.Overlap{}, Apart: []string{},
	}
	if one.base >= 0 {
		part.BaseAcres = answer.Dollars(f.bases[one.base].Acres)
	}
	if k.Plan != farm.YieldProtection && k.Missing == "" {
		harvest := price(k.Pair.Usual())
		if part.HarvestPrice = &harvest; k.Pair.Harvest == 0 {
			part.Volatility = answer.ChanceOf(k.Pair.Volatility)
		}
	}
	if yield, known := finalYield(k); known {
		part.AreaYield, part.AreaYieldStatus = answer.DollarsOf(yield), crop.Assumed
		if k.FinalYield == nil {
			part.AreaYieldStatus, part.AreaYieldFrom = k.County.Outlook.Status, string(k.County.Outlook.Stage)
		}
	}
	for i := range k.Layers {
		part.Layers = append(part.Layers, r.insuredLayer(f, one, i))
	}
	if k.Missing == "" {
		r.cropTogether(f, one, &part)
	}
	return part
}

// finalYield is the final area yield, or its average; known is false where there is nothing to
// go by.
func finalYield(k *position.Insured) (yield crop.Yield, known bool) {
	if k.FinalYield != nil {
		return *k.FinalYield, true
	}
	return k.Ratio * k.County.Outlook.Mean, k.County.Known
}

// sales says how the sales of a crop's insurance stand today.
func (r *YearRun) sales(k *position.Insured) answer.Sales {
	closes := k.Closes()
	return answer.Sales{Standing: k.Standing(r.question.Today), LastDay: closes.Day, Of: closes.Note, Status: closes.Status, Source: closes.Source}
}

// insuredLayer describes layer i of an insured crop and notes its premium.
func (r *YearRun) insuredLayer(f farmRun, one *insuredRun, i int) answer.InsuredLayer {
	k, l, p := one.crop, one.crop.Layers[i], one.layers[i]
	out := answer.InsuredLayer{Layer: l.Program, Trigger: answer.Chance(l.Band.Trigger), LowerEnd: answer.Chance(l.Band.Trigger - l.Band.Range), Percentage: answer.Chance(program.Percentage(l.Layer)),
		Subsidy: answer.Chance(l.Terms.Subsidy), FromTotal: l.Total != nil, FeeKnown: l.Terms.Fee > 0, Steps: []answer.AreaStep{}, Missing: l.Missing}
	one.premium = append(one.premium, nil)
	if k.Missing != "" || l.Missing != "" {
		return out
	}
	harvest := k.Pair.Usual()
	out.Protection = answer.DollarsOf(l.Band.Protection(insuredValue(k, l, k.Projected), program.Percentage(l.Layer)))
	out.PaysBelow = answer.DollarsOf(l.Band.BreakEvenYield(k.Plan, k.ExpectedYield, k.Projected, harvest))
	if yield, known := finalYield(k); known {
		out.Steps = areaSteps(k, l, harvest, yield)
	}
	s := p.Summary(r.Year)
	out.Average, out.StandardError = answer.DollarsOf(s.Mean), answer.DollarsOf(s.StandardError)
	out.ChanceOfPayment, out.ChanceOfMost = answer.ChanceOf(s.Paying), answer.ChanceOf(s.AtMaximum)
	fee := r.feePerAcre(l, k)
	out.Fee = answer.Dollars(fee)
	if l.Premium != nil {
		all := (*l.Premium + fee) * k.Acres
		one.premium[i] = &all
		out.Premium, out.Net = answer.DollarsOf(*l.Premium), answer.DollarsOf(s.Mean-*l.Premium-fee)
		out.NetAtShare = answer.DollarsOf((s.Mean*k.Acres - all) * k.Share)
	}
	return out
}

// feePerAcre is a crop's part of the administrative fee of a layer, which is due once for a
// crop and county: by insured acres of the operation, USD per acre.
func (r *YearRun) feePerAcre(l position.InsuredLayer, k *position.Insured) crop.Money {
	acres := 0.0
	for _, f := range r.question.Operation.Farms {
		for _, i := range f.InsuredIn(r.Year.CropYear) {
			if i.Commodity == k.Commodity && position.InsuredCounty(f, i.Commodity) == k.County.Unit.County && slices.ContainsFunc(i.Layers, func(o farm.Layer) bool { return o.Program == l.Program }) {
				acres += i.Acres
			}
		}
	}
	return l.Terms.Fee / max(acres, k.Acres)
}
