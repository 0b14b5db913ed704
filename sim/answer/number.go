package answer

import (
	"encoding/json"
	"math"
	"strconv"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// DollarsOf returns a pointer to an amount, for figures that may be missing.
func DollarsOf(x float64) *Dollars { d := Dollars(x); return &d }

// ChanceOf returns a pointer to a chance, for figures that may be missing.
func ChanceOf(x float64) *Chance { c := Chance(x); return &c }

// PriceOf returns a figure as a price, nil where it is not known. The decimals are those
// it is printed with.
func PriceOf(n position.National, f farm.Figure, decimals int) *Price {
	if f.Status == "" {
		return nil
	}
	return &Price{Value: f.Value, Decimals: decimals}
}

// Number kinds of the JSON: how many decimals a figure is written with. A
// missing figure is a nil pointer and becomes null, never 0.
type (
	Dollars float64 // USD, USD per acre, yields and acres: 2 decimals
	Chance  float64 // chances and shares: 6 decimals
)

// MarshalJSON writes two decimals.
func (d Dollars) MarshalJSON() ([]byte, error) { return decimal(float64(d), 2), nil }

// MarshalJSON writes up to six decimals.
func (c Chance) MarshalJSON() ([]byte, error) { return decimal(float64(c), 6), nil }

// Price is a price with the decimals it is printed with.
type Price struct {
	Value    crop.Price
	Decimals int
}

// MarshalJSON writes the price with its own decimals.
func (p Price) MarshalJSON() ([]byte, error) { return decimal(p.Value, p.Decimals), nil }

// decimal writes x with n decimals, half up.
func decimal(x float64, n int) []byte {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return []byte("null")
	}
	return []byte(program.Text(x, n))
}

// Percentiles are percentiles of type 7 (linear between order statistics) over all scenarios, in the order
// of odds.Percents.
type Percentiles odds.Percentiles

// Places of odds.Percents in Percentiles.
const (
	Twentieth     = iota // one outcome in twenty is lower
	Tenth                // one in ten is lower: the poor case
	Quarter              // one in four is lower
	Half                 // half are lower: the middle case
	ThreeQuarters        // one in four is higher
	Ninetieth            // one in ten is higher: the good case
	NinetyFifth          // one in twenty is higher
)

// MarshalJSON writes {"5": ..., "95": ...} in rising order.
func (p Percentiles) MarshalJSON() ([]byte, error) {
	buffer := []byte{'{'}
	for i, percent := range odds.Percents {
		if i > 0 {
			buffer = append(buffer, ',')
		}
		key, err := json.Marshal(strconv.Itoa(percent))
		if err != nil {
			return nil, err
		}
		buffer = append(append(append(buffer, key...), ':'), decimal(p[i], 2)...)
	}
	return append(buffer, '}'), nil
}

// UnmarshalJSON reads such an object. A percent that is null or missing becomes NaN.
func (p *Percentiles) UnmarshalJSON(text []byte) error {
	var byPercent map[string]*float64
	if err := json.Unmarshal(text, &byPercent); err != nil {
		return err
	}
	for i, percent := range odds.Percents {
		p[i] = math.NaN()
		if x := byPercent[strconv.Itoa(percent)]; x != nil {
			p[i] = *x
		}
	}
	return nil
}
