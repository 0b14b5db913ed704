package explain

import (
	"fmt"
	"slices"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/position"
)

// Handout is the sheets for a meeting about some counties, all at one price date: one
// for each county, commodity and practice, on base of no particular farm.
type Handout struct {
	Format     string            `json:"format"`     // fencerow/handout/1
	Comparison answer.Comparison `json:"comparison"` // of farms that stand for a sheet each, in the order of Sheets
	Workings   []Workings        `json:"-"`
	Replayed   Replayed          `json:"-"` // of the same farms
	Sheets     []CountySheet     `json:"sheets"`
	Missing    []string          `json:"missing"` // counties and commodities without a sheet, and why
}

// HandoutFormat names the JSON of a Handout.
const HandoutFormat = "fencerow/handout/1"

// CountySheet is one county, commodity and practice, at an assumed payment yield.
type CountySheet struct {
	Farm         string               `json:"farm"` // the key under which Comparison has it
	County       string               `json:"county"`
	CountyName   string               `json:"county_name"`
	Practice     farm.Practice        `json:"practice"`
	Commodity    crop.Commodity       `json:"commodity"`
	PaymentYield answer.Dollars       `json:"payment_yield"` // of the PLC figures: assumed
	Part         answer.CommodityPart `json:"-"`             // of the first crop year
	Working      Working              `json:"-"`
	Past         CommodityReplay      `json:"past"`
	Dates        []Dated              `json:"dates"`
	Flags        []answer.Flag        `json:"flags"`
}

// Dated is one date to know, with its source.
type Dated struct {
	What   string `json:"what"`
	When   string `json:"when"`
	Source string `json:"source"`
}

// handoutAcres is the base of a sheet. All printed figures are per base acre.
const handoutAcres = 100

// MakeHandout answers for every commodity that the sources have of each county, or only
// for those listed. done is called with the number of counties that are ready.
func MakeHandout(c answer.Question, counties []string, only []crop.Commodity, done func(counties int)) (Handout, error) {
	h := Handout{Format: HandoutFormat, Sheets: []CountySheet{}, Missing: []string{}}
	for i, code := range counties {
		c.Operation.Farms = countyFarms(c, code, only, &h)
		if len(c.Operation.Farms) > 0 {
			if err := h.add(c); err != nil {
				return h, fmt.Errorf("county %s: %w", code, err)
			}
		}
		done(i + 1)
	}
	return h, nil
}

// countyFarms returns the farms behind the sheets of a county, one for each commodity
// and practice, and notes in h what is missing.
func countyFarms(c answer.Question, code string, only []crop.Commodity, h *Handout) (farms []farm.Farm) {
	y := c.CropYears[0]
	for _, commodity := range crop.Commodities() {
		practices := c.Counties.Practices(code, commodity, y)
		if len(practices) == 0 || len(only) > 0 && !slices.Contains(only, commodity) {
			continue
		}
		terms, err := program.TermsFor(commodity, y)
		_, priced := c.Sources().Price(commodity, y, terms.PriceDecimals)
		if err != nil || !priced {
			h.Missing = append(h.Missing, fmt.Sprintf("county %s, %s: no projected price", code, commodity.Name()))
			continue
		}
		for _, practice := range practices {
			benchmark, ok := c.Sources().BenchmarkYield(position.CountyUnit{County: code, Commodity: commodity, Practice: practice, CropYear: y}, terms.YieldDecimals)
			if !ok {
				h.Missing = append(h.Missing, fmt.Sprintf("county %s, %s, %s: no benchmark yield", code, commodity.Name(), practice))
				continue
			}
			farms = append(farms, countyFarm(code, commodity, practice, program.Round(answer.AssumedPaymentYield*benchmark.Value, 0)))
		}
	}
	return farms
}

func countyFarm(code string, commodity crop.Commodity, practice farm.Practice, paymentYield crop.Yield) farm.Farm {
	base := farm.Base{Commodity: commodity, BaseAcres: handoutAcres, PaymentYield: &paymentYield}
	number := string(commodity)
	if practice != farm.AllPractices {
		share := map[farm.Practice]crop.Share{farm.Irrigated: 1, farm.Nonirrigated: 0}[practice]
		base.IrrigatedShare, number = &share, number+"-"+string(practice)
	}
	return farm.Farm{Number: number, County: code, Bases: []farm.Base{base}}
}

// add answers for the farms of the question and appends their sheets.
func (h *Handout) add(c answer.Question) error {
	compared, err := compare.Answer(c)
	if err != nil {
		return err
	}
	replayed, err := Replay(c)
	if err != nil {
		return err
	}
	for i, y := range c.CropYears {
		workings, err := WorkingsOf(c, y)
		if err != nil {
			return err
		}
		if len(h.Workings) <= i {
			h.Workings = append(h.Workings, Workings{CropYear: y})
		}
		h.Workings[i].Commodities = append(h.Workings[i].Commodities, workings.Commodities...)
	}
	for i, f := range c.Operation.Farms {
		h.Sheets = append(h.Sheets, countySheet(c, f, compared.CropYears[0].Farms[i], h.Workings[0].Commodities[len(h.Sheets)], replayed.Farms[i].Commodities[0]))
	}
	h.join(compared, replayed)
	return nil
}

func countySheet(c answer.Question, f farm.Farm, part answer.FarmPart, w Working, past CommodityReplay) CountySheet {
	base := f.Bases[0]
	practice := farm.AllPractices
	if base.IrrigatedShare != nil {
		practice = map[bool]farm.Practice{true: farm.Irrigated, false: farm.Nonirrigated}[*base.IrrigatedShare == 1]
	}
	return CountySheet{
		Farm: f.Key(), County: f.County, CountyName: c.Counties.Name(f.County), Practice: practice, Commodity: base.Commodity, PaymentYield: answer.Dollars(*base.PaymentYield),
		Part: part.Commodities[0], Working: w, Past: past, Dates: datesOf(base.Commodity, c.CropYears[0]), Flags: part.Flags,
	}
}

// join appends the farms of another county to the comparison and the replay.
func (h *Handout) join(c answer.Comparison, past Replayed) {
	if len(h.Comparison.CropYears) == 0 {
		h.Comparison, h.Replayed = c, past
		return
	}
	h.Replayed.Farms = append(h.Replayed.Farms, past.Farms...)
	for i := range c.CropYears {
		to := &h.Comparison.CropYears[i]
		to.Farms = append(to.Farms, c.CropYears[i].Farms...)
		to.Standing.Lines = append(to.Standing.Lines, c.CropYears[i].Standing.Lines...)
	}
	h.Comparison.Together = append(h.Comparison.Together, c.Together...)
}

// datesOf returns the dates that matter to a commodity of a crop year. An unknown
// sign-up day is listed as such.
func datesOf(c crop.Commodity, y crop.CropYear) (all []Dated) {
	if row, err := law.Find("last_signup_day", "", y); err == nil {
		when := row.Text
		if when == "unknown" {
			when = "not known here: ask the county office"
		}
		all = append(all, Dated{"last day to elect and sign", when, row.Citation()})
	}
	if start, err := law.Find("marketing_year_start", c, y); err == nil {
		end := crop.MarketingYear{CropYear: y, StartMonth: time.Month(start.Number)}.End()
		all = append(all, Dated{"the marketing year ends, whose average price counts", end.Format(time.DateOnly), start.Citation()})
	}
	if day, known := compare.FirstPaymentDay(c, y); known {
		all = append(all, Dated{"payments come, or later", day.Format(time.DateOnly), "7 U.S.C. 9016(e), 9017(f)"})
	}
	return all
}
