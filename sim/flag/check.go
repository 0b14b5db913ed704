package flag

import (
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
)

// CheckFormat names the JSON of a Check.
const CheckFormat = "fencerow/check/1"

// Checked lists the flags of an operation that need no odds.
type Checked struct {
	Format string        `json:"format"`
	Today  string        `json:"today"`
	Years  []int         `json:"crop_years"`
	Farms  []CheckedFarm `json:"farms"`
}

// CheckedFarm is one farm with its flags over all crop years asked about.
type CheckedFarm struct {
	Farm  string        `json:"farm"`
	Flags []answer.Flag `json:"flags"`
}

// Check raises the flags of every farm over all crop years asked about. A flag that
// several years raise alike is listed once.
func Check(c answer.Question) Checked {
	checked := Checked{Format: CheckFormat, Today: c.Today.Format(time.DateOnly), Years: append([]crop.CropYear{}, c.CropYears...)}
	people := make([]limits.Rules, len(c.CropYears))
	unruled := make([]error, len(c.CropYears))
	for i, y := range c.CropYears {
		people[i], unruled[i] = limits.NewRules(c.Operation, y)
	}
	for _, f := range c.Operation.Farms {
		one := CheckedFarm{Farm: f.Key(), Flags: []answer.Flag{}}
		for i, y := range c.CropYears {
			flags := []answer.Flag{noRules(y, unruled[i])}
			if unruled[i] == nil {
				flags = Raise(c, f, people[i])
			}
			for _, flag := range flags {
				if !slices.Contains(one.Flags, flag) {
					one.Flags = append(one.Flags, flag)
				}
			}
		}
		checked.Farms = append(checked.Farms, one)
	}
	return checked
}
