package answer

import "testing"

func TestDecidesInWords(t *testing.T) {
	price, yield := &Price{Value: 4.9234, Decimals: 2}, &DecidingYield{From: "the trend of its yields", Mean: DollarsOf(171.04), Used: DollarsOf(165)}
	for _, one := range []struct {
		d    Decides
		want string
	}{
		{Decides{Leader: LeadsPLC, Yield: yield}, "PLC leads if the county yield is taken from the trend of its yields (171.0) instead of 165.0"},
		{Decides{Leader: LeadsARCCO, Price: price, PriceHigher: true}, "ARC-CO leads if the national price ends one usual error higher (4.92)"},
		{Decides{Leader: LeadsPLC, Price: price, Yield: &DecidingYield{From: "its benchmark yield"}}, "PLC leads if the national price ends one usual error lower (4.92) and the county yield is taken from its benchmark yield"},
		{Decides{Leader: LeadsPLC, Price: price, Yield: yield}, "PLC leads with a price one usual error lower (4.92) and a county yield of 171.0, the trend of its yields"},
	} {
		if got := one.d.Words(); got != one.want {
			t.Errorf("got  %s\nwant %s", got, one.want)
		}
	}
}
