package flag

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
)

// STAXBars reports whether STAX is bought on a farm in a crop year whose law bars it
// together with an enrolled base of the commodity, and returns that row.
func STAXBars(f farm.Farm, c crop.Commodity, y crop.CropYear) (law.Figure, bool) {
	rule, err := law.Find("stax_barred", c, y)
	return rule, err == nil && (f.STAXBought[y] || f.HasLayer(farm.STAX, c, y))
}

// staxWithCottonBase flags farms with STAX and a base that STAX bars.
func staxWithCottonBase(c *Case) []answer.Flag {
	var flags []answer.Flag
	for _, base := range c.Bases {
		rule, barred := STAXBars(c.Farm, base.Commodity, c.CropYear)
		if !barred {
			continue
		}
		message := fmt.Sprintf("STAX is bought for %d and the farm has %s base. STAX does not go with a farm enrolled in ARC or PLC for that base. "+
			"Not enrolled, that base is paid 0.00. Ask the insurance agent whether STAX on this farm can still be given up, and at what cost. Ask the county office whether the seed cotton base can stay out of the contract.", c.CropYear, base.Commodity.Name())
		flags = append(flags, answer.Flag{Code: "stax_with_cotton_base", Severity: answer.Warning, Message: message, Source: rule.Citation()})
	}
	return flags
}
