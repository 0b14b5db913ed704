package program

import "fencerow/program/crop"

// Steps of the premium of area insurance.
var (
	StepPremium         = Step{"total_premium", "premium before subsidy", "USD", ""}
	StepPremiumSubsidy  = Step{"premium_subsidy", "subsidy of the premium", "USD", "7 U.S.C. 1508(e)"}
	StepProducerPremium = Step{"producer_premium", "premium that the producer pays", "USD", "7 U.S.C. 1508(e)"}
)

// ProducerPremium returns what is left of a premium (USD) after a subsidy, both to the cent.
// The administrative fee is apart.
//
// Source: 7 U.S.C. 1508(e). Example: testdata/derived/insurance/area-insurance.json.
func ProducerPremium(total crop.Money, subsidy crop.Share) crop.Money {
	total = Cent(total)
	return Cent(total - Cent(subsidy*total))
}
