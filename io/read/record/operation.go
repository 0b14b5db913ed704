package record

import (
	"fmt"
	"slices"

	"fencerow/program/farm"
)

// Newest returns the records without those of a farm that stands again in a newer print:
// by crop year, then by day of printing. left says which are left out.
func Newest(records []*Record) (kept []*Record, left []Note) {
	for _, r := range records {
		at := slices.IndexFunc(kept, func(k *Record) bool { return k.name() == r.name() })
		if at < 0 {
			kept = append(kept, r)
			continue
		}
		if newer(r, kept[at]) {
			kept[at], r = r, kept[at]
		}
		left = append(left, Note{r.Farm.Place, fmt.Sprintf("farm %s stands twice: the print of crop year %s is left for that of %s", r.Farm.Text, yearOf(r), yearOf(kept[at]))})
	}
	return kept, left
}

// name tells farms apart: by State, county of the office and number.
func (r *Record) name() string { return fold(r.State.Text + "/" + r.County.Text + "/" + r.Farm.Text) }

// newer reports whether a is of a later crop year than b, or printed later.
func newer(a, b *Record) bool {
	if a.CropYear.Number != b.CropYear.Number {
		return a.CropYear.Number > b.CropYear.Number
	}
	return a.PreparedOn.After(b.PreparedOn)
}

func yearOf(r *Record) string {
	if !r.CropYear.Known {
		return "unknown"
	}
	return r.CropYear.Text
}

// Operation returns the farms of several records as one operation, in the order of
// Newest, with what has to be asked.
func Operation(records []*Record, find CountyFinder) (farm.Operation, []Note) {
	var o farm.Operation
	newest, asked := Newest(records)
	for _, r := range newest {
		made, notes := r.madeFarm(find)
		o.Farms, asked = append(o.Farms, made), append(asked, notes...)
	}
	return o, asked
}
