package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Insurance is the area insurance of a farm beside PLC and ARC-CO, on the same scenarios.
// Dollars are to a full share; those of the programs before share, limit and sequestration.
type Insurance struct {
	Crops        []InsuredCrop  `json:"crops"`
	InsuredAcres Dollars        `json:"insured_acres"`
	BaseAcres    Dollars        `json:"base_acres"`
	WholeFarm    []InsuranceRow `json:"whole_farm"`            // under some choices of programs, without and with all layers; none where a figure is missing
	YieldsOut    string         `json:"area_yields_published"` // about this day, YYYY-MM-DD, not confirmed; layers are settled after it
	Unconfirmed  []string       `json:"unconfirmed"`           // citations of figures that were not read in the agency's own text
}

// InsuredCrop is area insurance on one crop.
type InsuredCrop struct {
	Commodity     crop.Commodity `json:"commodity"`
	Practice      string         `json:"practice"`
	County        string         `json:"county"`
	Plan          farm.Plan      `json:"plan"`
	Level         Chance         `json:"coverage_level"`
	ApprovedYield Dollars        `json:"approved_yield"`
	InsuredAcres  Dollars        `json:"insured_acres"`
	Share         Chance         `json:"share"`
	BaseAcres     Dollars        `json:"base_acres"` // of the commodity on the farm

	ProjectedPrice    Price       `json:"projected_price"`
	HarvestPrice      *Price      `json:"harvest_price"` // average; null where the plan takes none
	HarvestPriceKnown bool        `json:"harvest_price_known"`
	HarvestPriceOut   bool        `json:"harvest_price_may_be_published"` // the harvest is over and none is typed
	Volatility        *Chance     `json:"volatility"`
	ExpectedYield     Dollars     `json:"expected_area_yield"`
	AreaYield         *Dollars    `json:"area_yield"` // final area yield, or its average
	AreaYieldStatus   crop.Status `json:"area_yield_status"`
	AreaYieldFrom     string      `json:"area_yield_known_from"` // what the county yield is known from; "" where the final area yield is typed
	AreaYieldRatio    Chance      `json:"area_yield_ratio"`      // to FSA's county yield; 1: taken as the same

	Sales    Sales          `json:"sales"`
	Layers   []InsuredLayer `json:"layers"`
	Together []InsuranceRow `json:"together"` // each program alone, with each layer, with all that go together
	Overlap  []Overlap      `json:"overlap"`
	Apart    []string       `json:"not_together"` // why a program and a layer, or two layers, are not shown together
	Missing  string         `json:"missing"`      // why there are no figures; "" when there are
}

// Sales says whether insurance can still be bought.
type Sales struct {
	Standing string      `json:"standing"` // given, open or unknown
	LastDay  string      `json:"last_day"` // YYYY-MM-DD; "": not known here
	Of       string      `json:"of"`       // what the day holds for, where not for all; "": for all
	Status   crop.Status `json:"status"`
	Source   string      `json:"source"`
}

// InsuredLayer is one layer, USD per insured acre to a full share.
type InsuredLayer struct {
	Layer           farm.Program `json:"layer"`
	Trigger         Chance       `json:"area_loss_trigger"`
	LowerEnd        Chance       `json:"lower_end"`
	Percentage      Chance       `json:"coverage_percentage"` // of STAX: protection factor
	Protection      *Dollars     `json:"protection"`          // at the projected price
	PaysBelow       *Dollars     `json:"pays_below_yield"`    // area yield below which it pays, at the harvest price where known, else at the projected one
	Average         *Dollars     `json:"average"`
	StandardError   *Dollars     `json:"standard_error"`
	ChanceOfPayment *Chance      `json:"chance_of_payment"`
	ChanceOfMost    *Chance      `json:"chance_of_maximum"`
	Premium         *Dollars     `json:"premium"` // after subsidy; null where none is typed
	Subsidy         Chance       `json:"subsidy"`
	FromTotal       bool         `json:"premium_from_total"` // a premium before subsidy is typed
	Fee             Dollars      `json:"fee"`                // this crop's part of the administrative fee, USD per insured acre
	FeeKnown        bool         `json:"fee_known"`
	Net             *Dollars     `json:"net_average"`        // average less premium and fee
	NetAtShare      *Dollars     `json:"net_total_at_share"` // USD on all insured acres at the insured share
	Steps           []AreaStep   `json:"steps"`              // of one acre, at the harvest price of PaysBelow and the average area yield; none where a figure is missing
	Missing         string       `json:"missing"`            // why it cannot be had; "" where it can
}

// AreaStep is one line of the arithmetic of a layer.
type AreaStep struct {
	Name   string `json:"name"`
	Words  string `json:"-"`
	Value  Chance `json:"value"` // up to six decimals
	Unit   string `json:"unit"`
	Source string `json:"source"`
}

// InsuranceRow is a choice of programs with some layers, net of their premiums.
type InsuranceRow struct {
	Choice  Choice         `json:"choice,omitempty"`  // of the whole farm
	Program farm.Program   `json:"program,omitempty"` // of a crop; "" for layers alone
	Layers  []farm.Program `json:"layers"`
	Average *Dollars       `json:"average"` // USD in total; null, as all others, where a premium is not typed
	Poor    *Dollars       `json:"p10"`     // one outcome in ten is lower
	Worst   *Dollars       `json:"average_of_worst_tenth"`

	PerInsuredAcre *Dollars `json:"average_per_insured_acre"`
	PerBaseAcre    *Dollars `json:"average_per_base_acre"`
	PremiumMissing bool     `json:"premium_missing"`
}

// Overlap is how often a program and a layer pay in the same outcome.
type Overlap struct {
	Program     farm.Program `json:"program"`
	Layer       farm.Program `json:"layer"`
	Both        Chance       `json:"both_pay"`
	OnlyProgram Chance       `json:"only_program_pays"`
	OnlyLayer   Chance       `json:"only_layer_pays"`
	Neither     Chance       `json:"neither_pays"`
}
