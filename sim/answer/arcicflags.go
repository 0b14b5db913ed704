package answer

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// noPlantingARCIC speaks where ARC-IC is on record and no covered crop is
// planted or prevented in the crop year.
func noPlantingARCIC(c flagCase) []Flag {
	if !onRecord(c.farm, farm.ARCIC) {
		return nil
	}
	for _, commodity := range crop.Commodities() {
		if c.farm.PlantedAcres(string(commodity), c.cropYear)+c.farm.PreventedAcres(string(commodity), c.cropYear) > 0 {
			return nil
		}
	}
	message := fmt.Sprintf("ARC-IC is on record and no covered crop is entered as planted or prevented for crop year %d: ARC-IC pays by what is planted, so it cannot be worked out, and a farm without covered plantings is paid nothing under it unless it is pooled. Enter planted, or choose another program.", c.cropYear)
	return []Flag{{"no_planting_arc_ic", Error, message, "7 U.S.C. 9017(b)(2)"}}
}

// unverifiedIndividual speaks where ARC-IC figures enter the answer.
func unverifiedIndividual(c flagCase) []Flag {
	if c.individual == nil || c.individual.missing != "" {
		return nil
	}
	details, err := law.Find("individual_coverage_details", "", c.cropYear)
	if err != nil {
		return nil
	}
	message := fmt.Sprintf("The figures of ARC-IC for crop year %d are not confirmed in an opened primary text: %s. Ask the county office to work one out before choosing it.", c.cropYear, details.Note)
	return []Flag{{"unverified_figure", Warning, message, details.Citation()}}
}
