package record

import (
	"fmt"

	"fencerow/program/farm"
)

// Operation returns the farms of several records as one operation, with what has to be
// asked. Of a farm with several records the newest counts: by crop year, then by day of
// printing.
func Operation(records []Record, find CountyFinder) (farm.Operation, []Note) {
	var o farm.Operation
	var asked []Note
	newest := map[string]Record{}
	var order []string
	for _, r := range records {
		key := fold(r.State.Text + "/" + r.County.Text + "/" + r.Farm.Text)
		other, twice := newest[key]
		switch {
		case !twice:
			order = append(order, key)
			newest[key] = r
		default:
			older := other
			if newer(r, other) {
				newest[key] = r
			} else {
				older = r
			}
			asked = append(asked, Note{older.Farm.Place, fmt.Sprintf("farm %s stands twice: the print of crop year %s is left for that of %s", r.Farm.Text, yearOf(older), yearOf(newest[key]))})
		}
	}
	for _, key := range order {
		made, notes := newest[key].madeFarm(find)
		o.Farms, asked = append(o.Farms, made), append(asked, notes...)
	}
	return o, asked
}

// newer reports whether a is of a later crop year than b, or printed later.
func newer(a, b Record) bool {
	if a.CropYear.Number != b.CropYear.Number {
		return a.CropYear.Number > b.CropYear.Number
	}
	return a.PreparedOn.After(b.PreparedOn)
}

func yearOf(r Record) string {
	if !r.CropYear.Known {
		return "unknown"
	}
	return r.CropYear.Text
}
