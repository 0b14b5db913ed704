package batch

import (
	"os"
	"path/filepath"
	"testing"

	"fencerow/io/batch/names"
	"fencerow/io/file"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// A program beside PLC and ARC-CO is a line of programs.csv, by its key; without one the
// file is not there. The results have the same columns either way.
func TestFurtherProgramIsALine(t *testing.T) {
	dollars := func(x float64) *answer.ProgramPart {
		return &answer.ProgramPart{Mean: answer.Dollars(x), Maximum: 99, ChanceOfPayment: 0.25, Percentiles: answer.Percentiles{1: 0.5, 5: 9.125}}
	}
	both := answer.Programs{{Program: farm.PLC, Figures: dollars(10)}, {Program: farm.ARCCO, Figures: dollars(20)}}
	third := append(both[:2:2], answer.OneProgram[answer.ProgramPart]{Program: "THIRD", Figures: dollars(1234.56)}, answer.OneProgram[answer.ProgramPart]{Program: "FOURTH"})
	for name, one := range map[string]struct {
		programs answer.Programs
		want     string
	}{
		"two programs": {both, ""},
		"four programs": {third, `client,operation,farm,commodity,crop_year,program,mean,p10,p90,chance_of_payment,maximum
ann,north,99001-0417,corn,2026,THIRD,1234.56,0.50,9.13,0.250000,99.00
ann,north,99001-0417,corn,2026,FOURTH,,,,,
`},
	} {
		part := answer.FarmPart{Farm: "99001-0417", Commodities: []answer.CommodityPart{{Commodity: "corn", BaseAcres: 100, Programs: one.programs}}}
		year := answer.YearPart{CropYear: 2026, Farms: []answer.FarmPart{part}}
		year.Standing.Lines = make([]answer.StandingLine, 1)
		results, further, _ := resultsOf("ann", "north", answer.Comparison{CropYears: []answer.YearPart{year}}, nil, names.Labels{})
		f := folder{path: t.TempDir(), files: file.NewRun()}
		if err := f.write(1, partResults{results: results, further: further}, &packed{}); err != nil {
			t.Fatal(err)
		}
		if err := f.write(2, partResults{results: results}, &packed{}); err != nil { // a part without any
			t.Fatal(err)
		}
		if err := f.join(origin{shares: []folder{f}}, func(Result) {}); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(filepath.Join(f.path, "programs.csv"))
		if one.want == "" != os.IsNotExist(err) || string(got) != one.want {
			t.Errorf("%s: programs.csv has %q, %v; want %q", name, got, err, one.want)
		}
		if *results[0].PLCMean != 10 || *results[0].ARCCOMean != 20 || len(results[0].record()) != len(resultColumns) {
			t.Errorf("%s: the results are %v", name, results[0].record())
		}
	}
}
