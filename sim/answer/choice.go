package answer

import (
	"encoding/json"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Choice is one program for each commodity of a farm.
type Choice map[crop.Commodity]farm.Program

// Commodities returns those of the choice in the order of crop.Commodities.
func (c Choice) Commodities() []crop.Commodity {
	found := make([]crop.Commodity, 0, len(c))
	for k := range c {
		if k.Index() >= 0 {
			found = append(found, k)
		}
	}
	slices.SortFunc(found, func(a, b crop.Commodity) int { return a.Index() - b.Index() })
	return found
}

// MarshalJSON writes the commodities in the order of crop.Commodities.
func (c Choice) MarshalJSON() ([]byte, error) {
	var pairs []string
	for _, k := range c.Commodities() {
		key, err := json.Marshal(k)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(c[k])
		if err != nil {
			return nil, err
		}
		pairs = append(pairs, string(key)+":"+string(value))
	}
	return []byte("{" + strings.Join(pairs, ",") + "}"), nil
}

// Individual reports whether a choice is ARC-IC, which is elected for all crops of a farm.
func (c Choice) Individual() bool {
	for _, program := range c {
		if program == farm.ARCIC {
			return true
		}
	}
	return false
}

// IndividualAndMix returns what the whole farm averages under ARC-IC, and under its highest
// mix of PLC and ARC-CO, USD before limits; nil where not known.
func (f FarmPart) IndividualAndMix() (individual, mix *Dollars) {
	for _, e := range f.Elections {
		switch {
		case e.Mean == nil:
		case e.Choice.Individual():
			individual = e.Mean
		case mix == nil || *e.Mean > *mix:
			mix = e.Mean
		}
	}
	return individual, mix
}
