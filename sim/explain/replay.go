package explain

import (
	"fmt"
	"strings"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/position"
)

// ReplayFormat names the JSON of a Replayed.
const ReplayFormat = "fencerow/replay/1"

// Replayed is what each program paid, or would have paid, on an operation's
// base in past crop years. USD per base acre before share, limit and
// sequestration.
type Replayed struct {
	Format   string       `json:"format"` // fencerow/replay/1
	Today    string       `json:"today"`
	CropYear int          `json:"crop_year"` // whose rules are tried on the past
	Farms    []FarmReplay `json:"farms"`
	Notes    []string     `json:"notes"`
	Caution  []string     `json:"caution"`
}

// FarmReplay is one farm.
type FarmReplay struct {
	Farm        string            `json:"farm"`
	Commodities []CommodityReplay `json:"commodities"`
}

// CommodityReplay is one commodity of a farm; every past crop year stands twice,
// under the rules of the time and under those of the operation's crop year.
type CommodityReplay struct {
	Commodity crop.Commodity `json:"commodity"`
	Years     []YearReplay   `json:"years"`
	Totals    []TotalReplay  `json:"totals"` // one for each kind of rules; they are never added
}

// RulesKind says under whose rules a past year is worked out.
type RulesKind string

// The kinds.
const (
	OfTheTime  RulesKind = "of_the_time"
	OfCropYear RulesKind = "of_crop_year"
)

// YearReplay is one past crop year under one kind of rules; a program without
// figures is nil and Missing says why.
type YearReplay struct {
	CropYear     crop.CropYear   `json:"crop_year"`
	Rules        RulesKind       `json:"rules"`
	PLC          *answer.Dollars `json:"PLC"`
	ARCCO        *answer.Dollars `json:"ARC-CO"`
	HigherOf     *answer.Dollars `json:"HIGHER-OF,omitempty"` // where the law of the time paid it
	PaysHigher   bool            `json:"-"`                   // the law of the time paid the higher of both, whether both are known or not
	YieldSource  string          `json:"yield_source"`
	MYA          answer.Price    `json:"mya"`
	MYASource    string          `json:"mya_source"`
	TargetPrice  *answer.Price   `json:"effective_reference_price"`
	CountyYield  *answer.Dollars `json:"county_yield"` // weighted by base acres
	Benchmark    string          `json:"benchmark_source"`
	Missing      string          `json:"missing"`
	ShareAssumed bool            `json:"irrigated_share_assumed,omitempty"` // ARC-CO rests on a share that the file does not give
}

// TotalReplay is the sum over the years in which both programs have figures, USD per
// base acre.
type TotalReplay struct {
	Rules     RulesKind       `json:"rules"`
	CropYears []crop.CropYear `json:"crop_years"`
	PLC       answer.Dollars  `json:"PLC"`
	ARCCO     answer.Dollars  `json:"ARC-CO"`
}

// Replay works out past crop years, from the first that the law covers to the one before
// the question's first crop year, as far as national prices are known.
//
// Under the rules of that crop year (OfCropYear) a past year keeps its own prices and
// county yields; reference price, effective reference price rule, loan rate, guarantee,
// maximum and payment acres are those of the crop year, and the five benchmark years are
// those that its lag gives for the past year.
func Replay(c answer.Question) (Replayed, error) {
	asked := c.CropYears[0]
	answer := Replayed{Format: ReplayFormat, Today: c.Today.Format(time.DateOnly), CropYear: asked, Farms: []FarmReplay{}, Caution: answer.Caution()}
	answer.Notes = []string{
		"Past payments say little about the next ones: prices, yields and rules were different. Elections were made before these figures were known.",
		fmt.Sprintf("Base acres and PLC yields are those of the file, also for years in which they differed. Years under the %d rules keep their own prices and county yields. For 2014 to 2018 the benchmark yield of the time is used, in whole units and from five other years.", asked),
		"Do not add figures under the rules of the time to figures under the rules of one crop year.",
	}
	gaps := map[crop.CropYear]bool{}
	for _, f := range c.Operation.Farms {
		part := FarmReplay{Farm: f.Key()}
		f.Contract = farm.ByCropYear[farm.Contract]{} // what would have been paid, if signed
		for _, commodity := range f.Commodities() {
			one, err := replayCommodity(c, f, commodity, asked)
			if err != nil {
				return answer, err
			}
			part.Commodities = append(part.Commodities, one)
			for _, y := range replayGaps(c, f, commodity, asked) {
				gaps[y] = true
			}
		}
		answer.Farms = append(answer.Farms, part)
	}
	if gap := tablesToImport(sortedYears(gaps)); gap != "" {
		answer.Notes = append(answer.Notes, "No source has "+gap+".")
	}
	return answer, nil
}

