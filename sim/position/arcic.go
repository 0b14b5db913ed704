package position

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// Individual holds a farm's figures for ARC-IC in one crop year.
type Individual struct {
	Farm    farm.Farm
	Crops   []IndividualCrop
	Missing string // what the figures lack; "": they are whole
}

// IndividualCrop is one covered commodity that the farm planted or was prevented from
// planting.
type IndividualCrop struct {
	Commodity          crop.Commodity
	National           National
	Planted, Prevented crop.Acres
	Years              [5]ownYear
	Benchmark          crop.Revenue // of the commodity, USD per acre
	BenchmarkYield     crop.Yield   // Olympic average of the years' yields, each no lower than its plug; shown, not paid on
	County             Practice
	Yield              OwnYield
}

// ownYear is one of the five benchmark years of the farm's own yields.
type ownYear struct {
	CropYear crop.CropYear
	Yield    crop.Yield
	Plug     crop.Yield // 0: not known
	Revenue  crop.Revenue
}

// OwnYield is the outlook for the farm's own yield of the crop year, units per acre: a
// multiple of the county yield plus a part of the farm's own.
type OwnYield struct {
	Mean   crop.Yield
	Ratio  float64    // of the mean to the county's mean; 0 where the yield is known
	SD     crop.Yield // of the farm's own part alone
	Status crop.Status
	From   string
	Known  bool
}

// Individual returns a farm's figures for ARC-IC; nil where no covered planting is
// given and ARC-IC is not on record.
func (s Sources) Individual(f farm.Farm, y crop.CropYear) (*Individual, error) {
	if len(f.Planted) == 0 && !OnRecord(f, farm.ARCIC) {
		return nil, nil
	}
	one := &Individual{Farm: f}
	for _, commodity := range crop.Commodities() {
		planted, prevented := f.PlantedAcres(string(commodity), y), f.PreventedAcres(string(commodity), y)
		if planted+prevented == 0 {
			continue
		}
		n, err := NationalOf(s.Market, commodity, y)
		if err != nil {
			return nil, err
		}
		k := IndividualCrop{Commodity: commodity, National: n, Planted: planted, Prevented: prevented}
		if missing := k.Resolve(s, f, y); missing != "" && one.Missing == "" {
			one.Missing = missing
		}
		one.Crops = append(one.Crops, k)
	}
	switch {
	case len(one.Crops) == 0 && !OnRecord(f, farm.ARCIC):
		return nil, nil
	case len(one.Crops) == 0:
		one.Missing = "what is planted of covered crops"
	case PaysHigherOf(y):
		one.Missing = fmt.Sprintf("a rule that pays it. For %d FSA pays the higher of PLC and ARC-CO, and ARC-IC is not in that comparison (%s)", y, crop.Unverified)
	}
	return one, nil
}

// OnRecord reports whether any of the programs is on record for any base of a farm.
// ARC-IC is on record for all commodities of a farm or for none.
func OnRecord(f farm.Farm, programs ...farm.Program) bool {
	for _, p := range f.Record {
		if slices.Contains(programs, p) {
			return true
		}
	}
	return false
}

// Resolve finds the benchmark and the own yield of a crop and returns what is missing,
// "" for nothing.
func (k *IndividualCrop) Resolve(s Sources, f farm.Farm, y crop.CropYear) (missing string) {
	if k.National.BenchmarkPrice.Status == "" {
		return k.National.Missing
	}
	unit := CountyUnit{countyOf(f, k.Commodity), k.Commodity, "", y}
	unit.Practice = practiceOf(s.Counties, f, unit)
	benchmark, _ := s.BenchmarkYield(unit, k.National.Terms.YieldDecimals)
	k.County = Practice{Unit: unit, Weight: 1, Benchmark: benchmark}
	k.County.Outlook, k.County.Known, _ = s.Yield(unit, benchmark)
	if missing := k.resolveBenchmark(s.Counties, f); missing != "" {
		return missing
	}
	if _, ok := s.Price(k.Commodity, y, k.National.Terms.PriceDecimals); !ok {
		return "a projected price of " + k.Commodity.Name()
	}
	if k.Planted == 0 {
		return ""
	}
	return k.resolveYield(s, f, y)
}

// countyOf returns the county whose yields a farm's crop follows: where its base
// of the commodity lies, else the farm's.
func countyOf(f farm.Farm, c crop.Commodity) string {
	if bases := f.BasesOf(c); len(bases) > 0 {
		return bases[0].PhysicalCounty(f)
	}
	return f.County
}

// practiceOf returns the practice whose county yield a crop follows: that of its
// plantings where the county has it, else the first that the county has.
func practiceOf(book farm.CountyBook, f farm.Farm, u CountyUnit) farm.Practice {
	practices := book.Practices(u.County, u.Commodity, u.CropYear)
	for _, p := range f.Planted {
		if p.CropYear == u.CropYear && p.Commodity == string(u.Commodity) && slices.Contains(practices, p.Practice) {
			return p.Practice
		}
	}
	if len(practices) == 0 {
		return farm.AllPractices
	}
	return practices[0]
}

