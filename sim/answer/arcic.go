package answer

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// individual is what a farm brings to ARC-IC in one crop year.
type individual struct {
	farm    farm.Farm
	crops   []individualCrop
	missing string // why there are no figures; "" when there are
}

// individualCrop is one covered commodity planted, or prevented from it.
type individualCrop struct {
	commodity          crop.Commodity
	national           National
	planted, prevented crop.Acres
	years              [5]ownYear
	benchmark          crop.Revenue // of the commodity, USD per acre
	benchmarkYield     crop.Yield   // Olympic average of the raised yields: for the screen only
	county             practicePart
	yield              ownYield
}

// ownYear is one year of a benchmark.
type ownYear struct {
	cropYear crop.CropYear
	yield    crop.Yield
	plug     crop.Yield // 0: not known
	revenue  crop.Revenue
}

// ownYield is what is known of the farm's own yield of the crop year: a multiple
// of the county's and a part of its own.
type ownYield struct {
	mean   crop.Yield
	ratio  float64 // to the county's mean; 0 where the yield is known
	sd     crop.Yield
	status crop.Status
	from   string
	known  bool
}

// individual returns what a farm brings to ARC-IC; nil where no covered planting
// is given and ARC-IC is not on record.
func (s sources) individual(f farm.Farm, y crop.CropYear) (*individual, error) {
	one := &individual{farm: f}
	for _, commodity := range crop.Commodities() {
		planted, prevented := f.PlantedAcres(string(commodity), y), f.PreventedAcres(string(commodity), y)
		if planted+prevented == 0 {
			continue
		}
		n, err := nationalOf(s.Market, commodity, y)
		if err != nil {
			return nil, err
		}
		k := individualCrop{commodity: commodity, national: n, planted: planted, prevented: prevented}
		if missing := k.fill(s, f, y); missing != "" && one.missing == "" {
			one.missing = missing
		}
		one.crops = append(one.crops, k)
	}
	switch {
	case len(one.crops) == 0 && !onRecord(f, farm.ARCIC):
		return nil, nil
	case len(one.crops) == 0:
		one.missing = "what is planted of covered commodities"
	case paysHigherOf(y):
		one.missing = fmt.Sprintf("a rule that pays it: for crop year %d the higher of PLC and ARC-CO is paid, and ARC-IC is not in that comparison (%s)", y, crop.Unverified)
	}
	return one, nil
}

// onRecord reports whether one of some programs stands on record for any base of
// a farm. ARC-IC stands for every commodity or for none.
func onRecord(f farm.Farm, programs ...farm.Program) bool {
	for _, p := range f.Record {
		if slices.Contains(programs, p) {
			return true
		}
	}
	return false
}

// fill finds benchmark and own yield of a crop and returns what is missing.
func (k *individualCrop) fill(s sources, f farm.Farm, y crop.CropYear) (missing string) {
	if k.national.BenchmarkPrice.Status == "" {
		return k.national.Missing
	}
	unit := countyUnit{countyOf(f, k.commodity), k.commodity, "", y}
	unit.practice = practiceOf(s.Counties, f, unit)
	benchmark, _ := s.benchmarkYield(unit, k.national.Terms.YieldDecimals)
	k.county = practicePart{unit: unit, weight: 1, benchmark: benchmark}
	k.county.outlook, k.county.known, _ = s.outlook(unit, benchmark)
	if missing := k.fillYears(s.Counties, f); missing != "" {
		return missing
	}
	if _, ok := s.priceOutlook(k.commodity, y, k.national.Terms.PriceDecimals); !ok {
		return "a projected price of " + k.commodity.Name()
	}
	if k.planted == 0 {
		return ""
	}
	return k.fillYield(s, f, y)
}

// countyOf returns the county whose yields a farm's crop follows: where its base
// of the commodity lies, else the farm's.
func countyOf(f farm.Farm, c crop.Commodity) string {
	if bases := f.BasesOf(c); len(bases) > 0 {
		return bases[0].PhysicalCounty(f)
	}
	return f.County
}

// practiceOf returns the county's practice that the plantings go by: their own
// where the county has it, else the first it has.
func practiceOf(book farm.CountyBook, f farm.Farm, u countyUnit) farm.Practice {
	practices := book.Practices(u.county, u.commodity, u.cropYear)
	for _, p := range f.Planted {
		if p.CropYear == u.cropYear && p.Commodity == string(u.commodity) && slices.Contains(practices, p.Practice) {
			return p.Practice
		}
	}
	if len(practices) == 0 {
		return farm.AllPractices
	}
	return practices[0]
}

