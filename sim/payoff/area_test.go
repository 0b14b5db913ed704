package payoff

import (
	"math"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// insured is corn of an invented county insured in crop year 2026, asked about in March.
type insured struct {
	year *Year
	crop *position.Insured
}

const (
	insuredYield     = 182.0 // mean of the county yield
	expectedYield    = 180.0
	approvedYield    = 190.0
	insuredAcres     = 100.0
	projected        = 4.60
	usualVolatility  = 0.20
	usualDeviation   = 0.14 // of the county yield, as a share
	insuredDraws     = 65536
	insuredSeed      = 20261130
	roundingPerAcre  = 0.03 // USD: what rounding of yields to 0.01 and of prices to a cent adds at most
	insuredFarm      = "0417"
	insuredCropYear  = 2026
	marketOfPlanting = "2026-03-01"
)

// insure resolves corn with layers under a plan; mya is the mean national price.
func insure(t *testing.T, plan farm.Plan, shape odds.Shape, mya, volatility float64, layers ...farm.Layer) insured {
	t.Helper()
	m := invented.Market(marketOfPlanting)
	invented.Project(m, crop.Corn, insuredCropYear, mya, 0.18)
	outlook := m.Outlook[crop.Corn][insuredCropYear]
	outlook.AsOf = time.Date(2026, time.March, 1, 0, 0, 0, 0, time.UTC)
	m.Outlook[crop.Corn][insuredCropYear] = outlook
	mean, deviation := insuredYield, usualDeviation*insuredYield
	county := invented.CornYield(farm.YieldOutlook{Yield: &mean, SD: &deviation, Shape: string(shape)})
	from := position.Sources{Counties: invented.Book(county), Market: m}
	f := invented.OneFarm(insuredFarm, invented.Base(crop.Corn, 100, 150))
	f.Insurance = []farm.Insurance{{CropYear: insuredCropYear, Commodity: crop.Corn, Practice: farm.AllPractices, Plan: plan, Level: 0.75, ApprovedYield: approvedYield,
		Acres: insuredAcres, Share: 1, Projected: projected, Volatility: &volatility, ExpectedYield: expectedYield, Layers: layers}}
	all, err := from.Insured(f, insuredCropYear)
	if err != nil || all[0].Missing != "" {
		t.Fatal(all, err)
	}
	drawn, err := scenario.NewPaths(from, scenario.Settings{Seed: insuredSeed, Draws: insuredDraws}).Year(insuredCropYear)
	if err != nil {
		t.Fatal(err)
	}
	return insured{&Year{Year: drawn}, all[0]}
}

func (k insured) pays(t *testing.T, layer int) *Payoff {
	t.Helper()
	all := OfInsured(k.year, k.crop)
	if all[layer] == nil {
		t.Fatalf("layer %d: %s", layer, k.crop.Layers[layer].Missing)
	}
	return all[layer]
}

var (
	scoLayer = farm.Layer{Program: farm.SCO}
	eco95    = farm.Layer{Program: farm.ECO, Trigger: 0.95}
)

// below is the mean of what a standard normal times sd plus mean falls short of k by.
func belowNormal(k, mean, sd float64) float64 {
	d := (k - mean) / sd
	return (k-mean)*cumulative(d) + sd*density(d)
}

// belowLognormal is the same of a lognormal with a mean and a standard deviation of its
// logarithm.
func belowLognormal(k, mean, sd float64) float64 {
	d := (math.Log(mean/k) + sd*sd/2) / sd
	return k*cumulative(sd-d) - mean*cumulative(-d)
}

func cumulative(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }
func density(x float64) float64    { return math.Exp(-x*x/2) / math.Sqrt(2*math.Pi) }

// nearClosedForm holds an average per insured acre against its closed form.
func nearClosedForm(t *testing.T, k insured, p *Payoff, want float64) {
	t.Helper()
	s := p.Summary(k.year)
	t.Logf("average %.4f, closed form %.4f, standard error %.4f", p.Mean, want, s.StandardError)
	if math.Abs(p.Mean-want) > nearErrors*s.StandardError+roundingPerAcre {
		t.Errorf("average %v, closed form %v, standard error %v", p.Mean, want, s.StandardError)
	}
	if s.StandardError > 0.5 {
		t.Errorf("standard error %v: too wide to say anything", s.StandardError)
	}
}

// SCO on a yield plan with a normal county yield: the band pays 190 x 4.60 dollars times what
// the yield over 180 falls short of 0.86, less what it falls short of 0.75.
func TestSCOOnYieldInClosedForm(t *testing.T) {
	k := insure(t, farm.YieldProtection, odds.ShapeNormal, 4.20, usualVolatility, scoLayer)
	mean, sd := insuredYield/expectedYield, usualDeviation*insuredYield/expectedYield
	nearClosedForm(t, k, k.pays(t, 0), approvedYield*projected*(belowNormal(0.86, mean, sd)-belowNormal(0.75, mean, sd)))
}

// ECO 95 and SCO on RP-HPE with a lognormal yield and harvest price: final over expected
// revenue is lognormal too. Its mean is 182/180 times e to the covariance of both logarithms,
// whose correlation is that of the harvest price with the national price times that of the
// national price with the yield.
func TestHarvestPriceExcludedInClosedForm(t *testing.T) {
	k := insure(t, farm.HarvestPriceExclude, odds.ShapeLognormal, 4.20, usualVolatility, scoLayer, eco95)
	sy := math.Sqrt(math.Log1p(usualDeviation * usualDeviation))
	rho := odds.HarvestPriceCorrelation() * k.crop.County.Outlook.Correlation
	if rho > -0.1 {
		t.Fatalf("a correlation of %v says little", rho)
	}
	covariance := rho * sy * usualVolatility
	mean, sd := insuredYield/expectedYield*math.Exp(covariance), math.Sqrt(sy*sy+usualVolatility*usualVolatility+2*covariance)
	for layer, band := range [][2]float64{{0.86, 0.75}, {0.95, 0.86}} {
		want := approvedYield * projected * (belowLognormal(band[0], mean, sd) - belowLognormal(band[1], mean, sd))
		nearClosedForm(t, k, k.pays(t, layer), want)
	}
}

// What a layer pays lies between nothing and its protection in every scenario, is nothing
// from the trigger on, and under RP is never less than under RP-HPE on the same scenarios. SCO
// and ECO follow on each other: SCO pays only where ECO pays in full.
func TestLayersLieInTheirBands(t *testing.T) {
	rp := insure(t, farm.RevenueProtection, odds.ShapeNormal, 4.20, usualVolatility, scoLayer, eco95)
	hpe := insure(t, farm.HarvestPriceExclude, odds.ShapeNormal, 4.20, usualVolatility, scoLayer, eco95)
	harvest := rp.year.HarvestPrices(crop.Corn, rp.crop.Pair)
	yields := rp.year.Yields(2, rp.crop.County)
	sco, eco, paying := rp.pays(t, 0), rp.pays(t, 1), 0
	for layer, p := range []*Payoff{sco, eco} {
		other, band := hpe.pays(t, layer).PerAcre(hpe.year.Buffers), rp.crop.Layers[layer].Band
		for i, paid := range p.PerAcre(rp.year.Buffers) {
			price := max(projected, harvest[i])
			most, ratio := approvedYield*price*band.Range, yields[i]*harvest[i]/(expectedYield*price)
			switch {
			case paid < 0 || paid > most+1e-6:
				t.Fatalf("scenario %d: paid %v of %v", i, paid, most)
			case ratio >= band.Trigger && paid != 0:
				t.Fatalf("scenario %d: paid %v at a ratio of %v", i, paid, ratio)
			case paid < other[i]-1e-9:
				t.Fatalf("scenario %d: RP pays %v, RP-HPE %v", i, paid, other[i])
			}
			if layer == 0 && paid > 0 {
				paying++
				if full := approvedYield * price * 0.09; eco.PerAcre(rp.year.Buffers)[i] < full-1e-6 {
					t.Fatalf("scenario %d: SCO pays and ECO %v of %v", i, eco.PerAcre(rp.year.Buffers)[i], full)
				}
			}
		}
	}
	if paying < 1000 {
		t.Errorf("SCO pays in %d scenarios: too few to say anything", paying)
	}
}

// Another mean of the marketing-year average price moves no layer, yield plan or other: the
// insured prices are those of the policy. Nor does a layer move what PLC and ARC-CO pay.
func TestNationalPriceMovesNoLayer(t *testing.T) {
	for _, plan := range []farm.Plan{farm.YieldProtection, farm.RevenueProtection} {
		low, high := insure(t, plan, odds.ShapeNormal, 3.60, usualVolatility, scoLayer), insure(t, plan, odds.ShapeNormal, 5.10, usualVolatility, scoLayer)
		a, b := low.pays(t, 0).PerAcre(low.year.Buffers), high.pays(t, 0).PerAcre(high.year.Buffers)
		for i := range a {
			if a[i] != b[i] {
				t.Fatalf("%s, scenario %d: %v at 3.60, %v at 5.10", plan, i, a[i], b[i])
			}
		}
	}
	if k := insure(t, farm.YieldProtection, odds.ShapeNormal, 4, usualVolatility, scoLayer); k.crop.Pair.Volatility != 0 {
		t.Error("a yield plan takes no harvest price")
	}
}

// With harvest price and final area yield known every scenario is the example by hand: corn
// at 4.60 and 5.20, 140 bushels of 175 expected, 180 bushels approved on 200 acres; SCO 86 to
// 75 under RP pays 11,232.00 (testdata/derived/insurance, OWN-SCO-1).
func TestKnownLossIsPaidInEveryScenario(t *testing.T) {
	k := insure(t, farm.RevenueProtection, odds.ShapeNormal, 4.20, usualVolatility, scoLayer)
	final := 140.0
	k.crop.ApprovedYield, k.crop.ExpectedYield, k.crop.FinalYield, k.crop.Acres, k.crop.Pair.Harvest = 180, 175, &final, 200, 5.20
	p := k.pays(t, 0)
	series := k.year.Zeros()
	p.ByPart[0].Add(series, 1, 0)
	always(t, "SCO", series, 11232)
	always(t, "SCO per acre", p.PerAcre(k.year.Buffers), 11232.0/200)
	if !p.Apart {
		t.Error("a layer counts against no payment limit")
	}
}

// STAX pays on the area's yield: pounds of lint at 0.70 and 0.66, 600 of 720 expected, 150
// acres, 90 percent with a range of 20 cut to 15 by a companion at 75, factor 1.20: 10,368.00
// (OWN-STAX-1).
func TestSTAXIsPaidOnTheAreaYield(t *testing.T) {
	k := insure(t, farm.RevenueProtection, odds.ShapeNormal, 4.20, usualVolatility)
	final := 600.0
	of := k.crop.Insurance
	of.Commodity, of.Acres, of.ExpectedYield, of.FinalYield, of.Projected, of.ApprovedYield = crop.SeedCotton, 150, 720, &final, 0.70, 0
	harvest := 0.66
	of.Harvest, of.Layers = &harvest, []farm.Layer{{Program: farm.STAX, Trigger: 0.90, Range: 0.20, Percentage: 1.20}}
	f := k.crop.Farm
	f.Insurance = []farm.Insurance{of}
	all, err := k.year.Sources.Insured(f, insuredCropYear)
	if err != nil || all[0].Missing != "" {
		t.Fatal(all, err)
	}
	k.crop = all[0]
	series := k.year.Zeros()
	k.pays(t, 0).ByPart[0].Add(series, 1, 0)
	always(t, "STAX", series, 10368)
}
