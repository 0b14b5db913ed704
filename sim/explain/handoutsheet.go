package explain

import (
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// CountySheet is one county, commodity and practice, at an assumed payment yield.
type CountySheet struct {
	Number       int                  `json:"sheet"` // from 1 on
	Farm         string               `json:"farm"`  // the key under which Comparison has it
	State        string               `json:"state"` // its name, "" where the code is of none
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
	Kind   DateKind    `json:"kind"`
	What   string      `json:"what"`
	When   string      `json:"when"`
	Status crop.Status `json:"status"`
	Source string      `json:"source"`
}

// DateKind is what a date is of.
type DateKind string

// The kinds of dates.
const (
	LastDay           DateKind = "last_day"
	HarvestEnds       DateKind = "harvest_ends"
	MarketingYearEnds DateKind = "marketing_year_ends"
	FirstPayment      DateKind = "first_payment"
)

// Date returns a date of a sheet; ok is false where it has none.
func (s CountySheet) Date(of DateKind) (d Dated, ok bool) {
	for _, d := range s.Dates {
		if d.Kind == of {
			return d, true
		}
	}
	return d, false
}

func countySheet(c answer.Question, f farm.Farm, part answer.FarmPart, w Working, past CommodityReplay) CountySheet {
	base := f.Bases[0]
	practice := farm.AllPractices
	if base.IrrigatedShare != nil {
		practice = map[bool]farm.Practice{true: farm.Irrigated, false: farm.Nonirrigated}[*base.IrrigatedShare == 1]
	}
	return CountySheet{
		Farm: f.Key(), State: crop.StateNames[position.StateOf(f.County)], County: f.County, CountyName: c.Counties.Name(f.County), Practice: practice, Commodity: base.Commodity, PaymentYield: answer.Dollars(*base.PaymentYield),
		Part: part.Commodities[0], Working: w, Past: past, Dates: datesOf(base.Commodity, c.CropYears[0]), Flags: part.Flags,
	}
}

// datesOf returns the dates that matter to a commodity of a crop year. An unknown
// sign-up day is listed as such.
func datesOf(c crop.Commodity, y crop.CropYear) (all []Dated) {
	if row, err := law.Find("last_signup_day", "", y); err == nil {
		when := row.Text
		if when == "unknown" {
			when = "not known here: ask the county office"
		}
		all = append(all, Dated{LastDay, "last day to elect and sign", when, row.Status, row.Citation()})
	}
	harvest := odds.HarvestEnd(c, y)
	all = append(all, Dated{HarvestEnds, "the harvest has usually ended", harvest.Day.Format(time.DateOnly), harvest.Status, harvest.Source})
	if start, err := law.Find("marketing_year_start", c, y); err == nil {
		end := crop.MarketingYear{CropYear: y, StartMonth: time.Month(start.Number)}.End()
		all = append(all, Dated{MarketingYearEnds, "the marketing year ends, whose average price counts", end.Format(time.DateOnly), start.Status, start.Citation()})
	}
	if day, known := compare.FirstPaymentDay(c, y); known {
		all = append(all, Dated{FirstPayment, "payments come, or later", day.Format(time.DateOnly), crop.Law, "7 U.S.C. 9016(e), 9017(f)"})
	}
	return all
}
