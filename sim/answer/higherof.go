package answer

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
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
	o.higherAcre = r.take()
	plc, arc := r.workedOut(o.plcPart), r.workedOut(o.arcPart)
	for i := range n {
		var sums [2]crop.Money
		for k := range plc {
			sums[0], sums[1] = sums[0]+plc[k][i], sums[1]+arc[k][i]
		}
		o.higherAcre[i] = o.plcAcre[i]
		if program.HigherOf(sums[0], sums[1]) > sums[0] {
			o.higherAcre[i] = o.arcAcre[i]
			for k := range plc {
				plc[k][i] = arc[k][i]
			}
		}
	}
	r.give(arc...)
	for _, series := range plc {
		o.higherPart = append(o.higherPart, &payment{rates: series, most: slices.Max(series)})
	}
}

// workedOut returns the payments of each base in all draws.
func (b *buffers) workedOut(byPart []*payment) [][]crop.Money {
	var all [][]crop.Money
	for _, p := range byPart {
		series := b.zeros()
		p.add(series, 1, 0)
		all = append(all, series)
	}
	return all
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
	individual, err := law.Find("higher_of_with_individual", "", c.cropYear)
	if err != nil || !onRecord(c.farm, farm.ARCIC) {
		return []Flag{{"higher_of_2025", Info, message, rule.Citation()}}
	}
	message += " ARC-IC is on record for this farm, and the law names PLC and ARC-CO only. What this farm is paid is not confirmed: ask the county office."
	return []Flag{{"higher_of_2025", Warning, message, individual.Citation()}}
}
