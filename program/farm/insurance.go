package farm

import (
	"fmt"

	"fencerow/program/crop"
)

// The layers of area insurance, by the key every file and screen uses. They are bought on
// planted acres, count against no payment limit and are no election.
const (
	SCO  Program = "SCO"
	ECO  Program = "ECO"
	STAX Program = "STAX"
)

// Plan is the plan of the policy on the farm's own yield that a layer stands on.
type Plan string

// The plans: yield alone, revenue with the higher of both prices, revenue at the
// projected price.
const (
	YieldProtection     Plan = "YP"
	RevenueProtection   Plan = "RP"
	HarvestPriceExclude Plan = "RP-HPE"
)

// Insurance is area insurance on one crop of a farm in one crop year, as people typed it.
type Insurance struct {
	CropYear      crop.CropYear
	Commodity     crop.Commodity
	Practice      Practice    // whose county yield the area yield follows
	Plan          Plan        // of the underlying policy, or of STAX: RP or RP-HPE
	Level         crop.Share  // coverage level of the underlying policy; 0: STAX without one
	ApprovedYield crop.Yield  // of the underlying policy, units per acre; 0: STAX, which pays on the area yield
	Acres         crop.Acres  // planted and insured, not base
	Share         crop.Share  // of the crop
	Projected     crop.Price  // projected price, USD per unit
	Harvest       *crop.Price // harvest price; nil: not published
	Volatility    *float64    // volatility factor; nil: not typed
	ExpectedYield crop.Yield  // expected area yield, units per acre
	FinalYield    *crop.Yield // final area yield; nil: not published
	YieldRatio    float64     // of the final area yield to FSA's county yield
	Closes        string      // last day to buy, YYYY-MM-DD; "": not typed
	Layers        []Layer
}

// Layer is one layer of area insurance.
type Layer struct {
	Program    Program
	Trigger    crop.Share  // area loss trigger; 0: the only one of the crop year
	Range      crop.Share  // STAX: coverage range
	Percentage float64     // coverage percentage, under STAX the protection factor; 0: 1.00
	Premium    *crop.Money // USD per insured acre at a full share, after subsidy
	Total      *crop.Money // the same before subsidy; of the two one is typed at most
}

// InsuredIn returns the insurance of a crop year, in file order.
func (f Farm) InsuredIn(y crop.CropYear) []Insurance {
	var found []Insurance
	for _, i := range f.Insurance {
		if i.CropYear == y {
			found = append(found, i)
		}
	}
	return found
}

// HasLayer reports whether a layer stands on a crop of the farm in a crop year.
func (f Farm) HasLayer(p Program, c crop.Commodity, y crop.CropYear) bool {
	for _, i := range f.InsuredIn(y) {
		for _, l := range i.Layers {
			if i.Commodity == c && l.Program == p {
				return true
			}
		}
	}
	return false
}

// Bounds of what is typed as a factor: the volatility of a price, and the ratio of an area
// yield, or a protection factor. Judgements.
const (
	MostVolatility = 1
	MostFactor     = 3
)

// CheckFactor refuses a number that is not above 0 and at most most.
func CheckFactor(what string, number, most float64, hint string) *Fault {
	if number > 0 && number <= most {
		return nil
	}
	return &Fault{Reason: fmt.Sprintf("%s is %s", what, show(number)), Hint: hint}
}
