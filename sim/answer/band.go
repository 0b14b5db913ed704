package answer

import (
	"fmt"

	"fencerow/program"
)

// Difference is the mean of ARC-CO less PLC in USD per base acre. The band is what it is
// with other means that may as well be true: the price one usual error lower or higher,
// the county yield by another estimator of its mean. It is no confidence interval.
type Difference struct {
	Mean          Dollars  `json:"mean"`
	StandardError Dollars  `json:"standard_error"`
	Lowest        Dollars  `json:"lowest_in_band"`
	Highest       Dollars  `json:"highest_in_band"`
	UsualError    Chance   `json:"price_usual_error"`  // of the logarithm of the mean price; 0: the price is known
	YieldMeans    int      `json:"county_yield_means"` // estimators of the mean county yield in the band; 0: it is known or was told
	Decides       *Decides `json:"decides"`            // nil: the lead holds in the band
}

// Decides is the assumption nearest to those of the odds under which the lead is another.
type Decides struct {
	Leader      Leader         `json:"leader"`
	Difference  Dollars        `json:"difference"` // USD per base acre
	Price       *Price         `json:"price"`      // mean national price; nil: as in the odds
	PriceHigher bool           `json:"-"`
	Yield       *DecidingYield `json:"county_yield"` // nil: as in the odds
}

// DecidingYield is the mean county yield by another estimator, units per acre.
type DecidingYield struct {
	From string   `json:"mean_from"`
	Mean *Dollars `json:"mean"`      // nil: of several counties or practices
	Used *Dollars `json:"mean_used"` // likewise
}

// Moves reports whether the band has other means than the odds.
func (d Difference) Moves() bool { return d.UsualError > 0 || d.YieldMeans > 0 }

// Words says under which assumption the lead is another, as the end of a sentence.
func (d Decides) Words() string {
	words, way := string(d.Leader)+" leads if ", "lower"
	if d.PriceHigher {
		way = "higher"
	}
	if d.Price != nil && d.Yield != nil && d.Yield.Mean != nil { // short, for both are told
		return fmt.Sprintf("%s leads with a price one usual error %s (%s) and a county yield of %s, %s", d.Leader, way, program.Text(d.Price.Value, d.Price.Decimals), program.Text(float64(*d.Yield.Mean), 1), d.Yield.From)
	}
	if d.Price != nil {
		words += fmt.Sprintf("the national price ends one usual error %s (%s)", way, program.Text(d.Price.Value, d.Price.Decimals))
	}
	if d.Yield == nil {
		return words
	}
	if d.Price != nil {
		words += " and "
	}
	words += "the county yield is taken from " + d.Yield.From
	if d.Yield.Mean != nil {
		words += fmt.Sprintf(" (%s) instead of %s", program.Text(float64(*d.Yield.Mean), 1), program.Text(float64(*d.Yield.Used), 1))
	}
	return words
}
