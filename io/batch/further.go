package batch

import (
	"strconv"
	"strings"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// furtherProgram is what one program other than PLC and ARC-CO pays for a line of the
// results: the columns of programs.csv, in USD per base acre as there; null where a
// figure is missing. The results have columns for PLC and ARC-CO alone, so that one
// more program needs no new column.
type furtherProgram struct {
	Client, Operation, Farm, Commodity string
	CropYear                           int32
	Program                            farm.Program
	Pays                               *answer.ProgramPart
}

// furtherColumns are the heads of programs.csv.
var furtherColumns = strings.Fields("client operation farm commodity crop_year program mean p10 p90 chance_of_payment maximum")

// furtherOf returns the further programs of a line of the results.
func furtherOf(r Result, programs answer.Programs) (all []furtherProgram) {
	for _, one := range programs {
		if one.Program != farm.PLC && one.Program != farm.ARCCO {
			all = append(all, furtherProgram{r.Client, r.Operation, r.Farm, r.Commodity, r.CropYear, one.Program, one.Figures})
		}
	}
	return all
}

func (f furtherProgram) record() []string {
	line := []string{f.Client, f.Operation, f.Farm, f.Commodity, strconv.Itoa(int(f.CropYear)), string(f.Program)}
	if f.Pays == nil {
		return append(line, "", "", "", "", "")
	}
	often := float64(f.Pays.ChanceOfPayment)
	return append(line, number((*float64)(&f.Pays.Mean), money), number(&f.Pays.Percentiles[tenth], money), number(&f.Pays.Percentiles[ninetieth], money),
		number(&often, chance), number((*float64)(&f.Pays.Maximum), money))
}
