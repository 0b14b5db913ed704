package answer

import (
	"fmt"

	"fencerow/program/farm"
	"fencerow/program/law"
)

// higherOf2025 says that the choice of that year does not matter.
func higherOf2025(c flagCase) []Flag {
	if !paysHigherOf(c.cropYear) {
		return nil
	}
	rule, err := law.Find("election_rule", "", c.cropYear)
	if err != nil {
		return nil
	}
	message := fmt.Sprintf("For crop year %d the agency pays the higher of PLC and ARC-CO for each commodity, whatever was elected, on farms with a contract. It holds for that year only: the choice counts again from the next.", c.cropYear)
	individual, err := law.Find("higher_of_with_individual", "", c.cropYear)
	if err != nil || !onRecord(c.farm, farm.ARCIC) {
		return []Flag{{"higher_of_2025", Info, message, rule.Citation()}}
	}
	message += " ARC-IC is on record for this farm, and the law names PLC and ARC-CO only. What this farm is paid is not confirmed: ask the county office."
	return []Flag{{"higher_of_2025", Warning, message, individual.Citation()}}
}
