package answer

import (
	"math"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// Together sets the crop years of one farm and commodity side by side and adds
// them up, USD per base acre, before share, limit and sequestration.
type Together struct {
	Farm      string         `json:"farm"`
	Commodity crop.Commodity `json:"commodity"`
	Years     []YearLine     `json:"years"`
	Total     *Total         `json:"total"` // nil where a year lacks a figure
}

// YearLine is one crop year of the table.
type YearLine struct {
	CropYear   crop.CropYear `json:"crop_year"`
	PLC        *Dollars      `json:"PLC"`
	ARCCO      *Dollars      `json:"ARC-CO"`
	Difference *Difference   `json:"difference"`
	Leader     Leader        `json:"leader"`
	Leans      Leader        `json:"leans"`
	Discount   Chance        `json:"discount_factor"`                   // by which its payment counts in the total
	ShareTaken bool          `json:"irrigated_share_assumed,omitempty"` // ARC-CO rests on a share that the file does not give
}

// Total is the sum over the crop years, each payment discounted from its first
// possible day to today at DiscountRate.
type Total struct {
	DiscountRate  Chance `json:"discount_rate"`       // per year
	PLC           Sum    `json:"PLC"`                 // PLC in every year
	ARCCO         Sum    `json:"ARC-CO"`              // ARC-CO in every year
	EachYearsLead Mean   `json:"each_years_lead"`     // in every year the one with the higher average
	Difference    Mean   `json:"difference"`          // ARC-CO in every year less PLC in every year
	ARCCOMore     Chance `json:"chance_arc_co_more"`  // over all years together
	PLCMore       Chance `json:"chance_plc_more"`     // likewise
	NeitherPays   Chance `json:"chance_neither_pays"` // in any year
}

// Mean is an average with its standard error.
type Mean struct {
	Mean          Dollars `json:"mean"`
	StandardError Dollars `json:"standard_error"`
}

// Sum describes the sum over the crop years in all outcomes.
type Sum struct {
	Mean          Dollars     `json:"mean"`
	StandardError Dollars     `json:"standard_error"`
	Percentiles   Percentiles `json:"percentiles"`
}

// acreSums are what both programs pay per base acre in each draw of one farm,
// commodity and crop year; nil where a figure is missing.
type acreSums struct{ plc, arc weightedSum }

// acreSums returns those of every holding of a farm.
func (f farmRun) acreSums() []acreSums {
	var all []acreSums
	for _, o := range f.payoffs {
		all = append(all, acreSums{o.sumOf(farm.PLC), o.sumOf(farm.ARCCO)})
	}
	return all
}

// together sets the crop years side by side; series are those of each year, farm
// by farm. One crop year stands for itself: there is nothing to add.
func (p *question) together(years []YearPart, series [][][]acreSums) []Together {
	all := []Together{}
	if len(years) < 2 || p.Brief {
		return all
	}
	var sums [][]acreSums
	for f, first := range years[0].Farms {
		for k, part := range first.Commodities {
			t := Together{Farm: first.Farm, Commodity: part.Commodity}
			var byYear []acreSums
			for i, y := range years {
				t.Years = append(t.Years, yearLine(p.Case, y.CropYear, y.Farms[f].Commodities[k]))
				byYear = append(byYear, series[i][f][k])
			}
			all, sums = append(all, t), append(sums, byYear)
		}
	}
	inParallel(len(all), func(i int) { all[i].Total = p.total(all[i].Years, sums[i]) })
	return all
}

func yearLine(c Case, y crop.CropYear, part CommodityPart) YearLine {
	line := YearLine{CropYear: y, Difference: part.Difference, Leader: part.Leader, Leans: part.Leans, Discount: Chance(discount(c, part.Commodity, y)), ShareTaken: part.AssumedShare != nil}
	if p := part.Programs.Of(farm.PLC); p != nil {
		line.PLC = &p.Mean
	}
	if p := part.Programs.Of(farm.ARCCO); p != nil {
		line.ARCCO = &p.Mean
	}
	return line
}

// discount returns by what a payment of a crop year counts today at the user's
// rate: it comes on its first possible day, or now if that is past.
func discount(c Case, commodity crop.Commodity, y crop.CropYear) float64 {
	const daysOfYear = 365.25
	day, known := firstPaymentDay(commodity, y)
	if !known || !day.After(c.Today) {
		return 1
	}
	years := day.Sub(c.Today).Hours() / 24 / daysOfYear
	return math.Pow(1+c.Operation.Settings.DiscountRate, -years)
}

// total adds up the draws of all crop years, path by path.
func (p *question) total(lines []YearLine, byYear []acreSums) *Total {
	b := p.paths.buffers
	plc, arc, lead, difference := b.zeros(), b.zeros(), b.zeros(), b.zeros()
	defer b.give(plc, arc, lead, difference)
	for i, y := range byYear {
		if y.plc == nil || y.arc == nil {
			return nil
		}
		ahead := y.plc
		if lines[i].Leans == LeadsARCCO {
			ahead = y.arc
		}
		discount := float64(lines[i].Discount)
		y.plc.times(discount).fill(plc)
		y.arc.times(discount).fill(arc)
		ahead.times(discount).fill(lead)
	}
	neither := 0
	for i := range plc {
		difference[i] = arc[i] - plc[i]
		if plc[i] == 0 && arc[i] == 0 {
			neither++
		}
	}
	more := func(sign float64) Chance {
		return Chance(odds.Share(difference, func(x float64) bool { return sign*x > 0 }))
	}
	return &Total{
		DiscountRate: Chance(p.Operation.Settings.DiscountRate),
		PLC:          describeSum(b, plc), ARCCO: describeSum(b, arc), EachYearsLead: meanOf(b, lead), Difference: meanOf(b, difference),
		ARCCOMore: more(1), PLCMore: more(-1), NeitherPays: Chance(float64(neither) / float64(len(plc))),
	}
}

func meanOf(b *buffers, values []float64) Mean {
	s := b.summarize(values)
	return Mean{Dollars(s.Mean), Dollars(s.StandardError)}
}

func describeSum(b *buffers, values []float64) Sum {
	s := b.summarize(values)
	percentiles, _ := b.percentiles(values)
	return Sum{Dollars(s.Mean), Dollars(s.StandardError), Percentiles(percentiles)}
}

// changeFrom returns the first of some crop years in which the law lets the
// election be changed every year, 0 for none.
func changeFrom(years []crop.CropYear) (first crop.CropYear, source string) {
	for _, y := range years {
		rule, err := law.Find("election_rule", "", y)
		if err == nil && rule.Text == "yearly_change_allowed" && (first == 0 || y < first) {
			first, source = y, rule.Citation()
		}
	}
	return first, source
}

// addScaled adds weight times x to dst.
func addScaled(dst []float64, weight float64, x []float64) {
	for i, v := range x {
		dst[i] += weight * v
	}
}
