package odds

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"fencerow/program/crop"
)

// Months since January of the harvest year of the first and last USDA
// forecast whose error is measured: May before harvest, August after.
const (
	firstForecast = 4
	lastForecast  = 19
)

// Volatility returns the standard deviation of the logarithm of the final
// marketing-year-average price of crop year y over a price of date asOf, and
// in words where it comes from.
//
//   - From May of the harvest year to August of the next: the error of USDA's
//     price of that month; later months keep the last.
//   - From January of the harvest year to April: the default of mid-March.
//   - Earlier: sqrt(phi^2 v^2 + s^2), v that of the crop year before at the
//     same date, s the standard deviation of one year's change, widened as later years
//     of past paths were.
//
// A price that USDA does not forecast every month has the error of a like
// commodity in proportion to both mid-March defaults, a judgement.
func (k *Constants) Volatility(c crop.Commodity, y crop.CropYear, asOf time.Time) (sigma float64, rule string) {
	months := 12*(asOf.Year()-y) + int(asOf.Month()-time.January)
	if months >= 0 {
		return k.harvestYearVolatility(c, months)
	}
	near := asOf.Year() // the crop year harvested in the year of the date
	sigma, rule = k.harvestYearVolatility(c, int(asOf.Month()-time.January))
	phi, change := Persistence(), yearlyChange(c)*must("later_innovation_factor", "all", "US", "years two and on")
	for range y - near {
		sigma = math.Hypot(phi*sigma, change)
	}
	return sigma, fmt.Sprintf("%s for crop year %d, widened over %d %s of price changes", rule, near, y-near, plural(y-near, "year"))
}

func plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// ErrorAfterHarvest returns the standard deviation of the logarithm of the final price
// over USDA's price of November of the harvest year, when most of the crop is in.
func (k *Constants) ErrorAfterHarvest(c crop.Commodity) float64 {
	sigma, _ := k.harvestYearVolatility(c, int(time.November-time.January))
	return sigma
}

// harvestYearVolatility is Volatility at a number of months after January of the
// harvest year.
func (k *Constants) harvestYearVolatility(c crop.Commodity, months int) (float64, string) {
	if months < firstForecast {
		return marchDefault(c), fmt.Sprintf("usual error of a price for %s early in the harvest year", c.Name())
	}
	months = min(months, lastForecast)
	month := time.Month(months%12) + time.January
	key := month.String()[:3]
	if months >= 12 {
		key += "+1"
	}
	like, likened := errorFollows[c]
	if !likened {
		like = c
	}
	row, ok := k.find("sd_ln_final_over_wasde", forecastAs(like), "US", key)
	if !ok {
		panic(fmt.Sprintf("sim/odds/parameters.csv: no error of USDA's %s price for %s", key, like))
	}
	rule := fmt.Sprintf("error of USDA's %s price for %s, %s", month, forecastName(like), row.Period)
	if likened {
		return row.Value * marchDefault(c) / marchDefault(like), rule + ", scaled to " + c.Name()
	}
	return row.Value, rule
}

// ForecastError returns the error of USDA's price for a commodity in a month of the harvest
// year ("May"), as Volatility takes it, and the years it was measured on; ok is false where
// USDA does not forecast that price every month.
func ForecastError(c crop.Commodity, month string) (sd float64, years int, ok bool) {
	if _, likened := errorFollows[c]; likened {
		return 0, 0, false
	}
	row, ok := find("sd_ln_final_over_wasde", forecastAs(c), "US", month)
	years, err := strconv.Atoi(row.Count)
	return row.Value, years, ok && err == nil
}

func marchDefault(c crop.Commodity) float64 {
	return must("sigma_log_mya_default", string(c), "US", "March before harvest")
}

// yearlyChange returns the standard deviation of one year's surprise in the logarithm
// of the price.
func yearlyChange(c crop.Commodity) float64 {
	if row, ok := find("ar1_innovation_sd", measuredAs(c), "US", "1 year"); ok {
		return row.Value
	}
	return marchDefault(c)
}

// forecastAs returns the name under which USDA's forecasts list a price.
func forecastAs(c crop.Commodity) string {
	switch c {
	case crop.SeedCotton:
		return "upland_cotton_lint"
	case crop.MediumGrainRice, crop.TemperateJaponicaRice:
		return "medium_short_grain_rice_with_japonica"
	}
	return string(c)
}

func forecastName(c crop.Commodity) string {
	switch c {
	case crop.SeedCotton:
		return "upland cotton lint"
	case crop.MediumGrainRice, crop.TemperateJaponicaRice:
		return "medium and short grain rice"
	}
	return c.Name()
}

// Persistence returns phi, the share of a price's log distance from its path that is
// left a year later.
func Persistence() float64 { return must("ar1_phi_default", "all", "US", "1 year") }

// FromInsurance returns the standard deviation of the log of a marketing-year
// average price for the volatility factor of crop insurance: a price averaged
// over twelve months varies a little less than one harvest price.
func FromInsurance(factor float64) float64 {
	return must("insurance_volatility_share", "all", "US", "of the factor") * factor
}
