package answer

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/law"
)

// paysHigherOf reports whether the law of a crop year pays the higher of PLC and
// ARC-CO for each commodity, whatever was elected.
func paysHigherOf(y crop.CropYear) bool {
	rule, err := law.Find("election_rule", "", y)
	return err == nil && rule.Text == "higher_of_plc_and_arc_co"
}

// payHigherOf adds the series of the higher of both programs, commodity by
// commodity in each draw; the bases of a commodity go together. It stays nil
// where one of the programs has no figures.
func (o *outcomes) payHigherOf(r *run) {
	if !o.complete() {
		return
	}
	n := r.draws.N()
	o.higherAcre, o.higherPart = r.take(), r.series(len(o.plcPart))
	plc, arc := total(o.plcPart), total(o.arcPart)
	for i := range n {
		from, acre := o.plcPart, o.plcAcre[i]
		if program.HigherOf(plc[i], arc[i]) > plc[i] {
			from, acre = o.arcPart, o.arcAcre[i]
		}
		o.higherAcre[i] = acre
		for k := range from {
			o.higherPart[k][i] = from[k][i]
		}
	}
}

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
	return []Flag{{"higher_of_2025", Info, message, rule.Citation()}}
}