// fillYears works out the five yearly revenues from the farm's own yields.
func (k *individualCrop) fillYears(book farm.CountyBook, f farm.Farm) (missing string) {
	var revenues, yields [5]float64
	terms := k.national.Terms
	for i, year := range terms.BenchmarkYears() {
		own, has := f.History[k.commodity][year]
		if !has {
			return fmt.Sprintf("the farm's own yield of %s in crop year %d (arc_ic_history)", k.commodity.Name(), year)
		}
		plug := plugOf(book, k.county.unit, year)
		revenues[i] = program.IndividualYearRevenue(own, plug, k.national.History[i].Value, k.national.Target.Value)
		yields[i] = max(own, plug)
		k.years[i] = ownYear{year, own, plug, revenues[i]}
	}
	k.benchmark, k.benchmarkYield = program.IndividualBenchmark(revenues), program.OlympicAverage(yields)
	return ""
}

// filesPlugYear is a crop year of the rules by which county files state plugs.
const filesPlugYear = 2019

// plugOf returns the least yield that counts for a past year in the benchmark of
// the unit's crop year, 0 where no source has it.
func plugOf(book farm.CountyBook, u countyUnit, year crop.CropYear) crop.Yield {
	now, err := law.Find("plug_share", "", u.cropYear)
	files, errFiles := law.Find("plug_share", "", filesPlugYear)
	if err != nil || errFiles != nil {
		return 0
	}
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		if plug, has := e.Plug[year]; has {
			return plug * now.Number / files.Number
		}
	}
	return 0
}

// fillYield finds the farm's own yield of the crop year: typed, or as far above
// or below its county as its own benchmark is. A typed yield is known from harvest on,
// and where the county's is known (it has no spread); before, it is a mean.
func (k *individualCrop) fillYield(s sources, f farm.Farm, y crop.CropYear) (missing string) {
	typed, isTyped := plantedYield(f, k.commodity, y)
	stage := k.county.outlook.stage
	switch {
	case isTyped && (!k.county.known || stage != odds.BeforeHarvest || k.county.outlook.SD == 0):
		k.yield = ownYield{mean: typed, status: crop.Assumed, from: "own yield as typed, taken as known", known: true}
		return ""
	case !k.county.known || k.county.outlook.Mean == 0:
		return "a county yield of " + k.commodity.Name() + " for county " + k.county.unit.county
	case isTyped:
		k.yield = ownYield{mean: typed, status: crop.Assumed, from: "own yield as typed, before harvest a mean"}
	default:
		mean := 0.0
		for _, year := range k.years {
			mean += year.yield / float64(len(k.years))
		}
		if k.county.benchmark.Value > 0 {
			mean *= k.county.outlook.Mean / k.county.benchmark.Value
		}
		k.yield = ownYield{mean: mean, status: crop.Assumed, from: "mean of the farm's five own yields, moved as the county's mean is against its benchmark"}
	}
	series, _ := seriesOf(s.Counties, k.county.unit)
	cv, _, _ := odds.CountyCV(k.commodity, stateOf(k.county.unit.county), series.years, series.yields, series.harvested)
	k.yield.ratio, k.yield.sd = k.yield.mean/k.county.outlook.Mean, k.yield.mean*odds.FarmSpread(cv)
	return ""
}

// plantedYield returns the yield typed for a crop, weighted by acres where it
// was planted in several rows; ok is false where some row has none.
func plantedYield(f farm.Farm, c crop.Commodity, y crop.CropYear) (yield crop.Yield, ok bool) {
	production, acres := 0.0, 0.0
	for _, p := range f.Planted {
		if p.CropYear != y || p.Commodity != string(c) || p.Acres == 0 {
			continue
		}
		if p.Yield == nil {
			return 0, false
		}
		production, acres = production+*p.Yield*p.Acres, acres+p.Acres
	}
	if acres == 0 {
		return 0, false
	}
	return production / acres, true
}

// individualCrops returns the crops of a pool of farms for the law, by the
// shares of one producer; without a producer, as one who has all of them.
func individualCrops(pool []*individual, producer string, y crop.CropYear) []program.IndividualCrop {
	var crops []program.IndividualCrop
	for _, one := range pool {
		for _, k := range one.crops {
			share := 1.0
			if producer != "" {
				share = shareOf(one.farm, k.commodity, producer, y)
			}
			crops = append(crops, program.IndividualCrop{Share: share, PlantedAcres: k.planted, PreventedAcres: k.prevented, BenchmarkRevenue: k.benchmark})
		}
	}
	return crops
}

// shareOf returns a producer's share in a crop of a farm: that of its bases,
// weighted by acres, else the farm's.
func shareOf(f farm.Farm, c crop.Commodity, producer string, y crop.CropYear) crop.Share {
	bases := f.BasesOf(c)
	if len(bases) == 0 {
		shares, _ := f.Shares.In(y)
		return shares[producer]
	}
	sum, acres := 0.0, 0.0
	for _, b := range bases {
		sum, acres = sum+b.BaseAcres*sharesOf(f, b, y)[producer], acres+b.BaseAcres
	}
	return sum / acres
}

// individualAcres returns the payment acres of a base under ARC-IC.
func (h *holding) individualAcres(p part) crop.Acres {
	row, err := law.Find("payment_acre_share_individual", "", h.national.Terms.CropYear)
	if err != nil {
		return 0
	}
	return h.paysOn(p.base, row.Number, "fruit_vegetable_share_individual")
}