// resolveBenchmark computes the revenues of the five benchmark years from the farm's
// own yields.
func (k *IndividualCrop) resolveBenchmark(book farm.CountyBook, f farm.Farm) (missing string) {
	var revenues, yields [5]float64
	terms := k.National.Terms
	for i, year := range terms.BenchmarkYears() {
		own, has := f.History[k.Commodity][year]
		if !has {
			return fmt.Sprintf("the farm's own yield of %s in crop year %d (arc_ic_history)", k.Commodity.Name(), year)
		}
		plug := plugForIndividual(book, k.County.Unit, year)
		revenues[i] = program.IndividualYearRevenue(own, plug, k.National.History[i].Value, k.National.Target.Value)
		yields[i] = max(own, plug)
		k.Years[i] = ownYear{year, own, plug, revenues[i]}
	}
	k.Benchmark, k.BenchmarkYield = program.IndividualBenchmark(revenues), program.OlympicAverage(yields)
	return ""
}

// filesPlugYear is a crop year under whose rules county files state plug yields.
const filesPlugYear = 2019

// plugForIndividual returns the least yield that counts for a past year in the ARC-IC
// benchmark of the unit's crop year, units per acre; 0 where no source has it.
func plugForIndividual(book farm.CountyBook, u CountyUnit, year crop.CropYear) crop.Yield {
	now, err := law.Find("plug_share", "", u.CropYear)
	files, errFiles := law.Find("plug_share", "", filesPlugYear)
	if err != nil || errFiles != nil {
		return 0
	}
	for _, e := range book.Entries(u.County, u.Commodity, u.Practice) {
		if plug, has := e.Plug[year]; has {
			return plug * now.Number / files.Number
		}
	}
	return 0
}

// resolveYield finds the farm's own yield of the crop year: as typed, else the mean of
// its five years in proportion to the county's mean over its benchmark. A typed yield
// is known from harvest on, and where the county's is known; before, it is a mean.
func (k *IndividualCrop) resolveYield(s Sources, f farm.Farm, y crop.CropYear) (missing string) {
	typed, isTyped := PlantedYield(f, k.Commodity, y)
	stage := k.County.Outlook.Stage
	switch {
	case isTyped && (!k.County.Known || stage != odds.BeforeHarvest || k.County.Outlook.SD == 0):
		k.Yield = OwnYield{Mean: typed, Status: crop.Assumed, From: "own yield as typed, taken as known", Known: true}
		return ""
	case !k.County.Known || k.County.Outlook.Mean == 0:
		return "a county yield of " + k.Commodity.Name() + " for county " + k.County.Unit.County
	case isTyped:
		k.Yield = OwnYield{Mean: typed, Status: crop.Assumed, From: "own yield as typed, an average before harvest"}
	default:
		mean := 0.0
		for _, year := range k.Years {
			mean += year.Yield / float64(len(k.Years))
		}
		if k.County.Benchmark.Value > 0 {
			mean *= k.County.Outlook.Mean / k.County.Benchmark.Value
		}
		k.Yield = OwnYield{Mean: mean, Status: crop.Assumed, From: "average of the farm's five own yields, moved as the county's yield is against its benchmark"}
	}
	series, _ := LongestYieldSeries(s.Counties, k.County.Unit)
	cv, _, _ := s.Constants.CountyCV(k.Commodity, StateOf(k.County.Unit.County), series.Spread())
	k.Yield.Ratio, k.Yield.SD = k.Yield.Mean/k.County.Outlook.Mean, k.Yield.Mean*odds.FarmOwnCV(cv)
	return ""
}

// PlantedYield returns the yield typed for a crop, units per acre, weighted by acres
// over its plantings; ok is false where one has none.
func PlantedYield(f farm.Farm, c crop.Commodity, y crop.CropYear) (yield crop.Yield, ok bool) {
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

// IndividualCrops returns the crops of a pool of farms as program.ARCIC takes them,
// with the shares of one producer; producer "" stands for one with all shares.
func IndividualCrops(pool []*Individual, producer string, y crop.CropYear) []program.IndividualCrop {
	var crops []program.IndividualCrop
	for _, one := range pool {
		for _, k := range one.Crops {
			share := 1.0
			if producer != "" {
				share = shareOf(one.Farm, k.Commodity, producer, y)
			}
			crops = append(crops, program.IndividualCrop{Share: share, PlantedAcres: k.Planted, PreventedAcres: k.Prevented, BenchmarkRevenue: k.Benchmark})
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

// IndividualAcres returns the payment acres of a base under ARC-IC.
func (c *CommodityBase) IndividualAcres(b Base) crop.Acres {
	row, err := law.Find("payment_acre_share_individual", "", c.National.Terms.CropYear)
	if err != nil {
		return 0
	}
	return c.paymentAcres(b.Record, row.Number, "fruit_vegetable_share_individual")
}
