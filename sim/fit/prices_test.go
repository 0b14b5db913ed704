package fit

import (
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fencerow/program/crop"
)

// forecastFile has every price forecast of USDA's reports beside the final price: the
// months of the harvest year from May on, and of the next to August.
const forecastFile = "../../../shared/facts/prices/forecasts.csv"

// misses reads the forecasts of WASDE.
func misses(t *testing.T) []ForecastMiss {
	t.Helper()
	text, err := os.ReadFile(forecastFile)
	if err != nil {
		t.Skip("NOT CHECKED: errors of USDA's prices, ../shared is absent")
	}
	months := strings.Fields("Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec")
	var all []ForecastMiss
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	for _, line := range lines[1:] {
		cells := strings.Split(line, ",") // none of the first ten holds a comma
		date := strings.Split(cells[3], "-")
		log, err := strconv.ParseFloat(cells[9], 64)
		if cells[2] != "WASDE" || len(date) != 3 || err != nil {
			continue
		}
		cropYear, _ := strconv.Atoi(cells[1])
		year, _ := strconv.Atoi(date[0])
		month, _ := strconv.Atoi(date[1])
		const first, last = 4, 19 // May of the harvest year, August of the next, months after its January
		since := 12*(year-cropYear) + month - 1
		if since < first || since > last {
			continue
		}
		m := ForecastMiss{cells[0], cropYear, months[month-1], log}
		if since >= 12 {
			m.Month += "+1"
		}
		all = append(all, m)
	}
	return all
}

// The errors of USDA's prices in parameters.csv are what all reports give without the crop
// years held back.
func TestForecastErrors(t *testing.T) {
	estimates := slices.DeleteFunc(ForecastErrors(misses(t)), func(e Estimate) bool { return e.Commodity == "rice_all" }) // rice is forecast by kind
	holdRows(t, estimates)
}

// By hand: errors -.1, 0, .2 have mean 1/30 and a standard deviation of .1528; those of -.1
// and 0 have .0707, the root of .005. The formula is exact where errors are all there are.
func TestForecastErrorWithout(t *testing.T) {
	const tolerance = 1e-9
	errors := map[crop.CropYear]float64{2014: -0.1, 2015: 0, 2017: 0.2}
	mean := 0.1 / 3
	sd := math.Sqrt(((-0.1-mean)*(-0.1-mean) + mean*mean + (0.2-mean)*(0.2-mean)) / 2)
	got := ForecastErrorWithout(sd, 3, errors, 2017)
	if math.Abs(got-math.Sqrt(0.005)) > tolerance {
		t.Errorf("%v, want %v", got, math.Sqrt(0.005))
	}
	if got := ForecastErrorWithout(0.1, 10, errors, 2020); got != 0.1 {
		t.Errorf("a year that is not there changes it to %v", got)
	}
}
