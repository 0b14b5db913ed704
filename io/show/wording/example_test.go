package wording_test

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

var corn = answer.CommodityPart{
	Commodity: crop.Corn, Leans: answer.LeadsARCCO, Leader: answer.LeadsARCCO,
	Difference:        &answer.Difference{Mean: 25.90, Lowest: 10.46, Highest: 40.85, UsualError: 0.077},
	ChanceNeitherPays: answer.ChanceOf(0.3635), ChanceARCCOMore: answer.ChanceOf(0.6160), ChancePLCMore: answer.ChanceOf(0.0205), ChanceEqual: answer.ChanceOf(0),
	MYA:         &answer.PriceView{Mean: answer.Price{Value: 4.55, Decimals: 2}, Status: crop.Projected, Low: &answer.Price{Value: 4.13, Decimals: 2}, High: &answer.Price{Value: 4.98, Decimals: 2}},
	LeadByPrice: []answer.Lead{{Below: &answer.Price{Value: 3.2, Decimals: 2}, Leader: answer.LeadsPLC}, {Below: &answer.Price{Value: 4.66, Decimals: 2}, Leader: answer.LeadsARCCO}, {Leader: answer.Neither}},
	Bases: []answer.BasePart{{County: "99001", CountyName: "Alder County", Practice: string(farm.AllPractices), BaseAcres: 120,
		CountyYield: &answer.YieldView{Mean: 182, KnownFrom: "local_harvest", Status: crop.Assumed}}},
}

// One crop, odds before dollars. 0.616 of 100 outcomes is 62 by largest remainder, 25.90
// USD on 120 acres are 3,108, and a price off by a factor of e to the 0.077 is 8 percent
// off.
func ExampleOdds() {
	fmt.Println(wording.Odds(corn))
	fmt.Println(wording.Average(corn, answer.DollarsOf(3108)))
	fmt.Println(wording.Range(corn))
	fmt.Println(wording.PriceLeads(corn))
	fmt.Println(wording.PriceUsed(corn))
	fmt.Println(wording.YieldUsed(corn, corn.Bases[0]))
	fmt.Println(wording.AtYield(corn), wording.YieldText(crop.Corn, 182), wording.PriceText(&corn.MYA.Mean), wording.Margin(25.90), len(wording.LeadAtPrices(corn)), wording.Between(*corn.Difference))
	// Output:
	// ARC-CO pays more in 62 of 100 outcomes, PLC in 2, and neither pays in 36.
	// Averaged over all 100, zeros included, ARC-CO is $26 a base acre ahead, or $3,108 in all.
	// If the price ends 8 percent higher or lower, that lead runs from $10 to $41.
	// If the county makes 182 bushels: PLC pays more below $3.20, ARC-CO pays more from $3.20 to $4.66, and neither pays from $4.66 up.
	// Price used for corn: $4.55 a bushel (projected). In 8 of 10 outcomes it ends between $4.13 and $4.98.
	// Alder County yield used: 182 bushels, from local harvest (assumed).
	// If the county makes 182 bushels 182 bushels $4.55 $26 3 from $10 to $41
}

// What a year's law asks before a farm is paid, and who decides.
func ExampleToBePaid() {
	s := answer.Standing{NewElection: true, LaterCoverage: "2025", LaterCoverageStatus: crop.Unverified, LastDay: "unknown"}
	l := answer.StandingLine{Signers: []answer.Signer{{ID: "operator", Share: 0.6}, {ID: "landowner", Share: 0.4}}}
	fmt.Println(wording.ToBePaid(s, 2026))
	fmt.Println(wording.WithoutElection(s, 2026))
	fmt.Println(wording.LastDay(s, "2026-11-25"))
	fmt.Println(wording.Deciders(l))
	fmt.Println(wording.ContractState(farm.Open, 2026))
	fmt.Println(wording.Payday(2026, "2027-10-01", 2027))
	// Output:
	// To be paid for 2026, a farm needs a new election and a signed contract, even to keep its last choice.
	// Without an election nothing is paid for 2026, and later years start from 2025 coverage until changed (that rule is not confirmed).
	// The sign-up deadline was not yet known on November 25, 2026. Ask the county office.
	// Operator (60 percent) and landowner (40 percent) share in the crop, so all must agree and sign.
	// No signed 2026 contract is noted.
	// Payments for 2026 crops come October 1, 2027 or later. If paid that fall, they are 2027 income.
}

// Names of farms, counties and leads.
func ExampleFarm() {
	farms := []answer.FarmPart{{Farm: "99001-0417", Commodities: []answer.CommodityPart{corn}}, {Farm: "99003-1203"}}
	elected := farm.PLC
	fmt.Println(wording.Farm("99001-0417", farms), wording.HomeCounty(farms[0]), wording.County(corn.Bases[0]), wording.Leads(corn.Leader), wording.Leads(answer.Close), wording.LastElected(&elected), wording.LastElected(nil), wording.Date("2026-11-10"))
	// Output:
	// 0417 Alder County Alder County ARC-CO toss-up PLC not given November 10, 2026
}
