package office

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// severalYears reports whether lines of several crop years are listed.
func (s *Sums) severalYears() bool { return len(s.years) > 1 }

// contracts are the states of a contract in words.
var contracts = map[string]string{string(farm.Open): "not signed"}

// cropName is the name of a crop for people.
func cropName(key string) string { return crop.Commodity(key).Name() }

// leans is the lead of a line in words.
func leans(r Line) string { return wording.Leads(answer.Leader(r.Leader)) }

// counted writes a count: "1,234".
func counted(n int) string { return wording.Grouped(float64(n), 0) }

// cut says how many lines of a file a sheet shows; "" where it shows all.
func (f firstLines) cut(file string) []string {
	if len(f.lines) == f.all {
		return nil
	}
	return []string{fmt.Sprintf("The first %s of %s lines. All are in %s.", counted(len(f.lines)), counted(f.all), file)}
}

// known is a figure, or nothing where it is missing.
func known(x *float64) any {
	if x == nil {
		return nil
	}
	return *x
}
