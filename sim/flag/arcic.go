package flag

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// noPlantingARCIC flags farms on which ARC-IC was last elected and no covered crop planted or
// prevented in the crop year.
func noPlantingARCIC(c *Case) []answer.Flag {
	if !position.OnRecord(c.Farm, farm.ARCIC) {
		return nil
	}
	for _, commodity := range crop.Commodities() {
		if c.Farm.PlantedAcres(string(commodity), c.CropYear)+c.Farm.PreventedAcres(string(commodity), c.CropYear) > 0 {
			return nil
		}
	}
	message := fmt.Sprintf("ARC-IC was last elected, and no covered crop is entered as planted or prevented for %d. ARC-IC pays on what is planted, so it cannot be worked out. A farm without covered plantings is paid nothing under it, unless it is pooled. Enter the planted acres, or leave ARC-IC out of the comparison.", c.CropYear)
	return []answer.Flag{{Code: "no_planting_arc_ic", Severity: answer.Error, Message: message, Source: "7 U.S.C. 9017(b)(2)"}}
}

// unverifiedIndividual flags farms whose answer holds figures of ARC-IC.
func unverifiedIndividual(c *Case) []answer.Flag {
	if c.Individual == nil || c.Individual.Missing != "" {
		return nil
	}
	details, err := law.Find("individual_coverage_details", "", c.CropYear)
	if err != nil {
		return nil
	}
	message := fmt.Sprintf("The ARC-IC figures for %d are not confirmed in the words of the rules. Ask the county office to work out ARC-IC for this farm.", c.CropYear)
	return []answer.Flag{{Code: "unverified_figure", Severity: answer.Warning, Message: message, Source: details.Citation()}}
}
