package source

import (
	"fmt"
	"strings"

	"fencerow/io/read/operation"
	"fencerow/program/farm"
)

// insured adds the entries of the insurance file to the farms that they name.
func (l *loader) insured(o *farm.Operation) {
	if l.Insurance == "" {
		return
	}
	for _, entry := range parsed(l, l.Insurance, operation.ParseInsurance) {
		f, err := FindFarm(*o, entry.Farm)
		if err != nil {
			var keys []string
			for _, f := range o.Farms {
				keys = append(keys, f.Key())
			}
			l.mistakes = append(l.mistakes, farm.Mistake{File: l.Insurance, Value: entry.Farm, Reason: fmt.Sprintf("insurance names farm %q: %s", entry.Farm, err), Hint: "the farms here are " + strings.Join(keys, ", ")})
			continue
		}
		for i := range o.Farms {
			if o.Farms[i].Key() == f.Key() {
				o.Farms[i].Insurance = append(o.Farms[i].Insurance, entry.Insurance)
			}
		}
	}
}

// Insured reports whether an operation has area insurance of some crop year.
func Insured(o farm.Operation) bool {
	for _, f := range o.Farms {
		if len(f.Insurance) > 0 {
			return true
		}
	}
	return false
}
