package backtest_test

import (
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/position"
)

// The crop years of area losses, and the layers: SCO from 86 down to a policy at 75 percent,
// ECO from 90 down to 86.
const firstArea, lastArea = 2011, 2024

var areaLayers = []struct {
	name string
	band program.Band
}{{"SCO 86-75", program.SCOBand(0.86, 0.75)}, {"ECO 90-86", program.ECOBand(0.90, 0.86)}}

// areaPrice is what crop insurance prices of a crop year were.
type areaPrice struct{ projected, harvest, volatility float64 }

// areaPrices reads the prices that were collected.
func areaPrices(t *testing.T) map[crop.Commodity]map[crop.CropYear]areaPrice {
	t.Helper()
	file, err := os.Open(sharedData + "/rma/midwest_projected_harvest_prices_2011_2025.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := map[crop.Commodity]map[crop.CropYear]areaPrice{}
	for _, row := range rows[1:] {
		c := crop.Commodity(row[0])
		y, _ := strconv.Atoi(row[1])
		x, _ := strconv.ParseFloat(row[3], 64)
		if all[c] == nil {
			all[c] = map[crop.CropYear]areaPrice{}
		}
		p := all[c][y]
		switch row[2] {
		case "projected":
			p.projected = x
		case "harvest":
			p.harvest = x
		case "volatility":
			p.volatility = x
		}
		all[c][y] = p
	}
	return all
}

// areaCounty is a county yield with what is known of it before harvest.
type areaCounty struct {
	outlook     position.Yield
	correlation float64 // with the harvest price
	came        float64 // yield that came over the average said
}

// insuredYields are RMA's final area yields of nonirrigated corn and soybeans by county.
func insuredYields(t *testing.T) map[farm.PastUnit]map[crop.CropYear]crop.Yield {
	t.Helper()
	file, err := os.Open(sharedData + "/rma/RMACountyYieldsReport_corn_soybeans_nonirrigated_2010_2024.csv.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	unzipped, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	reader := csv.NewReader(unzipped)
	reader.TrimLeadingSpace = true
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := map[farm.PastUnit]map[crop.CropYear]crop.Yield{}
	for _, row := range rows[1:] {
		at := farm.PastUnit{County: row[2] + row[5], Commodity: map[string]crop.Commodity{"0041": crop.Corn, "0081": crop.Soybeans}[row[0]], Practice: farm.AllPractices}
		y, errYear := strconv.Atoi(row[9])
		yield, errYield := strconv.ParseFloat(row[10], 64)
		if errYear != nil || errYield != nil || at.Commodity == "" {
			t.Fatalf("row %v", row)
		}
		if all[at] == nil {
			all[at] = map[crop.CropYear]crop.Yield{}
		}
		all[at][y] = yield
	}
	return all
}

// harvestedYields are NASS's county yields per harvested acre, all practices and classes
// together.
func harvestedYields(p farm.Past) map[farm.PastUnit]map[crop.CropYear]crop.Yield {
	all := map[farm.PastUnit]map[crop.CropYear]crop.Yield{}
	for of, yields := range p.Harvested {
		if of.Practice == farm.AllPractices && of.Class == "" {
			all[of.PastUnit] = yields
		}
	}
	return all
}

// areaCounties returns the counties of a commodity in a crop year whose yields came: the
// average and spread by the program's rules from the years before, NASS's yields brought to the
// level of those that came. RMA's own expected area yields were not at hand, so the average
// stands for them. With nonirrigated set, counties with irrigated yields are left out.
func areaCounties(p farm.Past, final map[farm.PastUnit]map[crop.CropYear]crop.Yield, nonirrigated bool, c crop.Commodity, y crop.CropYear) (all []areaCounty) {
	const least = 15 // yields of NASS before
	var names []farm.PastUnit
	for of, yields := range final {
		harvested := p.Harvested[farm.PastSeries{PastUnit: of}]
		_, irrigated := p.Harvested[farm.PastSeries{PastUnit: farm.PastUnit{County: of.County, Commodity: c, Practice: farm.Irrigated}}]
		if of.Commodity == c && !(irrigated && nonirrigated) && yields[y] > 0 && len(before(harvested, y)) >= least {
			names = append(names, of)
		}
	}
	slices.SortFunc(names, func(a, b farm.PastUnit) int { return strings.Compare(a.County, b.County) })
	found := make([]*areaCounty, len(names))
	parallel.Do(len(names), func(i int) {
		of := names[i]
		county := farm.County{Code: of.County, Yields: []farm.CountyYield{{Commodity: c, Practice: farm.AllPractices, Actual: before(final[of], y), Harvested: before(p.Harvested[farm.PastSeries{PastUnit: of}], y)}}}
		from := position.Sources{Counties: farm.CountyBook{{Name: "agencies", Status: crop.Agency, Agency: true, Counties: map[string]farm.County{of.County: county}}}, Market: farm.Market{AsOf: invented.Date(fmt.Sprintf("%d-03-01", y))}}
		outlook, ok := from.CountyYieldOutlook(position.CountyUnit{County: of.County, Commodity: c, Practice: farm.AllPractices, CropYear: y}, position.Benchmark{})
		if ok && outlook.SD > 0 {
			found[i] = &areaCounty{outlook, odds.HarvestPriceCorrelation() * outlook.Correlation, final[of][y] / outlook.Mean}
		}
	})
	for _, one := range found {
		if one != nil {
			all = append(all, *one)
		}
	}
	return all
}

// before returns the yields of the years before one.
func before(yields map[crop.CropYear]crop.Yield, y crop.CropYear) map[crop.CropYear]crop.Yield {
	earlier := maps.Clone(yields)
	maps.DeleteFunc(earlier, func(year crop.CropYear, _ crop.Yield) bool { return year >= y })
	return earlier
}

// cost is what a layer pays over its protection at the projected price, and whether it pays.
func cost(band program.Band, plan farm.Plan, yield, price float64) (paid, pays float64) {
	factor := band.Factor(program.AreaRatio(plan, 1, yield, 1, price))
	if factor > 0 {
		pays = 1
	}
	return factor * program.InsuredPrice(plan, 1, price), pays
}

// said is cost on average over yield and harvest price, by midpoints of equal odds.
func (a areaCounty) said(band program.Band, plan farm.Plan, volatility float64) (paid, pays float64) {
	prices, yields := midpoints(1), midpoints(64)
	if plan != farm.YieldProtection {
		prices = midpoints(24)
	}
	at, left := a.outlook.Quantile(), math.Sqrt(1-a.correlation*a.correlation)
	for _, zp := range prices {
		price := math.Exp(volatility * (zp - volatility/2))
		for _, zy := range yields {
			z := zy
			if plan != farm.YieldProtection {
				z = a.correlation*zp + left*zy
			}
			x, one := cost(band, plan, at(z)/a.outlook.Mean, price)
			n := float64(len(prices) * len(yields))
			paid, pays = paid+x/n, pays+one/n
		}
	}
	return paid, pays
}

var midpointsOf sync.Map

// midpoints are standard normals in the middle of n parts of equal odds.
func midpoints(n int) []float64 {
	if known, ok := midpointsOf.Load(n); ok {
		return known.([]float64)
	}
	z := make([]float64, n)
	for i := range z {
		z[i] = math.Sqrt2 * math.Erfinv(2*(float64(i)+0.5)/float64(n)-1)
	}
	midpointsOf.Store(n, z)
	return z
}

// areaYear is one crop year of a commodity, layer and plan, over its counties.
type areaYear struct {
	year                                     crop.CropYear
	counties                                 int
	said, measured, came, saidPays, camePays float64
}

// areaBacktests are the yields that came: RMA's, which insure, from the first year with three
// years before it, and NASS's, which have the drought of 2012. measured is the spread that the
// crop years 2014 to 2023 gave as a part of the one that the program takes before harvest: the
// notes of rows yield_spread_share say that it was raised to 1, for those years had no great
// drought.
var areaBacktests = []struct {
	of       string
	first    crop.CropYear
	measured map[crop.Commodity]float64
}{
	{"RMA", 2013, map[crop.Commodity]float64{crop.Corn: 0.76, crop.Soybeans: 0.82}},
	{"NASS", firstArea, map[crop.Commodity]float64{crop.Corn: 0.76, crop.Soybeans: 0.82}},
}

// What layers of area insurance pay on average over their protection, said before harvest
// against what came, all counties alike; crop years are the sample. The program says no less
// than came; at the spread that these years measured it says what came. Both within three
// standard errors of the difference.
func TestAreaLossesOfPastYears(t *testing.T) {
	p := tablesOfThePast(t)
	prices, checked := areaPrices(t), 0
	for _, source := range areaBacktests {
		if source.of == "RMA" && !invented.LongRun {
			continue // NASS's soybeans alone
		}
		final := harvestedYields(p)
		if source.of == "RMA" {
			final = insuredYields(t)
		}
		for _, c := range []crop.Commodity{crop.Corn, crop.Soybeans} {
			if c == crop.Corn && !invented.LongRun {
				continue
			}
			years := map[areaKey][]areaYear{}
			for y := source.first; y <= lastArea; y++ {
				all := areaCounties(p, final, source.of == "RMA", c, y)
				for layer := range areaLayers {
					for _, plan := range []farm.Plan{farm.YieldProtection, farm.RevenueProtection} {
						pair := prices[c][y]
						if plan == farm.RevenueProtection && (pair.projected == 0 || pair.harvest == 0 || pair.volatility == 0) {
							continue
						}
						at := areaKey{layer, plan}
						years[at] = append(years[at], overCounties(all, source.measured[c], areaLayers[layer].band, plan, pair, y))
					}
				}
			}
			for _, plan := range []farm.Plan{farm.YieldProtection, farm.RevenueProtection} {
				for layer, l := range areaLayers {
					checked++
					holdAreaYears(t, fmt.Sprintf("%s yields, %s %s on %s", source.of, c, l.name, plan), years[areaKey{layer, plan}])
				}
			}
		}
	}
	fmt.Printf("area losses of past years: checked %d layers, plans and yields\n", checked)
}

// areaKey is a layer and plan.
type areaKey struct {
	layer int
	plan  farm.Plan
}

// overCounties averages a crop year over its counties; measured is a part of the spread.
func overCounties(all []areaCounty, measured float64, band program.Band, plan farm.Plan, pair areaPrice, y crop.CropYear) areaYear {
	each := make([]areaYear, len(all))
	parallel.Do(len(all), func(i int) {
		each[i].said, each[i].saidPays = all[i].said(band, plan, pair.volatility)
		narrow := all[i]
		narrow.outlook.SD *= measured
		each[i].measured, _ = narrow.said(band, plan, pair.volatility)
		price := 1.0
		if plan != farm.YieldProtection {
			price = pair.harvest / pair.projected
		}
		each[i].came, each[i].camePays = cost(band, plan, all[i].came, price)
	})
	sum, n := areaYear{year: y, counties: len(all)}, float64(len(all))
	for _, e := range each {
		sum.said, sum.measured, sum.came, sum.saidPays, sum.camePays = sum.said+e.said/n, sum.measured+e.measured/n, sum.came+e.came/n, sum.saidPays+e.saidPays/n, sum.camePays+e.camePays/n
	}
	return sum
}

// meanOf returns the average of figures of crop years and the standard error of it.
func meanOf(of []areaYear, figure func(areaYear) float64) (mean, standard float64) {
	n := float64(len(of))
	for _, y := range of {
		mean += figure(y) / n
	}
	for _, y := range of {
		standard += (figure(y) - mean) * (figure(y) - mean)
	}
	return mean, math.Sqrt(standard / (n - 1) / n)
}

// holdAreaYears prints said against came and holds their difference.
func holdAreaYears(t *testing.T, name string, of []areaYear) {
	t.Helper()
	const within = 3
	said, _ := meanOf(of, func(y areaYear) float64 { return y.said })
	measured, _ := meanOf(of, func(y areaYear) float64 { return y.measured })
	came, _ := meanOf(of, func(y areaYear) float64 { return y.came })
	saidPays, _ := meanOf(of, func(y areaYear) float64 { return y.saidPays })
	camePays, _ := meanOf(of, func(y areaYear) float64 { return y.camePays })
	off, err := meanOf(of, func(y areaYear) float64 { return y.came - y.said })
	narrowOff, narrowErr := meanOf(of, func(y areaYear) float64 { return y.came - y.measured })
	counties, years := 0, []crop.CropYear{}
	for _, y := range of {
		counties, years = counties+y.counties, append(years, y.year)
	}
	fmt.Printf("area losses, %s: paid over protection said %.3f, at the spread of these years %.3f, came %.3f (standard error %.3f); pays in said %.3f, came %.3f; %d county-years of %v\n", name, said, measured, came, narrowErr, saidPays, camePays, counties, years)
	if off > within*err {
		t.Errorf("%s: came %.3f, said %.3f: too little was said", name, came, said)
	}
	if math.Abs(narrowOff) > within*narrowErr {
		t.Errorf("%s: came %.3f, at the spread of these years said %.3f, standard error %.3f", name, came, measured, narrowErr)
	}
}