// replayGaps returns the program years before asked that FSA's tables of the counties of
// a commodity's bases leave out.
func replayGaps(c answer.Question, f farm.Farm, commodity crop.Commodity, asked crop.CropYear) (gaps []crop.CropYear) {
	for _, b := range f.Bases {
		if b.Commodity != commodity {
			continue
		}
		county := b.PhysicalCounty(f)
		for _, practice := range c.Counties.Practices(county, commodity, asked) {
			gaps = append(gaps, tablesMissing(c, position.CountyUnit{County: county, Commodity: commodity, Practice: practice, CropYear: asked})...)
		}
	}
	return gaps
}

// replayCommodity works out one commodity.
func replayCommodity(c answer.Question, f farm.Farm, commodity crop.Commodity, asked crop.CropYear) (CommodityReplay, error) {
	now, err := program.TermsFor(commodity, asked)
	if err != nil {
		return CommodityReplay{}, err
	}
	part := CommodityReplay{Commodity: commodity, Years: []YearReplay{}}
	for y := farm.ProgramYears().First; y < asked; y++ {
		terms, err := program.TermsFor(commodity, y)
		price, known := c.Market.MYA[commodity][y]
		if err != nil || !known {
			continue // not covered yet, or the marketing year is not over
		}
		part.Years = append(part.Years,
			replayYear(c.Sources().CommodityBase(f, commodity, y, terms), c, y, OfTheTime, price),
			replayYear(c.Sources().CommodityBase(f, commodity, y, now), c, y, OfCropYear, price))
	}
	for _, kind := range []RulesKind{OfTheTime, OfCropYear} {
		part.Totals = append(part.Totals, totalOf(part.Years, kind))
	}
	return part, nil
}

// replayYear works out one past year of a commodity base, whose terms are those of the
// kind.
func replayYear(base *position.CommodityBase, c answer.Question, y crop.CropYear, kind RulesKind, price farm.Figure) YearReplay {
	terms := base.National.Terms
	mya := program.Round(price.Value, terms.PriceDecimals)
	out := YearReplay{CropYear: y, Rules: kind, MYA: answer.Price{Value: mya, Decimals: terms.PriceDecimals}, MYASource: price.Source, TargetPrice: answer.PriceOf(base.National, base.National.Target, base.National.TargetDecimals())}
	var missing []string
	if base.PLCMissing == "" {
		out.PLC = answer.DollarsOf(base.PLCPerAcre(base.PLC().Rate(mya)))
	} else {
		missing = append(missing, "PLC: "+base.PLCMissing)
	}
	if base.ARCMissing == "" {
		replayARCCO(base, c, &out, mya)
	}
	if out.ARCCO == nil {
		why := base.ARCMissing
		if why == "" {
			why = "the actual county yield"
		}
		missing = append(missing, "ARC-CO: "+why)
	}
	out.PaysHigher = kind == OfTheTime && position.PaysHigherOf(y)
	if out.PaysHigher && out.PLC != nil && out.ARCCO != nil {
		out.HigherOf = answer.DollarsOf(max(float64(*out.PLC), float64(*out.ARCCO)))
	}
	out.Missing = strings.Join(missing, "; ")
	return out
}

// replayARCCO fills in what ARC-CO pays per base acre; nothing where the actual county
// yield of a base is not known.
func replayARCCO(base *position.CommodityBase, c answer.Question, out *YearReplay, mya crop.Price) {
	perAcre, weighted := 0.0, 0.0
	var yieldsFrom, benchmarksFrom []string
	for _, b := range base.Bases {
		yields := make([]crop.Yield, len(b.Practices))
		for i, u := range b.Practices {
			actual, known := position.KnownYield(c.Counties, u.Unit)
			if !known && u.Weight > 0 {
				return
			}
			yields[i] = program.Round(actual.Value, base.National.Terms.YieldDecimals)
			weighted += u.Weight * yields[i] * b.Record.BaseAcres / base.Acres
			yieldsFrom, benchmarksFrom = flag.AppendOnce(yieldsFrom, actual.Source), flag.AppendOnce(benchmarksFrom, u.Benchmark.Source)
		}
		perAcre += b.Coverage.Rate(base.ActualRevenue(b, mya, yields)) * b.PaymentAcres / base.Acres
	}
	out.ARCCO, out.CountyYield, out.ShareAssumed = answer.DollarsOf(perAcre), answer.DollarsOf(weighted), base.ShareAssumed()
	out.YieldSource, out.Benchmark = strings.Join(yieldsFrom, "; "), strings.Join(benchmarksFrom, "; ")
}

// totalOf adds the years of one kind in which both programs have figures.
func totalOf(years []YearReplay, kind RulesKind) TotalReplay {
	t := TotalReplay{Rules: kind, CropYears: []crop.CropYear{}}
	for _, y := range years {
		if y.Rules != kind || y.PLC == nil || y.ARCCO == nil {
			continue
		}
		t.CropYears = append(t.CropYears, y.CropYear)
		t.PLC, t.ARCCO = t.PLC+*y.PLC, t.ARCCO+*y.ARCCO
	}
	return t
}
