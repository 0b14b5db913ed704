package flag

import (
	"fmt"

	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// higherOf2025 flags farms in a year in which the law pays the higher of PLC and ARC-CO,
// so that the election does not matter.
func higherOf2025(c *Case) []answer.Flag {
	if !position.PaysHigherOf(c.CropYear) {
		return nil
	}
	rule, err := law.Find("election_rule", "", c.CropYear)
	if err != nil {
		return nil
	}
	message := fmt.Sprintf("For %d FSA pays the higher of PLC and ARC-CO for each crop, whatever was elected, on farms with a contract. That holds for %d only. The election counts again from %d.", c.CropYear, c.CropYear, c.CropYear+1)
	individual, err := law.Find("higher_of_with_individual", "", c.CropYear)
	if err != nil || !position.OnRecord(c.Farm, farm.ARCIC) {
		return []answer.Flag{{Code: "higher_of_2025", Severity: answer.Info, Message: message, Source: rule.Citation()}}
	}
	message += " ARC-IC was last elected on this farm, and the law names PLC and ARC-CO only. What this farm is paid is not confirmed: ask the county office."
	return []answer.Flag{{Code: "higher_of_2025", Severity: answer.Warning, Message: message, Source: individual.Citation()}}
}
