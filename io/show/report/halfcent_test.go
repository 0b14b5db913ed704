package report

import (
	"testing"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// What people read is rounded half up as the JSON is: 0.85 x 9.10 = 7.735, which lies a
// hair lower in binary, is 7.74.
func TestHalfCentIsShownHalfUp(t *testing.T) {
	share, rate := 0.85, 9.10
	product := share * rate
	amount, lost := answer.Dollars(product), answer.Dollars(-product)
	half := answer.Dollars(1234.5)
	lead := answer.CommodityPart{Leans: "ARC-CO", Difference: &answer.Difference{Mean: amount, Lowest: lost, Highest: amount}}
	for _, c := range []struct{ got, want string }{
		{wording.Money(&amount), "$7.74"}, {wording.Money(&lost), "-$7.74"}, {wording.Whole(&half), "$1,235"}, {wording.Plain(&amount), "7.74"},
		{wording.Price(crop.Corn, &answer.Price{Value: product, Decimals: 2}), "7.74"},
		{wording.Decimal(&answer.Price{Value: product, Decimals: 2}), "7.74"},
		{ahead(product), "ARC-CO $7.74"}, {wording.Margin(amount), "$8"}, {wording.Margin(answer.Dollars(1.235)), "$1.24"},
		{band(lead), "PLC $7.74 to ARC-CO $7.74"},
	} {
		if c.got != c.want {
			t.Errorf("shown %s, want %s", c.got, c.want)
		}
	}
}
