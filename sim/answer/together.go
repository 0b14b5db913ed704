package answer

import (
	"fencerow/program/crop"
)

// Together is one farm and commodity over several crop years and their sum, USD per base
// acre before share, limit and sequestration.
type Together struct {
	Farm      string         `json:"farm"`
	Commodity crop.Commodity `json:"commodity"`
	Years     []YearLine     `json:"years"`
	Total     *Total         `json:"total"` // nil where a year lacks a figure
}

// YearLine is one crop year of Together.
type YearLine struct {
	CropYear      crop.CropYear  `json:"crop_year"`
	PLC           *Dollars       `json:"PLC"`
	ARCCO         *Dollars       `json:"ARC-CO"`
	Difference    *Difference    `json:"difference"`
	Leader        Leader         `json:"leader"`
	Leans         Leader         `json:"leans"`
	Discount      Chance         `json:"discount_factor"`                   // by which its payment counts in the total
	ChoosingAgain *ChoosingAgain `json:"choosing_again"`                    // nil in the first crop year, and where it cannot be told
	ShareAssumed  bool           `json:"irrigated_share_assumed,omitempty"` // ARC-CO rests on a share that the file does not give
}

// ChoosingAgain is what a crop year averages where the choice between PLC and ARC-CO
// follows the price of the crop year before, beside one choice made now.
type ChoosingAgain struct {
	OneChoice Dollars `json:"one_choice"` // the program with the higher average
	Again     Dollars `json:"again"`      // in each of odds.NewsBins bins of that price the one with the higher average
	Adds      Mean    `json:"adds"`       // Again less OneChoice
}

// Total is the sum over the crop years, each payment discounted from its first possible
// day to today.
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

// Sum is the distribution of a sum over all scenarios, USD.
type Sum struct {
	Mean          Dollars     `json:"mean"`
	StandardError Dollars     `json:"standard_error"`
	Percentiles   Percentiles `json:"percentiles"`
}
